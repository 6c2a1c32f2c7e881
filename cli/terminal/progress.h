// What somebody at a terminal sees of long work, and how they end it.
#pragma once
#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace cli::terminal {

// One line on standard error while it lives, from half a second on; nothing where that is no
// terminal. Ctrl-C meanwhile asks the work to end with what it has found, and a second one ends the
// program at once with status 130: nothing is written before the work is done.
class Progress {
 public:
  Progress(std::string what, bool quiet);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // Whether Ctrl-C has been pressed under any of them.
  static bool stop_asked();

 private:
  void show();

  std::string what_;
  std::mutex mutex_;
  std::condition_variable done_;
  bool finished_ = false;
  std::thread thread_;  // last: it uses the others
};

}  // namespace cli::terminal
