#include "planner/rehearsal/rehearsal.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>

#include "planner/base/units.h"
#include "planner/files/document.h"
#include "planner/files/shop_file.h"
#include "planner/work/pace.h"

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

std::string tenths(double seconds) {
  const auto all = static_cast<long long>(std::llround(seconds * 10));
  return std::to_string(all / 10) + (all % 10 == 0 ? "" : "." + std::to_string(all % 10));
}

// A pace with what the log shows of it, as factors of the one planned on.
struct Learned {
  std::vector<double> factors;
  int ignored = 0;
};

enum class SpreadSort { narrow, wide, mixed };
SpreadSort sort_of(const plan::Plan& plan, const plan::Step& step) {
  work::Pace free_wide, free_narrow;
  free_wide.wide_s_per_mm2 = 0;
  free_narrow.narrow_s_per_mm = 0;
  bool narrow = true, wide = true;
  for (const work::JointId id : step.joints) {
    narrow = narrow && spread_seconds(plan.joints[id], free_wide) ==
                           spread_seconds(plan.joints[id], work::Pace{});
    wide = wide && spread_seconds(plan.joints[id], free_narrow) ==
                       spread_seconds(plan.joints[id], work::Pace{});
  }
  return narrow ? SpreadSort::narrow : wide ? SpreadSort::wide : SpreadSort::mixed;
}

// The key of [pace] that a step's length hangs on; empty where several do.
std::string key_of(const plan::Plan& plan, const plan::Stage& stage, const plan::Step& step) {
  switch (step.kind) {
    case plan::StepKind::spread: {
      const SpreadSort sort = sort_of(plan, step);
      return sort == SpreadSort::narrow ? "narrow" : sort == SpreadSort::wide ? "wide" : "";
    }
    case plan::StepKind::join: {
      const auto last =
          std::find_if(stage.steps.rbegin(), stage.steps.rend(),
                       [](const plan::Step& s) { return s.kind == plan::StepKind::join; });
      return last->n == step.n ? "close" : "place";
    }
    case plan::StepKind::snug:
      return step.clamps.empty() ? "" : "snug";
    case plan::StepKind::check:
      return step.check == plan::Check::flush ? "" : "check";
    case plan::StepKind::tighten:
      return "tighten";
    case plan::StepKind::wait:
      break;
  }
  return "";
}

bool alone(const plan::Stage& stage, const plan::Step& step) {
  return std::none_of(stage.steps.begin(), stage.steps.end(), [&](const plan::Step& other) {
    return other.n != step.n && other.start_s < step.end_s && step.start_s < other.end_s;
  });
}

std::map<std::string, Learned> learned_from(const plan::Plan& plan, std::span<const LogLine> log) {
  constexpr double kFarOff = 4;
  std::map<std::string, Learned> learned;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::Step& step : stage.steps) {
      const auto line =
          std::find_if(log.begin(), log.end(), [&](const LogLine& l) { return l.n == step.n; });
      const std::string key = key_of(plan, stage, step);
      if (line == log.end() || !line->start_s || !line->end_s || key.empty() ||
          !alone(stage, step) || step.end_s <= step.start_s) {
        continue;
      }
      const double factor = (*line->end_s - *line->start_s) / (step.end_s - step.start_s);
      if (factor > kFarOff || factor < 1 / kFarOff) {
        ++learned[key].ignored;
      } else {
        learned[key].factors.push_back(factor);
      }
    }
  }
  return learned;
}

// The clamps' own snug times differ by kind: what the steps planned for one clamp, on the whole.
double planned_snug_s(const plan::Plan& plan) {
  std::vector<double> each;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      each.push_back(snug_seconds(clamp.kind, work::Pace{}));
    }
  }
  return each.empty() ? 0 : median(each);
}

std::string pace_text(const std::string& key, double value, base::Units units) {
  const bool inch = units == base::Units::inch;
  if (key == "narrow") {
    return inch ? tenths(value * base::kMmPerFoot) + " s per ft"
                : tenths(value * 1000) + " s per m";
  }
  if (key == "wide") {
    return inch ? tenths(value * base::kMmPerFoot * base::kMmPerFoot) + " s per sq ft"
                : tenths(value * 1e6) + " s per sq m";
  }
  return tenths(value) + " s";
}

