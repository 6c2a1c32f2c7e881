#include "planner/fewest_clamps.h"

#include <algorithm>
#include <limits>

#include "planner/line_search.h"

namespace planner {
namespace {

constexpr double kEnough = 1 - 1e-7;
constexpr int kDearCount = 4;  // so many clamps more make a set as much dearer to look at

// What every good set must reach: the sum of its spots' worths is at least `need`.
struct Cut {
  std::vector<double> worth;  // a spot each, at most `need`
  double need = 0;
};

class Search {
 public:
  Search(const PlacementQuestion& question, const SearchEffort& effort)
      : question_(question), effort_(effort), spots_(question.limit_N.size()) {
    apart_.assign(spots_, {});
    for (const auto& [a, b] : question.exclusive) {
      apart_[a].push_back(b);
      apart_[b].push_back(a);
    }
    for (const SpotRule& rule : question.rules) {
      Cut cut{std::vector<double>(spots_, 0.0), static_cast<double>(rule.at_least)};
      for (const std::size_t spot : rule.spots) {
        cut.worth[spot] = 1;
      }
      cuts_.push_back(std::move(cut));
    }
  }

  FewestClamps run(const std::optional<Placement>& known) {
    FewestClamps out;
    out.best = known;
    const int most = known ? static_cast<int>(known->spots.size()) - 1 : static_cast<int>(spots_);
    for (count_ = 1; count_ <= most; ++count_) {
      out.bound = count_;
      chosen_.clear();
      barred_.assign(spots_, 0);
      const Outcome outcome = extend();
      if (outcome == Outcome::found) {
        out.best = found_;
        return out;
      }
      if (outcome == Outcome::out_of_effort) {
        return out;
      }
    }
    out.bound = most + 1;
    out.impossible = !known;  // not even with a clamp on every spot
    return out;
  }

 private:
  enum class Outcome { found, none, out_of_effort };

  // Chosen spots stay, barred ones are out; looks for a set of count_ that passes every cut and
  // trial.
  Outcome extend() {
    if (--effort_.branches < 0) {
      return Outcome::out_of_effort;
    }
    const Cut* cut = tightest();
    if (cut == &kHopeless) {
      return Outcome::none;
    }
    if (cut == nullptr) {
      if (enough(chosen_)) {
        return Outcome::found;
      }
      if (effort_.trials <= 0) {
        return Outcome::out_of_effort;
      }
      return extend();  // the new cut is not met by chosen_
    }
    return branch(*cut);
  }

  Outcome branch(const Cut& cut) {
    std::vector<std::size_t> options;
    for (std::size_t s = 0; s < spots_; ++s) {
      if (barred_[s] == 0 && cut.worth[s] > 0) {
        options.push_back(s);
      }
    }
    std::stable_sort(options.begin(), options.end(), [&](std::size_t a, std::size_t b) {
      return cut.worth[a] > cut.worth[b] + 1e-9 * cut.need;
    });
    Outcome outcome = Outcome::none;
    std::size_t tried = 0;
    for (; tried < options.size() && outcome == Outcome::none; ++tried) {
      const std::size_t spot = options[tried];
      choose(spot);
      outcome = extend();
      unchoose(spot);
      ++barred_[spot];  // every set with it has been looked at
    }
    for (std::size_t i = 0; i < tried; ++i) {
      --barred_[options[i]];
    }
    return outcome;
  }

  void choose(std::size_t spot) {
    chosen_.push_back(spot);
    ++barred_[spot];
    for (const std::size_t other : apart_[spot]) {
      ++barred_[other];
    }
  }
  void unchoose(std::size_t spot) {
    chosen_.pop_back();
    --barred_[spot];
    for (const std::size_t other : apart_[spot]) {
      --barred_[other];
    }
  }

