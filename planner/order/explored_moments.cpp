#include "planner/order/explored_moments.h"

#include <algorithm>

namespace planner::order {
namespace {

std::string key_of(const Moment& m) {
  std::string key;
  const auto put = [&key](int v) {
    key.push_back(static_cast<char>(v & 0xff));
    key.push_back(static_cast<char>(v >> 8 & 0xff));
  };
  put(static_cast<int>(m.phase));
  for (const int b : m.blocks) {
    put(b & 0xffff);
    put(b >> 16);
  }
  put(-1);
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    key.push_back(m.snug(g) ? '0' : '1');
  }
  for (const Spreading& job : m.jobs) {
    put(job.seconds);
  }
  return key;
}

// A joint that the group presses is still closed.
bool presses_closed(ScheduleFacts& facts, const Moment& m, std::size_t group) {
  for (std::size_t c = 0; c < facts.classes().size(); ++c) {
    if (facts.classes()[c].group == static_cast<int>(group) &&
        std::ranges::any_of(m.blocks, [&](int b) { return facts.block(b).class_seconds[c] > 0; })) {
      return true;
    }
  }
  return false;
}

}  // namespace

MomentMark mark_of(ScheduleFacts& facts, const Moment& m) {
  MomentMark mark{key_of(m), {}};
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    if (!m.snug(g) && presses_closed(facts, m, g)) {
      mark.left.push_back(-m.age[g]);
      if (facts.waits()[g] > 0) {
        mark.left.push_back(m.age[g]);  // for the wait, longer ago is easier
      }
    }
  }
  for (const Spreading& job : m.jobs) {
    mark.left.push_back(job.left_s);
    mark.left.push_back(-job.wait_s);
  }
  return mark;
}

bool ExploredMoments::contains(const MomentMark& mark, int slack_s, const OrderCost& cost,
                               bool any_wanted) const {
  const auto it = by_key_.find(mark.key);
  return it != by_key_.end() && std::ranges::any_of(it->second, [&](const Explored& e) {
           return (e.hopeless || (!any_wanted && as_dear(ties_, cost, e.cost))) &&
                  e.slack_s <= slack_s &&
                  std::ranges::equal(mark.left, e.left, std::ranges::less_equal{});
         });
}

void ExploredMoments::add(MomentMark mark, int slack_s, const OrderCost& cost, bool hopeless) {
  std::vector<Explored>& known = by_key_[std::move(mark.key)];
  std::erase_if(known, [&](const Explored& e) {
    return hopeless && slack_s <= e.slack_s &&
           std::ranges::equal(e.left, mark.left, std::ranges::less_equal{});
  });
  known.push_back({std::move(mark.left), slack_s, cost, hopeless});
}

}  // namespace planner::order
