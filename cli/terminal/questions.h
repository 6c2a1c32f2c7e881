// Plain questions on a terminal, each with the answer that an empty line stands for.
#pragma once
#include <functional>
#include <optional>
#include <string>

namespace cli::terminal {

// A line of standard input; nothing at its end (Ctrl-D).
std::optional<std::string> read_line();

// Whether the answer to the question is yes. Ctrl-D, and whatever isn't y or yes, is no.
bool agrees(const std::string& question);

// Whether standard input and standard error are a terminal, so that somebody can be asked.
bool can_ask();

// Asks on standard error until `wrong` has nothing to say of the answer. `wrong` returns what to
// write instead, or nothing. Nothing where the user gives up (Ctrl-D).
using Judge = std::function<std::string(const std::string&)>;
std::optional<std::string> ask(const std::string& question, const std::string& usual,
                               const Judge& wrong);

}  // namespace cli::terminal
