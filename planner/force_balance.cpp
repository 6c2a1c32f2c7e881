#include "planner/force_balance.h"

#include <cmath>
#include <optional>
#include <vector>

namespace planner {
namespace {

constexpr std::size_t kForces = 6, kRows = kForces + 1;
constexpr double kZero = 1e-10;

// First phase of the simplex method: what is missing of `wanted`, row by row, is driven out of the
// basis.
class Tableau {
 public:
  Tableau(std::span<const PointForce> pushes, const Wrench& wanted, double most_effort) {
    for (std::size_t r = 0; r < kForces; ++r) {
      const double sign = wanted[r] < 0 ? -1 : 1;
      right_[r] = sign * wanted[r];
      for (const PointForce& push : pushes) {
        row_[r].push_back(sign * push.wrench[r]);
      }
      row_[r].push_back(0);
      missing_ += right_[r];
    }
    // What of the effort is spared is the last column, and in the basis from the start.
    for (const PointForce& push : pushes) {
      row_[kForces].push_back(push.effort);
    }
    row_[kForces].push_back(1);
    right_[kForces] = most_effort;
    basis_[kForces] = static_cast<int>(pushes.size());
    gain_.assign(pushes.size() + 1, 0);
    for (std::size_t c = 0; c < pushes.size(); ++c) {
      for (std::size_t r = 0; r < kForces; ++r) {
        gain_[c] += row_[r][c];
      }
    }
  }

  double least_missing() {
    while (missing_ > kZero) {
      const std::optional<std::size_t> column = entering();
      const std::optional<std::size_t> row = column ? leaving(*column) : std::nullopt;
      if (!row) {
        break;
      }
      pivot(*row, *column);
    }
    return missing_;
  }

 private:
  std::optional<std::size_t> entering() const {
    for (std::size_t c = 0; c < gain_.size(); ++c) {
      if (gain_[c] > kZero) {
        return c;
      }
    }
    return std::nullopt;
  }

  // Least ratio; of equal ones a row that still misses something, then the lowest basis column.
  std::optional<std::size_t> leaving(std::size_t c) const {
    std::optional<std::size_t> best;
    for (std::size_t r = 0; r < kRows; ++r) {
      if (row_[r][c] <= kZero) {
        continue;
      }
      if (!best) {
        best = r;
        continue;
      }
      const double ours = right_[r] * row_[*best][c], theirs = right_[*best] * row_[r][c];
      if (ours < theirs - kZero || (ours <= theirs + kZero && basis_[r] < basis_[*best])) {
        best = r;
      }
    }
    return best;
  }

  void pivot(std::size_t row, std::size_t column) {
    const double by = 1 / row_[row][column];
    right_[row] *= by;
    for (double& value : row_[row]) {
      value *= by;
    }
    for (std::size_t r = 0; r < kRows; ++r) {
      const double times = row_[r][column];
      if (r != row && times != 0) {
        subtract(row_[r], row_[row], times);
        right_[r] -= times * right_[row];
      }
    }
    const double times = gain_[column];
    subtract(gain_, row_[row], times);
    missing_ -= times * right_[row];
    basis_[row] = static_cast<int>(column);
  }

  static void subtract(std::vector<double>& from, const std::vector<double>& row, double times) {
    for (std::size_t c = 0; c < from.size(); ++c) {
      from[c] -= times * row[c];
    }
  }

  std::array<std::vector<double>, kRows> row_;
  std::array<double, kRows> right_{};
  std::array<int, kRows> basis_{-1, -1, -1, -1, -1, -1, -1};  // -1: still misses something
  std::vector<double> gain_;
  double missing_ = 0;
};

}  // namespace

bool can_add_up(std::span<const PointForce> pushes, const Wrench& wanted, double most_effort) {
  double size = 0;
  for (const double w : wanted) {
    size += std::abs(w);
  }
  return Tableau(pushes, wanted, most_effort).least_missing() <= 1e-7 * size;
}

}  // namespace planner
