#include "cli/terminal/output.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

#include "cli/calendar/calendar.h"
#include "cli/json/json.h"
#include "cli/terminal/file_text.h"
#include "cli/text/page.h"

namespace cli::terminal {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

bool coloured(Colour colour) {
  if (colour != Colour::automatic) {
    return colour == Colour::always;
  }
  return isatty(STDOUT_FILENO) != 0 && environment("NO_COLOR").empty() &&
         environment("TERM") != "dumb";
}

// The first of the three that is set decides, as for any program's locale.
bool utf8_locale() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const std::string value = environment(name);
    if (!value.empty()) {
      return value.find("UTF-8") != std::string::npos || value.find("utf8") != std::string::npos;
    }
  }
  return false;
}

bool is_html(const std::string& text) {
  constexpr std::string_view kStart = "<!doctype html";
  return text.size() >= kStart.size() &&
         std::equal(kStart.begin(), kStart.end(), text.begin(), [](char a, char b) {
           return a == (b >= 'A' && b <= 'Z' ? static_cast<char>(b - 'A' + 'a') : b);
         });
}

// A file that is there and of another sort is somebody's work.
bool put(const std::string& where, const std::string& text, bool (*is_ours)(const std::string&),
         const char* sort) {
  if (where == "-") {
    return print(text);
  }
  std::error_code ignored;
  if (std::filesystem::is_regular_file(where, ignored)) {
    const FileText old = read_file(where);
    if (!old.error.empty() || !is_ours(old.text)) {
      complain("glueup: " + where + ": is there already and isn't " + sort +
               "; give another name\n");
      return false;
    }
  }
  const std::string wrong = write_file(where, text);
  complain(wrong.empty() ? "" : "glueup: " + wrong + "\n");
  return wrong.empty();
}

}  // namespace

words::TextStyle style_for(const Options& options) {
  words::TextStyle style;
  style.colour = coloured(options.colour);
  style.wording.unicode = !options.ascii && isatty(STDOUT_FILENO) != 0 && utf8_locale();
  style.explain = options.explain;
  style.details = options.details;
  style.start_minute = options.start_minute;
  return style;
}

bool print(const std::string& text) {
  const bool written =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  // A reader that has seen enough, such as head or a pager, needn't be told.
  if (!written && errno != EPIPE) {
    complain(std::string("glueup: can't write to standard output: ") + std::strerror(errno) + "\n");
  }
  return written;
}

bool output_is_terminal() {
  return isatty(STDOUT_FILENO) != 0;
}

int moving_line_width() {
  winsize size{};
  const bool known = (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 1) ||
                     (ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 1);
  return (known ? std::min<int>(size.ws_col, text::kPageWidth) : text::kPageWidth) - 1;
}

void complain(const std::string& text) {
  std::fputs(text.c_str(), stderr);
}

bool put_json(const std::string& where, const std::string& json) {
  return put(where, json, json::is_json, "JSON");
}

bool put_calendar(const std::string& where, const std::string& calendar) {
  return put(where, calendar, calendar::is_calendar, "iCalendar");
}

bool put_html(const std::string& where, const std::string& html) {
  return put(where, html, is_html, "HTML");
}

}  // namespace cli::terminal
