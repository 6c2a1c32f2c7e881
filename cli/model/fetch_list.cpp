#include "cli/model/fetch_list.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <tuple>

#include <fmt/format.h>

#include "cli/model/blocks.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"
#include "planner/advice/hands_wanted.h"
#include "planner/tables/glue.h"

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

// Of bare iron, which stains wet wood.
bool bare_bar(const PlannedClamp& clamp) {
  return clamp.barrier;
}

std::vector<int> numbers_where(const Plan& plan, const std::function<bool(const PlannedClamp&)>& is) {
  std::vector<int> numbers;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (is(clamp)) {
        numbers.push_back(clamp.n);
      }
    }
  }
  return numbers;
}

std::vector<int> pads_on_show_faces(const Plan& plan) {
  return numbers_where(plan, [&](const PlannedClamp& clamp) {
    const int axis = words::side_towards(clamp.axis).axis;
    const geometry::Point far = clamp.at + clamp.span_mm * clamp.axis;
    return !bare_jaws(clamp) &&
           (on_show_face(plan, clamp.at, {axis, false}) || on_show_face(plan, far, {axis, true}));
  });
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
  const std::vector<int> bare_wood = numbers_where(plan, bare_jaws);
  if (!bare_wood.empty()) {
    out.push_back(fmt::format("no pads under no. {}: wooden jaws, clean and waxed against glue",
                              words::numbers_text(bare_wood)));
  }
  const std::vector<int> bare = numbers_where(plan, bare_bar);
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
        "{} of cauls across the boards, {}, waxed, planed a hair thinner toward the ends; {}",
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
    out.push_back(fmt::format("2 risers {} high",
                              length_text(risers->risers_mm, style.wording)));
  }
  if (props > 0) {
    out.push_back(fmt::format("{}, to prop a part in step {}",
                              words::count_text(props, "square block"), step));
  }
}

// Behind the form's face, where the clamps grip it.
double form_behind_mm(const Plan& plan) {
  double behind = 0;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      behind = std::max(behind, clamp.form_mm);
    }
  }
  return behind;
}

