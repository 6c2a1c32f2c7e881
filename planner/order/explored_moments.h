// Moments that the search of a schedule has been at already.
#pragma once
#include <string>
#include <unordered_map>
#include <vector>

#include "planner/order/schedule_moves.h"

namespace planner::order {

// A moment as it is remembered: those of one key differ only in how much time is left.
struct MomentMark {
  std::string key;
  std::vector<int> left;  // larger is easier
};
MomentMark mark_of(ScheduleFacts& facts, const Moment& m);

class ExploredMoments {
 public:
  explicit ExploredMoments(Ties ties) : ties_(ties) {}

  // From a moment no harder nothing was found at a slack no larger. Where not just any schedule is
  // wanted, it counts too that nothing cheaper was found from there at no more cost.
  bool contains(const MomentMark& mark, int slack_s, const OrderCost& cost, bool any_wanted) const;

  // `hopeless`: no schedule at all starts there, whatever it costs.
  void add(MomentMark mark, int slack_s, const OrderCost& cost, bool hopeless);

 private:
  struct Explored {
    std::vector<int> left;
    int slack_s = 0;
    OrderCost cost;
    bool hopeless = false;
  };

  Ties ties_;
  std::unordered_map<std::string, std::vector<Explored>> by_key_;
};

}  // namespace planner::order
