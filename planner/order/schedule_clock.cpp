#include "planner/order/schedule_clock.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace planner::order {
namespace {

// Goes through the moves backwards in time, as the search did, with the real units in hand.
class Clock {
 public:
  Clock(const ScheduleProblem& problem, AssemblyGraph& graph, const ScheduleSearch& search,
        Schedule& schedule)
      : problem_(problem), graph_(graph), search_(search), out_(schedule) {
    out_.clocks.assign(problem.joints.size(), {});
    snug_.assign(problem.groups.size(), -1);
    tight_ = snug_;
    whole_crew_.resize(static_cast<std::size_t>(problem.people));
    std::iota(whole_crew_.begin(), whole_crew_.end(), 1);
  }

  void run() {
    blocks_.emplace(graph_.whole(), base::UnitSet::first(problem_.assembly.units));
    for (const Move& move : search_.moves()) {
      spread(move.window);
      if (move.barrier) {
        together(*move.barrier);
      }
    }
    turn_round();
    number();
  }

 private:
  // A joint that is open, and between when, backwards, it is to be spread.
  struct Due {
    int joint = 0, at_s = 0, ready_s = 0;
  };

  void step(PlannedStep s) { out_.steps.push_back(std::move(s)); }

  void spread(const SpreadWindow& window) {
    for (const PlacedSpreading& placed : window.placed) {
      // Any joint of this length that is due then is the one meant.
      const auto due = std::ranges::find_if(due_, [&](const Due& d) {
        return problem_.joints[static_cast<std::size_t>(d.joint)].spread_s == placed.what.seconds &&
               d.at_s - now_ == placed.what.left_s && d.ready_s <= now_;
      });
      const int joint = due->joint;
      due_.erase(due);
      const int start = now_ + placed.before_s;
      step(
          {plan::StepKind::spread, start, start - placed.what.seconds, {placed.person + 1}, joint});
    }
    now_ += window.length_s;
  }

  void together(const Barrier& barrier) {
    PlannedStep s;
    s.people = whole_crew_;
    s.end_s = now_;
    switch (barrier.kind) {
      case Barrier::Kind::unsnug:
        finish_ring_of(barrier.group);
        s.kind = plan::StepKind::snug;
        s.group = barrier.group;
        s.end_s = now_;
        snug_[static_cast<std::size_t>(barrier.group)] = now_;
        now_ += problem_.snug_s(barrier.group);
        if (barrier.pause_s > 0) {
          step({plan::StepKind::wait, now_ + barrier.pause_s, now_, whole_crew_});
        }
        break;
      case Barrier::Kind::inside_check:
        s.kind = plan::StepKind::check;
        s.inside_check = true;
        now_ += problem_.inside_check_s;
        break;
      case Barrier::Kind::part:
        s.kind = plan::StepKind::join;
        s.join = static_cast<int>(out_.joins.size());
        part(barrier);
        break;
    }
    s.start_s = now_;
    step(std::move(s));
    now_ += barrier.pause_s;
  }

  // When the joint was held, that was brought together at `joined`.
  int held(const JointTime& t, int joined) const {
    const auto g = static_cast<std::size_t>(t.group);
    return t.group < 0 ? joined : t.held_snug ? snug_[g] : tight_[g];
  }

  void finish_ring_of(int group);
  void part(const Barrier& barrier);
  void turn_round();
  void number();

