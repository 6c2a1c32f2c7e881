#include "cli/terminal/option_values.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "planner/base/quantity_text.h"
#include "planner/plan/plan.h"

namespace cli::terminal {
namespace {

std::optional<std::string> if_given(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional<std::string>(text);
}

std::optional<int> minute_of_day(const std::string& text) {
  const std::size_t colon = text.find(':');
  const auto digits = [](const std::string& s) {
    return !s.empty() && s.size() <= 2 &&
           std::all_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
  };
  if (colon == std::string::npos || !digits(text.substr(0, colon)) || text.size() - colon != 3 ||
      !digits(text.substr(colon + 1))) {
    return std::nullopt;
  }
  const int hour = std::stoi(text.substr(0, colon));
  const int minute = std::stoi(text.substr(colon + 1));
  return hour < 24 && minute < 60 ? std::optional<int>(hour * 60 + minute) : std::nullopt;
}

std::optional<Mistake> read_people(const RawOptions& raw, Options& options) {
  if (raw.people.empty()) {
    return std::nullopt;
  }
  if (raw.people.size() != 1 || raw.people[0] < '1' || raw.people[0] > '4') {
    return Mistake{fmt::format("--people takes 1 to 4, not \"{}\"", raw.people)};
  }
  options.people = raw.people[0] - '0';
  return std::nullopt;
}

std::optional<Mistake> read_stage(std::string_view option, const std::string& text, int& stage) {
  if (text.empty()) {
    return std::nullopt;
  }
  const bool digits = text.size() <= 2 && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
  stage = digits ? std::stoi(text) : 0;
  if (stage < 1 || stage > planner::plan::kMostStages) {
    return Mistake{fmt::format("{} takes 1 to {}, not \"{}\"", option, planner::plan::kMostStages, text)};
  }
  return std::nullopt;
}

std::optional<Mistake> read_stages(const RawOptions& raw, Options& options) {
  auto mistake = read_stage("--stages", raw.stages, options.stages);
  return mistake ? mistake : read_stage("--from-stage", raw.from_stage, options.from_stage);
}

std::optional<Mistake> read_temperature(const RawOptions& raw, Options& options) {
  if (raw.temperature.empty()) {
    return std::nullopt;
  }
  const auto reading = planner::base::celsius_from(raw.temperature);
  if (!reading.value) {
    return Mistake{
        fmt::format("--temperature takes \"64 F\" or \"18 C\", not \"{}\"", raw.temperature)};
  }
  options.temperature_C = reading.value;
  return std::nullopt;
}

std::optional<Mistake> read_humidity(const RawOptions& raw, Options& options) {
  if (raw.humidity.empty()) {
    return std::nullopt;
  }
  const auto reading = planner::base::share_from(raw.humidity);
  if (!reading.value || *reading.value < 0 || *reading.value > 1) {
    return Mistake{fmt::format("--humidity takes \"40 %\", not \"{}\"", raw.humidity)};
  }
  options.humidity = reading.value;
  return std::nullopt;
}

std::optional<Mistake> read_units(const RawOptions& raw, Options& options) {
  if (raw.units.empty()) {
    return std::nullopt;
  }
  if (raw.units != "in" && raw.units != "mm") {
    return Mistake{fmt::format("--units takes in or mm, not \"{}\"", raw.units)};
  }
  options.units = raw.units == "in" ? planner::base::Units::inch : planner::base::Units::mm;
  return std::nullopt;
}

std::optional<Mistake> read_paper(const RawOptions& raw, Options& options) {
  if (!raw.paper.empty() && raw.paper != "a4" && raw.paper != "letter") {
    return Mistake{fmt::format("--paper takes a4 or letter, not \"{}\"", raw.paper)};
  }
  options.paper = raw.paper == "letter" ? html::Paper::letter : html::Paper::a4;
  return std::nullopt;
}

// "2027-03-06": four, two and two digits of a day that there is.
std::optional<std::chrono::year_month_day> day_from(const std::string& text) {
  const auto number = [&](std::size_t from, std::size_t digits) {
    int value = 0;
    const char* end = text.data() + from + digits;
    const auto read = std::from_chars(text.data() + from, end, value);
    return read.ec == std::errc() && read.ptr == end ? value : -1;
  };
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
    return std::nullopt;
  }
  const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
  if (year < 1 || month < 1 || day < 1) {
    return std::nullopt;
  }
  const std::chrono::year_month_day date(std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day)));
  return date.ok() ? std::optional(date) : std::nullopt;
}

