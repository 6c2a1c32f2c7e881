#include "tests/schedules/rules.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace tests {
namespace {

using namespace planner;

class Judge {
 public:
  Judge(const order::ScheduleProblem& problem, const order::Schedule& schedule)
      : p_(problem), s_(schedule) {}

  std::vector<std::string> judge() {
    nobody_in_two_places();
    lengths();
    joins();
    clamps();
    checks();
    clocks();
    return broken_;
  }

 private:
  void rule(bool kept, const std::string& what) {
    if (!kept) {
      broken_.push_back(what);
    }
  }
  const order::PlannedStep* find(plan::StepKind kind, int id,
                                 int order::PlannedStep::*field) const {
    for (const order::PlannedStep& step : s_.steps) {
      if (step.kind == kind && step.*field == id) {
        return &step;
      }
    }
    return nullptr;
  }
  int count(plan::StepKind kind) const {
    return static_cast<int>(std::ranges::count(s_.steps, kind, &order::PlannedStep::kind));
  }

  // Its longest joint, and every other by what it takes on top; but the one that takes most on top is free.
  int join_length(const std::vector<int>& closes) const {
    int seconds = closes.empty() ? p_.join_s : 0, free = 0;
    for (const int j : closes) {
      seconds = std::max(seconds, p_.joints[static_cast<std::size_t>(j)].join_s);
      free = std::max(free, p_.joints[static_cast<std::size_t>(j)].next_s);
    }
    for (const int j : closes) {
      seconds += p_.joints[static_cast<std::size_t>(j)].next_s;
    }
    return seconds - free;
  }

  void nobody_in_two_places() {
    for (std::size_t a = 0; a < s_.steps.size(); ++a) {
      rule(s_.steps[a].start_s >= 0, "starts before the clock");
      for (std::size_t b = a + 1; b < s_.steps.size(); ++b) {
        for (const int who : s_.steps[a].people) {
          rule(std::ranges::count(s_.steps[b].people, who) == 0 ||
                   s_.steps[a].end_s <= s_.steps[b].start_s ||
                   s_.steps[b].end_s <= s_.steps[a].start_s,
               "somebody does two things at once");
        }
      }
      const bool alone = s_.steps[a].kind == plan::StepKind::spread;
      rule(static_cast<int>(s_.steps[a].people.size()) == (alone ? 1 : p_.people), "wrong crew");
      for (const int who : s_.steps[a].people) {
        rule(who >= 1 && who <= p_.people, "a person who is not there");
      }
    }
  }

  void lengths() {
    rule(count(plan::StepKind::spread) == static_cast<int>(p_.joints.size()),
         "not every joint spread");
    rule(count(plan::StepKind::join) == p_.assembly.units - 1, "not every unit joined");
    for (const order::PlannedStep& step : s_.steps) {
      const int seconds = step.end_s - step.start_s;
      const auto rounds = [&](int each) {
        const int clamps = p_.groups[static_cast<std::size_t>(step.group)].clamps;
        return (clamps + p_.people - 1) / p_.people * each;
      };
      switch (step.kind) {
        case plan::StepKind::spread:
          rule(seconds == p_.joints[static_cast<std::size_t>(step.joint)].spread_s,
               "spread length");
          break;
        case plan::StepKind::join:
          rule(seconds == join_length(s_.joins[static_cast<std::size_t>(step.join)].joints), "join length");
          break;
        case plan::StepKind::snug:
          rule(seconds == rounds(p_.groups[static_cast<std::size_t>(step.group)].snug_s),
               "snug length");
          break;
        case plan::StepKind::tighten:
          rule(seconds == rounds(p_.groups[static_cast<std::size_t>(step.group)].tighten_s),
               "tighten length");
          break;
        case plan::StepKind::check:
          rule(seconds == (step.inside_check ? p_.inside_check_s : ring_of(step).check_s),
               "check length");
          break;
        case plan::StepKind::cauls:
        case plan::StepKind::fasten:
        case plan::StepKind::load:
        case plan::StepKind::ease:
        case plan::StepKind::turn:
          rule(false, "no step of a schedule");
          break;
        case plan::StepKind::wait:
          break;
      }
    }
  }

  bool free_along(const base::UnitSet& moving, const base::UnitSet& staying, int removal) const {
    for (int i = moving.lowest(); i >= 0; i = moving.next(i)) {
      for (int j = staying.lowest(); j >= 0; j = staying.next(j)) {
        if (p_.assembly.leave(removal, i, j) == order::kRefused) {
          return false;
        }
      }
    }
    return true;
  }

