// Single keys from standard input, and a clock beside them.
#pragma once
#include <optional>
#include <string>
#include <termios.h>

namespace cli::terminal {

// While it lives, a terminal hands over each key as it is pressed; a pipe does so anyway. The
// terminal is put back when it dies, also by Ctrl-C, which comes as a key.
class Keyboard {
 public:
  Keyboard();
  ~Keyboard();
  Keyboard(const Keyboard&) = delete;
  Keyboard& operator=(const Keyboard&) = delete;

  enum class Kind { none, key, end };
  struct Press {
    Kind kind = Kind::none;
    char key = 0;
  };
  // Waits up to `milliseconds`.
  Press wait(int milliseconds);
  // A whole line, with the terminal's own editing; empty where the input ends.
  std::string line();

 private:
  void raw();
  void cooked();
  bool terminal_ = false;
  termios usual_{};
};

double monotonic_seconds();
double epoch_seconds();

}  // namespace cli::terminal
