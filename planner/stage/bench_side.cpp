#include "planner/stage/bench_side.h"

#include <algorithm>
#include <array>

#include "planner/base/side_words.h"

namespace planner::stage {
namespace {

using geometry::Direction;

struct Side {
  Direction up;
  std::vector<bool> wants_hand;
  long hands() const { return std::count(wants_hand.begin(), wants_hand.end(), true); }
};

Side side_with(const Direction& up, const order::ScheduleProblem& problem,
               const order::Schedule& schedule, const StageWork& work,
               const work::Standing& standing) {
  Side side{up, {}};
  for (const order::PlannedJoin& join : schedule.joins) {
    const bool below = comes_from_below(problem, join, up);
    const bool folds = problem.assembly.removals[static_cast<std::size_t>(join.removal)].folds;
    const auto moving = parts_of(below ? join.staying : join.moving, work);
    const auto staying = parts_of(below ? join.moving : join.staying, work);
    const bool holds = (folds || standing.stays(moving, staying, up)) &&
                       standing.stands(parts_of(join.moving | join.staying, work), up);
    side.wants_hand.push_back(!holds);
  }
  return side;
}

std::string hands_text(long hands) {
  return hands == 0   ? "no part wants a hand until it is pressed"
         : hands == 1 ? "one part wants a hand until it is pressed"
                      : std::to_string(hands) + " parts want a hand until they are pressed";
}

std::string why(const Side& best, const Side& as_drawn) {
  const std::string down = "with the " + base::end_word(-best.up) + " on the bench ";
  return down + hands_text(best.hands()) +
         (best.hands() == as_drawn.hands()
              ? ""
              : "; with the " + base::end_word(-as_drawn.up) + " down " +
                    std::to_string(as_drawn.hands()) + " would");
}

}  // namespace

std::vector<work::PartId> parts_of(const base::UnitSet& units, const StageWork& work) {
  std::vector<work::PartId> parts;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    const auto& unit = work.units[static_cast<std::size_t>(u)];
    parts.insert(parts.end(), unit.begin(), unit.end());
  }
  std::sort(parts.begin(), parts.end());
  return parts;
}

bool comes_from_below(const order::ScheduleProblem& problem, const order::PlannedJoin& join,
                      const Direction& up) {
  const order::Removal& removal = problem.assembly.removals[static_cast<std::size_t>(join.removal)];
  return !removal.folds && dot(removal.direction, up) < -0.5;
}

BenchSide choose_bench_side(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                            const StageWork& work, const work::Standing& standing) {
  const auto side = [&](const Direction& up) {
    return side_with(up, problem, schedule, work, standing);
  };
  if (problem.closing_unit >= 0 && !schedule.joins.empty()) {
    const order::PlannedJoin& last = schedule.joins.back();
    const Direction off =
        problem.assembly.removals[static_cast<std::size_t>(last.removal)].direction;
    const Side lid_up = side(last.moving == base::UnitSet::of(problem.closing_unit) ? off : -off);
    return {lid_up.up, lid_up.wants_hand, "what closes it comes down on it at last"};
  }
  constexpr std::array<Direction, 6> kUps{
      {{0, 0, 1}, {0, -1, 0}, {0, 1, 0}, {1, 0, 0}, {-1, 0, 0}, {0, 0, -1}}};
  constexpr long kWorthTurning = 2;
  const Side as_drawn = side(kUps[0]);
  Side best = as_drawn;
  for (std::size_t i = 1; i < kUps.size() && as_drawn.hands() >= kWorthTurning; ++i) {
    Side other = side(kUps[i]);
    if (other.hands() < best.hands() && other.hands() + kWorthTurning <= as_drawn.hands()) {
      best = std::move(other);
    }
  }
  std::string reason = why(best, as_drawn);
  return {best.up, std::move(best.wants_hand), std::move(reason)};
}

}  // namespace planner::stage