  void joins() {
    std::vector<base::UnitSet> groups;
    for (int u = 0; u < p_.assembly.units; ++u) {
      groups.push_back(base::UnitSet::of(u));
    }
    int last = 0;
    for (std::size_t m = 0; m < s_.joins.size(); ++m) {
      const order::PlannedJoin& join = s_.joins[m];
      const order::PlannedStep* step =
          find(plan::StepKind::join, static_cast<int>(m), &order::PlannedStep::join);
      rule(step != nullptr && step->start_s >= last, "joins out of turn");
      last = step == nullptr ? last : step->end_s;
      rule(std::erase(groups, join.moving) == 1 && std::erase(groups, join.staying) == 1,
           "a join of groups that are not there");
      groups.push_back(join.moving | join.staying);
      rule(free_along(join.moving, join.staying, join.removal), "a join that runs into something");
      bool touch = false;
      for (int i = join.moving.lowest(); i >= 0; i = join.moving.next(i)) {
        for (int j = join.staying.lowest(); j >= 0; j = join.staying.next(j)) {
          touch = touch || p_.assembly.touching(i, j);
        }
      }
      rule(touch, "a join of groups that do not touch");
      for (std::size_t j = 0; j < p_.joints.size(); ++j) {
        const auto [u, v] = p_.assembly.joints[j];
        const bool closes = (join.moving.contains(u) && join.staying.contains(v)) ||
                            (join.moving.contains(v) && join.staying.contains(u));
        rule(closes == (std::ranges::count(join.joints, static_cast<int>(j)) == 1),
             "a join that does not say what it closes");
        const order::PlannedStep* spread =
            find(plan::StepKind::spread, static_cast<int>(j), &order::PlannedStep::joint);
        if (closes && step != nullptr && spread != nullptr) {
          rule(spread->end_s <= step->start_s, "a joint closed before it was spread");
          joined_at_[j] = step->end_s;
        }
      }
    }
    rule(groups.size() == 1, "the units are not all together");
  }

  void clamps() {
    for (std::size_t g = 0; g < p_.groups.size(); ++g) {
      const order::PlannedStep* snug =
          find(plan::StepKind::snug, static_cast<int>(g), &order::PlannedStep::group);
      if (snug == nullptr) {
        rule(p_.groups[g].clamps == 0, "a group never snugged");
        continue;
      }
      for (const int first : p_.groups[g].after) {
        const order::PlannedStep* before =
            find(plan::StepKind::snug, first, &order::PlannedStep::group);
        rule(before == nullptr || before->end_s <= snug->start_s,
             "snugged before a group whose way it bars");
      }
      for (std::size_t j = 0; j < p_.joints.size(); ++j) {
        if (p_.joints[j].group == static_cast<int>(g)) {
          rule(snug->start_s >= joined_at_[j], "snugged before its joint is closed");
          const order::PlannedStep* tighten =
              find(plan::StepKind::tighten, static_cast<int>(g), &order::PlannedStep::group);
          const order::PlannedStep* press = p_.joints[j].held_snug ? snug : tighten;
          rule(press != nullptr, "never pressed");
          press = press == nullptr ? snug : press;
          rule(press->start_s - s_.clocks[j].spread_end_s >= p_.joints[j].wait_s,
               "pressed before the glue's wait is over");
          held_at_[j] = press->end_s;
        }
        if (std::ranges::count(p_.groups[g].closed_first, static_cast<int>(j)) > 0) {
          rule(snug->start_s >= joined_at_[j], "snugged before a joint on its axis is closed");
        }
      }
    }
  }

  const order::RingFinish& ring_of(const order::PlannedStep& step) const {
    return p_.rings[static_cast<std::size_t>(step.ring)];
  }

