#include "planner/clamps/axis/coupled_lines.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "planner/pressure/crush.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;

constexpr double kSamePlane_mm = 0.5;
constexpr double kSameDistance_mm = 1e-6;

work::PartId low_part(const pressure::GlueLine& line) {
  return line.from_low ? line.over : line.under;
}
work::PartId high_part(const pressure::GlueLine& line) {
  return line.from_low ? line.under : line.over;
}
const pressure::EdgeBoard& low_board(const pressure::GlueLine& line) {
  return line.from_low ? line.over_board : line.under_board;
}
const pressure::EdgeBoard& high_board(const pressure::GlueLine& line) {
  return line.from_low ? line.under_board : line.over_board;
}

// As wide as stands on the edge by itself, of the panel's wood.
pressure::EdgeBoard edge_caul(const pressure::GlueLine& line, const pressure::EdgeBoard& board,
                              const PressSetUp& set_up) {
  return {set_up.caul_mm, std::max(board.thickness_mm, pressure::kLeastPad_mm), line.offcut};
}

// Where the middle lines of two strips of one panel meet, if they do: as far along each.
std::optional<std::array<double, 2>> corner(const pressure::GlueLine& a,
                                            const pressure::GlueLine& b) {
  const double cosine = dot(a.along, b.along);
  const double sine2 = 1 - cosine * cosine;
  if (sine2 < 0.05) {
    return std::nullopt;
  }
  const Direction d = b.start - a.start;
  const double da = dot(d, a.along), db = dot(d, b.along);
  const double xa = std::clamp((da - cosine * db) / sine2, 0.0, a.length_mm);
  const double xb = std::clamp((cosine * da - db) / sine2, 0.0, b.length_mm);
  const double apart = geometry::length(point_at(b, xb) - point_at(a, xa));
  return apart <= std::max(a.across_mm, b.across_mm) ? std::optional(std::array{xa, xb})
                                                     : std::nullopt;
}

bool under_one_part(const pressure::GlueLine& a, const pressure::GlueLine& b) {
  return b.shape != pressure::LineShape::edge && a.over == b.over && a.from_low == b.from_low &&
         std::abs(a.offset_mm - b.offset_mm) <= kSamePlane_mm;
}

// Boards side by side: a chain of edge lines, each beginning with the board the last one ended
// with. A caul along either edge is one board more, which can come off.
void add_edges(const PressSetUp& set_up, std::vector<CoupledLines>& groups) {
  const std::span<const AskedLine> lines = set_up.lines;
  std::vector<std::size_t> edges;
  for (std::size_t l = 0; l < lines.size(); ++l) {
    if (lines[l].shape == pressure::LineShape::edge) {
      edges.push_back(l);
    }
  }
  std::stable_sort(edges.begin(), edges.end(), [&](std::size_t a, std::size_t b) {
    return lines[a].offset_mm < lines[b].offset_mm - 1e-6;
  });
  std::vector<char> used(lines.size(), 0);
  for (const std::size_t first : edges) {
    if (used[first] != 0) {
      continue;
    }
    CoupledLines group;
    group.edge = true;
    group.base = first;
    for (const std::size_t l : edges) {
      if (used[l] == 0 &&
          (group.lines.empty() || low_part(lines[l]) == high_part(lines[group.lines.back()]))) {
        used[l] = 1;
        group.lines.push_back(l);
        group.base = lines[l].length_mm < lines[group.base].length_mm ? l : group.base;
      }
    }
    std::vector<pressure::EdgeBoard> boards{low_board(lines[first])};
    std::vector<pressure::BowGap> gaps;
    bool bowed = false;
    const double length = lines[group.base].length_mm;
    for (const std::size_t l : group.lines) {
      boards.push_back(high_board(lines[l]));
      bowed |= lines[l].bow_mm != 0;
      gaps.push_back({lines[l].bow_mm, length});
    }
    if (set_up.caul_mm > 0) {
      const pressure::GlueLine& last = lines[group.lines.back()];
      boards.insert(boards.begin(), edge_caul(lines[first], low_board(lines[first]), set_up));
      boards.push_back(edge_caul(last, high_board(last), set_up));
      gaps.insert(gaps.begin(), pressure::BowGap{0, length});
      gaps.push_back({0, length});
      group.first_joint = 1;
    }
    if (!bowed) {
      gaps.clear();
    }
    group.panel = edge_panel(length, boards, gaps);
    groups.push_back(std::move(group));
  }
}

