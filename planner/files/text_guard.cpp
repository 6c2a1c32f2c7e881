#include "planner/files/text_guard.h"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

namespace planner::files {
namespace {

// No key of ours goes deeper than part.cut; a file that does is an attack on the parser's stack.
constexpr int kDeepestKey = 32;
constexpr std::size_t kMostForeign =
    20;  // lines with letters from elsewhere; beyond, it is no TOML

// Length of the UTF-8 sequence at the start of `s`, 0 where there is none (RFC 3629, table 3-7 of
// the Unicode standard).
std::size_t utf8_length(std::string_view s) {
  const auto byte = [&](std::size_t i) {
    return i < s.size() ? static_cast<unsigned char>(s[i]) : 0u;
  };
  const unsigned a = byte(0), b = byte(1);
  const auto tail = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  if (a < 0x80) {
    return 1;
  }
  if (a >= 0xC2 && a <= 0xDF) {
    return tail(1) ? 2 : 0;
  }
  if (a >= 0xE0 && a <= 0xEF) {
    const bool bad = (a == 0xE0 && b < 0xA0) || (a == 0xED && b > 0x9F);
    return tail(1) && tail(2) && !bad ? 3 : 0;
  }
  if (a >= 0xF0 && a <= 0xF4) {
    const bool bad = (a == 0xF0 && b < 0x90) || (a == 0xF4 && b > 0x8F);
    return tail(1) && tail(2) && tail(3) && !bad ? 4 : 0;
  }
  return 0;
}

bool is_control(char c) {
  const auto u = static_cast<unsigned char>(c);
  return (u < 0x20 && c != '\t' && c != '\n' && c != '\r') || u == 0x7F;
}

bool ends_key(char c) {
  return std::string_view(",[]{}=\n#").find(c) != std::string_view::npos;
}

// Follows TOML's strings and comments well enough to know what stands outside them.
class Outside {
 public:
  // Takes what is at the start of `rest` and returns how many bytes that is; `outside()` then tells
  // where these stood.
  std::size_t take(std::string_view rest) {
    outside_ = state_ == State::outside;
    switch (state_) {
      case State::outside:
        return open(rest);
      case State::comment:
        return end_at_newline(rest[0]);
      case State::basic:
      case State::literal:
        return inside_line(rest);
      case State::long_basic:
      case State::long_literal:
        return inside_long(rest);
    }
    return 1;
  }
  bool outside() const { return outside_; }

 private:
  enum class State { outside, comment, basic, literal, long_basic, long_literal };

  std::size_t open(std::string_view rest) {
    if (rest[0] == '#') {
      state_ = State::comment;
    } else if (rest.substr(0, 3) == "\"\"\"" || rest.substr(0, 3) == "'''") {
      state_ = rest[0] == '"' ? State::long_basic : State::long_literal;
      return 3;
    } else if (rest[0] == '"' || rest[0] == '\'') {
      state_ = rest[0] == '"' ? State::basic : State::literal;
    }
    return 1;
  }

  std::size_t end_at_newline(char c) {
    state_ = c == '\n' ? State::outside : state_;
    return 1;
  }

  std::size_t inside_line(std::string_view rest) {
    const char quote = state_ == State::basic ? '"' : '\'';
    if (rest[0] == '\\' && state_ == State::basic && rest.size() > 1 &&
        (rest[1] == '"' || rest[1] == '\\')) {
      return 2;
    }
    state_ = rest[0] == quote || rest[0] == '\n' ? State::outside : state_;
    return 1;
  }

  std::size_t inside_long(std::string_view rest) {
    const bool basic = state_ == State::long_basic;
    if (basic && rest[0] == '\\' && rest.size() > 1 && (rest[1] == '"' || rest[1] == '\\')) {
      return 2;
    }
    // Up to two quotes may stand before the three that end it.
    const std::size_t quotes =
        std::min({rest.find_first_not_of(basic ? '"' : '\''), rest.size(), std::size_t{5}});
    if (quotes >= 3) {
      state_ = State::outside;
      return quotes;
    }
    return 1;
  }