  const ScheduleProblem& problem_;
  AssemblyGraph& graph_;
  const ScheduleSearch& search_;
  Schedule& out_;
  std::vector<int> whole_crew_;
  std::multimap<int, base::UnitSet> blocks_;
  std::vector<int> snug_, tight_;  // by group, backwards; -1: lies earlier
  std::vector<Due> due_;
  int now_ = 0;  // backwards from the moment everything is tight
};

// After the ring's last snug round, so the first that comes off: a pause for tack, the check, then
// tightening.
void Clock::finish_ring_of(int group) {
  const int ring = problem_.groups[static_cast<std::size_t>(group)].ring;
  if (tight_[static_cast<std::size_t>(group)] >= 0) {
    return;
  }
  const auto add = [&](plan::StepKind kind, int seconds, int tightened) {
    if (seconds > 0) {
      const bool checked = kind != plan::StepKind::tighten;
      step({kind, now_ + seconds, now_, whole_crew_, -1, -1, tightened, checked ? ring : -1});
    }
    now_ += seconds;
  };
  for (int g = static_cast<int>(tight_.size()) - 1; g >= 0; --g) {
    if (problem_.groups[static_cast<std::size_t>(g)].ring == ring) {
      tight_[static_cast<std::size_t>(g)] = now_;
      add(plan::StepKind::tighten, problem_.tighten_s(g), g);
    }
  }
  const RingFinish& finish = problem_.rings[static_cast<std::size_t>(ring)];
  add(plan::StepKind::check, finish.check_s, -1);
  add(plan::StepKind::wait, finish.tack_s, -1);
}

void Clock::part(const Barrier& barrier) {
  const int joined = now_;
  const Split split = graph_.splits(barrier.block)[static_cast<std::size_t>(barrier.split)];
  now_ += problem_.joining_s(split.joints);
  const auto it = blocks_.find(barrier.block);
  const base::UnitSet units = it->second;
  blocks_.erase(it);
  const base::UnitSet first = graph_.realise(units, barrier.block, split.first);
  const base::UnitSet second = units - first;
  PlannedJoin join{split.moving == 0 ? first : second,
                   split.moving == 0 ? second : first,
                   split.removal,
                   split.wiped_mm,
                   {}};
  for (std::size_t j = 0; j < problem_.joints.size(); ++j) {
    const auto [u, v] = problem_.assembly.joints[j];
    if ((first.contains(u) && second.contains(v)) || (first.contains(v) && second.contains(u))) {
      join.joints.push_back(static_cast<int>(j));
      const JointTime& t = problem_.joints[j];
      const int held_at = held(t, joined);
      const auto left =
          spreading_left_s(t, search_.moves_slack_s(), joined - held_at, now_ - joined);
      const int pressed = held_at + problem_.pressing_s(t);
      due_.push_back(
          {static_cast<int>(j), now_ + left.value_or(0), pressed + t.wait_before_pressing_s()});
      out_.clocks[j].joined_s = joined;
      out_.clocks[j].held_s = held_at;
    }
  }
  out_.joins.push_back(std::move(join));
  blocks_.emplace(split.first_id, first);
  blocks_.emplace(split.second_id, second);
}

// Backwards times become times from the first spreading.
void Clock::turn_round() {
  std::ranges::reverse(out_.joins);
  const int last = static_cast<int>(out_.joins.size()) - 1;
  for (PlannedStep& s : out_.steps) {
    s.start_s = now_ - s.start_s;
    s.end_s = now_ - s.end_s;
    s.join = s.join < 0 ? -1 : last - s.join;
  }
  std::ranges::reverse(out_.steps);
  for (const PlannedStep& s : out_.steps) {
    if (s.kind == plan::StepKind::spread) {
      JointClock& clock = out_.clocks[static_cast<std::size_t>(s.joint)];
      clock.spread_start_s = s.start_s;
      clock.spread_end_s = s.end_s;
    }
  }
  for (JointClock& clock : out_.clocks) {
    clock.joined_s = now_ - clock.joined_s;
    clock.held_s = now_ - clock.held_s;
  }
  out_.makespan_s = now_;
}

void Clock::number() {
  std::ranges::stable_sort(out_.steps, {}, [](const PlannedStep& s) {
    return std::pair(s.start_s, s.people.size() == 1 ? s.people[0] : 0);
  });
  for (std::size_t j = 0; j < out_.clocks.size(); ++j) {
    JointClock& c = out_.clocks[j];
    const JointTime& t = problem_.joints[j];
    c.used_open_s = c.joined_s - c.spread_start_s;
    c.used_total_s = c.held_s - c.spread_start_s;
    c.slack_s = slack_of(t, c.spread_start_s, c.joined_s, c.held_s);
    const bool in_time = c.used_open_s <= t.open_s;
    const int expires = c.spread_start_s + std::max(t.open_s, in_time ? t.total_s / 2 : 0);
    if (out_.tightest < 0 || c.slack_s < out_.slack_s) {
      out_.slack_s = c.slack_s;
      out_.tightest = static_cast<int>(j);
    }
    out_.pull_apart_by_s = j == 0 ? expires : std::min(out_.pull_apart_by_s, expires);
  }
}

}  // namespace

void fill_clock(const ScheduleProblem& problem, AssemblyGraph& graph, const ScheduleSearch& search,
                Schedule& schedule) {
  Clock(problem, graph, search, schedule).run();
}

}  // namespace planner::order
