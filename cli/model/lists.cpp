#include "cli/model/lists.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "cli/model/blocks.h"
#include "cli/words/caution_words.h"
#include "cli/words/note_words.h"
#include "cli/words/sentences.h"
#include "cli/words/spare_words.h"
#include "cli/words/trade_words.h"
#include "planner/advice/hands_wanted.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

namespace cli::model {
namespace {

using planner::plan::InventoryRow;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

// "; at front - left and back - right: they keep it square and press nothing", of corner clamps.
std::string corners_text(const Plan& plan, const InventoryRow& row) {
  std::vector<std::string> joints;
  for (const Stage& stage : plan.stages) {
    for (const planner::plan::CornerClamp& corner : stage.corner_clamps) {
      if (corner.kind == row.kind) {
        joints.push_back(words::joint_text(plan, corner.joint));
      }
    }
  }
  return joints.empty() ? ""
                        : fmt::format("; at {}: they keep it square and press nothing",
                                      words::list_text(joints));
}

// Clamps of one kind and size pre-set alike: "4 to 11 in across (1-4)".
std::string preset_text(const Plan& plan, const InventoryRow& row, const words::TextStyle& style) {
  struct Group {
    std::string text;
    std::vector<int> numbers;
  };
  std::vector<Group> groups;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.kind != row.kind || clamp.size_mm != row.opening_mm) {
        continue;
      }
      const std::string text = fmt::format("to {} {}", length_text(clamp.opening_mm, style.wording),
                                           words::clamp_way(clamp));
      if (groups.empty() || groups.back().text != text) {
        groups.push_back({text, {}});
      }
      groups.back().numbers.push_back(clamp.n);
    }
  }
  std::vector<std::string> texts;
  for (const Group& group : groups) {
    const std::string numbered =
        fmt::format("{} (no. {})", group.text, words::numbers_text(group.numbers));
    texts.push_back(groups.size() > 1 ? fmt::format("{} {}", group.numbers.size(), numbered)
                    : plan.inventory.size() > 1 ? numbered
                                                : group.text);
  }
  for (const Stage& stage : plan.stages) {
    const auto& cauls = stage.cross_cauls;
    if (cauls && cauls->kind == row.kind && cauls->size_mm == row.opening_mm) {
      texts.push_back(fmt::format("{}to {} for the cauls across",
                                  texts.empty() ? "" : fmt::format("{} ", cauls->clamps()),
                                  length_text(cauls->opening_mm, style.wording)));
    }
  }
  return texts.empty() ? corners_text(plan, row) : "; open " + words::list_text(texts);
}

void clamp_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  for (const InventoryRow& row : plan.inventory) {
    out.push_back(inventory_text(plan, row, style) + preset_text(plan, row, style));
  }
}

// Whether the jaw at `at` bears on a show face that looks along `face`.
bool on_show_face(const Plan& plan, const geometry::Point& at, planner::work::Face face) {
  constexpr double kNear_mm = 0.5;
  return std::any_of(
      plan.parts.begin(), plan.parts.end(), [&](const planner::plan::PlanPart& part) {
        bool inside = true;
        for (std::size_t axis = 0; axis < 3; ++axis) {
          inside = inside && at[axis] > part.bounds.lo[axis] - kNear_mm &&
                   at[axis] < part.bounds.hi[axis] + kNear_mm;
        }
        return inside && std::find(part.show.begin(), part.show.end(), face) != part.show.end();
      });
}

// No pad under it.
bool bare_jaws(const PlannedClamp& clamp) {
  return !clamp.caul && clamp.pad.thick_mm == 0 && clamp.round.empty();
}

std::vector<int> pads_on_show_faces(const Plan& plan) {
  std::vector<int> numbers;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (bare_jaws(clamp)) {
        continue;
      }
      const int axis = words::side_towards(clamp.axis).axis;
      const geometry::Point far = clamp.at + clamp.span_mm * clamp.axis;
      if (on_show_face(plan, clamp.at, {axis, false}) || on_show_face(plan, far, {axis, true})) {
        numbers.push_back(clamp.n);
      }
    }
  }
  return numbers;
}

