#include "planner/work/job_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>
#include <string>
#include <vector>

#include "geometry/blocking.h"
#include "geometry/overlap.h"
#include "planner/base/spelling.h"

namespace planner::work {
namespace {

using geometry::Box;
using geometry::Contact;
using geometry::Solid;

std::string quoted(const Part& part) {
  return "\"" + base::shown(part.name) + "\"";
}

std::string span_text(const Box& box, std::size_t axis, base::Units units) {
  return std::string(1, "xyz"[axis]) + " " + short_text(box.lo[axis], units) + " to " +
         short_text(box.hi[axis], units);
}

std::string size_text(const Box& box, base::Units units) {
  std::string text;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    text += (axis == 0 ? "" : " x ") + short_text(box.hi[axis] - box.lo[axis], units);
  }
  return text;
}

bool boxes_meet(const Box& a, const Box& b, double within_mm) {
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (a.lo[axis] > b.hi[axis] + within_mm || b.lo[axis] > a.hi[axis] + within_mm) {
      return false;
    }
  }
  return true;
}

void check_pieces(const Job& job, std::span<const Solid> solids, base::Diagnostics& found) {
  for (std::size_t i = 0; i < solids.size(); ++i) {
    const Part& part = job.parts[i];
    if (part.cuts.empty()) {
      continue;
    }
    if (geometry::is_empty(solids[i])) {
      found.push_back({base::Severity::error, part.place,
                       "the cuts of " + quoted(part) + " leave nothing of it",
                       "make them smaller"});
    } else if (const int pieces = geometry::piece_count(solids[i]); pieces > 1) {
      found.push_back(
          {base::Severity::error, part.place,
           "the cuts of " + quoted(part) + " leave it in " + std::to_string(pieces) + " pieces",
           "make them shallower, or describe the pieces as parts"});
    }
  }
}

void check_overlaps(const Job& job, std::span<const Solid> solids, base::Diagnostics& found) {
  for (const geometry::Overlap& o : geometry::find_overlaps(solids, {})) {
    const Part &a = job.parts[o.a], &b = job.parts[o.b];
    const std::string where = span_text(o.where, 0, job.units) + ", " +
                              span_text(o.where, 1, job.units) + ", " +
                              span_text(o.where, 2, job.units);
    found.push_back({base::Severity::error, std::max(a.place, b.place),
                     quoted(a) + " and " + quoted(b) + " are in the same place: they share " +
                         size_text(o.where, job.units),
                     "move one of them or cut room for it at " + where});
  }
}

const std::string kLooseRemedy = "check where it lies: at = [x, y, z] is its lowest corner";

// Parts that stand off from all others by their boxes alone: told beside what check_solids found,
// as check_touching has no say before that is mended.
void check_far_off(const Job& job, std::span<const Solid> solids, base::Diagnostics& found) {
  constexpr double kNear_mm = 1;
  if (std::any_of(solids.begin(), solids.end(), geometry::is_empty)) {
    return;  // what is gone may be what the others touch
  }
  for (std::size_t i = 0; i < solids.size(); ++i) {
    bool near = false;
    for (std::size_t j = 0; j < solids.size() && !near; ++j) {
      near =
          i != j && boxes_meet(geometry::bounds(solids[i]), geometry::bounds(solids[j]), kNear_mm);
    }
    if (!near) {
      found.push_back({base::Severity::error, job.parts[i].place,
                       quoted(job.parts[i]) + " touches no other part", kLooseRemedy});
    }
  }
}

std::optional<Box> bounds_of_all(std::span<const Solid> solids) {
  std::optional<Box> all;
  for (const Solid& solid : solids) {
    if (geometry::is_empty(solid)) {
      continue;
    }
    const Box b = geometry::bounds(solid);
    if (!all) {
      all = b;
    }
    all->lo = {std::min(all->lo.x, b.lo.x), std::min(all->lo.y, b.lo.y),
               std::min(all->lo.z, b.lo.z)};
    all->hi = {std::max(all->hi.x, b.hi.x), std::max(all->hi.y, b.hi.y),
               std::max(all->hi.z, b.hi.z)};
  }
  return all;
}

void check_saw_lines(const Job& job, std::span<const Solid> solids, base::Diagnostics& found) {
  const std::optional<Box> all = bounds_of_all(solids);
  for (const SawLater& saw : job.saw_later) {
    const auto axis = static_cast<std::size_t>(saw.axis);
    if (all && (saw.at.mm() <= all->lo[axis] || saw.at.mm() >= all->hi[axis])) {
      found.push_back({base::Severity::error, saw.place,
                       "the saw line at " + to_text(saw.at, job.units) + " does not meet the work",
                       "it reaches from " + span_text(*all, axis, job.units)});
    }
  }
}

