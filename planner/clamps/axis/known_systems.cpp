#include "planner/clamps/axis/known_systems.h"

#include <algorithm>
#include <utility>

namespace planner::clamps::axis {

std::vector<const double*> KnownSystem::influences_MPa(std::span<const std::vector<pressure::Push>> pushes) {
  std::vector<std::size_t> places;
  std::vector<std::vector<pressure::Push>> fresh;
  for (const std::vector<pressure::Push>& push : pushes) {
    const auto known = std::ranges::find(pushes_, push);
    places.push_back(static_cast<std::size_t>(known - pushes_.begin()));
    if (known == pushes_.end()) {
      pushes_.push_back(push);
      fresh.push_back(push);
    }
  }
  for (std::vector<double>& MPa : system_.influences_MPa(fresh)) {
    influences_.push_back(std::move(MPa));
  }
  std::vector<const double*> out;
  for (const std::size_t place : places) {
    out.push_back(influences_[place].data());
  }
  return out;
}

std::shared_ptr<KnownSystem> KnownSystems::of(pressure::StackSystem stack) {
  const auto known = std::ranges::find_if(known_, [&](const auto& k) { return k->stack() == stack; });
  if (known != known_.end()) {
    return *known;
  }
  std::size_t values = 0;
  for (const std::shared_ptr<KnownSystem>& k : known_) {
    values += k->values();
  }
  while (values > kMostValues) {
    values -= known_.front()->values();
    known_.pop_front();
  }
  return known_.emplace_back(std::make_shared<KnownSystem>(std::move(stack)));
}

}  // namespace planner::clamps::axis
