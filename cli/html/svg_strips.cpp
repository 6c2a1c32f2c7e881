#include "cli/html/svg_strips.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cli/html/picture.h"
#include "cli/model/pressure_cells.h"
#include "cli/model/timeline.h"
#include "cli/words/trade_words.h"

namespace cli::html {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;

const char* fill_of(model::PressureCell cell) {
  switch (cell) {
    case model::PressureCell::open:
      return "url(#open)";
    case model::PressureCell::weak:
      return "url(#weak)";
    case model::PressureCell::held:
      return "url(#held)";
    case model::PressureCell::full:
      return "url(#full)";
    case model::PressureCell::crushed:
      return "url(#crushed)";
  }
  return "none";
}

void pattern(Markup& svg, const char* id, const char* size, const char* d) {
  svg.open("pattern",
           {{"id", id}, {"patternUnits", "userSpaceOnUse"}, {"width", size}, {"height", size}});
  svg.lone("path", {{"d", d}, {"class", "grain"}});
  svg.close();
}

const char* fill_of(StepKind kind) {
  return kind == StepKind::spread                              ? "url(#weak)"
         : kind == StepKind::join                              ? "url(#full)"
         : kind == StepKind::snug || kind == StepKind::tighten ? "url(#held)"
                                                               : "none";
}

constexpr double kLeft = 10, kRight = 10, kStripRow = 32, kBar = 15;
constexpr double kName = 15;  // of a row's height, for the name above its bar

// Seconds to the picture's width.
struct Clock {
  double longest_s;
  double at(double s) const { return kLeft + s / longest_s * (kPictureWidth - kLeft - kRight); }
};

void draw_ruler(const Clock& clock, double height, Markup& svg) {
  const double minute_step = clock.longest_s > 40 * 60 ? 10 : clock.longest_s > 16 * 60 ? 5 : 2;
  for (double minute = 0; minute * 60 <= clock.longest_s; minute += minute_step) {
    const double x = clock.at(minute * 60);
    svg.lone("path", {{"class", "measure"},
                      {"d", fmt::format("M{} 16V{}", coordinate(x), coordinate(height))}});
    label(svg, {minute == 0 ? 4 : x, 12}, minute == 0 ? "start" : "middle",
          fmt::format("{:.0f}{}", minute, minute == 0 ? " min" : ""));
  }
}

// The name of a row, readable across the ruler's lines.
void draw_name(const std::string& name, double y, Markup& svg) {
  svg.element("text", {{"class", "on"}, {"x", "4"}, {"y", coordinate(y + kName - 4)}}, name);
}

void draw_person(const Stage& stage, int person, double top, const Clock& clock, Markup& svg) {
  draw_name(fmt::format("person {}", person), top, svg);
  const double y = top + kName;
  for (const Step& step : stage.steps) {
    if (std::find(step.people.begin(), step.people.end(), person) == step.people.end()) {
      continue;
    }
    const double x = clock.at(step.start_s), w = clock.at(step.end_s) - x;
    svg.lone("rect", {{"class", "task"},
                      {"x", coordinate(x)},
                      {"y", coordinate(y)},
                      {"width", coordinate(w)},
                      {"height", coordinate(kBar)},
                      {"fill", fill_of(step.kind)}});
    const std::string n = std::to_string(step.n);
    if (w > 0.7 * kSmallText * static_cast<double>(n.size()) + 2) {
      svg.element("text",
                  {{"class", "on"},
                   {"x", coordinate(x + w / 2)},
                   {"y", coordinate(y + kBar - 4)},
                   {"text-anchor", "middle"}},
                  n);
    }
  }
}

// From the first glue until pressed: the part until brought together is thick, the limit a stroke.
void draw_limit(const Plan& plan, const model::JointTime& time, double top, const Clock& clock,
                Markup& svg) {
  draw_name(words::fullest_that_fits({words::joint_text(plan, time.joint)}, 48), top, svg);
  const double y = top + kName;
  const auto bar = [&](const char* kind, double from, double to, double height) {
    svg.lone("rect", {{"class", kind},
                      {"x", coordinate(clock.at(from))},
                      {"y", coordinate(y + (kBar - height) / 2)},
                      {"width", coordinate(clock.at(to) - clock.at(from))},
                      {"height", coordinate(height)}});
  };
  bar("open", time.wet_s, time.together_s, 10);
  bar("closed", time.together_s, time.held_s, 4);
  for (const double limit : {time.open_limit_s, time.total_limit_s}) {
    svg.lone("path", {{"class", "limit"},
                      {"d", fmt::format("M{} {}v{}", coordinate(clock.at(limit)), coordinate(y),
                                        coordinate(kBar))}});
  }
}

}  // namespace

