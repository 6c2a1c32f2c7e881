#include "planner/rehearsal/learned_pace.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "planner/base/units.h"
#include "planner/files/document.h"
#include "planner/files/old_names.h"
#include "planner/files/shop_file.h"
#include "planner/plan/plan_parts.h"
#include "planner/work/step_seconds.h"

namespace planner::rehearsal {
namespace {

using Shares = std::vector<work::PaceShare>;

// What of the pace a join hangs on: the slowest of its joints, and what the others ask on top.
Shares join_shares(const plan::Plan& plan, const plan::Step& step, const work::Pace& pace) {
  std::vector<geometry::Box> bounds;
  for (const plan::PlanPart& part : plan.parts) {
    bounds.push_back(part.bounds);
  }
  Shares shares;
  int tongues = 0;
  for (const work::JointId id : step.joints) {
    const work::PaceShare own = join_share(plan.joints[id], bounds, pace);
    if (shares.empty() || shares[0].seconds() < own.seconds()) {
      shares = {own};
    }
    tongues += next_seconds(plan.joints[id], pace) > 0 ? 1 : 0;
  }
  if (tongues > 1) {
    shares.push_back({"next", pace.next_s, static_cast<double>(tongues - 1)});
  }
  return shares;
}

Shares snug_shares(const plan::Stage& stage, const plan::Step& step, const work::Pace& pace) {
  Shares shares;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    if (std::ranges::count(step.clamps, clamp.n) > 0) {
      shares.push_back(snug_share(clamp, pace));
    }
  }
  return shares;
}

Shares fasten_shares(const plan::Stage& stage, const plan::Step& step, const work::Pace& pace) {
  Shares shares;
  for (const plan::Fastening& row : stage.fastenings) {
    if (std::ranges::count(step.joints, row.joint) > 0) {
      const bool screws = row.by == work::HeldBy::screws;
      shares.push_back({screws ? "screw" : "pin", work::fastener_seconds(row.by, pace),
                        static_cast<double>(row.at.size())});
    }
  }
  return shares;
}

Shares load_shares(const plan::Stage& stage, const plan::Step& step, const work::Pace& pace) {
  for (const plan::Loading& load : stage.loadings) {
    if (std::ranges::count(step.joints, load.joints.front()) > 0) {
      return load.by == work::HeldBy::vacuum
                 ? Shares{{"bag", pace.bag_s, 1}, {"pump", pace.pump_s, 1}}
                 : Shares{{"weight", pace.weight_s, static_cast<double>(load.weights)}};
    }
  }
  return {};
}

Shares shares_of(const plan::Plan& plan, const plan::Stage& stage, const plan::Step& step,
                 const work::Pace& pace) {
  Shares shares;
  switch (step.kind) {
    case plan::StepKind::spread:
      for (const work::JointId id : step.joints) {
        for (const work::PaceShare& share : spread_shares(plan.joints[id], pace)) {
          shares.push_back(share);
        }
      }
      return shares;
    case plan::StepKind::join:
      return join_shares(plan, step, pace);
    case plan::StepKind::snug:
      return snug_shares(stage, step, pace);
    case plan::StepKind::check:
      if (step.check == plan::Check::flush) {
        return {{"flush", pace.flush_s, 1}};
      }
      // Which of the two it was is known by its length alone.
      return step.end_s - step.start_s <= pace.check_small_s
                 ? Shares{{"check_small", pace.check_small_s, 1}}
                 : Shares{{"check", pace.check_s, 1}};
    case plan::StepKind::cauls:
      return {{"caul_pair", pace.caul_pair_s, 1}};
    case plan::StepKind::tighten:
      return {{"tighten", pace.tighten_s, 1}};
    case plan::StepKind::fasten:
      return fasten_shares(stage, step, pace);
    case plan::StepKind::ease:
      return {{"flush", pace.flush_s, 1}};
    case plan::StepKind::load:
      return load_shares(stage, step, pace);
    case plan::StepKind::turn:
      return {{"turn", pace.turn_s, 1}};
    case plan::StepKind::wait:
      break;
  }
  return {};
}

// What is asked on top of another key, whose steps it shares: the two keep their ratio.
bool on_top(std::string_view key) {
  return key == "channel_joint" || key == "corner_piece" || key == "next" || key == "pump";
}

// Keys a step teaches, each with its rate: one, and what is on top of it. Empty where it hangs on
// several.
std::map<std::string, double> taught_by(const Shares& shares) {
  std::map<std::string, double> rates;
  int bases = 0;
  for (const work::PaceShare& share : shares) {
    if (share.seconds() > 0 && rates.try_emplace(share.key, share.rate).second) {
      bases += on_top(share.key) ? 0 : 1;
    }
  }
  return bases == 1 ? rates : std::map<std::string, double>{};
}

bool alone(const plan::Stage& stage, const plan::Step& step) {
  return std::none_of(stage.steps.begin(), stage.steps.end(), [&](const plan::Step& other) {
    return other.n != step.n && other.start_s < step.end_s && step.start_s < other.end_s;
  });
}

// A key with what the log shows of it.
struct Learned {
  double old_value = 0;
  std::vector<double> values;
  int ignored = 0;
};

std::map<std::string, Learned> learned_from(const plan::Plan& plan, std::span<const LogLine> log,
                                            const work::Pace& pace) {
  constexpr double kFarOff = 4;
  std::map<std::string, Learned> learned;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::Step& step : stage.steps) {
      const auto line = std::ranges::find(log, step.n, &LogLine::n);
      if (line == log.end() || !line->start_s || !line->end_s || !alone(stage, step) ||
          step.end_s <= step.start_s) {
        continue;
      }
      const double factor = (*line->end_s - *line->start_s) / (step.end_s - step.start_s);
      for (const auto& [key, rate] : taught_by(shares_of(plan, stage, step, pace))) {
        Learned& of_key = learned.try_emplace(key, Learned{rate, {}, 0}).first->second;
        if (factor > kFarOff || factor < 1 / kFarOff) {
          ++of_key.ignored;
        } else {
          of_key.values.push_back(rate * factor);
        }
      }
    }
  }
  return learned;
}

