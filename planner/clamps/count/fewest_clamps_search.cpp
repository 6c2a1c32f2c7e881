#include "planner/clamps/count/fewest_clamps_search.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>
#include <vector>

namespace planner::clamps::count {
namespace {

// What fails at some places fails at all: intervals are judged by every third, sets by every one.
constexpr std::size_t kEvery = 3;

// Spots in an interval whose middle is worth trying.
constexpr std::size_t kNarrow = 6;

// What one half of a box must promise beyond the other to be looked at first: more than mirror
// images differ by.
constexpr double kMore = 1.002;

struct Interval {
  std::size_t lo = 0, hi = 0;  // spots, both in
  std::size_t width() const { return hi - lo; }
};

class Intervals {
 public:
  Intervals(const PlacementQuestion& question, const SearchEffort& effort)
      : question_(question),
        left_(effort.work),
        stop_(effort.stop),
        spots_(question.limit_N.size()) {
    for (std::size_t s = 0; s < spots_; ++s) {
      next_.push_back(s + 1);
      before_.push_back(s);  // one past the last that may stand before s
    }
    for (std::size_t p = 0; p < question.table.places; p += kEvery) {
      places_.push_back(p);
    }
    keep_apart();
    for (const SpotRule& rule : question.rules) {
      counted_.emplace_back(spots_ + 1, 0);
      for (const std::size_t spot : rule.spots) {
        counted_.back()[spot + 1] = 1;
      }
      std::partial_sum(counted_.back().begin(), counted_.back().end(), counted_.back().begin());
    }
  }

  IntervalSearch run(int count) {
    IntervalSearch out;
    Box all;
    out.outcome =
        weigh(std::vector<Interval>(static_cast<std::size_t>(count), Interval{0, spots_ - 1}), all);
    if (out.outcome == SearchOutcome::found) {
      out.outcome = look(all);
    }
    out.placement = std::move(found_);
    return out;
  }

 private:
  // How far the next clamp is at least: past the spots right behind that a spot excludes.
  void keep_apart() {
    std::vector<std::vector<std::size_t>> rivals(spots_);
    for (const auto& [a, b] : question_.exclusive) {
      rivals[a].push_back(b);
      rivals[b].push_back(a);
    }
    for (std::size_t s = 0; s < spots_; ++s) {
      const auto excludes = [&](std::size_t other) {
        return std::find(rivals[s].begin(), rivals[s].end(), other) != rivals[s].end();
      };
      while (next_[s] < spots_ && excludes(next_[s])) {
        ++next_[s];
      }
      while (before_[s] > 0 && excludes(before_[s] - 1)) {
        --before_[s];
      }
    }
  }

  // In order, and far enough apart. False when that leaves no room.
  bool narrow(std::vector<Interval>& box) const {
    for (std::size_t i = 1; i < box.size(); ++i) {
      if (box[i - 1].lo >= spots_) {
        return false;
      }
      box[i].lo = std::max(box[i].lo, next_[box[i - 1].lo]);
    }
    for (std::size_t i = box.size() - 1; i-- > 0;) {
      if (before_[box[i + 1].hi] == 0) {
        return false;
      }
      box[i].hi = std::min(box[i].hi, before_[box[i + 1].hi] - 1);
    }
    return std::all_of(box.begin(), box.end(),
                       [this](const Interval& i) { return i.lo <= i.hi && i.hi < spots_; });
  }

  // A box that is not ruled out, and the best that its intervals stand for.
  struct Box {
    std::vector<Interval> intervals;
    double best = 0;
  };

  // Whether `intervals` can press enough; what they stand for goes into `box`.
  SearchOutcome weigh(std::vector<Interval> intervals, Box& box) {
    if (!narrow(intervals) || !may_obey(intervals)) {
      return SearchOutcome::none;
    }
    left_ -= static_cast<double>(places_.size() * intervals.size() * intervals.size());
    if (left_ < 0 || base::stop_requested(stop_)) {
      return SearchOutcome::out_of_effort;
    }
    box.best = best_of(intervals);
    box.intervals = std::move(intervals);
    return box.best < kEnough ? SearchOutcome::none : SearchOutcome::found;
  }

