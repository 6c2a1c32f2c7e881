#include "cli/html/html_clamps.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/html/html_pictures.h"
#include "cli/html/html_sections.h"
#include "cli/html/svg_strips.h"
#include "cli/model/blocks.h"
#include "cli/model/lists.h"
#include "cli/model/pressure_cells.h"
#include "cli/words/placed_words.h"
#include "cli/words/sentences.h"
#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"

namespace cli::html {
namespace {

using planner::plan::LinePressure;
using planner::plan::PlacedTrial;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

std::string way_heading(const std::string& way) {
  return way == "round" ? "Round the outside" : "Press " + way;
}

void open_table(const std::string& name, const std::string& caption,
                const std::vector<std::string>& titles, Markup& html) {
  html.open("div",
            {{"class", "wide"}, {"tabindex", "0"}, {"role", "region"}, {"aria-label", name}});
  html.open("table", {{"class", "clamps"}}).element("caption", caption);
  html.open("thead").open("tr");
  for (const std::string& title : titles) {
    html.element("th", {{"scope", "col"}}, title);
  }
  html.close().close();
}

std::string measured_text(const words::Wording& wording) {
  return fmt::format("{} in {}, measured from the front-left-bottom corner",
                     wording.uk_words ? "Cramps" : "Clamps",
                     wording.units == planner::base::Units::inch ? "inches" : "mm");
}

// Rows in a body of their own for each run of clamps that press the same way.
template <typename Cells>
void rows_by_way(const std::vector<PlannedClamp>& clamps, std::size_t columns,
                 const Cells& cells_of, Markup& html) {
  std::string way;
  for (const PlannedClamp& clamp : clamps) {
    const std::string own = words::clamp_way(clamp);
    if (own != way) {
      if (!way.empty()) {
        html.close();
      }
      way = own;
      html.open("tbody").open("tr", {{"class", "way"}});
      html.element("th", {{"scope", "rowgroup"}, {"colspan", std::to_string(columns)}},
                   way_heading(way));
      html.close();
    }
    html.open("tr").element("th", {{"scope", "row"}}, std::to_string(clamp.n));
    for (const std::string& cell : cells_of(clamp)) {
      html.element("td", cell);
    }
    html.close();
  }
  html.close();
}

void strip_figures(const Plan& plan, const std::vector<LinePressure>& lines,
                   const words::TextStyle& style, Markup& html) {
  html.open("div", {{"class", "pictures"}});
  for (const LinePressure& line : lines) {
    // A line that is home is closed, no pressure is asked of it.
    if (line.level == planner::plan::Level::seat) {
      continue;
    }
    const std::string name =
        words::face_text(plan, line.joint, line.face) + ", " + words::axis_word(line.axis);
    figure(pressure_svg(line, model::crush_limit_MPa(plan, line), name),
           fmt::format("{}: {}; least {}, mean {}{}", name, words::line_level_word(line.level),
                       pressure_text(line.min_MPa, style.wording),
                       pressure_text(line.mean_MPa, style.wording),
                       line.estimated ? " (an estimate)" : ""),
           html);
  }
  html.close();
}

bool asked_of_any(const std::vector<LinePressure>& lines) {
  return std::any_of(lines.begin(), lines.end(), [](const LinePressure& line) {
    return line.level != planner::plan::Level::seat;
  });
}

// The whole work with the user's clamps on it.
Stage trial_stage(const Plan& plan) {
  Stage whole;
  for (planner::work::PartId id = 0; id < plan.parts.size(); ++id) {
    whole.parts.push_back(id);
  }
  whole.clamps = plan.placed->clamps;
  return whole;
}

void trial_table(const Plan& plan, const Stage& whole, const words::Wording& wording,
                 Markup& html) {
  if (whole.clamps.empty()) {
    return;
  }
  const geometry::Point corner = words::stage_corner(plan, whole);
  open_table(words::spoken(wording, "Places of your own clamps"), measured_text(wording),
             {"no", "from left", "from front", "from bottom", "force", "bears on", "of its limit"}, html);
  rows_by_way(
      whole.clamps, 7,
      [&](const PlannedClamp& clamp) {
        const auto place = model::clamp_place(clamp, corner, wording);
        return std::vector<std::string>{
            place[0],
            place[1],
            place[2],
            force_text(clamp.force_N, wording),
            size_text({clamp.pad.along_mm, clamp.pad.across_mm}, wording),
            fmt::format("{:.0f} %", 100 * clamp.bearing_MPa / clamp.bearing_limit_MPa)};
      },
      html);
  html.close().close();
}

}  // namespace

void clamp_table(const Plan& plan, const Stage& stage, const words::TextStyle& style,
                 Markup& html) {
  if (stage.clamps.empty()) {
    return;
  }
  const geometry::Point corner = words::stage_corner(plan, stage);
  const std::vector<model::Block> blocks = model::blocks_of(plan, style.wording);
  open_table(words::spoken(style.wording, "Places of the clamps") + of_stage(plan, stage), measured_text(style.wording),
             {"no", "from left", "from front", "from bottom", words::clamp_noun(style.wording), "jaws", "pad", "for"}, html);
  rows_by_way(
      stage.clamps, 8,
      [&](const PlannedClamp& clamp) {
        const auto place = model::clamp_place(clamp, corner, style.wording);
        return std::vector<std::string>{place[0],
                                        place[1],
                                        place[2],
                                        words::clamp_short(clamp.kind, style.wording),
                                        length_number(clamp.opening_mm, style.wording),
                                        blocks_under(blocks, clamp.n),
                                        words::clamp_how_word(clamp)};
      },
      html);
  html.close().close();
}

void pressure_figures(const Plan& plan, const words::TextStyle& style, Markup& html) {
  if (!asked_of_any(plan.pressure)) {
    return;
  }
  html.open("section", {{"id", "pressure"}, {"aria-label", "Pressure"}});
  open_fold("h2", "Pressure along each glue line", html);
  figure(pressure_legend_svg(), "Crushed: over what the wood bears across its grain.", html);
  strip_figures(plan, plan.pressure, style, html);
  html.close().close();
}

void placed_figures(const Plan& plan, const words::TextStyle& style, Markup& html) {
  if (!plan.placed) {
    return;
  }
  const PlacedTrial& trial = *plan.placed;
  const char* heading = style.wording.uk_words ? "Your own cramps" : "Your own clamps";
  html.open("section", {{"id", "placed"}, {"aria-label", heading}});
  html.element("h2", heading);
  html.open("p").element("strong", trial.holds ? "They hold" : "They don't hold");
  html.text(", tried on the whole work without the plan's own.").close();
  const Stage whole = trial_stage(plan);
  html.open("div", {{"class", "pictures"}});
  clamp_pictures(plan, whole, style, html);
  html.close();
  trial_table(plan, whole, style.wording, html);
  if (!trial.findings.empty()) {
    list("Where they fall short", words::finding_texts(plan, trial), html);
  }
  if (!trial.mends.empty()) {
    html.element("h2", "What fixes it").open("ol");
    for (const planner::plan::PlacedMend& mend : trial.mends) {
      html.element("li", words::as_sentence(fmt::format("{}; {}", words::mend_text(plan, mend),
                                                        words::kMendGain)));
    }
    html.close();
  }
  if (asked_of_any(trial.pressure)) {
    strip_figures(plan, trial.pressure, style, html);
  }
  html.close();
}

}  // namespace cli::html
