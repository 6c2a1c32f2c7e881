#include "cli/sheet/fit_sheet.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/sheet/page.h"
#include "cli/trade_words.h"

namespace cli {
namespace {

using planner::CutFit;
using planner::Fit;
using planner::Job;
using planner::OpeningFit;
using planner::PartId;
using planner::RingCorner;
using planner::SquareFit;
using planner::WindFit;

std::string name_of(const Job& job, PartId part) {
  return printable(job.parts[part].name);
}

std::string names_of(const Job& job, const std::vector<PartId>& parts) {
  std::vector<std::string> names;
  for (const PartId part : parts) {
    names.push_back(name_of(job, part));
  }
  return list_text(names);
}

// Differences: a hundredth of a millimetre, a thousandth of an inch.
std::string difference_text(double mm, const Wording& wording) {
  return wording.units == planner::Units::inch ? gap_text(mm, wording)
                                               : fmt::format("{:.2f} mm", mm);
}

std::string pattern_text(const Job& job, const OpeningFit& fit, const Wording& wording) {
  const std::string by = difference_text(std::abs(fit.pattern_mm), wording);
  using Pattern = OpeningFit::Pattern;
  switch (fit.pattern) {
    case Pattern::none:
      return fmt::format("reading {} is the widest, reading {} the narrowest", fit.largest + 1,
                         fit.smallest + 1);
    case Pattern::between_parts: {
      const bool second = fit.pattern_mm > 0;
      return fmt::format("they are {} further apart at {} than at {}", by,
                         name_of(job, fit.parts[second ? 1 : 0]),
                         name_of(job, fit.parts[second ? 0 : 1]));
    }
    case Pattern::low_to_high:
      return fmt::format("one of them leans: {} wider at each second reading than at the first",
                         (fit.pattern_mm > 0 ? "" : "minus ") + by);
    case Pattern::twist:
      return "one of them is twisted, or out of its joint at one corner";
  }
  return {};
}

void opening_section(const Job& job, const OpeningFit& fit, const TextStyle& style, Page& page) {
  const Wording& wording = style.wording;
  page.heading("CUT TO FIT");
  const std::string what =
      fit.parts.empty() ? "every part that closes it" : names_of(job, fit.parts);
  page.item("-", fmt::format("Cut {} to {}{}: the smallest reading. Saw a shaving over ({}) and "
                             "plane until it slides in.",
                             what, fine_text(fit.cut_mm, wording),
                             fit.parts.size() == 1 ? "" : ", all alike",
                             difference_text(planner::kShaving_mm, wording)));
  if (fit.drawn_mm && std::abs(*fit.drawn_mm - fit.cut_mm) > 0.05) {
    page.item("-", fmt::format("The drawing has {}: {} by {}.", fine_text(*fit.drawn_mm, wording),
                               fit.cut_mm > *fit.drawn_mm ? "longer now" : "shorter now",
                               difference_text(std::abs(fit.cut_mm - *fit.drawn_mm), wording)));
  }
  if (!fit.uneven()) {
    page.item(
        "-", fmt::format("The readings agree within {}.", difference_text(fit.spread_mm, wording)));
    return;
  }
  const std::string neighbours =
      fit.neighbours.empty() ? "the neighbours" : names_of(job, fit.neighbours);
  page.item("-",
            fmt::format("But the readings spread by {}: look at {} before cutting. As measured, "
                        "{}. Is each home in its joint, straight and upright?",
                        difference_text(fit.spread_mm, wording), neighbours,
                        pattern_text(job, fit, wording)));
}

std::string axis_size_word(const planner::Part& part, int axis) {
  return axis == part.along ? "length" : axis == part.face ? "thickness" : "width";
}

void cut_lines(const Job& job, const CutFit& fit, const TextStyle& style, Page& page) {
  const Wording& wording = style.wording;
  const std::string place = fmt::format("{} of {} for {}", to_text(fit.kind, wording.uk_words),
                                        name_of(job, fit.cut_in), name_of(job, fit.mate));
  if (const double proud = fit.proud_mm(); std::abs(proud) > 0.005) {
    const planner::Part& mate = job.parts[fit.mate];
    page.item("-", fmt::format(
                       "The {} is {} {} than drawn: {} stands {} by that much, and the work comes "
                       "out {}, unless the {} of {} is made {} {}.",
                       place, difference_text(std::abs(proud), wording),
                       proud > 0 ? "shallower" : "deeper", name_of(job, fit.mate),
                       proud > 0 ? "out" : "in", proud > 0 ? "larger" : "smaller",
                       axis_size_word(mate, fit.depth_axis), name_of(job, fit.mate),
                       difference_text(std::abs(proud), wording), proud > 0 ? "less" : "more"));
  }
  const double spare = fit.spare_mm();
  const bool open_side = fit.kind == planner::JointKind::rabbet;
  if (std::abs(spare) <= 0.1) {
    return;
  }
  const std::string sizes =
      fmt::format("The {} is {} wide, {} is {}", place, fine_text(fit.width_mm, wording),
                  name_of(job, fit.mate), fine_text(fit.mate_mm, wording));
  const std::string by = difference_text(std::abs(spare), wording);
  if (spare > 0) {
    page.item("-", open_side
                       ? fmt::format("{}: a lip of {} is left to plane off.", sizes, by)
                       : fmt::format("{}: {} of room, more than glue fills well; shim it with "
                                     "a shaving.",
                                     sizes, by));
  } else {
    page.item("-", open_side
                       ? fmt::format("{}: it stands proud by {}; plane it flush after the glue, "
                                     "or widen the cut.",
                                     sizes, by)
                       : fmt::format("{}: it doesn't go in; plane {} off it.", sizes, by));
  }
}

// "front left", by the two axes of the ring.
std::string corner_text(const planner::Ring4& ring, const RingCorner& corner) {
  const int normal = ring.normal_axis;
  const int first = normal == 0 ? 1 : 0, second = normal == 2 ? 1 : 2;
  return side_word({second, corner[1]}) + " " + side_word({first, corner[0]});
}

void square_section(const Job& job, const SquareFit& fit, const TextStyle& style, Page& page) {
  const Wording& wording = style.wording;
  page.heading("SQUARE");
  const auto [d1, d2] = fit.diagonals_mm;
  page.item("-", fmt::format("The {} diagonals are {} and {}: they differ by {}; up to {} will do "
                             "(common practice).",
                             fit.inside ? "inside" : "outside", fine_text(d1, wording),
                             fine_text(d2, wording), difference_text(std::abs(d1 - d2), wording),
                             difference_text(fit.tolerance_mm, wording)));
  if (fit.other_sides) {
    page.item("-",
              "Both are off the drawn size: measure the sides too, and whether both diagonals "
              "run inside, or both outside.");
  }
  if (d1 == d2) {
    return;
  }
  const std::string corners = corner_text(fit.ring, fit.long_corners[0]) + " to " +
                              corner_text(fit.ring, fit.long_corners[1]);
  page.item(
      "-",
      fmt::format("It leans by {:.2f} degrees. The long way is {}: over {} of side the far "
                  "end is out by {}, over {} by {}.",
                  std::abs(fit.lean_deg), corners, fine_text(fit.sides_mm[0], wording),
                  difference_text(fit.offset_mm[0], wording), fine_text(fit.sides_mm[1], wording),
                  difference_text(fit.offset_mm[1], wording)));
  if (fit.square) {
    return;
  }
  const std::string clamp = wording.uk_words ? "cramp" : "clamp";
  if (fit.panels.empty()) {
    page.item("-",
              fmt::format("Put one {} across it from {}, the long way, and draw it up until both "
                          "diagonals read {}.",
                          clamp, corners, fine_text(fit.wanted_mm, wording)));
  } else {
    page.item("-", fmt::format("With {} in rabbets or grooves all round it can't be squeezed "
                               "square. Shift the {} heads towards {} and {}, or ease {} at those "
                               "corners, until both diagonals read {}.",
                               names_of(job, fit.panels), clamp,
                               corner_text(fit.ring, fit.long_corners[0]),
                               corner_text(fit.ring, fit.long_corners[1]),
                               names_of(job, fit.panels), fine_text(fit.wanted_mm, wording)));
  }
}

void wind_section(const WindFit& fit, const TextStyle& style, Page& page) {
  const Wording& wording = style.wording;
  page.heading("WIND");
  page.item("-",
            fmt::format("One corner stands {} out of the plane of the other three; up to {} will "
                        "do (common practice).",
                        difference_text(fit.rise_mm, wording),
                        difference_text(fit.tolerance_mm, wording)));
  if (fit.flat) {
    return;
  }
  const std::string clamp = wording.uk_words ? "cramp" : "clamp";
  if (!fit.known_side) {
    page.item("-",
              fmt::format("On a flat bench, {} the corner that stands off down until the sticks "
                          "agree.",
                          clamp));
    return;
  }
  const RingCorner opposite{!fit.high[0], !fit.high[1]};
  page.item("-",
            fmt::format("The {} and {} corners are high. On a flat bench, shim the other two and "
                        "{} these down until the sticks agree; then look for the joint that "
                        "isn't home.",
                        corner_text(fit.ring, fit.high), corner_text(fit.ring, opposite), clamp));
}

void measure_section(const Job& job, const Fit& fit, const TextStyle& style, Page& page) {
  const Wording& wording = style.wording;
  page.heading("WHAT TO MEASURE, with the parts dry in clamps");
  std::vector<std::string> lines;
  if (!fit.closing.empty()) {
    page.item("-", fmt::format("The opening for {}, at both edges of each; drawn {}.",
                               names_of(job, fit.closing),
                               fine_text(job.parts[fit.closing.front()].length.mm(), wording)));
  }
  if (fit.ring) {
    page.item(
        "-", fmt::format(
                 "Both diagonals: {} inside, {} outside.",
                 fine_text(std::hypot(fit.ring->inside_mm[0], fit.ring->inside_mm[1]), wording),
                 fine_text(std::hypot(fit.ring->outside_mm[0], fit.ring->outside_mm[1]), wording)));
    page.item("-", "Wind: how far one end of the far winding stick looks high.");
  }
  page.item("-", "Any cut that came out deeper or wider than drawn.");
  page.blank();
  page.line("Write it into the job file, or give --openings and --diagonals:");
  page.line("  [dry_fit]");
  if (!fit.closing.empty()) {
    std::string names;
    for (const PartId part : fit.closing) {
      names += (names.empty() ? "\"" : ", \"") + name_of(job, part) + "\"";
    }
    page.line("  openings  = [0, 0, 0, 0]");
    page.line(fmt::format("  closes    = [{}]", names));
  }
  page.line("  diagonals = [0, 0]");
}

}  // namespace

std::string fine_text(double mm, const Wording& wording) {
  if (wording.units == planner::Units::mm) {
    return fmt::format("{:.1f} mm", mm);
  }
  auto whole = std::llround(mm / 25.4 * 64);
  long long parts = 64;
  const long long inches = whole / parts;
  whole %= parts;
  while (whole != 0 && whole % 2 == 0) {
    whole /= 2;
    parts /= 2;
  }
  return whole == 0    ? fmt::format("{} in", inches)
         : inches == 0 ? fmt::format("{}/{} in", whole, parts)
                       : fmt::format("{} {}/{} in", inches, whole, parts);
}

std::string fit_sheet(const Job& job, const Fit& fit, const TextStyle& style) {
  Page page(style.colour);
  if (!fit.opening && !fit.square && !fit.wind && fit.cuts.empty()) {
    measure_section(job, fit, style, page);
    return page.text();
  }
  page.line(fit.good() ? "GOOD: nothing to mend before the glue."
                       : "NOT YET: mend this before the glue.");
  if (fit.opening) {
    opening_section(job, *fit.opening, style, page);
  }
  if (!fit.cuts.empty()) {
    page.heading("CUTS AS MADE");
    for (const CutFit& cut : fit.cuts) {
      cut_lines(job, cut, style, page);
    }
  }
  if (fit.square) {
    square_section(job, *fit.square, style, page);
  }
  if (fit.wind) {
    wind_section(*fit.wind, style, page);
  }
  return page.text();
}

}  // namespace cli
