#include "cli/text/fit_sheet.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/text/page.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"
#include "planner/base/units.h"
#include "planner/work/joint_kind.h"

namespace cli::text {
namespace {

using planner::dry_fit::CutFit;
using planner::dry_fit::Fit;
using planner::dry_fit::OpeningFit;
using planner::dry_fit::RingCorner;
using planner::dry_fit::SquareFit;
using planner::dry_fit::WindFit;
using planner::work::Job;
using planner::work::PartId;

std::string name_of(const Job& job, PartId part) {
  return words::printable(job.parts[part].name);
}

std::string names_of(const Job& job, const std::vector<PartId>& parts) {
  std::vector<std::string> names;
  for (const PartId part : parts) {
    names.push_back(name_of(job, part));
  }
  return words::list_text(names);
}

// Differences: a hundredth of a millimetre; 1/64 in, and below that a thousandth of an inch.
std::string difference_text(double mm, const words::Wording& wording) {
  constexpr double k64th_mm = planner::base::kMmPerInch / 64;
  return wording.units == planner::base::Units::mm ? fmt::format("{:.2f} mm", mm)
         : mm < k64th_mm - 0.01                    ? gap_text(mm, wording)
                                                   : fine_text(mm, wording);
}

std::string pattern_text(const Job& job, const OpeningFit& fit, const words::Wording& wording) {
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

void opening_section(const Job& job, const OpeningFit& fit, const words::TextStyle& style,
                     Page& page) {
  const words::Wording& wording = style.wording;
  page.heading("CUT TO FIT");
  const std::string what =
      fit.parts.empty() ? "every part that closes it" : names_of(job, fit.parts);
  const std::string from =
      fit.tenons_mm > 0
          ? fmt::format("{}, the smallest reading, and {} of tenons",
                        fine_text(fit.opening_mm, wording), fine_text(fit.tenons_mm, wording))
          : "the smallest reading";
  page.item("-", fmt::format("Cut {} to {}{}: {}. Saw a shaving over ({}) and plane until it "
                             "slides in.",
                             what, fine_text(fit.cut_mm(), wording),
                             fit.parts.size() == 1   ? ""
                             : fit.parts.size() == 2 ? ", both alike"
                                                     : ", all alike",
                             from, difference_text(planner::dry_fit::kShaving_mm, wording)));
  if (fit.drawn_mm && std::abs(*fit.drawn_mm - fit.cut_mm()) > 0.05) {
    page.item("-", fmt::format("The drawing has {}: {} by {}.", fine_text(*fit.drawn_mm, wording),
                               fit.cut_mm() > *fit.drawn_mm ? "longer now" : "shorter now",
                               difference_text(std::abs(fit.cut_mm() - *fit.drawn_mm), wording)));
  }
  if (!fit.uneven()) {
    page.item("-", fit.spread_mm < 0.01 ? "The readings agree."
                                        : fmt::format("The readings agree within {}.",
                                                      difference_text(fit.spread_mm, wording)));
    return;
  }
  const std::string neighbours =
      fit.neighbours.empty() ? "the parts beside them" : names_of(job, fit.neighbours);
  page.item("-",
            fmt::format("But the readings spread by {}: look at {} before cutting. As measured, "
                        "{}. Is each home in its joint, straight and upright?",
                        difference_text(fit.spread_mm, wording), neighbours,
                        pattern_text(job, fit, wording)));
}

std::string depth_text(const CutFit& fit, const std::string& mate, const words::Wording& wording) {
  const std::string depth = fine_text(*fit.depth_mm, wording) + " deep";
  const bool as_drawn = std::abs(*fit.depth_mm - fit.drawn_depth_mm) < 0.005;
  const std::string drawn =
      as_drawn ? " as drawn" : ", drawn " + fine_text(fit.drawn_depth_mm, wording);
  const double room = *fit.depth_mm - fit.goes_in_mm;
  const bool room_drawn = fit.drawn_depth_mm > fit.goes_in_mm + 0.005;
  return depth + drawn +
         (room_drawn && room >= 0 ? fmt::format("; {} goes in {}, so it still fits", mate,
                                                fine_text(fit.goes_in_mm, wording))
                                  : "");
}

std::string width_text(const CutFit& fit, const std::string& mate, const words::Wording& wording) {
  const std::string sizes = fmt::format("{} wide, {} {}", fine_text(fit.width_mm, wording), mate,
                                        fine_text(fit.mate_mm, wording));
  const std::string by = difference_text(std::abs(fit.spare_mm()), wording);
  if (std::abs(fit.spare_mm()) <= planner::dry_fit::kWorthTelling_mm) {
    return sizes + ": it fits";
  }
  if (fit.open_sided()) {
    return sizes + (fit.spare_mm() > 0 ? ": a lip of " + by + " to plane off after the glue"
                                       : ": it stands proud by " + by +
                                             "; plane it flush after "
                                             "the glue");
  }
  return sizes + (fit.spare_mm() > 0
                      ? ": " + by + " of room, more than glue fills well; shim it with a shaving"
                      : ": it doesn't go in; plane " + by + " off it");
}

void cuts_section(const Job& job, const Fit& fit, const words::Wording& wording, Page& page) {
  page.heading("CUTS AS MADE");
  for (const CutFit& cut : fit.cuts) {
    const std::string mate = name_of(job, cut.mate);
    std::string text = fmt::format(
        "{} of {} for {}: ", planner::work::trade_of(cut.kind).place_in(wording.uk_words),
        name_of(job, cut.cut_in), mate);
    if (cut.depth_mm) {
      text += depth_text(cut, mate, wording);
    }
    if (!cut.depth_mm || cut.width_measured ||
        std::abs(cut.spare_mm()) > planner::dry_fit::kWorthTelling_mm) {
      text += (cut.depth_mm ? "; " : "") + width_text(cut, mate, wording);
    }
    page.item("-", words::as_sentence(text));
  }
}

// What a cut deeper or shallower than drawn makes of the part that goes in.
void sizes_section(const Job& job, const Fit& fit, const words::Wording& wording, Page& page) {
  constexpr std::array kWays{"left-right", "front-back", "top-bottom"};
  page.heading("SIZES TO CUT");
  for (const planner::dry_fit::CutSize& size : fit.sizes) {
    const planner::work::Part& part = job.parts[size.part];
    const std::string by = difference_text(std::abs(size.longer_mm()), wording);
    const bool longer = size.longer_mm() > 0;
    if (size.axis == part.face) {
      page.item(
          "-", fmt::format("{}: {} by {}.", words::printable(part.name),
                           longer ? "lies deeper than drawn" : "stands proud, plane it flush", by));
      continue;
    }
    page.item("-", fmt::format("{}: {} {}, not {}; else the work comes out {} {} {}.",
                               words::printable(part.name), fine_text(size.cut_mm, wording),
                               size.axis == part.along ? "long" : "wide",
                               fine_text(size.drawn_mm, wording), by, longer ? "smaller" : "larger",
                               kWays[static_cast<std::size_t>(size.axis)]));
  }
}

// "front left", by the two axes of the ring.
std::string corner_text(const planner::work::Ring& ring, const RingCorner& corner) {
  const int normal = ring.normal_axis;
  const int first = normal == 0 ? 1 : 0, second = normal == 2 ? 1 : 2;
  return words::side_word({second, corner[1]}) + " " + words::side_word({first, corner[0]});
}

void square_section(const Job& job, const SquareFit& fit, const words::TextStyle& style,
                    Page& page) {
  const words::Wording& wording = style.wording;
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
  const std::string corners = corner_text(fit.ring, fit.long_corners[0]) + " and " +
                              corner_text(fit.ring, fit.long_corners[1]);
  page.item(
      "-",
      fmt::format("The {} corners are too far apart: it leans by {:.2f} degrees, {} over "
                  "the {} side, {} over the {} side.",
                  corners, std::abs(fit.lean_deg), difference_text(fit.offset_mm[0], wording),
                  fine_text(fit.sides_mm[0], wording), difference_text(fit.offset_mm[1], wording),
                  fine_text(fit.sides_mm[1], wording)));
  if (fit.square) {
    return;
  }
  const std::string clamp = wording.uk_words ? "cramp" : "clamp";
  const std::string until = fine_text(fit.wanted_mm, wording);
  if (fit.panels.empty()) {
    page.item("-", fmt::format("Put one {} from corner to corner, {}, and draw it up until both "
                               "diagonals read {}.",
                               clamp, corners, until));
  } else {
    const std::string panels = names_of(job, fit.panels);
    page.item("-", fmt::format("Set in all round, {} won't let it be squeezed square. Shift the {} "
                               "heads toward {}, or ease {} there, until both diagonals read {}.",
                               panels, clamp, corners, panels, until));
  }
}

void wind_section(const WindFit& fit, const words::TextStyle& style, Page& page) {
  const words::Wording& wording = style.wording;
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

void what_to_measure(const Job& job, const Fit& fit, const words::Wording& wording, Page& page) {
  if (!fit.closing.empty()) {
    const bool tenons = job.parts[fit.closing.front()].length.mm() > fit.closing_mm;
    page.item("-",
              fmt::format("The opening for {}{}, at both edges of each; drawn {}.",
                          names_of(job, fit.closing), tenons ? ", from shoulder to shoulder" : "",
                          fine_text(fit.closing_mm, wording)));
  }
  if (fit.ring) {
    page.item(
        "-", fmt::format(
                 "Both diagonals: {} inside, {} outside.",
                 length_text(geometry::hypotenuse(fit.ring->inside_mm[0], fit.ring->inside_mm[1]), wording),
                 length_text(geometry::hypotenuse(fit.ring->outside_mm[0], fit.ring->outside_mm[1]), wording)));
    page.item("-",
              "Wind: sticks across it near you and far from you; sighted over the near one, "
              "how far one end of the far one looks high.");
  }
  if (fit.seated) {
    page.item("-", "Any cut that came out deeper or wider than drawn.");
  }
}

// The table for the job file: as drawn, to be written over.
void dry_fit_lines(const Job& job, const Fit& fit, const words::Wording& wording, Page& page) {
  const auto quoted = [&](double mm) { return "\"" + fine_text(mm, wording) + "\""; };
  const auto names = [&](PartId a, PartId b) {
    return fmt::format("[\"{}\", \"{}\"]", name_of(job, a), name_of(job, b));
  };
  page.blank();
  page.line(
      "Write what you read into the job file, in place of these drawn sizes; openings and "
      "diagonals can be given as --openings and --diagonals instead:");
  page.line("  [dry_fit]");
  if (!fit.closing.empty()) {
    page.line(fmt::format("  openings = [{0}, {0}]", quoted(fit.closing_mm)));
    page.line("  closes = " + names(fit.closing.front(), fit.closing.back()));
  }
  if (fit.ring) {
    const auto [a, b] = fit.ring->inside_mm;
    // As the plan has it: no rule reads a drawn diagonal finer.
    page.line(fmt::format("  diagonals = [\"{0}\", \"{0}\"]  # {1} first",
                          length_text(geometry::hypotenuse(a, b), wording), corner_text(*fit.ring, {false, false})));
    const bool inches = wording.units == planner::base::Units::inch;
    page.line(fmt::format("  # wind = {}", inches ? "\"1/16 in\"" : "\"1 mm\""));
    page.line(
        fmt::format("  # sticks = {}  # how long they are", inches ? "\"18 in\"" : "\"450 mm\""));
    page.line("  # high = \"left\"  # or right: the end of the far one that looks high");
  }
  if (fit.seated) {
    page.line("  [[dry_fit.cut]]");
    page.line("  between = " + names(fit.seated->cut_in, fit.seated->mate));
    page.line(fmt::format("  depth = {}  # or width, or both", quoted(fit.seated->drawn_depth_mm)));
  }
}

void measure_section(const Job& job, const Fit& fit, const words::TextStyle& style, Page& page) {
  const words::Wording& wording = style.wording;
  if (fit.closing.empty() && !fit.ring && !fit.seated) {
    page.line("Nothing to measure: no four parts go round an opening, and none sits in a cut.");
    return;
  }
  page.heading("WHAT TO MEASURE, with the parts dry in clamps");
  what_to_measure(job, fit, wording, page);
  dry_fit_lines(job, fit, wording, page);
}

}  // namespace

std::string fine_text(double mm, const words::Wording& wording) {
  if (wording.units == planner::base::Units::mm) {
    return fmt::format("{:.1f} mm", mm);
  }
  auto whole = std::llround(mm / planner::base::kMmPerInch * 64);
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

std::string fit_sheet(const Job& job, const Fit& fit, const words::TextStyle& style) {
  Page page(style.colour);
  if (!fit.opening && !fit.square && !fit.wind && fit.cuts.empty()) {
    measure_section(job, fit, style, page);
    return page.text();
  }
  page.line(fit.good() ? "GOOD: nothing to fix before the glue."
                       : "NOT YET: fix this before the glue.");
  if (fit.opening) {
    opening_section(job, *fit.opening, style, page);
  }
  if (!fit.cuts.empty()) {
    cuts_section(job, fit, style.wording, page);
  }
  if (!fit.sizes.empty()) {
    sizes_section(job, fit, style.wording, page);
  }
  if (fit.square) {
    square_section(job, *fit.square, style, page);
  }
  if (fit.wind) {
    wind_section(*fit.wind, style, page);
  }
  return page.text();
}

}  // namespace cli::text
