// What presses a joint until its glue has set: the trade's means, of which bars are one.
#pragma once
#include <array>
#include <string_view>

namespace planner::work {

enum class HeldBy {
  clamps,  // bars, and whatever else of the clamp table has two jaws
  fit,     // its own: what lies in grooves, cheeks in their mortise
  screws,
  pins,
  nails,
  weights,
  tape,
  strap,
  vacuum,
  hand  // rubbed together, or held until the glue takes hold
};

// As the files and the JSON write them.
struct HeldByWord {
  HeldBy by;
  std::string_view word;
};
inline constexpr std::array<HeldByWord, 10> kHeldByWords = {{
    {HeldBy::clamps, "clamps"},
    {HeldBy::fit, "fit"},
    {HeldBy::screws, "screws"},
    {HeldBy::pins, "pins"},
    {HeldBy::nails, "nails"},
    {HeldBy::weights, "weights"},
    {HeldBy::tape, "tape"},
    {HeldBy::strap, "strap"},
    {HeldBy::vacuum, "vacuum"},
    {HeldBy::hand, "hand"},
}};

// In a job file: screws that go in aslant, from pockets in the part that ends at the joint.
inline constexpr std::string_view kPocketScrews = "pocket-screws";

// Driven through one part into the other, they press by themselves.
inline bool fastens(HeldBy by) {
  return by == HeldBy::screws || by == HeldBy::pins || by == HeldBy::nails;
}
// Neither bars nor a strap are looked for; weights and bags press from above, on their own.
inline bool wants_no_clamp(HeldBy by) { return by != HeldBy::clamps && by != HeldBy::strap; }

}  // namespace planner::work
