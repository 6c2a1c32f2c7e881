// What somebody at a terminal sees of long work, and how they end it.
#pragma once
#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace cli::terminal {

// One line on standard error while it lives, from 0.3 seconds on; nothing where that is no
// terminal. Ctrl-C meanwhile asks the work to end with what it has found, and a second one ends the
// program at once with status 130: nothing is written before the work is done.
class Progress {
 public:
  Progress(std::string what, bool quiet);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // Whether anybody sees the line.
  bool seen() const { return thread_.joinable(); }
  // What the line says from now on, from the fullest wording to the shortest. By any thread.
  void say(std::vector<std::string> wordings);

  // Whether Ctrl-C has been pressed under any of them.
  static bool stop_asked();

 private:
  void show();

  std::vector<std::string> wordings_;
  std::mutex mutex_;
  std::condition_variable done_;
  bool finished_ = false, news_ = false;
  std::thread thread_;  // last: it uses the others
};

}  // namespace cli::terminal
