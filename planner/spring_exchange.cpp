#include "planner/spring_exchange.h"

#include <algorithm>
#include <cmath>

namespace planner {
namespace {

// Of the hardest: what a spring carries less where all hold is the echo of clamps far off. It is
// let go at first; left holding, it would be found out one at a time along metres of board.
constexpr double kFaint = 1e-4;
constexpr double kRounding = 1e-12;

// `least` is the share of the largest closing that one which holds must have.
std::vector<std::size_t> wrong_springs(const std::vector<double>& closing,
                                       const std::vector<char>& holding, double least) {
  double largest = 0;
  for (const double c : closing)
    largest = std::max(largest, std::abs(c));
  std::vector<std::size_t> wrong;
  for (std::size_t i = 0; i < closing.size(); ++i)
    if (holding[i] ? closing[i] < least * largest : closing[i] > kRounding * largest)
      wrong.push_back(i);
  return wrong;
}

}  // namespace

bool SpringExchange::next(const std::vector<double>& closing, std::vector<char>& holding) {
  std::vector<std::size_t> wrong = wrong_springs(closing, holding, -kRounding);
  if (wrong.empty())
    return false;
  if (first_)
    wrong = wrong_springs(closing, holding, kFaint);
  first_ = false;
  if (wrong.size() < fewest_) {
    fewest_ = wrong.size();
    patience_ = kPatience;
  } else {
    --patience_;
  }
  if (patience_ < 0) {
    holding[wrong.back()] ^= 1;
    return true;
  }
  for (const std::size_t i : wrong)
    holding[i] ^= 1;
  return true;
}

}  // namespace planner
