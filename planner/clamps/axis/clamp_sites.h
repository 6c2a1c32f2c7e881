// Where a clamp can stand along an axis: lines of action through solid wood between two free faces,
// over a glue line.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/axis/asked_line.h"
#include "planner/clamps/axis/line_of_action.h"
#include "planner/clamps/axis/pressing_axes.h"
#include "planner/plan/plan.h"

namespace planner::clamps::axis {

// A straight run of spots: the middle of one or more glue lines, seen along the axis. Lines behind
// one another (lid and bottom; the joints of a panel) share a track.
struct ClampTrack {
  geometry::Direction along;
  geometry::Point start;
  double length_mm = 0;
  double across_mm = 0;            // of the narrowest of its lines
  std::vector<std::size_t> lines;  // indices into the lines given, ascending
};
std::vector<ClampTrack> clamp_tracks(std::span<const AskedLine> lines,
                                     const geometry::Direction& axis);

inline constexpr double kBarClears_mm = 3;  // between a bar and the work it passes

struct ClampSite {
  std::size_t track = 0;
  double x_mm = 0;     // along the track
  geometry::Point at;  // where the line of action enters the work, on the low side of the axis
  double span_mm = 0;  // from there to where it leaves
  plan::PadSize pad;   // that has its whole face on the wood at both ends
  std::array<Slope, 2> slope;      // of that wood, low end and high
  std::vector<work::PartId> path;  // what it passes through, in order
  std::vector<PressedAt> presses;
  // How far a bar must stand off to pass the work: towards -along, +along, -across, +across of the
  // track (across = axis x along).
  std::array<double, 4> reach_mm{};
  // Of a clamp whose throat doesn't reach the strip's middle: the like place on the other side of it.
  struct Place {
    geometry::Point at;
    std::array<double, 4> reach_mm{};
  };
  std::optional<Place> opposite;
  // How hard it may be pressed; clamp_sites() leaves these to who knows hands and packing.
  double limit_N = 0;            // the most that a clamp is drawn to
  double bears_N = 0;            // what the wood alone would bear
  double bearing_limit_MPa = 0;  // of that wood: half the compression perpendicular
};

// Everything a site is judged by.
struct SiteSearch {
  const work::Job& job;
  std::span<const work::Joint> joints;
  const pressure::Work& work;
  std::span<const geometry::BearingFace> bearing;  // of the work, along the axis
  std::span<const AskedLine> lines;
  geometry::Direction axis;
  plan::PadSize pad;            // wanted: cut shorter for a short line, narrower for a narrow one
  double max_gap_mm = 0.2;      // between parts that carry force across
  double off_centre = 1.0 / 6;  // how far off the strip's middle a clamp may stand, of its width
  double throat_mm = 0;         // of the clamps: they reach no farther in from an edge of the work
};

// On each track a grid of at most 10 mm that starts with the pad flush with the line's end, the
// middle and the places where tracks cross, on the strip's middle or as far off it as pad and throat
// want and `off_centre` lets them. A spot is left out where the line of action meets a
// hollow, where the pad (shaped, where the face given as bearing slopes) hasn't its whole face on
// one free part at each end, where no bar passes the work within the throat, or where it lies in
// the way of a saw cut to be made later. By track, then x.
std::vector<ClampSite> clamp_sites(const SiteSearch& search, std::span<const ClampTrack> tracks);

// How far a bar must stand off to pass the work, from a line of action that enters it at `at`: as
// ClampSite::reach_mm.
std::array<double, 4> bar_reach_mm(const pressure::Work& work, const geometry::Point& at,
                                   const geometry::Direction& along,
                                   const geometry::Direction& across);

// Of clamps in a row that stand beside the strip's middle for want of throat, every other goes to its
// other side, so that the work isn't bowed. `chosen`: sites of one track, by x; each lies on one side yet.
void stand_alternately(std::span<ClampSite* const> chosen);

// True where the pads of two sites of one axis would overlap or come nearer than 2 mm.
bool pads_collide(const ClampSite& a, const ClampSite& b, std::span<const ClampTrack> tracks,
                  const geometry::Direction& axis);

// The stretch of a track that a full-length caul covers: all of it, but for the corners that the
// caul of a longer track (of like ones an earlier) already covers.
geometry::Extent caul_run(std::span<const ClampTrack> tracks, std::size_t track,
                          const geometry::Direction& axis);

geometry::Direction across_of(const ClampTrack& track, const geometry::Direction& axis);

}  // namespace planner::clamps::axis