bool by_length(std::string_view key) {
  const auto found = std::ranges::find(work::kPaceKeys, key, &work::PaceKey::key);
  return found != work::kPaceKeys.end() && found->by == work::PaceBy::length;
}

std::string pace_text(std::string_view key, double value, base::Units units) {
  const bool inch = units == base::Units::inch;
  if (by_length(key)) {
    return inch ? tenths(value * base::kMmPerFoot) + " s per ft"
                : tenths(value * 1000) + " s per m";
  }
  if (key == "wide") {
    return inch ? tenths(value * base::kMmPerFoot * base::kMmPerFoot) + " s per sq ft"
                : tenths(value * 1e6) + " s per sq m";
  }
  return tenths(value) + " s";
}

// As the shop file has it; 0 where it says nothing of it and a table does.
double value_of(std::string_view key, const work::Pace& pace) {
  if (key.starts_with("snug.")) {
    const auto own = pace.snug_s.find(key.substr(5));
    return own == pace.snug_s.end() ? 0 : own->second;
  }
  const auto found = std::ranges::find(work::kPaceKeys, key, &work::PaceKey::key);
  return found != work::kPaceKeys.end() ? pace.*found->value
         : key == "wide"                ? pace.wide_s_per_mm2.value_or(0)
                                        : pace.any_snug_s.value_or(0);
}

// Every key in the order in which they are told.
std::vector<std::string> all_keys(const std::map<std::string, Learned>& learned) {
  std::vector<std::string> keys;
  for (const work::PaceKey& key : work::kPaceKeys) {
    keys.emplace_back(key.key);
  }
  for (const auto& [key, of_key] : learned) {
    if (std::ranges::count(keys, key) == 0) {
      keys.push_back(key);
    }
  }
  return keys;
}

// Where a line begins in the text, counted from 1.
std::size_t line_start(const std::string& text, int line) {
  std::size_t at = 0;
  for (int i = 1; i < line && at < text.size(); ++i) {
    const std::size_t end = text.find('\n', at);
    at = end == std::string::npos ? text.size() : end + 1;
  }
  return at;
}

const files::Entry* entry_of(const files::Node& table, std::string_view key) {
  const auto found = std::ranges::find(table.entries, key, &files::Entry::key);
  return found == table.entries.end() ? nullptr : &*found;
}

// The new value in place of the one between quotes on that line.
bool replace_value(std::string& text, int line_number, const std::string& value) {
  const std::size_t line = line_start(text, line_number);
  const std::size_t open = text.find_first_of("\"'", line);
  if (open == std::string::npos || open + 1 >= text.size()) {
    return false;
  }
  const std::size_t close = text.find(text[open], open + 1);
  if (close == std::string::npos || close > text.find('\n', line)) {
    return false;
  }
  text.replace(open + 1, close - open - 1, value);
  return true;
}

// One key's value in the text: put in place of the old one, or on a line of its own under the
// table's header.
bool change_one(const std::string& file, std::string& text, const PaceChange& change) {
  const std::string eol = text.find("\r\n") != std::string::npos ? "\r\n" : "\n";
  files::Document document = files::read_document(file, text);
  if (!document.root) {
    return false;
  }
  files::FileNotes notes;
  files::rename_old_shop_keys(*document.root, notes);
  const std::string assignment = change.key + " = \"" + change.new_text + "\"";
  const files::Entry* pace = entry_of(*document.root, "pace");
  if (pace == nullptr) {
    text +=
        (text.empty() || text.ends_with("\n") ? "" : eol) + eol + "[pace]" + eol + assignment + eol;
    return true;
  }
  const bool snug = change.key.starts_with("snug.");
  const files::Entry* key = entry_of(pace->value, snug ? "snug" : change.key);
  if (key != nullptr && snug) {
    key = entry_of(key->value, std::string_view(change.key).substr(5));
  }
  if (key != nullptr) {
    return replace_value(text, key->value.line, change.new_text);
  }
  const std::size_t header = text.find('\n', line_start(text, pace->value.line));
  if (header == std::string::npos) {
    text += eol + assignment + eol;
  } else {
    text.insert(header + 1, assignment + eol);
  }
  return true;
}

}  // namespace

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

std::vector<PaceChange> learn_pace(const plan::Plan& plan, std::span<const LogLine> log,
                                   const work::Pace& pace) {
  const std::map<std::string, Learned> learned = learned_from(plan, log, pace);
  std::vector<PaceChange> changes;
  for (const std::string& key : all_keys(learned)) {
    const auto found = learned.find(key);
    if (found == learned.end() || found->second.values.empty()) {
      continue;
    }
    const Learned& of_key = found->second;
    PaceChange change{key, of_key.old_value, median(of_key.values), {}, {}, 0, of_key.ignored};
    change.seen = static_cast<int>(of_key.values.size());
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
  const auto kept = [&](const PaceChange& change) {
    const double value = value_of(change.key, read.shop->pace);
    return change.new_text == pace_text(change.key, value, base::Units::mm) ||
           change.new_text == pace_text(change.key, value, base::Units::inch);
  };
  return std::all_of(changes.begin(), changes.end(), kept) ? std::optional(changed) : std::nullopt;
}

}  // namespace planner::rehearsal