void block_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  for (const Block& block : blocks_of(plan, style.wording)) {
    const std::string size = block_size_text(block.size, style.wording);
    const std::string shape = block_shape_text(block, style.wording);
    if (!shape.empty()) {
      out.push_back(fmt::format("{} {}, {}, {}; under no. {}, taped on against sliding",
                                words::count_text(block.count, block.caul ? "caul" : "pad"),
                                block.letter, size, shape, words::numbers_text(block.clamps)));
    } else if (block.caul) {
      out.push_back(fmt::format("{} {}, {}, {} under no. {}; tape or wax the glue side",
                                words::count_text(block.count, "caul"), block.letter, size,
                                block.one_end ? "opposite" : "one on each side",
                                words::numbers_text(block.clamps)));
    } else {
      out.push_back(
          fmt::format("{} {}, {}", words::count_text(block.count, "pad"), block.letter, size));
    }
  }
  const std::vector<int> shown = pads_on_show_faces(plan);
  if (!shown.empty()) {
    out.push_back(fmt::format(
        "pads under no. {} bear on show faces: clean, no harder than the work, taped where they "
        "cross a glue line",
        words::numbers_text(shown)));
  }
  std::vector<int> bare_wood;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (bare_jaws(clamp)) {
        bare_wood.push_back(clamp.n);
      }
    }
  }
  if (!bare_wood.empty()) {
    out.push_back(fmt::format("no pads under no. {}: wooden jaws, clean and waxed against glue",
                              words::numbers_text(bare_wood)));
  }
  std::vector<int> bare;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.barrier) {
        bare.push_back(clamp.n);
      }
    }
  }
  if (!bare.empty()) {
    out.push_back(fmt::format("paper or tape under the bars of no. {}: bare iron stains wet wood",
                              words::numbers_text(bare)));
  }
}

// Where on the assembly along an axis: "2 in from the left".
std::string place_text(const Plan& plan, int axis, double at_mm,
                       const words::Wording& wording) {
  double low = at_mm;
  for (const planner::plan::PlanPart& part : plan.parts) {
    low = std::min(low, part.bounds.lo[static_cast<std::size_t>(axis)]);
  }
  constexpr std::array<const char*, 3> kFrom = {"the left", "the front", "the bottom"};
  return fmt::format("{} from {}", words::length_text(at_mm - low, wording),
                     kFrom[static_cast<std::size_t>(axis)]);
}

// "2 pairs of cauls, 19 x 1 1/2 x 1 1/2 in, ... across the boards at 2 in from the left and ..."
void cross_caul_items(const Plan& plan, const words::TextStyle& style,
                      std::vector<std::string>& out) {
  for (const Stage& stage : plan.stages) {
    if (!stage.cross_cauls) {
      continue;
    }
    const planner::plan::CrossCauls& cauls = *stage.cross_cauls;
    std::vector<std::string> places;
    for (const double at : cauls.at_mm) {
      places.push_back(place_text(plan, cauls.along_axis, at, style.wording));
    }
    out.push_back(fmt::format(
        "{} of cauls across the boards, {}, waxed, planed a hair thinner towards the ends; {}",
        words::count_text(static_cast<int>(places.size()), "pair"),
        words::size_text({cauls.length_mm, cauls.side_mm, cauls.side_mm}, style.wording),
        words::list_text(places)));
  }
}

// What the work stands on, and as many blocks to lean parts on as there are hands missing at once.
void prop_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  int props = 0, step = 0;
  for (const Stage& stage : plan.stages) {
    for (const planner::advice::HandsWanted& wanted :
         planner::advice::joins_short_of_hands(stage, plan.people)) {
      if (wanted.props > props) {
        props = wanted.props;
        step = wanted.step;
      }
    }
  }
  const auto risers = std::ranges::max_element(plan.stages, {}, &Stage::risers_mm);
  if (risers != plan.stages.end() && risers->risers_mm > 0) {
    out.push_back(fmt::format("2 risers {} high, to stand the work on: jaws and bars pass under",
                              length_text(risers->risers_mm, style.wording)));
  }
  if (props > 0) {
    out.push_back(fmt::format("{}, to prop what there is no hand for in step {}",
                              words::count_text(props, "square block"), step));
  }
}

// Pins or screws for what is fastened, tape for what is folded up, weights and the bag.
void means_items(const Plan& plan, std::vector<std::string>& out) {
  using planner::work::HeldBy;
  for (const auto& [by, noun, tool] :
       {std::tuple(HeldBy::pins, "pin", "a light hammer"), std::tuple(HeldBy::nails, "nail", "a hammer"),
        std::tuple(HeldBy::screws, "screw", "a driver and a bit to bore for them")}) {
    std::size_t count = 0;
    for (const Stage& stage : plan.stages) {
      for (const planner::plan::Fastening& row : stage.fastenings) {
        count += row.by == by ? row.at.size() : 0;
      }
    }
    if (count > 0) {
      out.push_back(fmt::format("{}, {}", words::count_text(static_cast<int>(count), noun), tool));
    }
  }
  if (std::ranges::any_of(plan.joints, [](const planner::work::Joint& joint) {
        return joint.held_by == HeldBy::tape;
      })) {
    out.push_back("strong tape, for the outside of every corner: lay the boards end to end on it");
  }
  for (const Stage& stage : plan.stages) {
    for (const planner::plan::Loading& load : stage.loadings) {
      out.push_back(load.by == HeldBy::vacuum
                        ? "the vacuum bag and its pump, and film to lay on"
                        : (load.weights > 0 ? words::count_text(load.weights, "weight") : "weights") +
                              ", and film to lay them on");
    }
  }
}

