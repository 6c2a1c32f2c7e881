#include "cli/model/lists.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/caution_words.h"
#include "cli/words/note_words.h"
#include "cli/words/sentences.h"
#include "cli/words/spare_words.h"
#include "cli/words/trade_words.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

namespace cli::model {

using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

std::array<std::string, 3> clamp_place(const PlannedClamp& clamp, const geometry::Point& corner,
                                       const words::Wording& wording) {
  constexpr double kOnAxis = 0.999;
  const bool strap = !clamp.round.empty();  // only its height is measured
  std::array<std::string, 3> cells;
  for (std::size_t i = 0; i < 3; ++i) {
    cells[i] = (std::abs(clamp.axis[i]) > kOnAxis) != strap
                   ? "-"
                   : length_number(clamp.at[i] - corner[i], wording);
  }
  return cells;
}

std::vector<std::string> dry_fit_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  const std::string clamp = style.wording.uk_words ? "cramp" : "clamp";
  const bool in_order = std::none_of(plan.stages.begin(), plan.stages.end(),
                                     [](const Stage& stage) { return stage.steps.empty(); });
  out.push_back(fmt::format("Put it together without glue{}, with every {} and pad.",
                            in_order ? ", in the order below" : "", clamp));
  out.push_back("Every joint closes by hand or with one light turn; nothing rocks.");
  if (plan.needs_square) {
    const std::string outside = words::list_text(words::outside_diagonals(plan, style.wording));
    out.push_back(plan.rings.size() > 1
                      ? fmt::format("Outside diagonals: {}.", outside)
                      : fmt::format("Diagonals: inside {}, outside {}.",
                                    diagonal_text(plan.inside_mm, style.wording), outside));
  }
  out.push_back("Mark both ends of every joint (A-A, B-B), and which way is up.");
  out.push_back(fmt::format("Leave every {} open as listed, where its hand finds it.", clamp));
  return out;
}

std::vector<std::string> just_before_items(const Plan& plan) {
  std::vector<std::string> out;
  std::vector<planner::work::PartId> oily;
  for (planner::work::PartId part = 0; part < plan.parts.size(); ++part) {
    const planner::tables::Wood* wood = plan.parts[part].wood();
    if (wood != nullptr && wood->oily) {
      oily.push_back(part);
    }
  }
  if (!oily.empty()) {
    out.push_back(words::as_sentence(
        fmt::format("{}: oily wood; wipe its joints with a solvent and let that dry, or plane them "
                    "fresh (sources differ which), then glue at once",
                    words::part_names(plan, oily))));
  }
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(plan.glue.glue.family);
  for (const planner::tables::Preparation what :
       family == nullptr ? std::vector<planner::tables::Preparation>{} : family->preparation) {
    switch (what) {
      case planner::tables::Preparation::mix:
        out.push_back("Mix the glue by the label, well: from then on it sets in the pot.");
        break;
      case planner::tables::Preparation::heat:
        out.push_back(
            "Heat the glue in its water bath, by the label, until it runs off the brush.");
        break;
      case planner::tables::Preparation::warm_wood:
        out.push_back(
            "Warm the faces to be glued: on cold wood this glue gels before it is pressed.");
        break;
      case planner::tables::Preparation::dampen:
        break;  // said where it is spread
    }
  }
  if (plan.glue.size_coat_g > 0) {
    out.push_back(
        fmt::format("Size the glued end grain: a thin coat of glue ({}), 2 min to soak in.",
                    words::gram_text(plan.glue.size_coat_g)));
  }
  return out;
}

void add_new(std::vector<planner::work::PartId>& all,
             const std::vector<planner::work::PartId>& more) {
  for (const planner::work::PartId part : more) {
    if (std::find(all.begin(), all.end(), part) == all.end()) {
      all.push_back(part);
    }
  }
}

// What keeps a line that moves too much from cracking. Of a wide rail's tenons as much is glued as may move.
std::string cross_grain_help(const Plan& plan, const planner::work::CrossGrainNote& note,
                             const words::TextStyle& style) {
  if (!note.warning) {
    return {};
  }
  if (plan.joints[note.joint].kind != planner::work::JointKind::mortise_and_tenon) {
    return "; plywood or a floating panel would not crack";
  }
  const bool inch = style.wording.units == planner::base::Units::inch;
  const double step_mm = inch ? planner::base::kMmPerInch / 8 : 1;
  const double middle_mm = note.glued_mm * planner::work::kBearable_mm / note.movement_mm;
  return fmt::format("; glue one tenon of several, or the middle alone (middle = \"{}\" in its [[joint]])",
                     length_text(step_mm * std::floor(middle_mm / step_mm), style.wording));
}

