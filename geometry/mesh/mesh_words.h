// Words and numbers of mesh files. For geometry/mesh_*.cpp only.
#pragma once
#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

namespace geometry {

inline bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f';
}

inline std::string_view trimmed(std::string_view s) {
  while (!s.empty() && is_blank(s.front())) {
    s.remove_prefix(1);
  }
  while (!s.empty() && is_blank(s.back())) {
    s.remove_suffix(1);
  }
  return s;
}

// Takes the first word off the line; empty at its end.
inline std::string_view next_word(std::string_view& rest) {
  rest = trimmed(rest);
  const auto end =
      static_cast<std::size_t>(std::find_if(rest.begin(), rest.end(), is_blank) - rest.begin());
  const std::string_view word = rest.substr(0, end);
  rest.remove_prefix(end);
  return word;
}

// The whole word as a number.
template <class Number>
bool read_number(std::string_view word, Number& number) {
  if (!word.empty() && word.front() == '+') {
    word.remove_prefix(1);
  }
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
  return error == std::errc{} && end == word.data() + word.size() && !word.empty();
}

// The line's next word as a finite number.
inline bool read_coordinate(std::string_view& rest, double& coordinate) {
  return read_number(next_word(rest), coordinate) && std::isfinite(coordinate);
}

// The lines of a text, counted from 1, without their ends.
class Lines {
 public:
  explicit Lines(std::string_view text) : rest_(text) {}

  bool next(std::string_view& line) {
    if (rest_.empty()) {
      return false;
    }
    ++number_;
    const std::size_t end = std::min(rest_.find('\n'), rest_.size());
    line = rest_.substr(0, end);
    rest_.remove_prefix(std::min(end + 1, rest_.size()));
    return true;
  }
  // The next one with something on it before any #.
  bool next_told(std::string_view& line) {
    while (next(line)) {
      line = trimmed(line.substr(0, line.find('#')));
      if (!line.empty()) {
        return true;
      }
    }
    return false;
  }
  int number() const { return number_; }
  std::string_view rest() const { return rest_; }

 private:
  std::string_view rest_;
  int number_ = 0;
};

}  // namespace geometry
