#include "cli/text/text_clamp_groups.h"

#include <algorithm>
#include <array>
#include <optional>

#include <fmt/format.h>

#include "cli/model/blocks.h"
#include "cli/model/lists.h"
#include "cli/text/text_clamps.h"
#include "cli/words/order_words.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

constexpr std::array<const char*, 3> kFrom = {"left", "front", "bottom"};

// What the clamps of a group have alike, and where each stands.
struct Placed {
  const PlannedClamp* clamp;
  std::string like;                  // all but its number, its place and its bar's side
  std::array<std::string, 3> place;  // "-" along itself
};

std::vector<Placed> placed_clamps(const Plan& plan, const Stage& stage,
                                  const words::Wording& wording) {
  const geometry::Point corner = words::stage_corner(plan, stage);
  const std::vector<model::Block> blocks = model::blocks_of(plan, wording);
  std::vector<Placed> all;
  for (const PlannedClamp& clamp : stage.clamps) {
    const std::string pads = blocks_under(blocks, clamp.n);
    const std::string kind = words::clamp_short(clamp.kind, wording);
    all.push_back({&clamp,
                   fmt::format("{}, jaws {}{}, {}", kind, length_number(clamp.opening_mm, wording),
                               pads == "-" ? ", bare" : ", pads " + pads,
                               words::clamp_how_word(clamp)),
                   model::clamp_place(clamp, corner, wording)});
  }
  return all;
}

// Each once, in the order they come.
std::vector<std::string> values_of(const std::vector<Placed>& group, std::size_t axis) {
  std::vector<std::string> values;
  for (const Placed& each : group) {
    if (std::find(values.begin(), values.end(), each.place[axis]) == values.end()) {
      values.push_back(each.place[axis]);
    }
  }
  return values;
}

std::string from_text(const std::vector<std::string>& values, std::size_t axis) {
  return fmt::format("{} from {}", words::list_text(values), kFrom[axis]);
}

// The places of a group told at once, "3/8 and 13 5/8 from left, each 2 and 6 from bottom": in the order of
// its clamps' numbers. Nothing where they are no such rows.
std::optional<std::string> rows_text(const std::vector<Placed>& group) {
  std::vector<std::size_t> axes;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (group.front().place[axis] != "-") {
      axes.push_back(axis);
    }
  }
  if (axes.size() != 2) {
    std::string text;
    for (const std::size_t axis : axes) {
      text += (text.empty() ? "" : ", ") + from_text({group.front().place[axis]}, axis);
    }
    return group.size() == 1 ? std::optional(text) : std::nullopt;
  }
  for (const auto& [outer, inner] : {std::pair(axes[0], axes[1]), std::pair(axes[1], axes[0])}) {
    const std::vector<std::string> rows = values_of(group, outer), each = values_of(group, inner);
    bool fits = rows.size() * each.size() == group.size();
    for (std::size_t i = 0; fits && i < group.size(); ++i) {
      fits = group[i].place[outer] == rows[i / each.size()] &&
             group[i].place[inner] == each[i % each.size()];
    }
    if (fits) {
      const bool rowed = rows.size() > 1 && each.size() > 1;
      return fmt::format("{}, {}{}", from_text(rows, outer), rowed ? "each " : "",
                         from_text(each, inner));
    }
  }
  return std::nullopt;
}

// As many of the clamps from there on as are alike and stand in rows.
std::vector<Placed> group_from(const std::vector<Placed>& all, std::size_t first) {
  std::vector<Placed> longest{all[first]}, group = longest;
  for (std::size_t i = first + 1; i < all.size(); ++i) {
    const bool same = all[i].like == all[first].like && words::clamp_way(*all[i].clamp) ==
                                                             words::clamp_way(*all[first].clamp);
    if (!same) {
      break;
    }
    group.push_back(all[i]);
    if (rows_text(group)) {
      longest = group;
    }
  }
  return longest;
}

