#include "planner/clamp_press.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "planner/crush.h"

namespace planner {
namespace {

using geometry::Direction;

constexpr double kSamePlane_mm = 0.5;
constexpr double kSame_mm = 1e-6;
constexpr double kArrives = 0.02;  // of a clamp's force, to count as pressing a line

bool same_push(const Push& a, const Push& b) {
  return a.at.line == b.at.line && std::abs(a.at.x_mm - b.at.x_mm) < kSame_mm &&
         std::abs(a.length_mm - b.length_mm) < kSame_mm;
}

PartId low_part(const GlueLine& line) {
  return line.from_low ? line.over : line.under;
}
PartId high_part(const GlueLine& line) {
  return line.from_low ? line.under : line.over;
}
const EdgeBoard& low_board(const GlueLine& line) {
  return line.from_low ? line.over_board : line.under_board;
}
const EdgeBoard& high_board(const GlueLine& line) {
  return line.from_low ? line.under_board : line.over_board;
}

// As wide as stands on the edge by itself, of the panel's wood.
EdgeBoard edge_caul(const GlueLine& line, const EdgeBoard& board, const PressSetUp& set_up) {
  return {set_up.caul_mm, std::max(board.thickness_mm, kLeastPad_mm), line.offcut};
}

// Where the middle lines of two strips of one panel meet, if they do: as far along each.
std::optional<std::array<double, 2>> corner(const GlueLine& a, const GlueLine& b) {
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

}  // namespace

PressModel::PressModel(const PressSetUp& set_up) : lines_(set_up.lines), sites_(set_up.sites) {
  group_edges(set_up);
  group_strips(set_up);
  add_systems();
  add_beds();
  add_influences();
}

// Boards side by side: a chain of edge lines, each beginning with the board the last one ended
// with. A caul along either edge is one board more, which can come off.
void PressModel::group_edges(const PressSetUp& set_up) {
  std::vector<std::size_t> edges;
  for (std::size_t l = 0; l < lines_.size(); ++l) {
    if (lines_[l].shape == LineShape::edge) {
      edges.push_back(l);
    }
  }
  std::stable_sort(edges.begin(), edges.end(), [&](std::size_t a, std::size_t b) {
    return lines_[a].offset_mm < lines_[b].offset_mm - 1e-6;
  });
  std::vector<char> used(lines_.size(), 0);
  for (const std::size_t first : edges) {
    if (used[first] != 0) {
      continue;
    }
    Group group;
    group.edge = true;
    group.base = first;
    for (const std::size_t l : edges) {
      if (used[l] == 0 &&
          (group.lines.empty() || low_part(lines_[l]) == high_part(lines_[group.lines.back()]))) {
        used[l] = 1;
        group.lines.push_back(l);
        group.base = lines_[l].length_mm < lines_[group.base].length_mm ? l : group.base;
      }
    }
    std::vector<EdgeBoard> boards{low_board(lines_[first])};
    std::vector<std::function<double(double)>> gaps;
    bool bowed = false;
    const double length = lines_[group.base].length_mm;
    for (const std::size_t l : group.lines) {
      boards.push_back(high_board(lines_[l]));
      bowed |= lines_[l].bow_mm != 0;
      gaps.push_back(parabolic_gap(lines_[l].bow_mm, length));
    }
    if (set_up.caul_mm > 0) {
      const GlueLine& last = lines_[group.lines.back()];
      boards.insert(boards.begin(), edge_caul(lines_[first], low_board(lines_[first]), set_up));
      boards.push_back(edge_caul(last, high_board(last), set_up));
      gaps.insert(gaps.begin(), parabolic_gap(0, length));
      gaps.push_back(parabolic_gap(0, length));
      group.first_joint = 1;
    }
    group.panel = edge_panel(length, boards, bowed ? gaps : decltype(gaps){});
    groups_.push_back(std::move(group));
  }
}

// Strips under one part on one plane: tied where they meet, as the part's corner is one piece.
void PressModel::group_strips(const PressSetUp& set_up) {
  std::vector<char> used(lines_.size(), 0);
  for (std::size_t first = 0; first < lines_.size(); ++first) {
    const GlueLine& lead = lines_[first];
    if (used[first] != 0 || lead.shape == LineShape::edge) {
      continue;
    }
    Group group;
    for (std::size_t l = first; l < lines_.size(); ++l) {
      const GlueLine& line = lines_[l];
      if (used[l] != 0 || line.shape == LineShape::edge || line.over != lead.over ||
          line.from_low != lead.from_low ||
          std::abs(line.offset_mm - lead.offset_mm) > kSamePlane_mm) {
        continue;
      }
      used[l] = 1;
      PanelOnStrip strip = line.strip;
      strip.clamps = std::max(1, set_up.clamps_on_line[l]);
      if (set_up.caul_mm > 0) {
        strip.caul = Caul{line.across_mm, set_up.caul_mm, line.offcut,
                          set_up.camber_mm.empty() ? 0 : set_up.camber_mm[l]};
      }
      for (std::size_t k = 0; k < group.lines.size(); ++k) {
        if (const auto meet = corner(lines_[group.lines[k]], line)) {
          const int layer = strip.caul ? 1 : 0;
          group.ties.push_back({{static_cast<int>(k), layer, (*meet)[0]},
                                {static_cast<int>(group.lines.size()), layer, (*meet)[1]}});
        }
      }
      group.lines.push_back(l);
      group.strips.push_back(strip);
    }
    groups_.push_back(std::move(group));
  }
}

// The same strips, tied alike: the shelves of a case.
bool PressModel::built_alike(const Group& a, const Group& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) < kSame_mm; };
  const auto strips = [&](const PanelOnStrip& x, const PanelOnStrip& y) {
    return near(x.length_mm, y.length_mm) && near(x.panel_thickness_mm, y.panel_thickness_mm) &&
           near(x.lip_thickness_mm, y.lip_thickness_mm) && x.clamps == y.clamps &&
           near(x.panel_reach_mm, y.panel_reach_mm) && near(x.bow_mm, y.bow_mm) &&
           near(x.caul ? x.caul->camber_mm : 0, y.caul ? y.caul->camber_mm : 0) &&
           near(x.strip_width_mm, y.strip_width_mm) && near(x.mating_depth_mm, y.mating_depth_mm) &&
           x.panel.E_x_MPa == y.panel.E_x_MPa && x.panel.E_z_MPa == y.panel.E_z_MPa &&
           x.mating.E_x_MPa == y.mating.E_x_MPa && x.mating.E_z_MPa == y.mating.E_z_MPa;
  };
  const auto ties = [&](const Tie& x, const Tie& y) {
    return x.a.line == y.a.line && x.b.line == y.b.line && near(x.a.x_mm, y.a.x_mm) &&
           near(x.b.x_mm, y.b.x_mm);
  };
  const auto same = [](const auto& x, const auto& y, const auto& equal) {
    return std::equal(x.begin(), x.end(), y.begin(), y.end(), equal);
  };
  return !a.edge && !b.edge && same(a.strips, b.strips, strips) && same(a.ties, b.ties, ties);
}

