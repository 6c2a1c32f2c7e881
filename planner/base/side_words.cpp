#include "planner/base/side_words.h"

#include <cmath>

namespace planner::base {
namespace {

std::size_t greatest(const geometry::Direction& d) {
  std::size_t most = 0;
  for (std::size_t i = 1; i < 3; ++i) {
    most = std::abs(d[i]) > std::abs(d[most]) + 1e-9 ? i : most;
  }
  return most;
}

constexpr const char* kWays[3][2] = {
    {"to the left", "to the right"}, {"to the front", "to the back"}, {"down", "up"}};
constexpr const char* kEnds[3][2] = {{"left", "right"}, {"front", "back"}, {"bottom", "top"}};

}  // namespace

std::string way_word(const geometry::Direction& direction) {
  const std::size_t i = greatest(direction);
  return kWays[i][direction[i] > 0 ? 1 : 0];
}

std::string end_word(const geometry::Direction& direction) {
  const std::size_t i = greatest(direction);
  return kEnds[i][direction[i] > 0 ? 1 : 0];
}

std::string axis_words(const geometry::Direction& axis) {
  return "from " + end_word(-axis) + " to " + end_word(axis);
}

std::string place_words(const geometry::Point& point, const geometry::Direction& axis,
                        Units units) {
  std::string out = "at";
  for (std::size_t i = 0; i < 3; ++i) {
    if (i != greatest(axis)) {
      out += std::string(out == "at" ? " " : ", ") + "xyz"[i] + " = " + short_text(point[i], units);
    }
  }
  return out;
}

std::string list_words(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  }
  return text;
}

std::string rule_words(double mm, Units units) {
  const double mark = units == Units::inch ? 25.4 / 16 : 1;
  return short_text(mark * std::round(mm / mark), units);
}

std::string gap_words(double mm, Units units) {
  const double mark = units == Units::inch ? 25.4 / 1000 : 0.1;
  return short_text(mark * std::round(mm / mark), units);
}

std::string force_words(double force_N, Units units) {
  constexpr double kNewtonsPerPound = 4.4482216;
  const auto rounded = [](double value, double step) {
    return std::to_string(std::lround(step * std::round(value / step)));
  };
  return units == Units::inch ? rounded(force_N / kNewtonsPerPound, 5) + " lbf"
                              : rounded(force_N, 10) + " N";
}

std::string seconds_text(double seconds) {
  const long whole = std::lround(seconds);
  if (whole < 60) {
    return std::to_string(whole) + " s";
  }
  const std::string minutes = std::to_string(whole / 60) + " min";
  return whole % 60 == 0 ? minutes : minutes + " " + std::to_string(whole % 60) + " s";
}

}  // namespace planner::base