// What the clamps press through: the form, or platens.
void backing_items(const Plan& plan, const words::TextStyle& style, std::vector<std::string>& out) {
  const words::Wording& wording = style.wording;
  if (plan.bend) {
    out.push_back(fmt::format(
        "a form {} wide or more, its face {} in radius over {} degrees and a little more at both ends, waxed "
        "or taped; holes or a step {} behind it for the clamps; the caul curved to match",
        length_text(plan.bend->width.mm(), wording), length_text(plan.bend->form_radius_mm(), wording),
        plan.bend->arc_deg,
        length_text(form_behind_mm(plan), wording)));
  }
  for (const Stage& stage : plan.stages) {
    if (!stage.clamps.empty() && stage.clamps.front().platen_mm > 0) {
      out.push_back(fmt::format(
          "2 platens of a flat sheet {} thick, as large as the work and a little more; film or waxed paper to lay "
          "on the veneer",
          length_text(stage.clamps.front().platen_mm, wording)));
    }
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
  if (std::ranges::any_of(plan.joints, [](const planner::work::Joint& joint) { return joint.pocket; })) {
    out.push_back("a clamp that opens over two members, to hold each joint flush while it is screwed");
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

std::string diagonal_length_text(const std::array<double, 2>& sides_mm,
                                 const words::Wording& wording) {
  return length_text(geometry::hypotenuse(sides_mm[0], sides_mm[1]), wording);
}

// Of a frame a little out of square the right diagonal is the mean of its two, to the second order.
std::string squaring_stick_text(const Plan& plan, const words::Wording& wording) {
  return fmt::format(
      "a squaring stick, marked at {} (inside) and {} (outside); where two readings differ, shift "
      "until both read their average",
      diagonal_length_text(plan.inside_mm, wording), diagonal_length_text(plan.outside_mm, wording));
}

std::string joined(const std::vector<std::string>& items) {
  std::string text;
  for (const std::string& item : items) {
    text += (text.empty() ? "" : "; ") + item;
  }
  return text;
}

void add_if_any(const std::vector<std::string>& items, std::vector<std::string>& out) {
  if (!items.empty()) {
    out.push_back(joined(items));
  }
}

// "4 pads A, 2 x 1 1/4 x 3/4 in; 2 waxed cauls B, 14 x 3/4 x 1 1/2 in; 4 C, ..."
std::vector<std::string> brief_block_items(const Plan& plan, const words::Wording& wording) {
  std::vector<std::string> out;
  std::string last;
  for (const Block& block : blocks_of(plan, wording)) {
    const std::string shape = block_shape_text(block, wording);
    const std::string noun = block.caul ? "waxed caul" : "pad";
    out.push_back(fmt::format("{} {}, {}{}",
                              noun == last ? std::to_string(block.count)
                                           : words::count_text(block.count, noun),
                              block.letter, block_size_text(block.size, wording),
                              shape.empty() ? "" : ", " + shape));
    last = noun;
  }
  return out;
}

// What keeps clamps from marking the work.
std::vector<std::string> brief_cover_items(const Plan& plan) {
  std::vector<std::string> out;
  const std::vector<int> bars = numbers_where(plan, bare_bar);
  if (!bars.empty()) {
    out.push_back(fmt::format("paper or tape under bars no. {} (iron stains)",
                              words::numbers_text(bars)));
  }
  if (!pads_on_show_faces(plan).empty()) {
    out.push_back("clean pads on show faces");
  }
  const std::vector<int> wooden = numbers_where(plan, bare_jaws);
  if (!wooden.empty()) {
    out.push_back(fmt::format("wax the wooden jaws of no. {}", words::numbers_text(wooden)));
  }
  return out;
}

}  // namespace

std::string owned_text(const InventoryRow& row) {
  return row.short_by > 0 ? fmt::format("have {}, SHORT by {}", row.owned, row.short_by)
                          : fmt::format("have {}", row.owned);
}

namespace {

// "6 heavy F clamps of 24 in"
std::string needed_text(const Plan& plan, const InventoryRow& row, const words::TextStyle& style) {
  const bool sold = row.owned == 0 || plan.no_shop_file;
  const std::string size = sold ? sold_size_text(row.opening_mm, style.wording)
                                : length_text(row.opening_mm, style.wording);
  return fmt::format(
      "{}{}", words::count_text(row.used + row.short_by, clamp_text(row.kind, style.wording)),
      row.opening_mm > 0 ? " of " + size : "");
}

}  // namespace

std::string inventory_text(const Plan& plan, const InventoryRow& row,
                           const words::TextStyle& style) {
  const std::string what = needed_text(plan, row, style);
  return plan.no_shop_file ? what : fmt::format("{} ({})", what, owned_text(row));
}

std::vector<std::string> fetch_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out;
  clamp_items(plan, style, out);
  block_items(plan, style, out);
  cross_caul_items(plan, style, out);
  prop_items(plan, style, out);
  backing_items(plan, style, out);
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


std::vector<std::string> brief_fetch_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> out, clamps, props, glue;
  for (const InventoryRow& row : plan.inventory) {
    clamps.push_back((row.short_by > 0 ? inventory_text(plan, row, style)
                                       : needed_text(plan, row, style)) +
                     corners_text(plan, row));
  }
  add_if_any(clamps, out);
  add_if_any(brief_block_items(plan, style.wording), out);
  add_if_any(brief_cover_items(plan), out);
  cross_caul_items(plan, style, out);
  prop_items(plan, style, props);
  add_if_any(props, out);
  backing_items(plan, style, out);
  means_items(plan, out);
  glue_items(plan, style, glue);
  if (plan.people > 1) {
    glue.push_back(fmt::format("{} people, each with a brush", plan.people));
  }
  add_if_any(glue, out);
  if (plan.needs_square) {
    out.push_back(fmt::format("a squaring stick, marked at {} (inside) and {} (outside)",
                              diagonal_length_text(plan.inside_mm, style.wording),
                              diagonal_length_text(plan.outside_mm, style.wording)));
  }
  return out;
}

}  // namespace cli::model