  // The cut that is not met with fewest spots left that could help; null when all are met;
  // &kHopeless when one can't be met any more with the spots that remain to be chosen.
  const Cut* tightest() {
    const std::size_t left = static_cast<std::size_t>(count_) - chosen_.size();
    const Cut* best = nullptr;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (std::size_t c = 0; c < cuts_.size(); ++c) {
      const Cut& cut = cuts_[c];
      double lack = cut.need * kEnough;
      for (const std::size_t spot : chosen_) {
        lack -= cut.worth[spot];
      }
      if (lack <= 0) {
        continue;
      }
      helpful_.clear();
      for (std::size_t s = 0; s < spots_; ++s) {
        if (barred_[s] == 0 && cut.worth[s] > 0) {
          helpful_.push_back(cut.worth[s]);
        }
      }
      const std::size_t use = std::min(left, helpful_.size());
      std::partial_sort(helpful_.begin(), helpful_.begin() + static_cast<std::ptrdiff_t>(use),
                        helpful_.end(), std::greater<>());
      double reach = 0;
      for (std::size_t i = 0; i < use; ++i) {
        reach += helpful_[i];
      }
      if (reach < lack) {
        return &kHopeless;
      }
      if (helpful_.size() < fewest) {
        fewest = helpful_.size();
        best = &cut;
      }
    }
    return best;
  }

  // Tries the set; where it falls short, keeps why as a cut.
  bool enough(const std::vector<std::size_t>& set) {
    --effort_.trials;
    EvenForces forces = even_forces(question_.table, set, question_.snug_N, question_.limit_N);
    if (forces.least >= kEnough) {
      found_.spots = set;
      found_.forces = std::move(forces);
      return true;
    }
    Cut cut{std::vector<double>(spots_, 0.0), 0};
    for (std::size_t i = 0; i < question_.table.places; ++i) {
      cut.need += forces.weight[i] * (1 - question_.table.at_rest[i]);
    }
    for (std::size_t s = 0; s < spots_; ++s) {
      const std::span<const double> column = question_.table.of(s);
      double sum = 0;
      for (std::size_t i = 0; i < column.size(); ++i) {
        sum += forces.weight[i] * column[i];
      }
      cut.worth[s] = std::clamp(sum * question_.limit_N[s], 0.0, std::max(0.0, cut.need));
    }
    cuts_.push_back(std::move(cut));
    return false;
  }

  static inline const Cut kHopeless{};
  const PlacementQuestion& question_;
  SearchEffort effort_;
  std::size_t spots_;
  std::vector<std::vector<std::size_t>> apart_;
  std::vector<Cut> cuts_;
  int count_ = 1;
  std::vector<std::size_t> chosen_;
  std::vector<int> barred_;
  std::vector<double> helpful_;
  Placement found_;
};

FewestClamps fewest_in_line(const PlacementQuestion& question,
                            const std::optional<Placement>& known, int most_branches) {
  FewestClamps out;
  out.best = known;
  const std::size_t most = known ? known->spots.size() - 1 : question.limit_N.size();
  for (std::size_t count = 1; count <= most; ++count) {
    out.bound = static_cast<int>(count);
    const int branches = std::max(1, most_branches / (1 + out.bound / kDearCount));
    LineSearch search = search_line(question, out.bound, branches);
    if (search.outcome != LineOutcome::none) {
      out.best = search.placement ? std::move(search.placement) : known;
      return out;
    }
  }
  out.bound = static_cast<int>(most) + 1;
  out.impossible = !known;
  return out;
}

bool obeys_rules(const PlacementQuestion& question, std::span<const std::size_t> spots) {
  const auto has = [&](std::size_t spot) {
    return std::find(spots.begin(), spots.end(), spot) != spots.end();
  };
  for (const SpotRule& rule : question.rules) {
    if (std::count_if(rule.spots.begin(), rule.spots.end(), has) < rule.at_least) {
      return false;
    }
  }
  return std::none_of(question.exclusive.begin(), question.exclusive.end(),
                      [&](const auto& pair) { return has(pair.first) && has(pair.second); });
}

}  // namespace

std::optional<Placement> try_spots(const PlacementQuestion& question,
                                   std::span<const std::size_t> spots) {
  Placement placement;
  placement.spots.assign(spots.begin(), spots.end());
  std::sort(placement.spots.begin(), placement.spots.end());
  if (!obeys_rules(question, placement.spots)) {
    return std::nullopt;
  }
  placement.forces =
      even_forces(question.table, placement.spots, question.snug_N, question.limit_N);
  if (placement.forces.least < kEnough) {
    return std::nullopt;
  }
  return placement;
}

FewestClamps fewest_clamps(const PlacementQuestion& question, const std::optional<Placement>& known,
                           const SearchEffort& effort) {
  if (question.in_line) {
    return fewest_in_line(question, known, effort.branches);
  }
  FewestClamps out = Search(question, effort).run(known);
  if (out.best) {
    out.best = try_spots(question, out.best->spots);
  }
  return out;
}

}  // namespace planner
