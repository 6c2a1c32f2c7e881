#include "cli/model/verdict.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/model/fetch_list.h"
#include "cli/words/sentences.h"
#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "cli/words/verdict_words.h"
#include "cli/words/way_out_words.h"

namespace cli::model {
namespace {

using planner::plan::Comfort;
using planner::plan::FaceLimit;
using planner::plan::InventoryRow;
using planner::plan::Level;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::plan::TimeVerdict;
using planner::tables::Warmth;

using Matters = std::vector<Matter>;

// "stage 3 of 3", "stages 2-3 of 3"
std::string stages_left_text(const Plan& plan) {
  const std::size_t first = plan.stages_done + 1, last = plan.stages.size();
  return first == last ? fmt::format("stage {} of {}", last, last)
                       : fmt::format("stages {}-{} of {}", first, last, last);
}

std::string goes_text(const Plan& plan) {
  switch (plan.verdict.time) {
    case TimeVerdict::one_go:
      return "one go";
    case TimeVerdict::stages:
      return plan.stages_done == 0 ? words::count_text(static_cast<int>(plan.stages.size()), "stage")
                                   : stages_left_text(plan);
    case TimeVerdict::too_slow:
      return "too slow";
  }
  return {};
}

std::string level_text(Level level) {
  return level == Level::full            ? "every joint fully pressed"
         : level == Level::short_of_hold ? "not every joint held"
         : level == Level::light         ? "every joint held, if lightly"
         : level == Level::contact       ? "every joint kept closed"
                                         : "every joint held";
}

// The stage with the least to spare, and its tightest face.
const Stage* tightest_stage(const Plan& plan) {
  const auto found =
      std::min_element(plan.stages.begin() + static_cast<std::ptrdiff_t>(plan.stages_done), plan.stages.end(),
                       [](const Stage& a, const Stage& b) { return a.slack_s < b.slack_s; });
  return found == plan.stages.end() ? nullptr : &*found;
}

void time_matters(const Plan& plan, Matters& out) {
  const Stage* stage = tightest_stage(plan);
  if (stage == nullptr || stage->limits.empty()) {
    return;
  }
  const FaceLimit& face = stage->limits.front();
  const bool by_open = face.open_s - face.used_open_s <= face.total_s - face.used_total_s;
  const std::string used = words::clock_text(by_open ? face.used_open_s : face.used_total_s);
  const std::string limit = words::clock_text(by_open ? face.open_s : face.total_s);
  const std::string which = by_open ? "open time" : "total time";
  const std::string where = words::joint_text(plan, face.joint);
  const std::string done = words::clock_text(stage->makespan_s);
  const std::string stages = plan.stages.size() > 1 ? goes_text(plan) + "; " : "";
  out.push_back({"Time",
                 {fmt::format("{}{} of {} {} used on {}, least to spare; done at {}", stages, used,
                              limit, which, where, done),
                  fmt::format("{}{} of {} used on {}, least to spare; done at {}", stages, used,
                              limit, where, done),
                  fmt::format("{}{} of {} used on {}; done at {}", stages, used, limit, where, done),
                  fmt::format("{}{} of {} used on {}", stages, used, limit, where),
                  fmt::format("{}{} of {} used where least is to spare", stages, used, limit)}});
}

// One go and stages where both do; and so many stages as were asked for, where they don't.
void choice_matter(const Plan& plan, Matters& out) {
  const int asked = plan.verdict.stages_asked;
  if (asked > 0 && asked != static_cast<int>(plan.stages.size())) {
    out.push_back({"Stages", {fmt::format("no plan of {} was found that is in time and on the rack",
                                          words::count_text(asked, "stage"))}});
  }
  if (const auto& other = plan.verdict.other) {
    const std::string what = other->stages == 1 ? "in one go" : fmt::format("in {} stages", other->stages);
    const std::string spare = words::duration_text(other->slack_s) + " to spare";
    const std::string how = fmt::format("--stages {} plans it so", other->stages);
    out.push_back({"Or", {fmt::format("{}: {}{}; {}", what, spare,
                                      other->comfortable ? "" : ", short of time", how),
                          fmt::format("{}: {}; {}", what, spare, how)}});
  }
}

// Rows of one kind in several lengths as one: what a tired person counts.
std::vector<InventoryRow> by_kind(const std::vector<InventoryRow>& rows) {
  std::vector<InventoryRow> kinds;
  for (const InventoryRow& row : rows) {
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const InventoryRow& k) { return k.kind == row.kind; });
    if (found == kinds.end()) {
      kinds.push_back(row);
      continue;
    }
    found->owned += row.owned;
    found->used += row.used;
    found->short_by += row.short_by;
  }
  return kinds;
}

