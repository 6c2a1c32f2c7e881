#include "cli/terminal/questions.h"

#include <cstdio>
#include <unistd.h>

#include "cli/terminal/output.h"

namespace cli::terminal {

std::optional<std::string> read_line() {
  std::string line;
  int c = 0;
  while ((c = std::fgetc(stdin)) != EOF && c != '\n') {
    line += static_cast<char>(c);
  }
  return c == EOF && line.empty() ? std::nullopt : std::optional<std::string>(line);
}

bool agrees(const std::string& question) {
  complain(question + " y/n: ");
  std::optional<std::string> answer = read_line();
  if (!answer) {
    complain("\n");
    return false;
  }
  for (char& c : *answer) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return *answer == "y" || *answer == "yes";
}

bool can_ask() {
  return isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
}

std::optional<std::string> ask(const std::string& question, const std::string& usual,
                               const Judge& wrong) {
  for (;;) {
    complain(question + (usual.empty() ? "" : " [" + usual + "]") + ": ");
    std::optional<std::string> answer = read_line();
    if (!answer) {
      complain("\n");
      return std::nullopt;
    }
    const std::size_t start = answer->find_first_not_of(" \t\r");
    answer = start == std::string::npos
                 ? usual
                 : answer->substr(start, answer->find_last_not_of(" \t\r") + 1 - start);
    const std::string instead = wrong(*answer);
    if (instead.empty()) {
      return answer;
    }
    complain("  " + instead + "\n");
  }
}

}  // namespace cli::terminal
