#include <algorithm>

#include <fmt/format.h>

#include "cli/sentences.h"
#include "cli/sheet/text_sections.h"
#include "cli/trade_words.h"

namespace cli {
namespace {

using planner::Plan;
using planner::PlannedClamp;
using planner::Stage;

const std::string kBox = "[ ]";

// Clamps of one kind pre-set alike: "4 to 11 in across (1-4)".
std::string preset_text(const Plan& plan, const std::string& kind, const TextStyle& style) {
  struct Group {
    std::string text;
    std::vector<int> numbers;
  };
  std::vector<Group> groups;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.kind != kind) {
        continue;
      }
      const std::string text = fmt::format("to {} {}", length_text(clamp.opening_mm, style.wording),
                                           axis_word(clamp.axis));
      if (groups.empty() || groups.back().text != text) {
        groups.push_back({text, {}});
      }
      groups.back().numbers.push_back(clamp.n);
    }
  }
  std::vector<std::string> texts;
  for (const Group& group : groups) {
    texts.push_back(fmt::format("{} {} (no. {})", group.numbers.size(), group.text,
                                numbers_text(group.numbers)));
  }
  return texts.empty() ? "" : "; open " + list_text(texts);
}

void clamp_items(const Plan& plan, const TextStyle& style, Page& page) {
  std::vector<std::string> told;
  for (const planner::InventoryRow& row : plan.inventory) {
    // A kind on the rack in several lengths is pre-set once.
    const bool first = std::find(told.begin(), told.end(), row.kind) == told.end();
    told.push_back(row.kind);
    page.item(kBox,
              inventory_text(plan, row, style) + (first ? preset_text(plan, row.kind, style) : ""));
  }
}

void pad_items(const Plan& plan, const TextStyle& style, Page& page) {
  for (const PadLetter& pad : pad_letters(plan, style.wording)) {
    page.item(kBox,
              fmt::format("{} {}, {}", count_text(pad.count, "pad"), pad.letter,
                          size_text({pad.size.along_mm, pad.size.across_mm, pad.size.thick_mm},
                                    style.wording)));
  }
  std::vector<std::pair<std::string, std::vector<int>>> cauls;
  std::vector<int> bare;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.barrier) {
        bare.push_back(clamp.n);
      }
      if (!clamp.caul) {
        continue;
      }
      const std::string size = size_text(
          {clamp.caul->along_mm, clamp.caul->across_mm, clamp.caul->thick_mm}, style.wording);
      if (cauls.empty() || cauls.back().first != size) {
        cauls.push_back({size, {}});
      }
      cauls.back().second.push_back(clamp.n);
    }
  }
  for (const auto& [size, numbers] : cauls) {
    page.item(kBox, fmt::format("caul {} on each side, under no. {}; tape or wax its glue side",
                                size, numbers_text(numbers)));
  }
  if (!bare.empty()) {
    page.item(kBox, fmt::format("paper or tape under the bars of no. {}: bare iron stains wet wood",
                                numbers_text(bare)));
  }
}

void glue_items(const Plan& plan, const TextStyle& style, Page& page) {
  const planner::GlueNeed& need = plan.glue;
  page.item(kBox, fmt::format("{} of {}, with a brush",
                              glue_text(need.ready_ml, need.ready_g, style.wording),
                              printable(need.glue.name)));
  if (!need.mix.empty()) {
    std::vector<std::string> batches;
    for (const planner::GlueBatch& batch : need.mix) {
      batches.push_back(volume_text(batch.ml, style.wording));
    }
    page.item(kBox, fmt::format("scales and cups: mix by the label in {} of {}",
                                count_text(static_cast<int>(batches.size()), "batch"),
                                list_text(batches)));
  }
  page.item(kBox, "water, a wet rag and a dry one; mallet; a clock in sight");
}

}  // namespace

std::vector<PadLetter> pad_letters(const Plan& plan, const Wording& wording) {
  std::vector<PadLetter> letters;
  const auto text = [&](const planner::PadSize& p) {
    return size_text({p.along_mm, p.across_mm, p.thick_mm}, wording);
  };
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.pad.thick_mm <= 0) {
        continue;
      }
      auto found = std::find_if(letters.begin(), letters.end(), [&](const PadLetter& known) {
        return text(known.size) == text(clamp.pad);
      });
      if (found == letters.end()) {
        const std::size_t n = letters.size();
        const std::string letter(1, static_cast<char>('A' + n % 26));
        letters.push_back({clamp.pad, n < 26 ? letter : letter + std::to_string(n / 26), 0});
        found = letters.end() - 1;
      }
      found->count += 2;
    }
  }
  return letters;
}

void fetch_section(const Plan& plan, const TextStyle& style, Page& page) {
  page.heading("FETCH");
  if (plan.no_shop_file) {
    page.line("  No shop file: listing what to borrow or buy.");
  }
  clamp_items(plan, style, page);
  pad_items(plan, style, page);
  glue_items(plan, style, page);
  if (plan.needs_square) {
    page.item(kBox, "a stick or tape for the diagonals");
  }
  if (plan.people > 1) {
    page.item(kBox, fmt::format("{} people, each with a brush, who have read this", plan.people));
  }
}

void dry_fit_section(const Plan& plan, const TextStyle& style, Page& page) {
  const std::string clamp = style.wording.uk_words ? "cramp" : "clamp";
  page.heading("DRY FIT");
  page.item(kBox, fmt::format("Put it together without glue, in the order below, with every {} "
                              "and pad.",
                              clamp));
  page.item(kBox, "Every joint closes by hand or with one light turn; nothing rocks.");
  if (plan.needs_square) {
    page.item(kBox, fmt::format("Diagonals: inside {}, outside {}.",
                                diagonal_text(plan.inside_mm, style.wording),
                                diagonal_text(plan.outside_mm, style.wording)));
  }
  page.item(kBox, "Mark both ends of every joint (A-A, B-B), and which way is up.");
  page.item(kBox, fmt::format("Leave every {} open as listed, where its hand finds it.", clamp));
  if (plan.glue.size_coat_g > 0) {
    page.item(kBox,
              fmt::format("Before the clock starts: a thin coat of glue ({}) on the glued end "
                          "grain; let it soak in for about 2 min.",
                          gram_text(plan.glue.size_coat_g)));
  }
}

}  // namespace cli