  // At once after the last snug round: tack, check, the rounds' tightening.
  void finish(int ring) {
    int at = 0;
    for (const order::PlannedStep& step : s_.steps) {
      const bool own = step.kind == plan::StepKind::snug &&
                       p_.groups[static_cast<std::size_t>(step.group)].ring == ring;
      at = own ? std::max(at, step.end_s) : at;
    }
    const auto comes = [&](plan::StepKind kind, int id, int order::PlannedStep::*field, int seconds,
                           const char* what) {
      const order::PlannedStep* step = find(kind, id, field);
      rule((step != nullptr) == (seconds > 0), what);
      rule(step == nullptr || (step->start_s == at && step->end_s == at + seconds), what);
      at += seconds;
    };
    const order::RingFinish& r = p_.rings[static_cast<std::size_t>(ring)];
    comes(plan::StepKind::wait, ring, &order::PlannedStep::ring, r.tack_s, "no tack at its time");
    comes(plan::StepKind::check, ring, &order::PlannedStep::ring, r.check_s,
          "not checked at once when all its ring is snug");
    for (int g = 0; g < static_cast<int>(p_.groups.size()); ++g) {
      const order::SnugRound& round = p_.groups[static_cast<std::size_t>(g)];
      if (round.ring == ring) {
        comes(plan::StepKind::tighten, g, &order::PlannedStep::group,
              (round.clamps + p_.people - 1) / p_.people * round.tighten_s,
              "not tightened at once when its ring is checked");
      }
    }
  }

  void checks() {
    int checked = p_.closing_unit < 0 ? 0 : 1;
    for (int ring = 0; ring < static_cast<int>(p_.rings.size()); ++ring) {
      finish(ring);
      checked += p_.rings[static_cast<std::size_t>(ring)].check_s > 0 ? 1 : 0;
    }
    rule(count(plan::StepKind::check) == checked, "a check that no ring asks for");
    if (p_.closing_unit < 0) {
      return;
    }
    const auto inside = std::ranges::find(s_.steps, true, &order::PlannedStep::inside_check);
    const int last = static_cast<int>(s_.joins.size()) - 1;
    const order::PlannedStep* closing = find(plan::StepKind::join, last, &order::PlannedStep::join);
    const order::PlannedStep* before =
        find(plan::StepKind::join, last - 1, &order::PlannedStep::join);
    rule(inside != s_.steps.end() && inside->end_s <= closing->start_s &&
             inside->start_s >= before->end_s,
         "no inside check before the closing part");
    const base::UnitSet lid = base::UnitSet::of(p_.closing_unit);
    rule(s_.joins.back().moving == lid || s_.joins.back().staying == lid, "the lid is not last");
  }

  void clocks() {
    int least = 0;
    bool first = true;
    for (std::size_t j = 0; j < p_.joints.size(); ++j) {
      const order::PlannedStep* spread =
          find(plan::StepKind::spread, static_cast<int>(j), &order::PlannedStep::joint);
      const order::JointTime& t = p_.joints[j];
      const int held = t.group < 0 ? joined_at_[j] : held_at_[j];
      const int open = joined_at_[j] - spread->start_s, total = held - spread->start_s;
      int slack = std::min(t.open_s - open, t.total_s - total);
      if (t.closed_s > 0) {
        const double share = 1 - static_cast<double>(open) / t.open_s;
        slack = std::min(slack, static_cast<int>(std::floor(share * t.closed_s + 1e-9)) -
                                    (held - joined_at_[j]));
      }
      rule(s_.clocks[j].slack_s == slack, "a joint's slack is wrong");
      rule(s_.clocks[j].used_open_s == open && s_.clocks[j].used_total_s == total,
           "a joint's times are wrong");
      least = first ? slack : std::min(least, slack);
      first = false;
    }
    rule(first || least == s_.slack_s, "the slack is not the least of the joints'");
    if (!p_.joints.empty()) {
      int apart = std::numeric_limits<int>::max();
      for (std::size_t j = 0; j < p_.joints.size(); ++j) {
        const order::JointTime& t = p_.joints[j];
        const int open_until = s_.clocks[j].spread_start_s + t.open_s;
        const bool closed = joined_at_[j] <= open_until;
        apart = std::min(
            apart, std::max(open_until,
                            closed ? s_.clocks[j].spread_start_s + t.total_s / 2 : open_until));
      }
      rule(s_.pull_apart_by_s == apart, "not the last moment to pull it apart");
    }
    int end = 0;
    for (const order::PlannedStep& step : s_.steps) {
      end = std::max(end, step.end_s);
    }
    rule(end == s_.makespan_s, "the makespan is not the last end");
  }

  const order::ScheduleProblem& p_;
  const order::Schedule& s_;
  std::vector<std::string> broken_;
  std::vector<int> joined_at_ = std::vector<int>(p_.joints.size(), 0);
  std::vector<int> held_at_ = std::vector<int>(p_.joints.size(), 0);
};

}  // namespace

std::vector<std::string> broken_rules(const order::ScheduleProblem& problem,
                                      const order::Schedule& schedule) {
  return Judge(problem, schedule).judge();
}

}  // namespace tests
