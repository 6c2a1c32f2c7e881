#include "planner/clamps/count/max_min_forces.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <limits>

namespace planner::clamps::count {
namespace {

using Map = Eigen::Map<Eigen::ArrayXd>;
using ConstMap = Eigen::Map<const Eigen::ArrayXd>;

Map as_array(std::vector<double>& values) {
  return {values.data(), static_cast<Eigen::Index>(values.size())};
}
ConstMap as_array(std::span<const double> values) {
  return {values.data(), static_cast<Eigen::Index>(values.size())};
}

// sum += times * row, several at once.
void add(std::vector<double>& sum, double times, std::span<const double> row) {
  as_array(sum) += times * as_array(row);
}

std::size_t least_of(const std::vector<double>& values) {
  return static_cast<std::size_t>(std::min_element(values.begin(), values.end()) - values.begin());
}

// max t, t <= at_rest_i + sum_j a_ij F_j, 0 <= F_j <= span_j, F over and above snug. Its dual has
// one row for t and one a clamp, so that a basis is tiny; its columns are the places (y), the
// limits (z) and the zeros (s). The simplex multipliers are (t, F), so pricing is "which place is
// pressed least". Most rounds look only at places watched: a sample, and every place that was ever
// found pressed least; all of them are looked at before the end is believed.
class DualSimplex {
 public:
  DualSimplex(const PressTable& table, std::span<const std::size_t> chosen,
              std::span<const double> snug_N, std::span<const double> limit_N, double enough)
      : table_(table),
        chosen_(chosen),
        snug_(snug_N),
        enough_(enough),
        size_(chosen.size() + 1),
        at_rest_(table.at_rest) {
    for (const std::size_t spot : chosen) {
      span_.push_back(limit_N[spot] - snug_N[spot]);
      add(at_rest_, snug_N[spot], table.of(spot));
    }
  }

  MaxMinForces solve() {
    start();
    for (std::size_t i = 0; i < table_.places; i += kStride)
      watch(i);
    for (int round = 0; round < kMaxRounds; ++round) {
      multipliers();
      if (bound() < enough_ - kSure) {
        return {bound(), {}, weights()};
      }
      const Column in = cheapest(round > kMaxRounds / 2);
      if (in.kind == Kind::none || !exchange(in)) {
        break;
      }
    }
    multipliers();
    return answer();
  }

 private:
  enum class Kind { none, place, limit, zero };
  struct Column {
    Kind kind = Kind::none;
    std::size_t index = 0;
  };
  static constexpr int kMaxRounds = 2000;
  static constexpr double kTiny = 1e-11;
  static constexpr double kSure = 1e-7;  // of a bound: far more than rounding
  static constexpr std::size_t kStride = 16;

  double a(std::size_t place, std::size_t j) const {
    return table_.per_N[chosen_[j] * table_.places + place];
  }

  double cost(const Column& c) const {
    switch (c.kind) {
      case Kind::place:
        return at_rest_[c.index];
      case Kind::limit:
        return span_[c.index];
      default:
        return 0;
    }
  }

  void entries(const Column& c, std::vector<double>& out) const {
    std::fill(out.begin(), out.end(), 0.0);
    if (c.kind == Kind::place) {
      out[0] = 1;
      for (std::size_t j = 0; j + 1 < size_; ++j) {
        out[j + 1] = -a(c.index, j) * scale_;
      }
    } else {
      out[c.index + 1] = c.kind == Kind::limit ? 1 : -1;
    }
  }

  // Basis: one place, and for each clamp its limit or its zero, whichever is feasible.
  void start() {
    // Rows for the clamps are scaled so that entries are near 1.
    double largest = kTiny;
    pressed_ = at_rest_;  // by every clamp that presses there, at its limit
    for (std::size_t j = 0; j + 1 < size_; ++j) {
      const ConstMap row = as_array(table_.of(chosen_[j]));
      largest = std::max(largest, row.abs().maxCoeff());
      as_array(pressed_) += (row * span_[j]).max(0);
    }
    scale_ = 1 / largest;
    const std::size_t first = least_of(pressed_);
    basis_.assign(1, {Kind::place, first});
    value_.assign(1, 1.0);
    inverse_.assign(size_ * size_, 0.0);
    inverse_[0] = 1;
    for (std::size_t j = 0; j + 1 < size_; ++j) {
      const double need = a(first, j) * scale_;
      const double sign = need > 0 ? 1 : -1;
      basis_.push_back({need > 0 ? Kind::limit : Kind::zero, j});
      value_.push_back(std::abs(need));
      // B = [1 0; -need sign]: its inverse has need*sign under the 1.
      inverse_[(j + 1) * size_] = need * sign;
      inverse_[(j + 1) * size_ + j + 1] = sign;
    }
  }

  void multipliers() {
    price_.assign(size_, 0.0);
    for (std::size_t r = 0; r < size_; ++r) {
      const double c = scaled_cost(basis_[r]);
      for (std::size_t k = 0; k < size_; ++k) {
        price_[k] += c * inverse_[r * size_ + k];
      }
    }
  }

  // What the basis weighs the places by leaves no more than this to the least pressed one.
  double bound() const { return price_[0]; }

