#include "cli/sheet/json_words.h"

namespace cli {

const char* word(planner::TimeVerdict v) {
  return v == planner::TimeVerdict::one_go   ? "one go"
         : v == planner::TimeVerdict::stages ? "stages"
                                             : "too slow";
}
const char* word(planner::Comfort v) {
  return v == planner::Comfort::comfortable ? "comfortable"
         : v == planner::Comfort::tight     ? "tight"
                                            : "no";
}
const char* word(planner::Level v) {
  return v == planner::Level::full   ? "full"
         : v == planner::Level::hold ? "hold"
         : v == planner::Level::seat ? "seat"
                                     : "short";
}
const char* word(planner::StepKind v) {
  switch (v) {
    case planner::StepKind::spread:
      return "spread";
    case planner::StepKind::join:
      return "join";
    case planner::StepKind::snug:
      return "snug";
    case planner::StepKind::check:
      return "check";
    case planner::StepKind::tighten:
      return "tighten";
    case planner::StepKind::wait:
      return "wait";
  }
  return "";
}
const char* word(planner::Proof v) {
  return v == planner::Proof::proven    ? "proven"
         : v == planner::Proof::bounded ? "bounded"
                                        : "impossible";
}
const char* word(planner::GrainClass v) {
  return v == planner::GrainClass::end_grain ? "end" : "long";
}
const char* word(planner::MendKind v) {
  return v == planner::MendKind::locked         ? "locked"
         : v == planner::MendKind::across_grain ? "across the grain"
                                                : "gap";
}

}  // namespace cli
