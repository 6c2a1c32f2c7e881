#include "cli/model/wait_list.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "planner/plan/stage_starts.h"
#include "planner/tables/glue.h"

namespace cli::model {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;
using planner::tables::SqueezeOut;

// " (15:47)", with a time of day to start from.
std::string when_text(const words::TextStyle& style, double since_start_s) {
  return style.start_minute
             ? fmt::format(" ({})", words::time_of_day_text(*style.start_minute, since_start_s))
             : "";
}

std::vector<double> tight_times_s(const Plan& plan) {
  std::vector<double> times;
  for (const Stage& stage : plan.stages) {
    times.push_back(stage.starts_s + stage.makespan_s);
  }
  return times;
}

void clamps_off_items(const Plan& plan, const words::TextStyle& style,
                      std::vector<std::string>& out) {
  const std::vector<double> tight = tight_times_s(plan);
  for (std::size_t i = plan.stages_done; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    if (stage.clamps.empty()) {
      out.push_back(words::as_sentence(fmt::format(
          "{}leave it be for {}{}",
          plan.stages.size() == 1 ? "" : fmt::format("Stage {}, ", i + 1),
          words::duration_text(stage.clamp_time_s), when_text(style, tight[i] + stage.clamp_time_s))));
      continue;
    }
    out.push_back(words::as_sentence(fmt::format(
        "{}{} off after {}{}",
        plan.stages.size() == 1 ? "" : fmt::format("Stage {}, ", i + 1),
        style.wording.uk_words ? "cramps" : "clamps", words::duration_text(stage.clamp_time_s),
        when_text(style, tight[i] + stage.clamp_time_s))));
  }
}

void cool_shop_item(const Plan& plan, const words::TextStyle& style,
                    std::vector<std::string>& out) {
  if (!is_cool(plan)) {
    return;
  }
  const double told_s = clamps_off_s(plan, plan.stages.back());
  out.push_back(fmt::format(
      "At {} better {}{}: the usual advice doubles the time for each {} under {}.",
      temperature_text(*plan.temperature_C, style.wording), words::duration_text(told_s),
      when_text(style, tight_times_s(plan).back() + told_s),
      style.wording.units == planner::base::Units::inch ? "15 F" : "8 C",
      temperature_text(planner::plan::kUsual_C, style.wording)));
}

constexpr double kRubbery_s = 30 * 60;

// What to do with the bead, and when. Common practice; a bead that is rubbery after about half an
// hour: magazine advice, docs/method.md "After".
std::string squeeze_out_text(const Plan& plan, const words::TextStyle& style) {
  const double tight_s = tight_times_s(plan).back();
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(plan.glue.glue.family);
  switch (family == nullptr ? SqueezeOut::rubbery : family->squeeze_out) {
    case SqueezeOut::rubbery:
      return fmt::format(
          "Squeeze-out: leave the bead until it is rubbery, about 30 min after the last is "
          "tight{}, and pare it off with a chisel. Only where no tool will reach, wipe it at "
          "once with a damp rag.",
          when_text(style, tight_s + kRubbery_s));
    case SqueezeOut::warm_water:
      return "Squeeze-out: wipe it with warm water, now or at any time later.";
    case SqueezeOut::foam:
      return fmt::format(
          "Squeeze-out: let the foam set and pare it off when the {} come off; wiped wet it "
          "smears into the grain.",
          style.wording.uk_words ? "cramps" : "clamps");
    case SqueezeOut::thinner:
      return "Squeeze-out: scrape off the most with a stick while it is wet, wipe the rest with "
             "the thinner its label names; hard, it has to be planed off.";
    case SqueezeOut::scrape:
      return "Squeeze-out: scrape it off while it is wet and wipe with a damp rag; hard, it blunts "
             "every iron.";
  }
  return {};
}

std::string brief_squeeze_out_text(const Plan& plan, const words::TextStyle& style) {
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(plan.glue.glue.family);
  switch (family == nullptr ? SqueezeOut::rubbery : family->squeeze_out) {
    case SqueezeOut::rubbery:
      return fmt::format("Squeeze-out: pare it off when it is rubbery, after about 30 min{}.",
                         when_text(style, tight_times_s(plan).back() + kRubbery_s));
    case SqueezeOut::warm_water:
      return "Squeeze-out: wipe it with warm water, now or later.";
    case SqueezeOut::foam:
      return fmt::format("Squeeze-out: let the foam set, pare it off when the {} come off.",
                         style.wording.uk_words ? "cramps" : "clamps");
    case SqueezeOut::thinner:
      return "Squeeze-out: scrape it off wet, wipe with the thinner that the label names.";
    case SqueezeOut::scrape:
      return "Squeeze-out: scrape it off wet and wipe with a damp rag.";
  }
  return {};
}

bool has_edge_joint(const Plan& plan) {
  return std::any_of(plan.joints.begin(), plan.joints.end(), [](const planner::work::Joint& joint) {
    return joint.glued && joint.kind == planner::work::JointKind::edge;
  });
}

const planner::plan::KeysNote* keys_of(const Plan& plan) {
  for (const planner::plan::Note& note : plan.notes) {
    if (const auto* keys = std::get_if<planner::plan::KeysNote>(&note)) {
      return keys;
    }
  }
  return nullptr;
}

// What waits for the full cure.
void cured_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  const double cure_s = plan.glue.glue.cure_s;
  if (const planner::plan::KeysNote* keys = keys_of(plan)) {
    out.push_back(fmt::format("Let in the {} keys across the corners after {}{}: they want no {}.",
                              keys->each * keys->corners, words::duration_text(cure_s),
                              when_text(style, tight_times_s(plan).back() + cure_s),
                              style.wording.uk_words ? "cramps" : "clamps"));
  }
  if (has_edge_joint(plan)) {
    // Published advice, a wood technologist's answers on a trade site; docs/method.md "After".
    constexpr double kWeek_s = 7 * 24 * 3600;
    out.push_back(
        fmt::format("Plane edge joints flush after 7 days{}: sooner, they sink as they "
                    "dry.",
                    when_text(style, tight_times_s(plan).back() + kWeek_s)));
  }
}

}  // namespace

