#include "cli/model/edge_strips.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/model/line_drawing.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::model {
namespace {

using geometry::Direction;
using geometry::Extent;
using geometry::Point;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::work::PartId;

constexpr double kSame_mm = 0.5;  // closer than a pencil line

double outside(const Extent& extent, double at) {
  return std::max({0.0, extent.lo - at, at - extent.hi});
}

// The part under the low jaw: the one that the line of action enters first, of equals the first.
PartId under_jaw(const Plan& plan, const Stage& stage, const PlannedClamp& clamp) {
  const Direction across = cross(clamp.axis, clamp.pad_along);
  PartId best = stage.parts.front();
  double least = 1e300;
  for (const PartId id : stage.parts) {
    double off =
        std::abs(reach_of(plan.parts[id].facets, clamp.axis).lo - dot(clamp.at, clamp.axis));
    for (const Direction& d : {clamp.pad_along, across}) {
      off += outside(reach_of(plan.parts[id].facets, d), dot(clamp.at, d));
    }
    if (off < least - 1e-6) {
      least = off;
      best = id;
    }
  }
  return best;
}

// Clamps of one axis in one line on one part.
struct Row {
  PartId part = 0;
  const PlannedClamp* first = nullptr;
  std::vector<const PlannedClamp*> clamps;
};

bool same_line(const PlannedClamp& a, const PlannedClamp& b) {
  const Direction across = cross(a.axis, a.pad_along);
  return dot(a.axis, b.axis) > 0.999 && std::abs(dot(a.pad_along, b.pad_along)) > 0.999 &&
         std::abs(dot(a.at - b.at, across)) < kSame_mm;
}

std::vector<Row> rows_of(const Plan& plan, const Stage& stage) {
  std::vector<Row> rows;
  for (const PlannedClamp& clamp : stage.clamps) {
    if (!clamp.round.empty()) {
      continue;  // a strap lies against every edge
    }
    const PartId part = under_jaw(plan, stage, clamp);
    const auto known = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
      return row.part == part && same_line(*row.first, clamp);
    });
    if (known != rows.end()) {
      known->clamps.push_back(&clamp);
    } else {
      rows.push_back({part, &clamp, {&clamp}});
    }
  }
  return rows;
}

// The way the strip is read: towards the right, the back or up.
Direction reading_way(const Direction& along) {
  return words::side_towards(along).positive ? along : -along;
}

StripLine line_of(const Plan& plan, const Stage& stage, const Row& row, const Direction& along) {
  const Extent run = reach_of(plan.parts[row.part].facets, along);
  const Point& at = row.first->at;
  return {row.part, at + (run.lo - dot(at, along)) * along, at + (run.hi - dot(at, along)) * along,
          -row.first->axis, run.lo - dot(words::stage_corner(plan, stage), along)};
}

// Told where the table of clamps counts from elsewhere.
std::string zero_text(const StripLine& line, const words::Wording& wording) {
  return std::abs(line.zero_mm) < kSame_mm
             ? ""
             : fmt::format(", where the table has {}", length_text(line.zero_mm, wording));
}

std::string place_text(const Plan& plan, const Row& row, const Direction& along, const StripLine& line,
                       const words::Wording& wording) {
  const planner::plan::PlanPart& part = plan.parts[row.part];
  const Direction across = cross(row.first->axis, along);
  const Extent width = reach_of(part.facets, across);
  const double from_lo = dot(row.first->at, across) - width.lo;
  const double from_hi = width.hi - dot(row.first->at, across);
  const bool low = from_lo <= from_hi;
  std::vector<int> numbers;
  for (const PlannedClamp* clamp : row.clamps) {
    numbers.push_back(clamp->n);
  }
  return fmt::format("no. {}: on {}, middle line {} from its {} edge, 0 at its {} end{}",
                     words::numbers_text(numbers), words::part_name(plan, row.part),
                     length_text(low ? from_lo : from_hi, wording),
                     words::side_word(words::side_towards(low ? -across : across)),
                     words::side_word(words::side_towards(-along)), zero_text(line, wording));
}

EdgeStrip strip_of(const Plan& plan, const Stage& stage, const Row& row, const words::Wording& wording) {
  const Direction along = reading_way(row.first->pad_along);
  const Extent run = reach_of(plan.parts[row.part].facets, along);
  EdgeStrip strip;
  strip.lines = {line_of(plan, stage, row, along)};
  strip.places = {place_text(plan, row, along, strip.lines.front(), wording)};
  strip.length_mm = run.size();
  for (const PlannedClamp* clamp : row.clamps) {
    const double at_mm = dot(clamp->at, along) - run.lo;
    strip.marks.push_back({{clamp->n},
                           at_mm,
                           clamp->pad,
                           clamp->caul.value_or(planner::plan::PadSize{}),
                           at_mm + clamp->caul_shift_mm * dot(clamp->pad_along, along)});
  }
  std::stable_sort(strip.marks.begin(), strip.marks.end(),
                   [](const StripMark& a, const StripMark& b) { return a.at_mm < b.at_mm; });
  return strip;
}

bool alike(const EdgeStrip& a, const EdgeStrip& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) < kSame_mm; };
  return near(a.length_mm, b.length_mm) &&
         std::equal(a.marks.begin(), a.marks.end(), b.marks.begin(), b.marks.end(),
                    [&](const StripMark& x, const StripMark& y) {
                      return near(x.at_mm, y.at_mm) && near(x.pad.along_mm, y.pad.along_mm) &&
                             near(x.pad.across_mm, y.pad.across_mm) &&
                             near(x.caul.along_mm, y.caul.along_mm) &&
                             near(x.caul.across_mm, y.caul.across_mm) &&
                             near(x.caul_at_mm, y.caul_at_mm);
                    });
}

}  // namespace

std::vector<EdgeStrip> edge_strips(const Plan& plan, const Stage& stage,
                                   const words::Wording& wording) {
  std::vector<EdgeStrip> strips;
  for (const Row& row : rows_of(plan, stage)) {
    EdgeStrip strip = strip_of(plan, stage, row, wording);
    const auto known = std::find_if(strips.begin(), strips.end(),
                                    [&](const EdgeStrip& other) { return alike(other, strip); });
    if (known == strips.end()) {
      strips.push_back(std::move(strip));
      continue;
    }
    known->places.push_back(strip.places.front());
    known->lines.push_back(strip.lines.front());
    for (std::size_t i = 0; i < strip.marks.size(); ++i) {
      known->marks[i].clamps.push_back(strip.marks[i].clamps.front());
    }
  }
  return strips;
}

}  // namespace cli::model
