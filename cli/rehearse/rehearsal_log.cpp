#include "cli/rehearse/rehearsal_log.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <unistd.h>

#include <fmt/format.h>

#include "cli/terminal/file_text.h"
#include "planner/rehearsal/rehearsal.h"

namespace cli::rehearse {
namespace {

constexpr const char* kBegan = "# began ";

bool has_a_finished_step(const std::string& log) {
  const auto lines = planner::rehearsal::read_log("", log).lines;
  return std::any_of(lines.begin(), lines.end(), [](const planner::rehearsal::LogLine& line) {
    return line.end_s.has_value();
  });
}

}  // namespace

RehearsalLog::RehearsalLog(const std::string& path) : file_(std::fopen(path.c_str(), "ab")) {}

RehearsalLog::~RehearsalLog() {
  if (file_ != nullptr) {
    std::fclose(file_);
  }
}

bool RehearsalLog::put(const std::string& text) {
  return std::fputs(text.c_str(), file_) >= 0 && std::fflush(file_) == 0 &&
         fsync(fileno(file_)) == 0;
}

std::string began_line(double epoch_s) {
  return fmt::format("{}{:.3f}\n", kBegan, epoch_s);
}

std::optional<double> began_at(const std::string& log, bool in_stage) {
  const std::size_t at = log.rfind(kBegan);
  // At the first step of a stage, steps done since then are those of the stage before.
  if (at == std::string::npos || (!in_stage && has_a_finished_step(log.substr(at)))) {
    return std::nullopt;
  }
  const double seconds = std::atof(log.c_str() + at + std::strlen(kBegan));
  return seconds > 0 ? std::optional(seconds) : std::nullopt;
}

bool mend_end(const std::string& path, const std::string& log) {
  if (log.empty() || log.ends_with('\n')) {
    return true;
  }
  const std::size_t start = log.rfind('\n') + 1;  // 0 where there is none
  const bool whole =
      std::count(log.begin() + static_cast<std::ptrdiff_t>(start), log.end(), '\t') >= 5;
  return terminal::write_file(path, whole ? log + "\n" : log.substr(0, start)).empty();
}

}  // namespace cli::rehearse