  // z_j and s_j count in scaled rows, so a unit of z_j costs limit / scale.
  double scaled_cost(const Column& c) const {
    return c.kind == Kind::limit ? cost(c) / scale_ : cost(c);
  }

  // A watched place's row of the table lies together: it is looked at in every round.
  void watch(std::size_t place) {
    watched_.push_back(place);
    for (std::size_t j = 0; j + 1 < size_; ++j)
      rows_.push_back(a(place, j));
  }

  double pressed_at_watched(std::size_t w) const {
    double pressed = at_rest_[watched_[w]];
    const double* row = rows_.data() + w * (size_ - 1);
    for (std::size_t j = 0; j + 1 < size_; ++j)
      pressed += price_[j + 1] * scale_ * row[j];
    return pressed;
  }

  std::size_t least_pressed() {
    pressed_ = at_rest_;
    for (std::size_t j = 0; j + 1 < size_; ++j)
      add(pressed_, price_[j + 1] * scale_, table_.of(chosen_[j]));
    return least_of(pressed_);
  }

  // The column that saves most; the first that saves anything when `any` (against cycling).
  Column cheapest(bool any) {
    Column best;
    double least = -1e-10;
    const auto offer = [&](Kind kind, std::size_t index, double reduced) {
      if (reduced < least) {
        best = {kind, index};
        least = reduced;
      }
      return any && best.kind != Kind::none;
    };
    for (std::size_t j = 0; j + 1 < size_; ++j) {
      const double share = std::max(1.0, std::abs(price_[0]));
      if (offer(Kind::limit, j, (span_[j] / scale_ - price_[j + 1]) / share) ||
          offer(Kind::zero, j, price_[j + 1] / share)) {
        return best;
      }
    }
    for (std::size_t w = 0; w < watched_.size(); ++w)
      if (offer(Kind::place, watched_[w], pressed_at_watched(w) - price_[0]))
        return best;
    if (best.kind == Kind::none) {
      const std::size_t place = least_pressed();
      offer(Kind::place, place, pressed_[place] - price_[0]);
      if (best.kind == Kind::place)
        watch(place);
    }
    return best;
  }

  bool exchange(const Column& in) {
    column_.assign(size_, 0.0);
    entries(in, column_);
    step_.assign(size_, 0.0);
    for (std::size_t r = 0; r < size_; ++r) {
      for (std::size_t k = 0; k < size_; ++k) {
        step_[r] += inverse_[r * size_ + k] * column_[k];
      }
    }
    std::size_t out = size_;
    double least = std::numeric_limits<double>::max();
    for (std::size_t r = 0; r < size_; ++r) {
      if (step_[r] > kTiny && value_[r] / step_[r] < least) {
        least = value_[r] / step_[r];
        out = r;
      }
    }
    if (out == size_) {
      return false;
    }
    for (std::size_t r = 0; r < size_; ++r) {
      value_[r] = r == out ? least : std::max(0.0, value_[r] - least * step_[r]);
    }
    const double pivot = step_[out];
    for (std::size_t k = 0; k < size_; ++k) {
      inverse_[out * size_ + k] /= pivot;
    }
    for (std::size_t r = 0; r < size_; ++r) {
      if (r != out && step_[r] != 0) {
        for (std::size_t k = 0; k < size_; ++k) {
          inverse_[r * size_ + k] -= step_[r] * inverse_[out * size_ + k];
        }
      }
    }
    basis_[out] = in;
    return true;
  }

  MaxMinForces answer() const {
    MaxMinForces out;
    std::vector<double> pressed = at_rest_;
    for (std::size_t j = 0; j + 1 < size_; ++j) {
      const double force = std::clamp(price_[j + 1] * scale_, 0.0, span_[j]);
      out.force_N.push_back(snug_[chosen_[j]] + force);
      add(pressed, force, table_.of(chosen_[j]));
    }
    out.least = *std::min_element(pressed.begin(), pressed.end());
    out.weight = weights();
    return out;
  }

  std::vector<double> weights() const {
    std::vector<double> weight(table_.places, 0.0);
    for (std::size_t r = 0; r < size_; ++r) {
      if (basis_[r].kind == Kind::place) {
        weight[basis_[r].index] += value_[r];
      }
    }
    return weight;
  }

  const PressTable& table_;
  std::span<const std::size_t> chosen_;
  std::span<const double> snug_;
  double enough_;
  std::size_t size_;
  std::vector<double> at_rest_;  // with every chosen clamp snug
  std::vector<double> span_;     // from snug to the limit, in the order of chosen_
  double scale_ = 1;
  std::vector<Column> basis_;
  std::vector<double> value_, inverse_, price_, column_, step_;
  std::vector<double> pressed_;  // of all places, when last looked at
  std::vector<std::size_t> watched_;
  std::vector<double> rows_;  // of the watched places, a value a clamp
};

}  // namespace

MaxMinForces max_min_forces(const PressTable& table, std::span<const std::size_t> chosen,
                            std::span<const double> snug_N, std::span<const double> limit_N,
                            double enough) {
  return DualSimplex(table, chosen, snug_N, limit_N, enough).solve();
}

}  // namespace planner::clamps::count
