#include "planner/say/next_clamp.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "planner/files/shop_file.h"
#include "planner/tables/clamp.h"

namespace planner::say {
namespace {

constexpr double kSameSize_mm = 1;

int missing(const plan::Plan& plan) {
  int n = 0;
  for (const plan::InventoryRow& row : plan.inventory) {
    n += row.short_by;
  }
  return n;
}

double widest_missing_mm(const plan::Plan& plan) {
  double widest = 0;
  for (const plan::InventoryRow& row : plan.inventory) {
    widest = row.short_by > 0 ? std::max(widest, row.opening_mm) : widest;
  }
  return widest;
}

std::vector<ClampPurchase> candidates(std::span<const plan::Plan> plans) {
  std::vector<ClampPurchase> out;
  for (const plan::Plan& plan : plans) {
    for (const plan::InventoryRow& row : plan.inventory) {
      const bool known = std::any_of(out.begin(), out.end(), [&](const ClampPurchase& other) {
        return other.kind == row.kind && std::abs(other.opening_mm - row.opening_mm) < kSameSize_mm;
      });
      if (row.short_by > 0 && !known) {
        out.push_back({row.kind, row.opening_mm, 0, {}});
      }
    }
  }
  return out;
}

// The least number with which the job works; more never hurt. Nothing where as many as it lacks
// don't help.
std::optional<int> least_count(const ClampPurchase& clamp, std::size_t job, const plan::Plan& plan,
                               const work::Shop& shop, const JobWorks& works) {
  const auto with = [&](int n) {
    return works(job, with_more(shop, clamp.kind, clamp.opening_mm, n));
  };
  int high = missing(plan);
  if (clamp.opening_mm < widest_missing_mm(plan) - kSameSize_mm || !with(high)) {
    return std::nullopt;
  }
  for (int low = 1; low < high;) {
    const int middle = (low + high) / 2;
    if (with(middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return high;
}

}  // namespace

work::Shop with_more(work::Shop shop, const std::string& kind, double opening_mm, int count) {
  for (const work::OwnedClamp& sold : files::unlimited_shop().clamps) {
    if (sold.kind == kind && std::abs(sold.opening.mm() - opening_mm) < kSameSize_mm) {
      shop.clamps.push_back(sold);
      shop.clamps.back().count = count;
      break;
    }
  }
  return shop;
}

std::vector<ClampPurchase> clamps_to_buy(std::span<const plan::Plan> plans, const work::Shop& shop,
                                         const JobWorks& works) {
  std::vector<ClampPurchase> out = candidates(plans);
  for (ClampPurchase& clamp : out) {
    for (std::size_t job = 0; job < plans.size(); ++job) {
      if (missing(plans[job]) == 0) {
        continue;
      }
      if (const auto count = least_count(clamp, job, plans[job], shop, works)) {
        clamp.mends.push_back(job);
        clamp.count = std::max(clamp.count, *count);
      }
    }
  }
  std::erase_if(out, [](const ClampPurchase& clamp) { return clamp.mends.empty(); });
  std::stable_sort(out.begin(), out.end(), [](const ClampPurchase& a, const ClampPurchase& b) {
    if (a.mends.size() != b.mends.size()) {
      return a.mends.size() > b.mends.size();
    }
    return a.count != b.count ? a.count < b.count : a.opening_mm < b.opening_mm - kSameSize_mm;
  });
  return out;
}

}  // namespace planner::say