void clamps_matter(const Plan& plan, const words::TextStyle& style, Matters& out) {
  if (plan.inventory.empty()) {
    return;
  }
  std::vector<std::string> full, middling, brief;
  int needed = 0, missing = 0;
  for (const InventoryRow& row : plan.inventory) {
    full.push_back(inventory_text(plan, row, style));
  }
  for (const InventoryRow& row : by_kind(plan.inventory)) {
    const int n = row.used + row.short_by;
    needed += n;
    missing += row.short_by;
    middling.push_back(fmt::format("{} {} ({})", n, words::clamp_short(row.kind, style.wording), owned_text(row)));
    brief.push_back(words::count_text(n, clamp_text(row.kind, style.wording)));
  }
  const std::string lead = plan.no_shop_file ? "to borrow or buy: " : "";
  const std::string shortfall = missing > 0 ? fmt::format("; SHORT by {}", missing) : "";
  const std::string noun = style.wording.uk_words ? "cramp" : "clamp";
  out.push_back({style.wording.uk_words ? "Cramps" : "Clamps",
                 {lead + words::list_text(full),
                  lead + words::list_text(plan.no_shop_file ? brief : middling),
                  lead + words::list_text(brief) + shortfall,
                  lead + words::count_text(needed, noun) + shortfall + "; see Fetch"}});
}

void glue_matter(const Plan& plan, const words::TextStyle& style, Matters& out) {
  const planner::work::GlueNeed& need = plan.glue;
  const std::string name = words::printable(need.glue.name);
  const std::string ready = volume_text(need.ready_ml, style.wording);
  std::string left;
  if (need.glue.left_ml) {
    left = need.enough_left
               ? fmt::format(", {} left", volume_text(*need.glue.left_ml, style.wording))
               : fmt::format(", only {} left: NOT ENOUGH",
                             volume_text(*need.glue.left_ml, style.wording));
  }
  out.push_back({"Glue",
                 {fmt::format("{} of {}{}", ready, words::glue_name_text(need.glue), left),
                  fmt::format("{} of {}{}", ready, name, left), ready + left}});
}

void order_matter(const Plan& plan, Matters& out) {
  if (plan.stages.size() == 1) {
    const std::string order = words::order_text(plan, plan.stages.front());
    if (!order.empty()) {
      out.push_back({"Order", {order}});
    }
    return;
  }
  std::vector<std::string> stages;
  for (std::size_t i = plan.stages_done; i < plan.stages.size(); ++i) {
    stages.push_back(fmt::format("({}) {}", i + 1, words::part_names(plan, plan.stages[i].parts)));
  }
  out.push_back(
      {"Order", {words::list_text(stages), goes_text(plan) + "; see Glue up"}});
}

void openings_matter(const Plan& plan, const words::TextStyle& style, Matters& out) {
  struct Group {
    std::string way, opening;
    int n = 0;
  };
  std::vector<Group> groups;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      const Group wanted{words::clamp_way(clamp), length_text(clamp.opening_mm, style.wording), 0};
      auto found = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
        return g.way == wanted.way && g.opening == wanted.opening;
      });
      if (found == groups.end()) {
        groups.push_back(wanted);
        found = groups.end() - 1;
      }
      ++found->n;
    }
  }
  std::vector<std::string> full, brief;
  for (const Group& group : groups) {
    full.push_back(fmt::format("{} {} to {}", group.n, group.way, group.opening));
    brief.push_back(fmt::format("{} to {}", group.n, group.opening));
  }
  if (!full.empty()) {
    out.push_back({"Set jaws", {words::list_text(full), words::list_text(brief), "see Clamps"}});
  }
}

void square_matter(const Plan& plan, const words::TextStyle& style, Matters& out) {
  if (!plan.needs_square) {
    return;
  }
  const std::string outside = diagonal_text(plan.outside_mm, style.wording);
  const bool inside = std::any_of(plan.stages.begin(), plan.stages.end(), [](const Stage& stage) {
    return std::any_of(stage.steps.begin(), stage.steps.end(), [](const planner::plan::Step& step) {
      return step.check == planner::plan::Check::inside_diagonals;
    });
  });
  if (plan.rings.size() > 1) {
    const std::string all = words::list_text(words::outside_diagonals(plan, style.wording));
    out.push_back({"Square", {"outside diagonals " + all,
                              fmt::format("outside diagonals of {} rings; see Glue up",
                                          plan.rings.size())}});
    return;
  }
  if (!inside) {
    out.push_back({"Square", {"outside diagonals " + outside}});
    return;
  }
  out.push_back({"Square",
                 {fmt::format("inside diagonals {}, then outside {}",
                              diagonal_text(plan.inside_mm, style.wording), outside)}});
}