  // A box that weigh() has found able.
  SearchOutcome look(const Box& box) {
    const auto widest = std::max_element(
        box.intervals.begin(), box.intervals.end(),
        [](const Interval& a, const Interval& b) { return a.width() < b.width(); });
    if (widest->width() <= kNarrow && works_in_the_middle(box.intervals)) {
      return SearchOutcome::found;
    }
    if (widest->width() == 0) {
      return SearchOutcome::none;
    }
    const auto at = static_cast<std::size_t>(widest - box.intervals.begin());
    const std::size_t middle = (widest->lo + widest->hi) / 2;
    std::vector<Interval> low = box.intervals, high = box.intervals;
    low[at].hi = middle;
    high[at].lo = middle + 1;
    std::vector<Box> halves;
    for (std::vector<Interval>* half : {&low, &high}) {
      Box weighed;
      const SearchOutcome outcome = weigh(std::move(*half), weighed);
      if (outcome == SearchOutcome::out_of_effort) {
        return outcome;
      }
      if (outcome == SearchOutcome::found) {
        halves.push_back(std::move(weighed));
      }
    }
    // The half that promises more first: where there is a placement, it is sooner met there.
    if (halves.size() == 2 && halves.back().best > kMore * halves.front().best) {
      std::swap(halves.front(), halves.back());
    }
    for (const Box& half : halves) {
      const SearchOutcome outcome = look(half);
      if (outcome != SearchOutcome::none) {
        return outcome;
      }
    }
    return SearchOutcome::none;
  }

  // Enough intervals have a spot of each rule's.
  bool may_obey(const std::vector<Interval>& box) const {
    for (std::size_t r = 0; r < counted_.size(); ++r) {
      const std::vector<int>& upto = counted_[r];
      const auto meets = std::count_if(
          box.begin(), box.end(), [&](const Interval& i) { return upto[i.hi + 1] > upto[i.lo]; });
      if (meets < question_.rules[r].at_least) {
        return false;
      }
    }
    return true;
  }

  double best_of(const std::vector<Interval>& box) {
    PressTable table;
    table.places = places_.size();
    table.spots = box.size();
    for (const std::size_t p : places_) {
      table.at_rest.push_back(question_.table.at_rest[p]);
    }
    std::vector<double> snug, limit;
    std::vector<std::size_t> all;
    for (const Interval& i : box) {
      const Envelope& e = envelope(i);
      table.per_N.insert(table.per_N.end(), e.per_N.begin(), e.per_N.end());
      snug.push_back(e.snug_N);
      limit.push_back(e.limit_N);
      all.push_back(all.size());
    }
    return max_min_forces(table, all, snug, limit, kEnough).least;
  }

  bool works_in_the_middle(const std::vector<Interval>& box) {
    std::vector<std::size_t> spots;
    for (const Interval& i : box) {
      spots.push_back((i.lo + i.hi) / 2);
    }
    found_ = try_spots(question_, spots);
    return found_.has_value();
  }

  // The best of an interval's spots, place by place.
  struct Envelope {
    std::vector<double> per_N;
    double snug_N = 0, limit_N = 0;
  };
  const Envelope& envelope(const Interval& i) {
    const auto [it, fresh] = known_.try_emplace({i.lo, i.hi});
    Envelope& e = it->second;
    if (fresh) {
      const std::span<const double> first = question_.table.of(i.lo);
      for (const std::size_t p : places_) {
        e.per_N.push_back(first[p]);
      }
      e.snug_N = question_.snug_N[i.lo];
      e.limit_N = question_.limit_N[i.lo];
      for (std::size_t s = i.lo + 1; s <= i.hi; ++s) {
        const std::span<const double> column = question_.table.of(s);
        for (std::size_t k = 0; k < places_.size(); ++k) {
          e.per_N[k] = std::max(e.per_N[k], column[places_[k]]);
        }
        e.snug_N = std::min(e.snug_N, question_.snug_N[s]);
        e.limit_N = std::max(e.limit_N, question_.limit_N[s]);
      }
    }
    return e;
  }

  const PlacementQuestion& question_;
  double left_;  // of the effort
  const base::Stop* stop_;
  std::size_t spots_;
  std::vector<std::size_t> next_, before_;
  std::vector<std::vector<int>> counted_;  // a rule each: its spots before each spot
  std::vector<std::size_t> places_;        // that intervals are judged by
  std::map<std::pair<std::size_t, std::size_t>, Envelope> known_;
  std::optional<Placement> found_;
};

}  // namespace

IntervalSearch search_intervals(const PlacementQuestion& question, int count,
                                const SearchEffort& effort) {
  return Intervals(question, effort).run(count);
}

}  // namespace planner::clamps::count