// Pressed alike as well: lid and bottom, the two ends of a rail.
bool PressModel::pressed_alike(const Group& a, const Group& b) const {
  for (std::size_t s = 0; s < sites_.size(); ++s) {
    const std::vector<Push> x = pushes(a, s, 1), y = pushes(b, s, 1);
    if (!std::equal(x.begin(), x.end(), y.begin(), y.end(), same_push)) {
      return false;
    }
  }
  return true;
}

void PressModel::add_systems() {
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    Group& group = groups_[g];
    group.twin = g;
    const auto end = groups_.begin() + static_cast<std::ptrdiff_t>(g);
    const auto built = std::find_if(groups_.begin(), end,
                                    [&](const Group& other) { return built_alike(other, group); });
    if (built != end) {
      group.system = built->system;
      const auto pressed = std::find_if(built, end, [&](const Group& other) {
        return other.system == group.system && pressed_alike(other, group);
      });
      group.twin = pressed == end ? g : pressed->twin;
      continue;
    }
    group.system = systems_.size();
    StackSystem system;
    if (group.edge) {
      system.lines.push_back(group.panel.line);
    }
    for (const PanelOnStrip& strip : group.strips) {
      system.lines.push_back(panel_line(strip));
    }
    system.ties = group.ties;
    systems_.emplace_back(system);
  }
}

