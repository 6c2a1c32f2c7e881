#include "planner/order/interchangeable_units.h"

#include <algorithm>

#include "planner/order/assembly_splits.h"

namespace planner::order {
namespace {

class Likeness {
 public:
  explicit Likeness(const AssemblyProblem& problem)
      : p_(problem), n_(static_cast<std::size_t>(problem.units)) {
    for (int i = 0; i < p_.units; ++i) {
      base::UnitSet near;
      RemovalSet useful;
      for (int j = 0; j < p_.units; ++j) {
        if (i == j || !p_.touching(i, j)) {
          continue;
        }
        near.insert(j);
        for (std::size_t d = 0; d < p_.removals.size(); ++d) {
          const int k = static_cast<int>(d);
          useful[d] = useful[d] || p_.leave(k, i, j) != kRefused || p_.leave(k, j, i) != kRefused;
        }
      }
      near_.push_back(near);
      useful_.push_back(useful);
    }
    joint_kinds_.resize(n_ * n_);
    for (std::size_t j = 0; j < p_.joints.size(); ++j) {
      const auto [u, v] = p_.joints[j];
      const int kind = p_.joint_likeness.empty() ? 0 : p_.joint_likeness[j];
      joint_kinds_[at(u, v)].push_back(kind);
      joint_kinds_[at(v, u)].push_back(kind);
    }
    for (auto& kinds : joint_kinds_) {
      std::ranges::sort(kinds);
    }
  }

  // The swap of i and j changes nothing. Swaps that change nothing compose, so this is an
  // equivalence and any permutation of a class is allowed.
  bool alike(int i, int j) const {
    if (!p_.unit_likeness.empty() && p_.unit_likeness[static_cast<std::size_t>(i)] !=
                                         p_.unit_likeness[static_cast<std::size_t>(j)]) {
      return false;
    }
    if (is_hinged(i) || is_hinged(j) || !same(i, j, j, i)) {
      return false;
    }
    for (int k = 0; k < p_.units; ++k) {
      if (k != i && k != j && !(same(i, k, j, k) && same(k, i, k, j))) {
        return false;
      }
    }
    return true;
  }

 private:
  std::size_t at(int i, int j) const {
    return static_cast<std::size_t>(i) * n_ + static_cast<std::size_t>(j);
  }

  // A hinge is a certain board's.
  bool is_hinged(int unit) const {
    return std::ranges::any_of(p_.removals, [unit](const Removal& removal) {
      return removal.folds && (removal.hinge[0] == unit || removal.hinge[1] == unit);
    });
  }

  // Two units that touch the same neighbours, and not each other, share a neighbour in every
  // connected group that holds both; where all contacts of both refuse a removal, the three stay on
  // one side of it. So it does not matter whether the pair itself refuses it (shelves stand above
  // one another, but are never lifted off one another).
  bool matters(std::size_t d, int i, int j) const {
    const auto a = static_cast<std::size_t>(i), b = static_cast<std::size_t>(j);
    return near_[a] != near_[b] || near_[a].empty() || useful_[a][d] || useful_[b][d];
  }

  bool same(int a, int b, int c, int d) const {
    if (p_.touching(a, b) != p_.touching(c, d) ||
        joint_kinds_[at(a, b)] != joint_kinds_[at(c, d)]) {
      return false;
    }
    for (std::size_t r = 0; r < p_.removals.size(); ++r) {
      const int k = static_cast<int>(r);
      const bool ab = matters(r, a, b), cd = matters(r, c, d);
      if ((ab ? p_.leave(k, a, b) : 0) != (cd ? p_.leave(k, c, d) : 0)) {
        return false;
      }
    }
    return true;
  }

  const AssemblyProblem& p_;
  std::size_t n_;
  std::vector<base::UnitSet> near_;
  std::vector<RemovalSet> useful_;
  std::vector<std::vector<int>> joint_kinds_;
};

}  // namespace

std::vector<int> interchangeable_units(const AssemblyProblem& problem) {
  const Likeness likeness(problem);
  std::vector<int> stand_in(static_cast<std::size_t>(problem.units));
  for (int i = 0; i < problem.units; ++i) {
    stand_in[static_cast<std::size_t>(i)] = i;
    for (int j = 0; j < i; ++j) {
      if (stand_in[static_cast<std::size_t>(j)] == j && likeness.alike(j, i)) {
        stand_in[static_cast<std::size_t>(i)] = j;
        break;
      }
    }
  }
  return stand_in;
}

}  // namespace planner::order
