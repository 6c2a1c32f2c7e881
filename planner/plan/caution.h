// What to be told before the bottle opens. cli/words/caution_words.h words it.
#pragma once
#include <optional>

#include "planner/work/part.h"

namespace planner::plan {

enum class CautionKind {
  isocyanates,
  uncured_epoxy,
  formaldehyde,
  hot_pot,
  heavy_part,  // names its part
  heavy_assembly,
  iron_stains,
  sawn_later,     // what must not lie in the kerf's way
  closed_inside,  // what must be done before the box is closed
  label_wins,
  air_and_eyes,
  fingers,
  falling_clamps,
  drips,
  no_structure
};

struct Caution {
  CautionKind kind = CautionKind::label_wins;
  std::optional<work::PartId> part = {};
};

}  // namespace planner::plan