// Each push of a system is solved for once, however many sites and groups it serves.
void PressModel::add_influences() {
  struct Asked {
    std::size_t group, site, push;
  };
  std::vector<Asked> asked;
  std::vector<std::vector<std::vector<Push>>> pushes_of(systems_.size());
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (groups_[g].twin != g) {
      continue;
    }
    std::vector<std::vector<Push>>& known = pushes_of[groups_[g].system];
    for (std::size_t s = 0; s < sites_.size(); ++s) {
      std::vector<Push> push = pushes(groups_[g], s, 1);
      if (push.empty()) {
        continue;
      }
      const auto it = std::find_if(known.begin(), known.end(), [&](const std::vector<Push>& k) {
        return same_push(k.front(), push.front());
      });
      asked.push_back({g, s, static_cast<std::size_t>(it - known.begin())});
      if (it == known.end()) {
        known.push_back(std::move(push));
      }
    }
  }
  std::vector<std::vector<std::vector<double>>> pressure_MPa;
  for (std::size_t i = 0; i < systems_.size(); ++i) {
    pressure_MPa.push_back(systems_[i].influences_MPa(pushes_of[i]));
  }
  const std::size_t samples = x_mm_.size();
  influence_.assign(sites_.size() * samples, 0.0);
  for (const Asked& a : asked) {
    const std::vector<double>& p = pressure_MPa[groups_[a.group].system][a.push];
    for (const Bed& bed : beds_) {
      if (bed.group == a.group) {
        std::copy_n(p.begin() + static_cast<std::ptrdiff_t>(bed.first_in_system), bed.count,
                    influence_.begin() + static_cast<std::ptrdiff_t>(a.site * samples + bed.first));
      }
    }
  }
}

void PressModel::add_beds() {
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const Group& group = groups_[g];
    const std::vector<BedSample>& samples = systems_[group.system].samples();
    const std::vector<double>& rest = systems_[group.system].pressure_at_rest_MPa();
    for (std::size_t i = 0; i < group.lines.size(); ++i) {
      const int stack_line = group.edge ? 0 : static_cast<int>(i);
      const int number = group.edge             ? group.panel.bed_of_joint[group.first_joint + i]
                         : group.strips[i].caul ? 1
                                                : 0;
      const auto same = std::find_if(beds_.begin(), beds_.end(), [&](const Bed& b) {
        return b.group == group.twin && b.stack_line == stack_line && b.bed == number;
      });
      if (same != beds_.end()) {
        same->lines.push_back(group.lines[i]);
        continue;
      }
      Bed bed{{group.lines[i]}, group.system, g, stack_line,
              number,           x_mm_.size(), 0, samples.size()};
      for (std::size_t k = 0; k < samples.size(); ++k) {
        if (samples[k].line == stack_line && samples[k].bed == number) {
          bed.first_in_system = std::min(bed.first_in_system, k);
          ++bed.count;
          x_mm_.push_back(samples[k].x_mm);
          length_mm_.push_back(samples[k].length_mm);
          at_rest_MPa_.push_back(rest[k]);
        }
      }
      beds_.push_back(std::move(bed));
    }
  }
}