std::string svg_patterns() {
  Markup svg;
  svg.open("svg",
           {{"class", "patterns"}, {"width", "0"}, {"height", "0"}, {"aria-hidden", "true"}});
  svg.open("defs");
  pattern(svg, "open", "8", "M0 0L8 8M8 0L0 8");
  pattern(svg, "weak", "6", "M0 6L6 0");
  pattern(svg, "held", "4", "M0 1H4M0 3H4");
  pattern(svg, "full", "2", "M0 0H2V2H0Z");
  svg.open(
      "pattern",
      {{"id", "crushed"}, {"patternUnits", "userSpaceOnUse"}, {"width", "8"}, {"height", "8"}});
  svg.lone("rect", {{"class", "closed"}, {"width", "8"}, {"height", "8"}});
  svg.lone("path", {{"class", "scar"}, {"d", "M1 1L7 7M7 1L1 7"}});
  svg.close();
  svg.close();
  svg.close();
  return svg.str();
}

std::string pressure_legend_svg() {
  constexpr double kHeight = 34, kSwatch = 22;
  Markup svg;
  open_picture(svg, kPictureWidth, kHeight,
               "From weak to crushed: open, weak, holds, full, crushed");
  const std::pair<model::PressureCell, const char*> cells[] = {
      {model::PressureCell::open, "open"},
      {model::PressureCell::weak, "weak"},
      {model::PressureCell::held, "holds"},
      {model::PressureCell::full, "full"},
      {model::PressureCell::crushed, "crushed"}};
  double x = 1;
  for (const auto& [cell, word] : cells) {
    svg.lone("rect", {{"class", "task"},
                      {"x", coordinate(x)},
                      {"y", "1"},
                      {"width", coordinate(kSwatch * 3)},
                      {"height", "16"},
                      {"fill", fill_of(cell)}});
    label(svg, {x + kSwatch * 1.5, 30}, "middle", word);
    x += kSwatch * 3 + 6;
  }
  svg.close();
  return svg.str();
}

std::string pressure_svg(const planner::plan::LinePressure& line, double crush_MPa,
                         const std::string& name) {
  constexpr int kCells = 48;
  constexpr double kHeight = 18;
  Markup svg;
  open_picture(svg, kPictureWidth, kHeight,
               fmt::format("Pressure on {}: {}", name, words::line_level_word(line.level)));
  const std::vector<model::PressureCell> cells = model::pressure_cells(line, kCells, crush_MPa);
  const double w = (kPictureWidth - 2) / kCells;
  for (std::size_t i = 0; i < cells.size();) {
    std::size_t j = i;
    while (j < cells.size() && cells[j] == cells[i]) {
      ++j;
    }
    svg.lone("rect", {{"x", coordinate(1 + w * static_cast<double>(i))},
                      {"y", "1"},
                      {"width", coordinate(w * static_cast<double>(j - i))},
                      {"height", coordinate(kHeight - 2)},
                      {"fill", fill_of(cells[i])}});
    i = j;
  }
  svg.lone("rect", {{"class", "frame"},
                    {"x", "1"},
                    {"y", "1"},
                    {"width", coordinate(kPictureWidth - 2)},
                    {"height", coordinate(kHeight - 2)},
                    {"fill", "none"}});
  svg.close();
  return svg.str();
}

std::string timeline_svg(const Plan& plan, const Stage& stage) {
  constexpr std::size_t kShown = 6;
  std::vector<model::JointTime> times = model::joint_times(stage);
  times.resize(std::min(times.size(), kShown));
  Clock clock{std::max(60.0, stage.makespan_s)};
  for (const model::JointTime& time : times) {
    clock.longest_s = std::max(clock.longest_s, time.total_limit_s);
  }
  const double height = 20 + kStripRow * (plan.people + static_cast<double>(times.size())) + 4;
  Markup svg;
  open_picture(svg, kPictureWidth, height, "Who does what when, and the limits of the joints with least to spare");
  draw_ruler(clock, height, svg);
  double y = 22;
  for (int person = 1; person <= plan.people; ++person, y += kStripRow) {
    draw_person(stage, person, y, clock, svg);
  }
  for (const model::JointTime& time : times) {
    draw_limit(plan, time, y, clock, svg);
    y += kStripRow;
  }
  svg.close();
  return svg.str();
}

}  // namespace cli::html
