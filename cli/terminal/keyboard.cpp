#include "cli/terminal/keyboard.h"

#include <chrono>
#include <poll.h>
#include <unistd.h>

namespace cli::terminal {

Keyboard::Keyboard() {
  terminal_ = isatty(STDIN_FILENO) != 0 && tcgetattr(STDIN_FILENO, &usual_) == 0;
  raw();
}

Keyboard::~Keyboard() {
  cooked();
}

void Keyboard::raw() {
  if (terminal_) {
    termios now = usual_;
    now.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO | ISIG);
    now.c_cc[VMIN] = 1;
    now.c_cc[VTIME] = 0;
    tcsetattr(STDIN_FILENO, TCSANOW, &now);
  }
}

void Keyboard::cooked() {
  if (terminal_) {
    tcsetattr(STDIN_FILENO, TCSANOW, &usual_);
  }
}

Keyboard::Press Keyboard::wait(int milliseconds) {
  pollfd in{STDIN_FILENO, POLLIN, 0};
  if (poll(&in, 1, milliseconds) <= 0) {
    return {};
  }
  char key = 0;
  return read(STDIN_FILENO, &key, 1) == 1 ? Press{Kind::key, key} : Press{Kind::end, 0};
}

std::string Keyboard::line() {
  cooked();
  std::string text;
  char c = 0;
  while (read(STDIN_FILENO, &c, 1) == 1 && c != '\n') {
    text += c;
  }
  raw();
  return text;
}

double monotonic_seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

double epoch_seconds() {
  return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
}

}  // namespace cli::terminal
