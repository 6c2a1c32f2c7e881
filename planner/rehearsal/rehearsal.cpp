#include "planner/rehearsal/rehearsal.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>

namespace planner::rehearsal {
namespace {

std::vector<std::string_view> fields_of(std::string_view line) {
  std::vector<std::string_view> fields;
  for (;;) {
    const std::size_t tab = line.find('\t');
    fields.push_back(line.substr(0, tab));
    if (tab == std::string_view::npos) {
      return fields;
    }
    line.remove_prefix(tab + 1);
  }
}

std::optional<double> number_of(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool good = error == std::errc() && end == text.data() + text.size() && value >= 0 &&
                    value < 1e7 && std::isfinite(value);
  return good ? std::optional(value) : std::nullopt;
}

std::optional<LogLine> line_of(std::string_view text) {
  const auto fields = fields_of(text);
  if (fields.size() < 5 || fields.size() > 6) {
    return std::nullopt;
  }
  const auto n = number_of(fields[0]), from = number_of(fields[1]), to = number_of(fields[2]);
  const auto start = number_of(fields[3]), end = number_of(fields[4]);
  const bool whole = n && *n == std::floor(*n);
  if (!whole || !from || !to || (!start && !fields[3].empty()) || (!end && !fields[4].empty()) ||
      (start && end && *end < *start)) {
    return std::nullopt;
  }
  return LogLine{static_cast<int>(*n),
                 *from,
                 *to,
                 start,
                 end,
                 fields.size() == 6 ? std::string(fields[5]) : ""};
}

}  // namespace

std::string tenths(double seconds) {
  const auto all = static_cast<long long>(std::llround(seconds * 10));
  return std::to_string(all / 10) + (all % 10 == 0 ? "" : "." + std::to_string(all % 10));
}

std::string to_text(const LogLine& line) {
  std::string note = line.note;
  std::replace_if(
      note.begin(), note.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; }, ' ');
  return std::to_string(line.n) + "\t" + tenths(line.planned_start_s) + "\t" +
         tenths(line.planned_end_s) + "\t" + (line.start_s ? tenths(*line.start_s) : "") + "\t" +
         (line.end_s ? tenths(*line.end_s) : "") + "\t" + note + "\n";
}

LogReading read_log(const std::string& file, std::string_view text) {
  std::map<int, LogLine> lines;
  LogReading reading;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    ++number;
    if (end == std::string_view::npos && fields_of(line).size() < 6) {
      break;
    }
    if (line.ends_with('\r')) {
      line.remove_suffix(1);
    }
    if (line.empty() || line.front() == '#') {
      continue;
    }
    if (const auto read = line_of(line)) {
      lines[read->n] = *read;
    } else {
      reading.diagnostics.push_back(
          {base::Severity::error,
           {file, number, 1},
           "no line of a rehearsal's log",
           "number, planned start and end, start and end in seconds, note, with tabs between"});
    }
  }
  for (auto& [n, line] : lines) {
    reading.lines.push_back(std::move(line));
  }
  return reading;
}

}  // namespace planner::rehearsal