double old_value(const std::string& key, const work::Pace& pace, const plan::Plan& plan) {
  return key == "narrow"    ? pace.narrow_s_per_mm
         : key == "joint"   ? pace.joint_s
         : key == "wide"    ? pace.wide_s_per_mm2
         : key == "place"   ? pace.place_s
         : key == "close"   ? pace.close_s
         : key == "snug"    ? pace.snug_s.value_or(planned_snug_s(plan))
         : key == "tighten" ? pace.tighten_s
                            : pace.check_s;
}

// Where a line begins and ends in the text, counted from 1; the end is before its line end.
std::size_t line_start(const std::string& text, int line) {
  std::size_t at = 0;
  for (int i = 1; i < line && at < text.size(); ++i) {
    const std::size_t end = text.find('\n', at);
    at = end == std::string::npos ? text.size() : end + 1;
  }
  return at;
}

// One key's value in the text: put in place of the old one, or on a line of its own under the
// table's header.
bool change_one(const std::string& file, std::string& text, const PaceChange& change) {
  const std::string eol = text.find("\r\n") != std::string::npos ? "\r\n" : "\n";
  const files::Document document = files::read_document(file, text);
  if (!document.root) {
    return false;
  }
  const auto& entries = document.root->entries;
  const auto pace = std::find_if(entries.begin(), entries.end(),
                                 [](const files::Entry& e) { return e.key == "pace"; });
  const std::string assignment = change.key + " = \"" + change.new_text + "\"";
  if (pace == entries.end()) {
    text +=
        (text.empty() || text.ends_with("\n") ? "" : eol) + eol + "[pace]" + eol + assignment + eol;
    return true;
  }
  const auto& keys = pace->value.entries;
  const auto key = std::find_if(keys.begin(), keys.end(),
                                [&](const files::Entry& e) { return e.key == change.key; });
  if (key == keys.end()) {
    const std::size_t header = text.find('\n', line_start(text, pace->value.line));
    if (header == std::string::npos) {
      text += eol + assignment + eol;
    } else {
      text.insert(header + 1, assignment + eol);
    }
    return true;
  }
  const std::size_t line = line_start(text, key->value.line);
  const std::size_t open = text.find_first_of("\"'", line);
  if (open == std::string::npos || open + 1 >= text.size()) {
    return false;
  }
  const std::size_t close = text.find(text[open], open + 1);
  if (close == std::string::npos || close > text.find('\n', line)) {
    return false;
  }
  text.replace(open + 1, close - open - 1, change.new_text);
  return true;
}

}  // namespace

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

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

std::vector<PaceChange> learn_pace(const plan::Plan& plan, std::span<const LogLine> log,
                                   const work::Pace& pace) {
  std::vector<PaceChange> changes;
  auto learned = learned_from(plan, log);
  if (learned.contains("narrow")) {
    learned["joint"] = learned["narrow"];  // a narrow joint's time is both: they keep their ratio
  }
  for (const std::string key :
       {"narrow", "joint", "wide", "place", "close", "snug", "tighten", "check"}) {
    const auto found = learned.find(key);
    if (found == learned.end() || found->second.factors.empty()) {
      continue;
    }
    PaceChange change;
    change.key = key;
    change.seen = static_cast<int>(found->second.factors.size());
    change.ignored = found->second.ignored;
    change.old_value = old_value(key, pace, plan);
    change.new_value = change.old_value * median(found->second.factors);
    change.old_text = pace_text(key, change.old_value, plan.units);
    change.new_text = pace_text(key, change.new_value, plan.units);
    changes.push_back(change);
  }
  return changes;
}

std::optional<std::string> with_pace(const std::string& file, const std::string& text,
                                     std::span<const PaceChange> changes) {
  std::string changed = text;
  for (const PaceChange& change : changes) {
    if (!change_one(file, changed, change)) {
      return std::nullopt;
    }
  }
  // What was written must be what is read.
  const files::ShopReading read = files::read_shop(file, changed);
  if (!read.shop) {
    return std::nullopt;
  }
  const plan::Plan none;
  const auto kept = [&](const PaceChange& change) {
    const double value = old_value(change.key, read.shop->pace, none);
    return change.new_text == pace_text(change.key, value, base::Units::mm) ||
           change.new_text == pace_text(change.key, value, base::Units::inch);
  };
  return std::all_of(changes.begin(), changes.end(), kept) ? std::optional(changed) : std::nullopt;
}

}  // namespace planner::rehearsal