std::vector<std::string> cross_grain_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  struct Group {
    std::vector<planner::work::PartId> moving;
    std::string moves, help;
    std::vector<planner::work::PartId> mates;
  };
  std::vector<Group> groups;
  for (const planner::work::CrossGrainNote& note : plan.cross_grain) {
    const auto& [a, b] = plan.joints[note.joint].parts;
    const std::string moves = gap_text(note.movement_mm, style.wording),
                      help = cross_grain_help(plan, note, style);
    auto found = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.moving.front() == note.moving && g.moves == moves && g.help == help;
    });
    if (found == groups.end()) {
      groups.push_back({{note.moving}, moves, help, {}});
      found = groups.end() - 1;
    }
    found->mates.push_back(a == note.moving ? b : a);
  }
  // The rails of a table all move alike: told once.
  for (std::size_t i = 0; i < groups.size(); ++i) {
    for (std::size_t k = groups.size(); --k > i;) {
      if (groups[k].moves == groups[i].moves && groups[k].help == groups[i].help) {
        groups[i].moving.insert(groups[i].moving.begin() + 1, groups[k].moving.front());
        add_new(groups[i].mates, groups[k].mates);
        groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(k));
      }
    }
  }
  for (const Group& group : groups) {
    const bool one = group.moving.size() == 1;
    out.push_back(words::as_sentence(
        fmt::format("{} across {}: over a year {} about {} more than {}{}.",
                    words::part_names(plan, group.moving), words::part_names(plan, group.mates),
                    one ? "it moves" : "each moves", group.moves,
                    group.mates.size() == 1 ? "that does" : "they do",
                    group.help)));
  }
  return out;
}

namespace {

std::vector<std::string> notes_and_movement(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  for (const planner::plan::Note& note : plan.notes) {
    out.push_back(words::as_sentence(words::note_text(plan, note)));
  }
  for (const planner::plan::SpareNote& note : plan.spare_notes) {
    out.push_back(words::as_sentence(words::printable(words::spare_text(plan, note))));
  }
  for (const std::string& item : cross_grain_items(plan, style)) {
    out.push_back(item);
  }
  return out;
}

}  // namespace

WatchOut watch_out_parted(const Plan& plan, const words::TextStyle& style) {
  WatchOut out{{}, notes_and_movement(plan, style)};
  for (const planner::plan::Caution& caution : plan.cautions) {
    const planner::plan::CautionKind kind = caution.kind;
    const bool of_work = kind == planner::plan::CautionKind::iron_stains ||
                         kind == planner::plan::CautionKind::sawn_later ||
                         kind == planner::plan::CautionKind::closed_inside;
    (of_work ? out.rest : out.harm).push_back(words::as_sentence(words::caution_text(plan, caution)));
  }
  return out;
}

std::vector<std::string> watch_out_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out = notes_and_movement(plan, style);
  for (const planner::plan::Caution& caution : plan.cautions) {
    out.push_back(words::as_sentence(words::caution_text(plan, caution)));
  }
  return out;
}

std::vector<std::string> rescue_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  const std::string& family = plan.glue.glue.family;
  const bool by_water = family.rfind("pva", 0) == 0 || family.rfind("hide", 0) == 0;
  out.push_back(
      fmt::format("Not together by the time to pull it apart: do so, wipe every face {}, "
                  "let it dry a day, start again.",
                  by_water ? "with water" : "as the label says"));
  out.push_back(fmt::format("A joint seizes: steady {} pressure, no blows.",
                            style.wording.uk_words ? "cramp" : "clamp"));
  if (plan.needs_square) {
    out.push_back(fmt::format(
        "Out of square: shift the {} heads, or slacken and start that axis again; don't squeeze a "
        "long diagonal against a panel.",
        style.wording.uk_words ? "cramp" : "clamp"));
  }
  out.push_back(
      "A joint stays open: look for a chip or a dry lump in it before it gets more force.");
  out.push_back(fmt::format("A part splits: glue into the split, wax paper, a small {} across it.",
                            style.wording.uk_words ? "cramp" : "clamp"));
  return out;
}

}  // namespace cli::model