void glue_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  const planner::work::GlueNeed& need = plan.glue;
  out.push_back(fmt::format("{} of {}, with a brush",
                            glue_text(need.ready_ml, need.ready_g, style.wording),
                            words::glue_name_text(need.glue)));
  if (!need.mix.empty()) {
    std::vector<std::string> batches;
    for (const planner::work::GlueBatch& batch : need.mix) {
      batches.push_back(volume_text(batch.ml, style.wording));
    }
    out.push_back(fmt::format("scales and cups: mix by the label in {} of {}",
                              words::count_text(static_cast<int>(batches.size()), "batch"),
                              words::list_text(batches)));
  }
  const planner::tables::GlueFamily* family = planner::tables::find_glue_family(need.glue.family);
  if (family != nullptr && family->gloves) {
    out.push_back("gloves that this glue's sheet names, for everybody");
  }
  if (family != nullptr && family->squeeze_out == planner::tables::SqueezeOut::thinner) {
    out.push_back("the thinner that the label names, and rags");
  }
  out.push_back("water, a wet rag and a dry one; mallet; a clock in sight");
}

// Of a frame a little out of square the right diagonal is the mean of its two, to the second order.
std::string squaring_stick_text(const Plan& plan, const words::Wording& wording) {
  return fmt::format(
      "a squaring stick, marked at {} (inside) and {} (outside); where two readings differ, shift "
      "until both read their average",
      length_text(std::hypot(plan.inside_mm[0], plan.inside_mm[1]), wording),
      length_text(std::hypot(plan.outside_mm[0], plan.outside_mm[1]), wording));
}

}  // namespace

std::array<std::string, 3> clamp_place(const PlannedClamp& clamp, const geometry::Point& corner,
                                       const words::Wording& wording) {
  const std::string way = words::axis_word(clamp.axis);
  const bool strap = !clamp.round.empty();  // only its height is measured
  const std::array<std::string, 3> along = {"along", "across", "down"};
  std::array<std::string, 3> cells;
  for (std::size_t i = 0; i < 3; ++i) {
    cells[i] = (way == along[i]) != strap ? "-" : length_number(clamp.at[i] - corner[i], wording);
  }
  return cells;
}

std::string owned_text(const InventoryRow& row) {
  return row.short_by > 0 ? fmt::format("have {}, SHORT by {}", row.owned, row.short_by)
                          : fmt::format("have {}", row.owned);
}

std::string inventory_text(const Plan& plan, const InventoryRow& row,
                           const words::TextStyle& style) {
  const bool sold = row.owned == 0 || plan.no_shop_file;
  const std::string size = sold ? sold_size_text(row.opening_mm, style.wording)
                                : length_text(row.opening_mm, style.wording);
  const std::string what = fmt::format(
      "{}{}", words::count_text(row.used + row.short_by, clamp_text(row.kind, style.wording)),
      row.opening_mm > 0 ? " of " + size : "");
  return plan.no_shop_file ? what : fmt::format("{} ({})", what, owned_text(row));
}

std::vector<std::string> fetch_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  clamp_items(plan, style, out);
  block_items(plan, style, out);
  cross_caul_items(plan, style, out);
  prop_items(plan, style, out);
  means_items(plan, out);
  glue_items(plan, style, out);
  if (plan.needs_square) {
    out.push_back(squaring_stick_text(plan, style.wording));
  }
  if (plan.people > 1) {
    out.push_back(fmt::format("{} people, each with a brush, who have read this", plan.people));
  }
  return out;
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
    const planner::tables::Wood* wood = planner::tables::find_wood(plan.parts[part].species);
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
        fmt::format("Size the glued end grain: a thin coat of glue ({}); let it soak in for "
                    "about 2 min.",
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

std::vector<std::string> cross_grain_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  struct Group {
    std::vector<planner::work::PartId> moving;
    std::string moves;
    bool warning;
    std::vector<planner::work::PartId> mates;
  };
  std::vector<Group> groups;
  for (const planner::work::CrossGrainNote& note : plan.cross_grain) {
    const auto& [a, b] = plan.joints[note.joint].parts;
    const std::string moves = gap_text(note.movement_mm, style.wording);
    auto found = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.moving.front() == note.moving && g.moves == moves && g.warning == note.warning;
    });
    if (found == groups.end()) {
      groups.push_back({{note.moving}, moves, note.warning, {}});
      found = groups.end() - 1;
    }
    found->mates.push_back(a == note.moving ? b : a);
  }
  // The rails of a table all move alike: told once.
  for (std::size_t i = 0; i < groups.size(); ++i) {
    for (std::size_t k = groups.size(); --k > i;) {
      if (groups[k].moves == groups[i].moves && groups[k].warning == groups[i].warning) {
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
                    group.warning ? "; plywood or a floating panel would not crack" : "")));
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
      fmt::format("Not together by the last moment: pull it apart, wipe every face {}, "
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
