#include "cli/text/text_clamps.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/model/blocks.h"
#include "cli/model/lists.h"
#include "cli/model/pressure_cells.h"
#include "cli/words/order_words.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::LinePressure;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

void clamp_table(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  const words::Wording& wording = style.wording;
  const geometry::Point corner = words::stage_corner(plan, stage);
  const std::vector<model::Block> blocks = model::blocks_of(plan, wording);
  Table table{{Align::right, Align::left, Align::right, Align::right, Align::right, Align::left,
               Align::right, Align::left, Align::left, Align::left},
              {{"", "", "from", "from", "from", "", "", "", "", ""},
               {"no", "presses", "left", "front", "bottom", wording.uk_words ? "cramp" : "clamp",
                "jaws", "bar", "pad", "for"}}};
  for (const PlannedClamp& clamp : stage.clamps) {
    const auto place = model::clamp_place(clamp, corner, wording);
    table.rows.push_back({std::to_string(clamp.n), words::clamp_way(clamp), place[0], place[1],
                          place[2], words::clamp_short(clamp.kind, wording),
                          length_number(clamp.opening_mm, wording),
                          clamp.round.empty() ? bar_word(clamp.bar_side) : "-",
                          blocks_under(blocks, clamp.n), words::clamp_how_word(clamp)});
  }
  lay_out(table, 2, page);
}

// "about 400 lbf each for no. 1-4": clamps that want the same force.
void force_lines(const Stage& stage, const words::TextStyle& style, Page& page) {
  struct Group {
    std::string force;
    std::vector<int> numbers;
  };
  std::vector<Group> groups;
  for (const PlannedClamp& clamp : stage.clamps) {
    if (clamp.level == planner::plan::Level::seat) {
      continue;
    }
    const std::string force = force_text(clamp.force_N, style.wording);
    auto found = std::find_if(groups.begin(), groups.end(),
                              [&](const Group& group) { return group.force == force; });
    if (found == groups.end()) {
      groups.push_back({force, {}});
      found = groups.end() - 1;
    }
    found->numbers.push_back(clamp.n);
  }
  std::vector<std::string> texts;
  for (const Group& group : groups) {
    texts.push_back(fmt::format("{} on no. {}", group.force, words::numbers_text(group.numbers)));
  }
  if (!texts.empty()) {
    page.line("  Force: " + words::list_text(texts) + ".", 4);
  }
}

void legend(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  const std::vector<std::string> words = purpose_words(stage);
  if (words.empty()) {
    return;
  }
  std::string text = "  ";
  for (const std::string& word : words) {
    text += (text == "  " ? "" : "; ") + word;
  }
  page.line(text + ".", 4);
  for (const model::Block& block : model::blocks_of(plan, style.wording)) {
    const bool here =
        std::any_of(stage.clamps.begin(), stage.clamps.end(), [&](const PlannedClamp& clamp) {
          return std::find(block.clamps.begin(), block.clamps.end(), clamp.n) != block.clamps.end();
        });
    if (here) {
      const std::string centered = style.wording.uk_words ? "centred" : "centered";
      const std::string shape = block_shape_text(block, style.wording);
      page.line(fmt::format("  {} {}: {}, {}{}.", block.caul ? "Caul" : "Pad", block.letter,
                            model::block_size_text(block.size, style.wording),
                            shape.empty() ? "" : shape + ", ",
                            block.at_corners ? "on either side of every corner, under the strap"
                                             : centered + " on the wall or edge behind it"),
                4);
    }
  }
}

std::vector<model::PressureCell> cells_of(const Plan& plan, const LinePressure& line) {
  constexpr int kCells = 16;
  return model::pressure_cells(line, kCells, model::crush_limit_MPa(plan, line));
}

std::string strip(const Plan& plan, const LinePressure& line, bool unicode) {
  std::string text;
  for (const model::PressureCell cell : cells_of(plan, line)) {
    switch (cell) {
      case model::PressureCell::open:
        text += "_";
        break;
      case model::PressureCell::weak:
        text += unicode ? "░" : ".";
        break;
      case model::PressureCell::held:
        text += unicode ? "▒" : "-";
        break;
      case model::PressureCell::full:
        text += unicode ? "▓" : "=";
        break;
      case model::PressureCell::crushed:
        text += unicode ? "█" : "#";
        break;
    }
  }
  return text;
}

// What the strips' letters mean; a wood that crushes is told of only where one does.
std::string strips_key(const Plan& plan, const std::vector<LinePressure>& lines, bool unicode) {
  std::string key = unicode ? "  _ none   ░ weak   ▒ holds   ▓ full"
                            : "  _ none   . weak   - holds   = full";
  const bool crushed = std::any_of(lines.begin(), lines.end(), [&](const LinePressure& line) {
    const std::vector<model::PressureCell> cells = cells_of(plan, line);
    return std::find(cells.begin(), cells.end(), model::PressureCell::crushed) != cells.end();
  });
  if (crushed) {
    key += unicode ? "   █ crushes the wood" : "   # crushes the wood";
  }
  return key;
}

}  // namespace

std::string unit_name(const words::Wording& wording) {
  return wording.units == planner::base::Units::inch ? "inches" : "mm";
}

std::string bar_word(const geometry::Direction& side) {
  const std::string word = words::side_word(words::side_towards(side));
  return word == "top" ? "above" : word == "bottom" ? "below" : word;
}