// "3-4", "7, 9": short, inside a list.
std::string few_text(const std::vector<int>& numbers) {
  const bool run = numbers.back() - numbers.front() + 1 == static_cast<int>(numbers.size());
  if (run && numbers.size() > 1) {
    return fmt::format("{}-{}", numbers.front(), numbers.back());
  }
  std::string text;
  for (const int n : numbers) {
    text += (text.empty() ? "" : ", ") + std::to_string(n);
  }
  return text;
}

using Sides = std::vector<std::pair<std::string, std::vector<int>>>;  // with the numbers on each

// The two sides with most clamps first, where of those one is on the one side, the next on the other.
bool put_turns_first(const std::vector<Placed>& group, Sides& sides) {
  std::ranges::stable_sort(sides, std::ranges::greater{}, [](const auto& side) { return side.second.size(); });
  std::string before;
  std::size_t turns = 0;
  for (const Placed& each : group) {
    const std::string side = bar_word(each.clamp->bar_side);
    if (side != sides[0].first && side != sides[1].first) {
      continue;
    }
    if (side == before) {
      return false;
    }
    before = side;
    ++turns;
  }
  return turns > 2;
}

// "bar front", "bars 3-4 left, 5-6 right", "bars below and above by turns, 19 right"; a
// strap has none.
std::string bars_text(const std::vector<Placed>& group) {
  Sides sides;
  for (const Placed& each : group) {
    const std::string side = bar_word(each.clamp->bar_side);
    auto found = std::find_if(sides.begin(), sides.end(),
                              [&](const auto& known) { return known.first == side; });
    if (found == sides.end()) {
      found = sides.insert(sides.end(), {side, {}});
    }
    found->second.push_back(each.clamp->n);
  }
  if (!group.front().clamp->round.empty()) {
    return {};
  }
  if (sides.size() == 1) {
    return (group.size() == 1 ? ", bar " : ", bars ") + sides.front().first;
  }
  std::string text = ", bars";
  if (Sides sorted = sides; put_turns_first(group, sorted)) {
    text += fmt::format(" {} and {} by turns", sorted[0].first, sorted[1].first);
    sides.assign(sorted.begin() + 2, sorted.end());
  }
  for (const auto& [side, numbers] : sides) {
    text += fmt::format("{} {} {}", text == ", bars" ? "" : ",", few_text(numbers), side);
  }
  return text;
}

std::string group_text(const std::vector<Placed>& group) {
  return fmt::format("{}: {}; {}{}", words::clamp_way(*group.front().clamp), *rows_text(group),
                     group.front().like, bars_text(group));
}

void groups_of(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  const std::vector<Placed> all = placed_clamps(plan, stage, style.wording);
  std::vector<std::vector<Placed>> groups;
  for (std::size_t i = 0; i < all.size(); i += groups.back().size()) {
    groups.push_back(group_from(all, i));
  }
  std::vector<std::string> marks;
  int widest = 0;
  for (const std::vector<Placed>& group : groups) {
    const int first = group.front().clamp->n, last = group.back().clamp->n;
    marks.push_back(first == last ? std::to_string(first) : fmt::format("{}-{}", first, last));
    widest = std::max(widest, words::columns(marks.back()));
  }
  for (std::size_t i = 0; i < groups.size(); ++i) {
    page.item(words::padded(marks[i], widest), group_text(groups[i]));
  }
}

}  // namespace

void clamp_groups_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  const char* heading = style.wording.uk_words ? "CRAMPS" : "CLAMPS";
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    if (stage.clamps.empty()) {
      continue;
    }
    page.heading(fmt::format("{}{}, in {} from the front-left-bottom corner", heading,
                             plan.stages.size() == 1 ? "" : fmt::format(", stage {}", i + 1),
                             unit_name(style.wording)));
    groups_of(plan, stage, style, page);
    std::string key;
    for (const std::string& word : purpose_words(stage)) {
      key += (key.empty() ? "" : "; ") + word;
    }
    if (!key.empty()) {
      page.line("  " + key + ".", 4);
    }
    corner_lines(plan, stage, style, page);
    if (style.explain) {
      for (const PlannedClamp& clamp : stage.clamps) {
        page.item(fmt::format("why {}:", clamp.n), words::clamp_reason_text(plan, clamp));
      }
    }
  }
}

}  // namespace cli::text
