// Which glue lines of an axis yield together: those are solved as one system.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/axis/clamp_sites.h"
#include "planner/pressure/pressure_line.h"

namespace planner::clamps::axis {

struct PressSetUp {
  std::span<const AskedLine> lines;
  std::span<const ClampSite> sites;
  std::span<const int> clamps_on_line;  // their number decides how far each one's force spreads
  // Height of a full-length strip of the panel's wood on every strip and along both edges of boards
  // side by side; 0: none.
  double caul_mm = 0;
};

// Lines that share a system of springs: boards side by side, or strips under one part that meet.
struct CoupledLines {
  std::vector<std::size_t> lines;
  bool edge = false;
  pressure::EdgePanel panel;
  std::vector<pressure::PanelOnStrip> strips;
  std::vector<pressure::Tie> ties;
  std::size_t first_joint = 0;  // edge: in the panel's, past a caul's
  std::size_t base = 0;         // edge: the line whose x the stack has
  std::size_t system = 0;       // shared by groups that are built alike
  std::size_t twin = 0;         // the first group that is pressed alike as well: it has the beds
};

// Every line is in one group. Those of edges first, from the low side; then strips by their lowest
// line.
std::vector<CoupledLines> coupled_lines(const PressSetUp& set_up);

// The same strips, tied alike: the shelves of a case.
bool built_alike(const CoupledLines& a, const CoupledLines& b);

// A clamp on a site as the group feels it; nothing where it doesn't. `lines` are those set up.
std::vector<pressure::Push> pushes_on(const CoupledLines& group, std::span<const AskedLine> lines,
                                      const ClampSite& site, double force_N);

}  // namespace planner::clamps::axis