std::optional<Mistake> read_start(const RawOptions& raw, Options& options) {
  const std::size_t space = raw.start.find(' ');
  if (space != std::string::npos) {
    options.start_day = day_from(raw.start.substr(0, space));
  }
  options.start_minute = minute_of_day(space == std::string::npos ? raw.start : raw.start.substr(space + 1));
  const bool read = options.start_minute && (space == std::string::npos || options.start_day);
  if (!raw.start.empty() && !read) {
    return Mistake{fmt::format(
        "--start takes a time of day as 14:30, or with its day as \"2027-03-06 14:30\", not \"{}\"", raw.start)};
  }
  options.calendar = if_given(raw.calendar);
  if (options.calendar && !options.start_day) {
    return Mistake{"a calendar needs the day: --start \"2027-03-06 9:00\""};
  }
  return std::nullopt;
}

std::optional<Mistake> read_colour(const RawOptions& raw, Options& options) {
  if (raw.color != "auto" && raw.color != "always" && raw.color != "never") {
    return Mistake{fmt::format("--color takes auto, always or never, not \"{}\"", raw.color)};
  }
  options.colour = raw.color == "always"  ? Colour::always
                   : raw.color == "never" ? Colour::never
                                          : Colour::automatic;
  return std::nullopt;
}

// "203.4, 203.1" or "203.4 x 203.1": lengths as text, to be read in the job's units.
std::vector<std::string> split_list(const std::string& text) {
  std::vector<std::string> items(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool times = text[i] == 'x' && i > 0 && text[i - 1] == ' ';
    if (text[i] == ',' || text[i] == ';' || times) {
      items.emplace_back();
    } else if (text[i] != ' ' || !items.back().empty()) {
      items.back() += text[i];
    }
  }
  for (std::string& item : items) {
    item.erase(item.find_last_not_of(' ') + 1);
  }
  return items;
}

std::optional<Mistake> read_lists(const RawOptions& raw, Options& options) {
  struct List {
    const std::string& text;
    std::vector<std::string>& to;
    const char* example;
  };
  for (const List& list :
       {List{raw.openings, options.openings, "--openings \"203.4, 203.1\""},
        List{raw.diagonals, options.diagonals, "--diagonals \"16 5/8, 16 11/16\""},
        List{raw.size, options.size, "--size \"14 x 9 x 8\""}}) {
    if (list.text.empty()) {
      continue;
    }
    list.to = split_list(list.text);
    for (const std::string& item : list.to) {
      // Units don't matter for whether it can be read.
      if (const auto read = planner::base::length_from(item, planner::base::Units::mm);
          !read.value) {
        return Mistake{fmt::format("\"{}\" is no length; write {}", item, list.example)};
      }
    }
  }
  if (!options.diagonals.empty() && options.diagonals.size() != 2) {
    return Mistake{"--diagonals takes two lengths: \"16 5/8, 16 11/16\""};
  }
  return std::nullopt;
}

std::optional<Mistake> read_speed(const RawOptions& raw, Options& options) {
  if (raw.speed.empty()) {
    return std::nullopt;
  }
  std::size_t used = 0;
  try {
    options.speed = std::stod(raw.speed, &used);
  } catch (const std::exception&) {
    used = 0;
  }
  const bool good = used == raw.speed.size() && options.speed >= 0.1 && options.speed <= 10000;
  return good ? std::nullopt
              : std::optional<Mistake>(Mistake{fmt::format(
                    "--speed takes a number from 0.1 to 10000, not \"{}\"", raw.speed)});
}

}  // namespace

std::optional<Mistake> read_values(const RawOptions& raw, Options& options) {
  options.shop = if_given(raw.shop);
  options.sheet = if_given(raw.sheet);
  options.glue = if_given(raw.glue);
  options.out = if_given(raw.out);
  options.species = if_given(raw.species);
  options.log = if_given(raw.log);
  options.expand = raw.expand;
  options.explain = raw.explain;
  options.details = raw.details;
  options.full = raw.full;
  options.no_limit = raw.no_limit;
  options.quiet = raw.quiet;
  options.ascii = raw.ascii;
  options.force = raw.force;
  options.learn = raw.learn;
  options.live = raw.live;
  for (const auto read : {read_people, read_stages, read_temperature, read_humidity, read_units,
                          read_paper, read_start, read_colour, read_lists, read_speed}) {
    if (auto mistake = read(raw, options)) {
      return mistake;
    }
  }
  return std::nullopt;
}

}  // namespace cli::terminal