std::vector<std::string> purpose_words(const Stage& stage) {
  const auto any = [&](planner::plan::Level level) {
    return std::any_of(stage.clamps.begin(), stage.clamps.end(),
                       [level](const PlannedClamp& clamp) { return clamp.level == level; });
  };
  using planner::plan::Strength;
  const auto drawn = [&](Strength strength) {
    return std::any_of(stage.clamps.begin(), stage.clamps.end(), [&](const PlannedClamp& clamp) {
      return clamp.level == planner::plan::Level::hold && clamp.strength == strength;
    });
  };
  std::vector<std::string> words;
  for (const auto& [strength, word] : {std::pair(Strength::gentle, "gentle = a third"),
                                       std::pair(Strength::firm, "firm = two thirds"),
                                       std::pair(Strength::hard, "hard = all")}) {
    if (drawn(strength)) {
      words.push_back(word + std::string(words.empty() ? " of your force" : ""));
    }
  }
  if (any(planner::plan::Level::full)) {
    words.push_back("boost = adds to it");
  }
  if (any(planner::plan::Level::seat)) {
    words.push_back("home = only closes");
  }
  return words;
}

// "Corner clamps first, which press nothing: front - left and back - right, 100 mm from bottom."; where
// along the corner their middle is.
void corner_lines(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  static constexpr const char* kFrom[] = {" from left", " from front", " from bottom"};
  const geometry::Point corner = words::stage_corner(plan, stage);
  const auto along = static_cast<std::size_t>(plan.square_normal);
  std::vector<std::string> places;
  for (std::size_t i = 0; i < stage.corner_clamps.size(); ++i) {
    const auto height = [&](std::size_t k) {
      return length_text(stage.corner_clamps[k].at[along] - corner[along], style.wording);
    };
    const bool last = i + 1 == stage.corner_clamps.size() || height(i) != height(i + 1);
    places.push_back(words::joint_text(plan, stage.corner_clamps[i].joint) +
                     (last ? ", " + height(i) + kFrom[along] : ""));
  }
  if (!places.empty()) {
    page.line(fmt::format("  Corner {} first, which press nothing: {}.",
                          style.wording.uk_words ? "cramps" : "clamps", words::list_text(places)),
              4);
  }
}

void clamps_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    if (stage.clamps.empty()) {
      continue;
    }
    page.heading(
        plan.stages.size() == 1
            ? (style.wording.uk_words ? "CRAMPS" : "CLAMPS")
            : fmt::format("{}, stage {}", style.wording.uk_words ? "CRAMPS" : "CLAMPS", i + 1));
    page.line(fmt::format("  In {}, from the front-left-bottom corner.", unit_name(style.wording)));
    clamp_table(plan, stage, style, page);
    legend(plan, stage, style, page);
    force_lines(stage, style, page);
    corner_lines(plan, stage, style, page);
    if (style.explain) {
      for (const PlannedClamp& clamp : stage.clamps) {
        page.item(fmt::format("why {}:", clamp.n), words::clamp_reason_text(plan, clamp));
      }
    }
  }
}

void pressure_section(const Plan& plan, const std::vector<LinePressure>& lines,
                      const words::TextStyle& style, Page& page) {
  if (lines.empty()) {
    return;
  }
  page.heading("PRESSURE along each glue line");
  Table table{{Align::left, Align::left, Align::left, Align::right, Align::right, Align::left},
              {{"joint", "", "pressed", "least", "mean", ""}}};
  std::vector<std::string> seated;
  bool estimated = false;
  constexpr int kNameWidth = 24;
  const bool with_faces = std::all_of(lines.begin(), lines.end(), [&](const LinePressure& line) {
    return line.level == planner::plan::Level::seat ||
           words::columns(words::face_text(plan, line.joint, line.face)) <= kNameWidth;
  });
  for (const LinePressure& line : lines) {
    if (line.level == planner::plan::Level::seat) {
      seated.push_back(words::joint_text(plan, line.joint));
      continue;
    }
    estimated = estimated || line.estimated;
    table.rows.push_back(
        {words::fullest_that_fits({with_faces ? words::face_text(plan, line.joint, line.face)
                                              : words::joint_text(plan, line.joint)},
                                  kNameWidth),
         strip(plan, line, style.wording.unicode), words::axis_word(line.axis),
         pressure_text(line.min_MPa, style.wording), pressure_text(line.mean_MPa, style.wording),
         words::line_level_word(line.level) + (line.estimated ? "*" : "")});
  }
  if (table.rows.size() > 1) {
    page.line(strips_key(plan, lines, style.wording.unicode));
    lay_out(table, 2, page);
  }
  if (!seated.empty()) {
    const auto glued = std::count_if(plan.joints.begin(), plan.joints.end(),
                                     [](const planner::work::Joint& joint) { return joint.glued; });
    const bool all = static_cast<std::size_t>(glued) == seated.size();
    page.line(fmt::format(
                  "  Home, no pressure asked: {}.",
                  all ? "every joint's shoulder" : "the shoulders of " + words::list_text(seated)),
              4);
  }
  if (estimated) {
    page.line("  * a shape outside the pressure model's range: an estimate.", 4);
  }
}

}  // namespace cli::text
