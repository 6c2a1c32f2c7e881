#include "cli/pictures/clamp_solids.h"

#include <algorithm>
#include <cmath>

#include "cli/pictures/solids.h"
#include "planner/tables/clamp.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Point;
using planner::plan::PlannedClamp;

// The line of action, from one jaw's face on pad or caul to the other's.
struct Line {
  Point low, high;      // where the iron begins
  Direction axis, bar;  // unit; towards the bar
};

Line line_of(const PlannedClamp& clamp) {
  const double low = clamp.under_low_jaw_mm(), high = clamp.under_high_jaw_mm();
  const Direction bar = length(clamp.bar_side) > 0.5 ? clamp.bar_side : clamp.pad_along;
  return {clamp.at + (-low) * clamp.axis, clamp.at + (clamp.span_mm + high) * clamp.axis, clamp.axis, bar};
}

Piece slab_under(const PlannedClamp& clamp, const planner::plan::PadSize& size, double shift_mm,
                 bool high, double from_mm) {
  const Direction across = cross(clamp.axis, clamp.pad_along);
  const double middle = from_mm + size.thick_mm / 2;
  const Point at = clamp.at + (high ? clamp.span_mm + middle : -middle) * clamp.axis +
                   shift_mm * clamp.pad_along;
  return {Stuff::wood,
          block(at, {(size.along_mm / 2) * clamp.pad_along, (size.across_mm / 2) * across,
                     (size.thick_mm / 2) * clamp.axis})};
}

std::vector<Piece> pads_of(const PlannedClamp& clamp) {
  std::vector<Piece> pieces;
  for (const bool high : {false, true}) {
    if (!high && clamp.form_mm > 0) {
      continue;
    }
    double from = clamp.platen_mm;
    if (clamp.caul) {
      pieces.push_back(slab_under(clamp, *clamp.caul, clamp.caul_shift_mm, high, from));
      from += clamp.caul->thick_mm;
    }
    if (clamp.pad.thick_mm > 0 && clamp.pad.along_mm > 0) {
      pieces.push_back(slab_under(clamp, clamp.pad, 0, high, from));
    }
  }
  return pieces;
}

// Jaws as deep as the reach, and the bar; it runs past the sliding jaw by a little of what
// is left of it. Then the screw with its grip.
void add_frame(const planner::tables::ClampKind& kind, const Line& line, bool handle_high, bool with_handle,
               ClampSolid& out) {
  const Direction side = cross(line.axis, line.bar);
  const double reach = kind.throat_mm ? kind.throat_mm->lo : 40;
  const double wide = std::max({kind.bar_width_mm, 0.5 * std::min(kind.pad_width_mm, 40.0), 12.0});
  const double deep = std::max(kind.bar_depth_mm, 12.0), jaw = std::clamp(0.6 * kind.fixed_jaw_mm, 10.0, 30.0);
  const double front = -std::min(kind.pad_width_mm / 2, 15.0);
  constexpr double kTail_mm = 40;
  const double span = dot(line.high - line.low, line.axis);
  const auto at = [&](double along, double out_mm) {
    return line.low + along * line.axis + out_mm * line.bar;
  };
  const double low = -jaw - (handle_high ? 0 : kTail_mm), high = span + jaw + (handle_high ? kTail_mm : 0);
  // Convex pieces cover one another in one order only, so that none of their faces need be cut.
  const auto piece = [&](double from, double to, double in, double out_mm) {
    const geometry::Ring ring{at(from, in), at(to, in), at(to, out_mm), at(from, out_mm)};
    out.pieces.push_back({Stuff::iron, extruded(ring, (wide / 2) * side)});
  };
  piece(-jaw, 0, front, reach);
  piece(span, span + jaw, front, reach);
  piece(low, high, reach, reach + deep);
  const double sense = handle_high ? 1 : -1;
  const Point end = (handle_high ? line.high : line.low) + (sense * jaw) * line.axis;
  const double screw = std::clamp(kind.head_mm * 0.35, 18.0, 50.0);
  const double grip = std::clamp(kind.head_mm * 0.6, 30.0, 90.0);
  const Point neck = end + (sense * screw) * line.axis;
  out.handle = neck + (sense * grip) * line.axis;
  if (with_handle) {
    out.pieces.push_back({Stuff::iron, rod(end, neck, side, 12, 12)});
    out.pieces.push_back({Stuff::wood, rod(neck, out.handle, side, 26, 26)});
  }
}

// Bands from corner to corner, pads beside the corners, the buckle where it is drawn up.
void add_strap(const PlannedClamp& clamp, ClampSolid& out) {
  constexpr double kThick_mm = 4;
  const double wide = planner::tables::band_kind().pad_width_mm;
  for (std::size_t i = 0; i < clamp.round.size(); ++i) {
    const Point &from = clamp.round[i], &to = clamp.round[(i + 1) % clamp.round.size()];
    const Direction along = geometry::unit(to - from), outward = cross(along, clamp.axis);
    const double off = clamp.pad.thick_mm + kThick_mm / 2;
    out.pieces.push_back({Stuff::iron, rod(from + off * outward, to + off * outward, clamp.axis, wide,
                                           kThick_mm)});
    if (clamp.pad.thick_mm <= 0 || clamp.pad.along_mm <= 0) {
      continue;
    }
    const Direction half = (clamp.pad.along_mm / 2) * along;
    for (const Point& middle : {from + half, to + (-half)}) {
      out.pieces.push_back(
          {Stuff::wood, block(middle + (clamp.pad.thick_mm / 2) * outward,
                              {half, (std::max(clamp.pad.across_mm, wide) / 2) * clamp.axis,
                               (clamp.pad.thick_mm / 2) * outward})});
    }
    const Direction to_buckle = clamp.at - from;
    const double run = dot(to_buckle, along);
    if (run >= 0 && run <= length(to - from) && std::abs(dot(to_buckle, outward)) < 1 + off) {
      constexpr double kBuckle_mm = 30;
      const Point at = from + run * along + (off + kBuckle_mm / 4) * outward;
      out.pieces.push_back({Stuff::iron, block(at, {kBuckle_mm * along, (0.7 * wide) * clamp.axis,
                                                    (kBuckle_mm / 4) * outward})});
      out.handle = at + kBuckle_mm * outward;
    }
  }
}

