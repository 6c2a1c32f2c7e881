#include "cli/text/glue_trials.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "planner/tables/glue.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::stage::GlueObstacle;
using planner::stage::GlueTrial;

// As it is written after --glue: the bottle's name, else the table's id.
std::string glue_word(const GlueTrial& trial) {
  return trial.on_shelf ? words::printable(trial.glue.name) : trial.glue.family;
}

std::string marked(const GlueTrial& trial) {
  constexpr int kRoom = 15;  // what the other columns leave of the page
  return fmt::format("{} {}",
                     trial.jobs_own   ? "*"
                     : trial.on_shelf ? "+"
                                      : " ",
                     words::fullest_that_fits({glue_word(trial)}, kRoom));
}

std::string spare_text(const GlueTrial& trial) {
  return trial.slack_s < 0 ? "-" + words::clock_text(-trial.slack_s)
                           : words::clock_text(trial.slack_s);
}

// The clamps were laid out for the job's own glue: one that is only pressed too little would get
// more of them.
bool wants_more_clamps(const GlueTrial& trial) {
  return !trial.against.empty() &&
         std::all_of(trial.against.begin(), trial.against.end(), [](const GlueObstacle& obstacle) {
           return obstacle.kind == GlueObstacle::Kind::pressure;
         });
}

bool is_out(const GlueTrial& trial) {
  return !trial.against.empty() && !wants_more_clamps(trial);
}

std::string verdict_word(const GlueTrial& trial) {
  return is_out(trial)              ? "out"
         : wants_more_clamps(trial) ? "clamps"
         : trial.comfortable        ? "good"
                                    : "short of time";
}

// A shop that is colder by less than a degree mustn't read as warm enough.
std::string cooler_text(const GlueObstacle& obstacle, const words::Wording& wording) {
  const std::string text = temperature_text(obstacle.is, wording);
  return text == temperature_text(obstacle.limit, wording) ? "a little less" : text;
}

std::string obstacle_text(const Plan& plan, const GlueObstacle& obstacle,
                          const words::Wording& wording) {
  using Kind = GlueObstacle::Kind;
  const auto joint = [&] { return words::joint_text(plan, obstacle.joint); };
  switch (obstacle.kind) {
    case Kind::open_time:
    case Kind::total_time:
      return fmt::format("{} takes {} of its {}", joint(), words::clock_text(obstacle.is),
                         words::clock_text(obstacle.limit));
    case Kind::too_cold:
      return fmt::format("it wants {} or more, the shop has {}",
                         temperature_text(obstacle.limit, wording), cooler_text(obstacle, wording));
    case Kind::too_warm:
      return fmt::format("nobody publishes its times at {}",
                         temperature_text(obstacle.is, wording));
    case Kind::gap:
      return fmt::format("it bridges {}, {} gapes {}", gap_text(obstacle.limit, wording), joint(),
                         gap_text(obstacle.is, wording));
    case Kind::pressure:
      return fmt::format("it wants {}, {} gets {}", pressure_text(obstacle.limit, wording), joint(),
                         pressure_text(obstacle.is, wording));
    case Kind::bottle:
      return fmt::format("{} needed, {} left", volume_text(obstacle.is, wording),
                         volume_text(obstacle.limit, wording));
  }
  return {};
}

std::string obstacles_text(const Plan& plan, const GlueTrial& trial,
                           const words::Wording& wording) {
  std::string text;
  for (const GlueObstacle& obstacle : trial.against) {
    text += (text.empty() ? "" : "; ") + obstacle_text(plan, obstacle, wording);
  }
  return text;
}

// "pva_white", with the name that the table gives it: "pva_white (PVA, interior 'white')".
std::string named(const GlueTrial& trial) {
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(trial.glue.family);
  const std::string word = glue_word(trial);
  return family == nullptr || family->name == word ? word
                                                   : fmt::format("{} ({})", word, family->name);
}

// Why it is out, or what to keep in mind.
std::string trial_text(const Plan& plan, const GlueTrial& trial, const words::Wording& wording) {
  if (is_out(trial)) {
    return fmt::format("{} is out: {}.", named(trial), obstacles_text(plan, trial, wording));
  }
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(trial.glue.family);
  return fmt::format("{}: {}{}{}.", named(trial),
                     plan.stages.size() > 1 && trial.one_go ? "all in one go; " : "",
                     trial.glue.mixed || trial.need.hardener_ready_g > 0
                         ? "two parts to mix or spread apart; "
                         : "",
                     family == nullptr ? "" : words::spoken_pattern(wording, family->cautions));
}

void table_of(const std::vector<GlueTrial>& trials, const words::Wording& wording, Page& page) {
  Table table{{Align::left, Align::right, Align::right, Align::right, Align::left, Align::right,
               Align::left},
              {{"  glue", "to spare", "bridges", "from", "stands up to", words::spoken(wording, "clamps on"), "it is"}}};
  for (const GlueTrial& trial : trials) {
    const planner::tables::GlueFamily* family =
        planner::tables::find_glue_family(trial.glue.family);
    const auto least = trial.glue.min_temperature_C;
    table.rows.push_back(
        {marked(trial), spare_text(trial), gap_text(trial.glue.max_gap_mm, wording),
         least ? temperature_text(*least, wording) : "-", family != nullptr ? family->water : "-",
         words::duration_text(trial.glue.clamp_s), verdict_word(trial)});
  }
  lay_out(table, 2, page);
}

void clamps_lines(const Plan& plan, const std::vector<GlueTrial>& trials,
                  const words::Wording& wording, Page& page) {
  std::vector<std::string> glues;
  double most_MPa = 0;
  const GlueObstacle* worst = nullptr;
  for (const GlueTrial& trial : trials) {
    if (wants_more_clamps(trial)) {
      glues.push_back(glue_word(trial));
      most_MPa = std::max(most_MPa, trial.against.front().limit);
      worst = worst == nullptr ? &trial.against.front() : worst;
    }
  }
  if (worst != nullptr) {
    page.item(
        "-", fmt::format("{} {} more clamps than are laid out for {}: {}, {} gets {}. "
                         "--glue NAME lays them out for another.",
                         words::list_text(glues), glues.size() == 1 ? "wants" : "want",
                         glue_word(trials.front()), pressure_text(most_MPa, wording),
                         words::joint_text(plan, worst->joint), pressure_text(worst->is, wording)));
  }
}

}  // namespace

void glue_trials_section(const Plan& plan, const std::vector<GlueTrial>& trials,
                         const words::TextStyle& style, Page& page) {
  if (trials.empty()) {
    if (plan.verdict.stopped) {
      page.blank();
      page.line("Stopped by hand before the glues were compared.");
    }
    return;
  }
  const words::Wording& wording = style.wording;
  page.heading(fmt::format("THE GLUES SIDE BY SIDE, {}",
                           plan.temperature_C
                               ? "at " + temperature_text(*plan.temperature_C, wording)
                               : "at room temperature (--temperature tells another)"));
  table_of(trials, wording, page);
  page.line(
      "  * the job's, + on the shelf. To spare: on the glue line with the least, in its best order.",
      2);
  page.heading("GLUE BY GLUE");
  for (const GlueTrial& trial : trials) {
    page.item("-", trial_text(plan, trial, wording));
  }
  clamps_lines(plan, trials, wording, page);
}

}  // namespace cli::text