std::vector<std::string> brief_wait_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  clamps_off_items(plan, style, out);
  if (plan.stages.empty()) {
    return out;
  }
  std::string& last = out.back();
  last.pop_back();  // the full stop
  if (is_cool(plan)) {
    const double longer_s = clamps_off_s(plan, plan.stages.back());
    last += fmt::format(", at {} better {}{}", temperature_text(*plan.temperature_C, style.wording),
                        words::duration_text(longer_s),
                        when_text(style, tight_times_s(plan).back() + longer_s));
  }
  const double cure_s = plan.glue.glue.cure_s;
  if (cure_s > 0) {
    last += fmt::format("; work or load it after {}{}", words::duration_text(cure_s),
                        when_text(style, tight_times_s(plan).back() + cure_s));
  }
  last += ".";
  out.push_back(brief_squeeze_out_text(plan, style));
  cured_items(plan, style, out);
  return out;
}

std::optional<double> squeeze_out_s(const Plan& plan) {
  const planner::tables::GlueFamily* family = planner::tables::find_glue_family(plan.glue.glue.family);
  const SqueezeOut how = family == nullptr ? SqueezeOut::rubbery : family->squeeze_out;
  return how == SqueezeOut::rubbery ? std::optional(kRubbery_s) : std::nullopt;
}

std::vector<std::string> wait_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  clamps_off_items(plan, style, out);
  cool_shop_item(plan, style, out);
  if (plan.stages.empty()) {
    return out;
  }
  out.push_back(squeeze_out_text(plan, style));
  out.push_back("Stand it on battens, air on both faces, while it dries.");
  const double cure_s = plan.glue.glue.cure_s;
  if (cure_s > 0) {
    out.push_back(fmt::format("Work it again, and load it, after {}: full strength{}.",
                              words::duration_text(cure_s),
                              when_text(style, tight_times_s(plan).back() + cure_s)));
  }
  cured_items(plan, style, out);
  return out;
}

}  // namespace cli::model