// Of one size in one place.
bool same_slab(const Piece& a, const Piece& b) {
  const auto twice_an_end = [](const Piece& piece) {
    const geometry::Ring& end = piece.facets[0].regions[0].outer;
    return Direction{end[0].x + end[2].x, end[0].y + end[2].y, end[0].z + end[2].z};
  };
  return a.stuff == Stuff::wood && b.stuff == Stuff::wood &&
         length(twice_an_end(a) - twice_an_end(b)) < 0.1 &&
         std::abs(a.facets[0].area_mm2 - b.facets[0].area_mm2) < 0.1;
}

}  // namespace

ClampSolid clamp_solid(const PlannedClamp& clamp, const Direction& eye, bool with_handle) {
  ClampSolid out{clamp.n, {}, clamp.at};
  if (!clamp.round.empty()) {
    add_strap(clamp, out);
    return out;
  }
  out.pieces = pads_of(clamp);
  if (const planner::tables::ClampKind* kind = planner::tables::find_clamp_kind(clamp.kind)) {
    add_frame(*kind, line_of(clamp), dot(clamp.axis, eye) > 0, with_handle, out);
  }
  return out;
}

std::vector<ClampSolid> clamp_solids(const std::vector<const PlannedClamp*>& clamps, const Direction& eye,
                                     bool with_handles) {
  std::vector<ClampSolid> all;
  for (const PlannedClamp* clamp : clamps) {
    ClampSolid solid = clamp_solid(*clamp, eye, with_handles);
    std::erase_if(solid.pieces, [&](const Piece& piece) {
      return std::any_of(all.begin(), all.end(), [&](const ClampSolid& other) {
        return std::any_of(other.pieces.begin(), other.pieces.end(),
                           [&](const Piece& known) { return same_slab(known, piece); });
      });
    });
    all.push_back(std::move(solid));
  }
  return all;
}

std::vector<Piece> cross_caul_pieces(const planner::plan::Stage& stage, const geometry::Box& work,
                                     const Direction& up) {
  std::vector<Piece> pieces;
  if (!stage.cross_cauls) {
    return pieces;
  }
  const planner::plan::CrossCauls& cauls = *stage.cross_cauls;
  const Direction& along = geometry::kAxis[cauls.along_axis];
  const Direction across = cross(up, along);
  const Point middle = work.lo + 0.5 * (work.hi - work.lo);
  const double half_high = std::abs(dot(work.hi - work.lo, up)) / 2;
  const double half_wide = std::abs(dot(work.hi - work.lo, across)) / 2;
  for (const double at : cauls.at_mm) {
    const Point line = middle + (at - dot(middle, along)) * along;
    for (const double side : {-1.0, 1.0}) {
      const Point on = line + (side * (half_high + cauls.side_mm / 2)) * up;
      pieces.push_back({Stuff::wood, block(on, {(cauls.length_mm / 2) * across,
                                                (cauls.side_mm / 2) * along, (cauls.side_mm / 2) * up})});
    }
    // The clamp at either end: a plain frame over both cauls.
    for (const double end : {-1.0, 1.0}) {
      const double out_mm = std::max(half_wide, cauls.length_mm / 2 - cauls.side_mm);
      const Point post = line + (end * (out_mm + 10)) * across;
      const Direction rise = (half_high + cauls.side_mm + 12) * up;
      const auto arm = [&](double side) {
        return rod(post + side * rise, post + side * rise + (-end * 40) * across, along, 16, 12);
      };
      pieces.push_back({Stuff::iron, rod(post + (-rise), post + rise + 30 * up, along, 12, 16)});
      pieces.push_back({Stuff::iron, arm(1)});
      pieces.push_back({Stuff::iron, arm(-1)});
    }
  }
  return pieces;
}

std::vector<Piece> backing_pieces(const PlannedClamp& clamp, const geometry::Box& work) {
  const Point middle = work.lo + 0.5 * (work.hi - work.lo);
  const Direction half = 0.5 * (work.hi - work.lo);
  const auto slab = [&](bool high, double thick_mm) {
    std::array<Direction, 3> halves{half.x * geometry::kAxis[0], half.y * geometry::kAxis[1],
                                    half.z * geometry::kAxis[2]};
    double off = 0;
    for (Direction& side : halves) {
      if (const double along = dot(side, clamp.axis); along > 0) {
        off = along + thick_mm / 2;
        side = (thick_mm / 2) * clamp.axis;
      }
    }
    return Piece{Stuff::wood, block(middle + (high ? off : -off) * clamp.axis, halves)};
  };
  std::vector<Piece> pieces;
  if (clamp.form_mm > 0) {
    pieces.push_back(slab(false, clamp.form_mm));
  }
  if (clamp.platen_mm > 0) {
    pieces.push_back(slab(false, clamp.platen_mm));
    pieces.push_back(slab(true, clamp.platen_mm));
  }
  return pieces;
}

}  // namespace cli::pictures
