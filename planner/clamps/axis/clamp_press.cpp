#include "planner/clamps/axis/clamp_press.h"

#include <algorithm>
#include <cmath>

namespace planner::clamps::axis {
namespace {

constexpr double kSameSpot_mm = 1e-6;
constexpr double kArrives = 0.02;  // of a clamp's force, to count as pressing a line

bool same_push(const pressure::Push& a, const pressure::Push& b) {
  return a.at.line == b.at.line && std::abs(a.at.x_mm - b.at.x_mm) < kSameSpot_mm &&
         std::abs(a.length_mm - b.length_mm) < kSameSpot_mm;
}

}  // namespace

PressModel::PressModel(const PressSetUp& set_up, KnownSystems& known)
    : lines_(set_up.lines.begin(), set_up.lines.end()),
      sites_(set_up.sites.begin(), set_up.sites.end()),
      groups_(coupled_lines(set_up)) {
  add_systems(known);
  add_beds();
  add_influences();
}

// Pressed alike as well: lid and bottom, the two ends of a rail.
bool PressModel::pressed_alike(const CoupledLines& a, const CoupledLines& b) const {
  for (std::size_t s = 0; s < sites_.size(); ++s) {
    const std::vector<pressure::Push> x = pushes_on(a, lines_, sites_[s], 1),
                                      y = pushes_on(b, lines_, sites_[s], 1);
    if (!std::equal(x.begin(), x.end(), y.begin(), y.end(), same_push)) {
      return false;
    }
  }
  return true;
}

void PressModel::add_systems(KnownSystems& known) {
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    CoupledLines& group = groups_[g];
    group.twin = g;
    const auto end = groups_.begin() + static_cast<std::ptrdiff_t>(g);
    const auto built = std::find_if(
        groups_.begin(), end, [&](const CoupledLines& other) { return built_alike(other, group); });
    if (built != end) {
      group.system = built->system;
      const auto pressed = std::find_if(built, end, [&](const CoupledLines& other) {
        return other.system == group.system && pressed_alike(other, group);
      });
      group.twin = pressed == end ? g : pressed->twin;
      continue;
    }
    group.system = systems_.size();
    pressure::StackSystem system;
    if (group.edge) {
      system.lines.push_back(group.panel.line);
    }
    for (const pressure::PanelOnStrip& strip : group.strips) {
      system.lines.push_back(panel_line(strip));
    }
    system.ties = group.ties;
    systems_.push_back(known.of(std::move(system)));
  }
}

// Each push of a system is solved for once, however many sites and groups it serves (known_systems.h).
void PressModel::add_influences() {
  struct Asked {
    std::size_t group, site, push;
  };
  std::vector<Asked> asked;
  std::vector<std::vector<std::vector<pressure::Push>>> pushes_of(systems_.size());
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (groups_[g].twin != g) {
      continue;
    }
    std::vector<std::vector<pressure::Push>>& pushes = pushes_of[groups_[g].system];
    for (std::size_t s = 0; s < sites_.size(); ++s) {
      if (std::vector<pressure::Push> push = pushes_on(groups_[g], lines_, sites_[s], 1); !push.empty()) {
        asked.push_back({g, s, pushes.size()});
        pushes.push_back(std::move(push));
      }
    }
  }
  std::vector<std::vector<const double*>> pressure_MPa;
  for (std::size_t i = 0; i < systems_.size(); ++i) {
    pressure_MPa.push_back(systems_[i]->influences_MPa(pushes_of[i]));
  }
  const std::size_t samples = x_mm_.size();
  influence_.assign(sites_.size() * samples, 0.0);
  mean_.assign(sites_.size() * beds_.size(), 0.0);
  for (const Asked& a : asked) {
    const double* p = pressure_MPa[groups_[a.group].system][a.push];
    for (std::size_t b = 0; b < beds_.size(); ++b) {
      const Bed& bed = beds_[b];
      if (bed.group == a.group) {
        std::copy_n(p + bed.first_in_system, bed.count,
                    influence_.begin() + static_cast<std::ptrdiff_t>(a.site * samples + bed.first));
        mean_[a.site * beds_.size() + b] = mean_over(bed, &influence_[a.site * samples]);
      }
    }
  }
}

void PressModel::add_beds() {
  bed_of_line_.resize(lines_.size());
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const CoupledLines& group = groups_[g];
    const std::vector<pressure::BedSample>& samples = systems_[group.system]->system().samples();
    const std::vector<double>& rest = systems_[group.system]->system().pressure_at_rest_MPa();
    for (std::size_t i = 0; i < group.lines.size(); ++i) {
      const int stack_line = group.edge ? 0 : static_cast<int>(i);
      const int number = group.edge             ? group.panel.bed_of_joint[group.first_joint + i]
                         : group.strips[i].caul ? 1
                                                : 0;
      const auto same = std::find_if(beds_.begin(), beds_.end(), [&](const Bed& b) {
        return b.group == group.twin && b.stack_line == stack_line && b.bed == number;
      });
      if (same != beds_.end()) {
        bed_of_line_[group.lines[i]] = static_cast<std::size_t>(same - beds_.begin());
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
      bed_of_line_[group.lines[i]] = beds_.size();
      beds_.push_back(std::move(bed));
    }
  }
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
  for (std::size_t s = 0; s < sites_.size(); ++s) {
    const double* p = &influence_[s * x_mm_.size()];
    const double* mean = &mean_[s * beds_.size()];
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
  const double mean = mean_[site * beds_.size() + bed_of_line_[line]];
  return mean * lines_[line].length_mm * lines_[line].width_mm > kArrives;
}

std::vector<LineResult> PressModel::press(std::span<const std::size_t> chosen,
                                          std::span<const double> force_N) const {
  std::vector<LineResult> out(lines_.size());
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    std::vector<pressure::Push> all;
    for (std::size_t c = 0; c < chosen.size(); ++c) {
      for (const pressure::Push& push :
           pushes_on(groups_[g], lines_, sites_[chosen[c]], force_N[c])) {
        all.push_back(push);
      }
    }
    pressure::ContactSolution solution;
    for (const Bed& bed : beds_) {
      if (bed.group != g) {
        continue;
      }
      const pressure::PressureSystem& system = systems_[bed.system]->system();
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

}  // namespace planner::clamps::axis
