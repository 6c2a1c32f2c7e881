// The shop file: TOML to a Shop, with every mistake at its place.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "planner/base/diagnostic.h"
#include "planner/work/shop.h"

namespace planner::files {

struct ShopReading {
  std::optional<work::Shop> shop;  // missing when there is an error among the diagnostics
  base::Diagnostics diagnostics;   // by place
};

// What the file leaves out of a clamp is filled in from the clamp table. A file that lists no
// clamps says nothing of the rack: it is taken as unlimited. Never throws or crashes, whatever the
// text.
ShopReading read_shop(const std::string& file, std::string_view text);

// For a user without a shop file: every kind in the table in every size it is sold in, plenty of
// each.
work::Shop unlimited_shop();
inline constexpr int kPlenty = 99;

}  // namespace planner::files
