// The file of a rehearsal's log.
#pragma once
#include <cstdio>
#include <optional>
#include <string>

namespace cli::rehearse {

// The log under the pen: every line is on the disk before the next key is read.
class RehearsalLog {
 public:
  explicit RehearsalLog(const std::string& path);
  ~RehearsalLog();
  RehearsalLog(const RehearsalLog&) = delete;
  RehearsalLog& operator=(const RehearsalLog&) = delete;

  bool open() const { return file_ != nullptr; }
  // False where it can't be written; errno says why.
  bool put(const std::string& text);

 private:
  std::FILE* file_;
};

// For people, and for the clock of a live rehearsal: when its glue was opened, seconds since 1970.
std::string began_line(double epoch_s);

// What the last such line says, where the glue of the running stage was opened then. `in_stage`:
// the stage has a step that is done.
std::optional<double> began_at(const std::string& log, bool in_stage);

// A line that a kill cut off must not run into the next one: what read_log() leaves out goes, a
// whole line without its end gets one. False where the file can't be written.
bool mend_end(const std::string& path, const std::string& log);

}  // namespace cli::rehearse