void after_matter(const Plan& plan, const words::TextStyle& style, Matters& out) {
  const bool clamped = std::ranges::any_of(
      plan.stages, [](const Stage& stage) { return !stage.clamps.empty(); });
  std::string off = fmt::format("{} {}",
                                !clamped                 ? "leave it be for"
                                : style.wording.uk_words ? "cramps off after"
                                                         : "clamps off after",
                                words::duration_text(plan.glue.glue.clamp_s));
  if (plan.stages.size() > 1) {
    off += " a stage";
  } else if (style.start_minute && !plan.stages.empty()) {
    const Stage& stage = plan.stages.front();
    off += fmt::format(" ({})", words::time_of_day_text(*style.start_minute,
                                                        stage.makespan_s + stage.clamp_time_s));
  }
  if (plan.glue.glue.cure_s > 0) {
    off += "; full cure " + words::duration_text(plan.glue.glue.cure_s);
  }
  out.push_back({"After", {off}});
}

}  // namespace

Headline headline(const Plan& plan) {
  const planner::plan::Verdict& verdict = plan.verdict;
  const std::string level = level_text(verdict.pressure);
  if (!verdict.ok) {
    const std::string why =
        verdict.reasons.empty() ? level : words::reason_text(plan, verdict.reasons.front());
    const bool impossible = std::any_of(
        plan.stages.begin(), plan.stages.end(),
        [](const Stage& stage) { return stage.status == planner::plan::Proof::impossible; });
    const std::string brief =
        impossible                                  ? "it can't be put together like this."
        : plan.glue.glue.warmth == Warmth::too_cold ? "too cold for this glue."
        : plan.glue.glue.warmth == Warmth::too_warm ? "too warm for this glue."
        : verdict.pressure == Level::short_of_hold
            ? words::spoken({.uk_words = plan.uk_words}, "the clamps don't hold every joint.")
                                                    : "the glue is too quick for this.";
    return {"DON'T OPEN THE GLUE", {why + ".", why, brief}};
  }
  const bool hurried = verdict.comfort != Comfort::comfortable;
  const std::string title = plan.title.empty() ? "this job" : words::printable(plan.title);
  const std::string time = hurried ? "little time to spare" : "time to spare";
  return {hurried ? "SHORT OF TIME" : "GO",
          {fmt::format("{} in {}, with {}; {}.", title, goes_text(plan), time, level),
           fmt::format("{} in {}; {}.", title, goes_text(plan), level),
           fmt::format("in {}, with {}; {}.", goes_text(plan), time, level)}};
}

std::optional<planner::work::JointId> tightest_joint(const Plan& plan) {
  const Stage* stage = tightest_stage(plan);
  return stage == nullptr || stage->limits.empty() ? std::nullopt : std::optional(stage->limits.front().joint);
}

std::vector<Matter> verdict_matters(const Plan& plan, const words::TextStyle& style) {
  Matters out;
  if (plan.verdict.stopped) {
    out.push_back({"Stopped", {"by hand: the best found so far; a longer search may do better"}});
  }
  time_matters(plan, out);
  choice_matter(plan, out);
  clamps_matter(plan, style, out);
  glue_matter(plan, style, out);
  order_matter(plan, out);
  openings_matter(plan, style, out);
  square_matter(plan, style, out);
  // What keeps it from working is in the headline already.
  if (plan.verdict.ok) {
    out.push_back({"Risk", {words::risk_text(plan, plan.uk_words)}});
  }
  if (plan.verdict.helps_most) {
    const planner::plan::HelpsMost& most = *plan.verdict.helps_most;
    const words::WayOutWords told = words::way_out_words(plan, most.way);
    out.push_back({"Helps most",
                   {words::printable(told.what) + ": " + words::printable(told.gain),
                    words::printable(told.what)}});
  }
  after_matter(plan, style, out);
  return out;
}

std::vector<std::string> way_texts(const planner::plan::Plan& plan) {
  std::vector<std::string> texts;
  for (const planner::plan::WayOut& way : plan.verdict.ways_out) {
    const words::WayOutWords told = words::way_out_words(plan, way);
    texts.push_back(words::as_sentence(fmt::format("{}: {}{}", words::printable(told.what),
                                                   words::printable(told.gain),
                                                   way.mends ? " (then it works)" : "")));
  }
  return texts;
}

}  // namespace cli::model
