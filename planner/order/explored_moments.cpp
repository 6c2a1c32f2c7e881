#include "planner/order/explored_moments.h"

#include <algorithm>
#include <array>
#include <utility>

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

// Some of the class's joints are still closed.
bool any_closed(ScheduleFacts& facts, const Moment& m, std::size_t limit_class) {
  return std::ranges::any_of(m.blocks,
                             [&](int b) { return facts.block(b).class_seconds[limit_class] > 0; });
}

// How long ago the group was snug, and tight, as far as that counts: a joint that it holds so is
// still closed.
std::vector<int> ages_that_count(ScheduleFacts& facts, const Moment& m, std::size_t group) {
  std::array<bool, 2> counts{};
  for (std::size_t c = 0; c < facts.classes().size(); ++c) {
    const JointTime& limits = facts.classes()[c];
    if (limits.group == static_cast<int>(group) && any_closed(facts, m, c)) {
      counts[limits.held_snug ? 0 : 1] = true;
    }
  }
  std::vector<int> ages;
  for (const auto& [counted, age] :
       {std::pair(counts[0], m.age[group]), std::pair(counts[1], m.tight[group])}) {
    if (counted && age >= 0) {
      ages.push_back(age);
    }
  }
  return ages;
}

}  // namespace

MomentMark mark_of(ScheduleFacts& facts, const Moment& m) {
  MomentMark mark{key_of(m), {}};
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    for (const int age : ages_that_count(facts, m, g)) {
      mark.left.push_back(-age);
      if (facts.waits()[g] > 0) {
        mark.left.push_back(age);  // for the wait, longer ago is easier
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