CoupledLines strips_of(std::span<const std::size_t> together, const PressSetUp& set_up) {
  const std::span<const AskedLine> lines = set_up.lines;
  CoupledLines group;
  for (const std::size_t l : together) {
    const AskedLine& line = lines[l];
    pressure::PanelOnStrip strip = line.strip;
    strip.clamps = std::max(1, set_up.clamps_on_line[l]);
    if (set_up.caul_mm > 0) {
      strip.caul = pressure::Caul{line.across_mm, set_up.caul_mm, line.offcut, line.camber_mm};
    }
    for (std::size_t k = 0; k < group.lines.size(); ++k) {
      if (const auto meet = corner(lines[group.lines[k]], line)) {
        const int layer = strip.caul ? 1 : 0;
        group.ties.push_back({{static_cast<int>(k), layer, (*meet)[0]},
                              {static_cast<int>(group.lines.size()), layer, (*meet)[1]}});
      }
    }
    group.lines.push_back(l);
    group.strips.push_back(strip);
  }
  return group;
}

// Strips under one part on one plane that meet: tied there, as the part's corner is one piece.
// Those that meet none of the others are a system each.
void add_strips(const PressSetUp& set_up, std::vector<CoupledLines>& groups) {
  const std::span<const AskedLine> lines = set_up.lines;
  std::vector<char> used(lines.size(), 0);
  for (std::size_t first = 0; first < lines.size(); ++first) {
    if (used[first] != 0 || lines[first].shape == pressure::LineShape::edge) {
      continue;
    }
    std::vector<std::size_t> together{first};
    used[first] = 1;
    for (std::size_t i = 0; i < together.size(); ++i) {
      const pressure::GlueLine& from = lines[together[i]];
      for (std::size_t l = first + 1; l < lines.size(); ++l) {
        if (used[l] == 0 && under_one_part(from, lines[l]) && corner(from, lines[l])) {
          used[l] = 1;
          together.push_back(l);
        }
      }
    }
    std::sort(together.begin(), together.end());
    groups.push_back(strips_of(together, set_up));
  }
}

}  // namespace

std::vector<CoupledLines> coupled_lines(const PressSetUp& set_up) {
  std::vector<CoupledLines> groups;
  add_edges(set_up, groups);
  add_strips(set_up, groups);
  return groups;
}

bool built_alike(const CoupledLines& a, const CoupledLines& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) < kSameDistance_mm; };
  const auto strips = [&](const pressure::PanelOnStrip& x, const pressure::PanelOnStrip& y) {
    return near(x.length_mm, y.length_mm) && near(x.panel_thickness_mm, y.panel_thickness_mm) &&
           near(x.lip_thickness_mm, y.lip_thickness_mm) && x.clamps == y.clamps &&
           near(x.panel_reach_mm, y.panel_reach_mm) && near(x.bow_mm, y.bow_mm) &&
           near(x.caul ? x.caul->camber_mm : 0, y.caul ? y.caul->camber_mm : 0) &&
           near(x.strip_width_mm, y.strip_width_mm) && near(x.mating_depth_mm, y.mating_depth_mm) &&
           x.panel.E_x_MPa == y.panel.E_x_MPa && x.panel.E_z_MPa == y.panel.E_z_MPa &&
           x.mating.E_x_MPa == y.mating.E_x_MPa && x.mating.E_z_MPa == y.mating.E_z_MPa;
  };
  const auto ties = [&](const pressure::Tie& x, const pressure::Tie& y) {
    return x.a.line == y.a.line && x.b.line == y.b.line && near(x.a.x_mm, y.a.x_mm) &&
           near(x.b.x_mm, y.b.x_mm);
  };
  const auto same = [](const auto& x, const auto& y, const auto& equal) {
    return std::equal(x.begin(), x.end(), y.begin(), y.end(), equal);
  };
  return !a.edge && !b.edge && same(a.strips, b.strips, strips) && same(a.ties, b.ties, ties);
}

std::vector<pressure::Push> pushes_on(const CoupledLines& group, std::span<const AskedLine> lines,
                                      const ClampSite& site, double force_N) {
  for (const PressedAt& pressed : site.presses) {
    const auto it = std::find(group.lines.begin(), group.lines.end(), pressed.line);
    if (it == group.lines.end()) {
      continue;
    }
    if (group.edge) {
      const pressure::GlueLine& base = lines[group.base];
      const double x = std::clamp(dot(site.at - base.start, base.along), 0.0, base.length_mm);
      return edge_clamp(group.panel, 0, x, site.pad.along_mm, force_N);
    }
    const auto i = static_cast<std::size_t>(it - group.lines.begin());
    const bool lengthwise =
        std::abs(dot(lines[pressed.line].along, lines[site.presses.front().line].along)) > 0.7;
    const double pad = lengthwise ? site.pad.along_mm : site.pad.across_mm;
    return {panel_clamp(group.strips[i], static_cast<int>(i), pressed.x_mm, pad, force_N)};
  }
  return {};
}

}  // namespace planner::clamps::axis