// Which group of touching parts each part belongs to, by its lowest part.
std::vector<std::size_t> groups_of(std::size_t parts, std::span<const Contact> contacts) {
  std::vector<std::size_t> group(parts);
  std::iota(group.begin(), group.end(), std::size_t{0});
  const auto root = [&](std::size_t i) {
    while (group[i] != i) {
      i = group[i] = group[group[i]];
    }
    return i;
  };
  for (const Contact& c : contacts) {
    const std::size_t a = root(c.a), b = root(c.b);
    group[std::max(a, b)] = std::min(a, b);
  }
  for (std::size_t i = 0; i < parts; ++i) {
    group[i] = root(i);
  }
  return group;
}

constexpr std::array<geometry::Direction, 6> kSixWays = {
    {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}}};

// Whether something outside the group stops it whichever way it goes.
bool captured(std::size_t group, const std::vector<std::size_t>& groups,
              const geometry::Blocking& blocking) {
  const std::size_t n = groups.size();
  for (std::size_t d = 0; d < kSixWays.size(); ++d) {
    bool stopped = false;
    for (std::size_t i = 0; i < n && !stopped; ++i) {
      for (std::size_t j = 0; j < n && !stopped; ++j) {
        stopped = groups[i] == group && groups[j] != group && blocking.blocked(d, i, j);
      }
    }
    if (!stopped) {
      return false;
    }
  }
  return true;
}

// The group with the most parts is the work; ties go to the earlier one.
std::size_t main_group(const std::vector<std::size_t>& groups) {
  std::vector<std::size_t> size(groups.size());
  for (const std::size_t g : groups) {
    ++size[g];
  }
  return static_cast<std::size_t>(std::max_element(size.begin(), size.end()) - size.begin());
}

// The face nearest to the group's that looks at it, within `kFar`.
std::optional<Contact> nearest_face(std::size_t group, const std::vector<std::size_t>& groups,
                                    std::span<const Contact> wide) {
  std::optional<Contact> best;
  for (const Contact& c : wide) {
    const bool leaves = (groups[c.a] == group) != (groups[c.b] == group);
    if (leaves && (!best || c.gap_mm < best->gap_mm)) {
      best = c;
    }
  }
  return best;
}

std::string names_of(std::size_t group, const std::vector<std::size_t>& groups, const Job& job) {
  constexpr std::size_t kMostNamed = 4;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (groups[i] == group) {
      names.push_back(quoted(job.parts[i]));
    }
  }
  const bool one = names.size() == 1;
  if (names.size() > kMostNamed) {
    names[kMostNamed - 1] = std::to_string(names.size() - kMostNamed + 1) + " more";
    names.resize(kMostNamed);
  }
  return base::all_of(names) + (one ? " touches" : " touch");
}

base::Diagnostic loose(std::size_t group, const std::vector<std::size_t>& groups, const Job& job,
                       std::span<const Contact> wide) {
  std::string remedy = kLooseRemedy;
  if (const auto near = nearest_face(group, groups, wide)) {
    const std::size_t other = groups[near->a] == group ? near->b : near->a;
    remedy = "the nearest is " + quoted(job.parts[other]) + ", " +
             short_text(near->gap_mm, job.units) + " away";
  }
  return {base::Severity::error, job.parts[group].place,
          names_of(group, groups, job) + " no other part", remedy};
}

void check_groups(const Job& job, std::span<const Solid> solids, std::span<const Contact> contacts,
                  base::Diagnostics& found) {
  const std::vector<std::size_t> groups = groups_of(solids.size(), contacts);
  const std::size_t work = main_group(groups);
  if (std::all_of(groups.begin(), groups.end(), [&](std::size_t g) { return g == work; })) {
    return;
  }
  const geometry::Blocking blocking = geometry::find_blocking(solids, kSixWays, {});
  constexpr double kFar = 10;
  geometry::Tolerance wide_open;
  wide_open.max_gap_mm = kFar;
  const std::vector<Contact> wide = geometry::find_contacts(solids, wide_open);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (groups[i] == i && i != work && !captured(i, groups, blocking)) {
      found.push_back(loose(i, groups, job, wide));
    }
  }
}

