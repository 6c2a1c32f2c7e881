#include "planner/work/force_balance.h"

#include <Eigen/QR>
#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

namespace planner::work {
namespace {

// A row each for forces, moments and the effort.
constexpr int kRows = 7;
using Column = Eigen::Matrix<double, kRows, 1>;
using Columns = Eigen::Matrix<double, kRows, Eigen::Dynamic>;
using Vector = Eigen::VectorXd;

constexpr double kZero = 1e-11;   // of the steepest that a column could gain
constexpr double kMissed = 1e-7;  // of what is wanted

// Least squares with no column taken less than not at all: Lawson and Hanson, Solving Least Squares
// Problems (1974), chapter 23, from memory. What is left grows smaller at every step, so that it
// ends.
class LeastMissing {
 public:
  LeastMissing(const Columns& columns, const Column& wanted)
      : columns_(columns), wanted_(wanted), missing_(wanted) {}

  double run() {
    while (const std::optional<int> column = steepest()) {
      taken_.push_back(*column);
      amount_.push_back(0);
      const double before = missing_.norm();
      settle();
      if (!(missing_.norm() < before)) {
        break;
      }
    }
    return missing_.norm();
  }

 private:
  std::optional<int> steepest() const {
    const Vector gain = columns_.transpose() * missing_;
    std::optional<int> best;
    for (int c = 0; c < gain.size(); ++c) {
      const bool taken = std::find(taken_.begin(), taken_.end(), c) != taken_.end();
      const bool gains = gain[c] > kZero * columns_.col(c).norm() * wanted_.norm();
      if (!taken && gains && (!best || gain[c] > gain[*best])) {
        best = c;
      }
    }
    return best;
  }

  // The best amounts of those taken; on the way there what would become negative is given back.
  void settle() {
    while (!taken_.empty()) {
      const Vector aim = least_squares();
      double step = 1;
      std::optional<std::size_t> first;
      for (std::size_t k = 0; k < taken_.size(); ++k) {
        const double to = aim[static_cast<int>(k)];
        if (to <= 0 && amount_[k] <= step * (amount_[k] - to)) {
          step = amount_[k] / (amount_[k] - to);
          first = k;
        }
      }
      for (std::size_t k = 0; k < taken_.size(); ++k) {
        amount_[k] += step * (aim[static_cast<int>(k)] - amount_[k]);
      }
      if (!first) {
        break;
      }
      taken_.erase(taken_.begin() + static_cast<std::ptrdiff_t>(*first));
      amount_.erase(amount_.begin() + static_cast<std::ptrdiff_t>(*first));
    }
    missing_ = wanted_;
    for (std::size_t k = 0; k < taken_.size(); ++k) {
      missing_ -= amount_[k] * columns_.col(taken_[k]);
    }
  }

  Vector least_squares() const {
    Columns of(kRows, static_cast<int>(taken_.size()));
    for (std::size_t k = 0; k < taken_.size(); ++k) {
      of.col(static_cast<int>(k)) = columns_.col(taken_[k]);
    }
    return of.colPivHouseholderQr().solve(wanted_);
  }

  const Columns& columns_;
  const Column& wanted_;
  Column missing_;
  std::vector<int> taken_;
  std::vector<double> amount_;  // of each taken
};

}  // namespace

// What of the effort is spared is a column of its own.
bool can_add_up(std::span<const PointForce> pushes, const Wrench& wanted, double most_effort) {
  Columns columns = Columns::Zero(kRows, static_cast<int>(pushes.size()) + 1);
  for (std::size_t c = 0; c < pushes.size(); ++c) {
    columns.col(static_cast<int>(c))
        << Eigen::Map<const Eigen::Matrix<double, 6, 1>>(pushes[c].wrench.data()),
        pushes[c].effort;
  }
  columns(kRows - 1, columns.cols() - 1) = 1;
  Column whole;
  whole << Eigen::Map<const Eigen::Matrix<double, 6, 1>>(wanted.data()), most_effort;
  return LeastMissing(columns, whole).run() <= kMissed * whole.head<6>().norm();
}

}  // namespace planner::work