std::vector<Push> PressModel::pushes(const Group& group, std::size_t site, double force_N) const {
  const ClampSite& s = sites_[site];
  for (const PressedAt& pressed : s.presses) {
    const auto it = std::find(group.lines.begin(), group.lines.end(), pressed.line);
    if (it == group.lines.end()) {
      continue;
    }
    if (group.edge) {
      const GlueLine& base = lines_[group.base];
      const double x = std::clamp(dot(s.at - base.start, base.along), 0.0, base.length_mm);
      return edge_clamp(group.panel, 0, x, s.pad.along_mm, force_N);
    }
    const auto i = static_cast<std::size_t>(it - group.lines.begin());
    const bool lengthwise =
        std::abs(dot(lines_[pressed.line].along, lines_[s.presses.front().line].along)) > 0.7;
    const double pad = lengthwise ? s.pad.along_mm : s.pad.across_mm;
    return {panel_clamp(group.strips[i], static_cast<int>(i), pressed.x_mm, pad, force_N)};
  }
  return {};
}

LineTable PressModel::table(const PressNeed& need, double apart_mm) const {
  struct Taken {
    std::size_t sample, bed;
    double need_MPa;
  };
  LineTable out;
  std::vector<Taken> places;
  for (std::size_t b = 0; b < beds_.size(); ++b) {
    const Bed& bed = beds_[b];
    double most = 0;
    for (const std::size_t line : bed.lines) {
      most = std::max(most, need.line_MPa[line]);
    }
    const std::size_t last = bed.first + bed.count - 1;
    for (std::size_t i = bed.first; i <= last; ++i) {
      const bool fresh = places.empty() || places.back().bed != b ||
                         x_mm_[i] - x_mm_[places.back().sample] > apart_mm - 1e-9;
      if (fresh || i == last) {
        places.push_back({i, b, most});
        out.line.push_back(bed.lines.front());
        out.table.at_rest.push_back(at_rest_MPa_[i] / most);
      }
    }
  }
  out.table.places = places.size();
  out.table.spots = sites_.size();
  out.table.per_N.reserve(places.size() * sites_.size());
  std::vector<double> mean(beds_.size());
  for (std::size_t s = 0; s < sites_.size(); ++s) {
    const double* p = &influence_[s * x_mm_.size()];
    for (std::size_t b = 0; b < beds_.size(); ++b) {
      mean[b] = mean_over(beds_[b], p);
    }
    for (const Taken& t : places) {
      out.table.per_N.push_back(need.hand * (p[t.sample] - need.margin * mean[t.bed]) / t.need_MPa);
    }
  }
  return out;
}

double PressModel::mean_over(const Bed& bed, const double* pressure) const {
  double force = 0, length = 0;
  for (std::size_t i = bed.first; i < bed.first + bed.count; ++i) {
    force += pressure[i] * length_mm_[i];
    length += length_mm_[i];
  }
  return force / length;
}

bool PressModel::presses(std::size_t site, std::size_t line) const {
  for (const Bed& bed : beds_) {
    if (std::find(bed.lines.begin(), bed.lines.end(), line) != bed.lines.end()) {
      const double mean = mean_over(bed, &influence_[site * x_mm_.size()]);
      return mean * lines_[line].length_mm * lines_[line].width_mm > kArrives;
    }
  }
  return false;
}

std::vector<LineResult> PressModel::press(std::span<const std::size_t> chosen,
                                          std::span<const double> force_N) const {
  std::vector<LineResult> out(lines_.size());
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    std::vector<Push> all;
    for (std::size_t c = 0; c < chosen.size(); ++c) {
      for (const Push& push : pushes(groups_[g], chosen[c], force_N[c])) {
        all.push_back(push);
      }
    }
    ContactSolution solution;
    for (const Bed& bed : beds_) {
      if (bed.group != g) {
        continue;
      }
      const PressureSystem& system = systems_[bed.system];
      if (solution.pressure_MPa.empty()) {
        solution = system.press(all);
      }
      LineResult result;
      result.profile = profile_of(bed.stack_line, bed.bed, system.samples(), solution.pressure_MPa,
                                  solution.gap_mm);
      for (std::size_t i = bed.first_in_system; i < bed.first_in_system + bed.count; ++i) {
        result.samples.push_back({system.samples()[i].x_mm, solution.pressure_MPa[i]});
      }
      for (const std::size_t line : bed.lines) {
        out[line] = result;
      }
    }
  }
  return out;
}

}  // namespace planner