// The index of the part of that name.
std::optional<std::size_t> part_named(const Job& job, const std::string& name) {
  const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                 [&](const Part& p) { return p.name == name; });
  return part == job.parts.end()
             ? std::nullopt
             : std::optional(static_cast<std::size_t>(part - job.parts.begin()));
}

void check_overrides(const Job& job, std::span<const Contact> contacts, base::Diagnostics& found) {
  for (const JointOverride& o : job.overrides) {
    const auto a = part_named(job, o.between[0]), b = part_named(job, o.between[1]);
    const bool touch =
        a && b && std::any_of(contacts.begin(), contacts.end(), [&](const Contact& c) {
          return c.a == std::min(*a, *b) && c.b == std::max(*a, *b);
        });
    if (!touch) {
      found.push_back({base::Severity::warning,
                       o.place,
                       "\"" + base::shown(o.between[0]) + "\" and \"" +
                           base::shown(o.between[1]) +
                           "\" do not touch: this [[joint]] changes nothing",
                       {}});
    }
  }
}

// The parts that an asked stage puts together, those of the stages it names too. Names that are
// neither are told: a mesh's are not known before.
std::vector<std::size_t> parts_of_stage(const Job& job, std::size_t stage,
                                        base::Diagnostics& found) {
  std::vector<std::size_t> parts;
  for (const std::string& name : job.stages[stage].parts) {
    const auto earlier = std::ranges::find(job.stages, name, &AskedStage::name);
    if (const auto part = part_named(job, name)) {
      parts.push_back(*part);
    } else if (const auto index = static_cast<std::size_t>(earlier - job.stages.begin());
               index < stage) {
      const auto theirs = parts_of_stage(job, index, found);
      parts.insert(parts.end(), theirs.begin(), theirs.end());
    } else {
      found.push_back({base::Severity::error, job.stages[stage].place,
                       "no part and no earlier stage is named \"" + base::shown(name) + "\"",
                       "write a part's name as the mesh has it"});
    }
  }
  return parts;
}

// What an asked stage puts together must hang together, or it isn't glued to one board.
void check_stages(const Job& job, std::span<const Contact> contacts, base::Diagnostics& found) {
  for (std::size_t s = 0; s < job.stages.size(); ++s) {
    if (part_named(job, job.stages[s].name)) {  // of a mesh's: others are refused before
      found.push_back({base::Severity::error, job.stages[s].place,
                       "a part has the name of stage \"" + base::shown(job.stages[s].name) + "\"",
                       "give the stage a name of its own"});
    }
    std::vector<std::size_t> apart = parts_of_stage(job, s, found);
    if (apart.empty()) {
      continue;
    }
    std::vector<std::size_t> together{apart.back()};
    apart.pop_back();
    for (std::size_t i = 0; i < together.size(); ++i) {
      for (const Contact& c : contacts) {
        const std::size_t other = c.a == together[i] ? c.b : c.b == together[i] ? c.a : together[i];
        if (const auto at = std::ranges::find(apart, other); at != apart.end()) {
          together.push_back(other);
          apart.erase(at);
        }
      }
    }
    if (!apart.empty()) {
      found.push_back({base::Severity::error, job.stages[s].place,
                       "stage \"" + base::shown(job.stages[s].name) + "\" falls apart: \"" +
                           base::shown(job.parts[apart.front()].name) +
                           "\" touches none of the rest",
                       "name what is between, or leave it out"});
    }
  }
}

}  // namespace

base::Diagnostics check_part_count(const Job& job) {
  if (job.parts.size() <= kMostParts) {
    return {};
  }
  return {{base::Severity::error,
           {job.file, 0, 0},
           "the job has " + std::to_string(job.parts.size()) + " parts",
           std::to_string(kMostParts) +
               " at most: plan it in several jobs, what is glued in one as one part of the next"}};
}

base::Diagnostics check_solids(const Job& job, std::span<const Solid> solids) {
  base::Diagnostics found;
  check_pieces(job, solids, found);
  check_overlaps(job, solids, found);
  check_saw_lines(job, solids, found);
  if (has_errors(found)) {
    check_far_off(job, solids, found);
  }
  sort_by_place(found);
  return found;
}

base::Diagnostics check_touching(const Job& job, std::span<const Solid> solids,
                                 std::span<const Contact> contacts) {
  base::Diagnostics found;
  check_groups(job, solids, contacts, found);
  check_overrides(job, contacts, found);
  check_stages(job, contacts, found);
  sort_by_place(found);
  return found;
}

}  // namespace planner::work