  State state_ = State::outside;
  bool outside_ = true;
};

struct Mistake {
  std::string message, remedy;
};

Mistake foreign_letter(std::string_view letter) {
  for (const std::string_view space :
       {"\u00a0", "\u2007", "\u2009", "\u202f", "\u3000", "\ufeff"}) {
    if (letter == space) {
      return {"a space of another kind, as word processors put it", "type an ordinary space here"};
    }
  }
  return {"\"" + std::string(letter) + "\" cannot stand outside quotes",
          "put the value in straight quotes, \" or '"};
}

// Moves the place behind these bytes.
void pass(std::string_view bytes, base::Place& at) {
  for (const char c : bytes) {
    at.column += (static_cast<unsigned char>(c) & 0xC0u) != 0x80u ? 1 : 0;
    if (c == '\n') {
      ++at.line;
      at.column = 1;
    }
  }
}

// The key of `key = value`, quotes and all.
std::optional<std::string_view> key_of(std::string_view line) {
  const std::size_t first = line.find_first_not_of(" \t");
  const std::size_t equals = line.find('=');
  if (first == std::string_view::npos || equals == std::string_view::npos || equals <= first) {
    return std::nullopt;
  }
  const std::string_view key = line.substr(0, equals);
  const std::size_t last = key.find_last_not_of(" \t");
  const std::string_view bare = key.substr(first, last - first + 1);
  const bool plain_key = std::all_of(bare.begin(), bare.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
  return plain_key ? std::optional<std::string_view>(key.substr(0, last + 1)) : std::nullopt;
}

}  // namespace

GuardedText::GuardedText(std::string file, std::string_view text) : file_(std::move(file)) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.substr(0, 3) == kByteOrderMark) {
    text.remove_prefix(3);
  }
  text_ = text;
  starts_.push_back(0);
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (text_[i] == '\n') {
      starts_.push_back(i + 1);
    }
  }
}

std::string_view GuardedText::line(int number) const {
  if (number < 1 || static_cast<std::size_t>(number) > starts_.size()) {
    return {};
  }
  const auto n = static_cast<std::size_t>(number);
  const std::size_t end = n < starts_.size() ? starts_[n] - 1 : text_.size();
  std::string_view line = std::string_view(text_).substr(starts_[n - 1], end - starts_[n - 1]);
  if (!line.empty() && line.back() == '\r') {
    line.remove_suffix(1);
  }
  return line;
}

bool GuardedText::take_out(int number, Leave leave) {
  const std::string_view old = line(number);
  const std::size_t first = old.find_first_not_of(" \t");
  const bool header = first != std::string_view::npos && old[first] == '[';
  const std::optional<std::string_view> key = header ? std::nullopt : key_of(old);
  std::string kept;
  if (header) {
    kept = "[\"" + std::string(kMark) + std::to_string(number) + "\"]";
  } else if (key && leave == Leave::key) {
    kept = std::string(*key) + " = \"" + std::string(kMark) + "\"";
  }
  if (old == kept) {
    return false;
  }
  only_values_missing_ = only_values_missing_ && (key || (header && leave == Leave::nothing));
  const std::size_t start = starts_[static_cast<std::size_t>(number) - 1];
  const std::size_t old_size = old.size();
  text_.replace(start, old_size, kept);
  for (auto i = static_cast<std::size_t>(number); i < starts_.size(); ++i) {
    starts_[i] += kept.size() - old_size;  // modulo 2^64 where the line became shorter
  }
  return true;
}

bool GuardedText::guard(base::Diagnostics& diagnostics) {
  std::vector<int> foreign;  // lines with a letter that has no business there
  Outside outside;
  base::Place at{file_, 1, 1};
  bool readable = true;
  int dots = 0;
  const auto report = [&](Mistake mistake) {
    diagnostics.push_back(
        {base::Severity::error, at, std::move(mistake.message), std::move(mistake.remedy)});
  };
  for (std::size_t i = 0; i < text_.size() && readable;) {
    const std::string_view rest = std::string_view(text_).substr(i);
    const std::size_t letter = utf8_length(rest);
    if (letter == 0 || is_control(rest[0])) {
      report({"the file is not plain UTF-8 text", "save it as UTF-8 text"});
      readable = false;
      continue;
    }
    const std::size_t taken = std::max(letter, outside.take(rest));
    if (outside.outside()) {
      dots = rest[0] == '.' ? dots + 1 : ends_key(rest[0]) ? 0 : dots;
      if (dots > kDeepestKey) {
        report({"a key nested this deep means nothing here",
                "docs/job_file.md shows what a file may hold"});
        readable = false;
      }
      if (letter > 1 && (foreign.empty() || foreign.back() != at.line)) {
        report(foreign_letter(rest.substr(0, letter)));
        foreign.push_back(at.line);
        readable = readable && foreign.size() < kMostForeign;
      }
    }
    pass(rest.substr(0, taken), at);
    i += taken;
  }
  for (const int bad : foreign) {
    take_out(bad, Leave::key);
  }
  return readable;
}

}  // namespace planner::files
