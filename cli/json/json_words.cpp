#include "cli/json/json_words.h"

namespace cli::json {

const char* word(planner::plan::TimeVerdict v) {
  return v == planner::plan::TimeVerdict::one_go   ? "one go"
         : v == planner::plan::TimeVerdict::stages ? "stages"
                                                   : "too slow";
}
const char* word(planner::plan::Comfort v) {
  return v == planner::plan::Comfort::comfortable ? "comfortable"
         : v == planner::plan::Comfort::tight     ? "tight"
                                                  : "no";
}
const char* word(planner::plan::Level v) {
  return v == planner::plan::Level::full   ? "full"
         : v == planner::plan::Level::hold ? "hold"
         : v == planner::plan::Level::seat ? "seat"
         : v == planner::plan::Level::light   ? "light"
         : v == planner::plan::Level::contact ? "contact"
                                              : "short";
}
const char* word(planner::plan::Strength v) {
  return v == planner::plan::Strength::gentle ? "gentle"
         : v == planner::plan::Strength::firm ? "firm"
                                              : "hard";
}
const char* word(planner::plan::StepKind v) {
  switch (v) {
    case planner::plan::StepKind::spread:
      return "spread";
    case planner::plan::StepKind::join:
      return "join";
    case planner::plan::StepKind::snug:
      return "snug";
    case planner::plan::StepKind::cauls:
      return "cauls";
    case planner::plan::StepKind::check:
      return "check";
    case planner::plan::StepKind::tighten:
      return "tighten";
    case planner::plan::StepKind::wait:
      return "wait";
    case planner::plan::StepKind::fasten:
      return "fasten";
    case planner::plan::StepKind::load:
      return "load";
    case planner::plan::StepKind::ease:
      return "ease";
    case planner::plan::StepKind::turn:
      return "turn";
  }
  return "";
}
const char* word(planner::plan::Check v) {
  switch (v) {
    case planner::plan::Check::inside_diagonals:
      return "inside diagonals";
    case planner::plan::Check::outside_diagonals:
      return "outside diagonals";
    case planner::plan::Check::square:
      return "square";
    case planner::plan::Check::wind:
      return "wind";
    case planner::plan::Check::flush:
      return "flush";
  }
  return "";
}
const char* word(planner::plan::PressedBy v) {
  switch (v) {
    case planner::plan::PressedBy::snug:
      return "snug";
    case planner::plan::PressedBy::tighten:
      return "tighten";
    case planner::plan::PressedBy::home:
      return "home";
    case planner::plan::PressedBy::fit:
      return "fit";
    case planner::plan::PressedBy::hand:
      return "hand";
    case planner::plan::PressedBy::fasteners:
      return "fasteners";
    case planner::plan::PressedBy::tape:
      return "tape";
    case planner::plan::PressedBy::vacuum:
      return "vacuum";
    case planner::plan::PressedBy::weights:
      return "weights";
  }
  return "";
}
std::string_view word(planner::work::HeldBy v) {
  for (const planner::work::HeldByWord& row : planner::work::kHeldByWords) {
    if (row.by == v) {
      return row.word;
    }
  }
  return "";
}
const char* word(planner::plan::Proof v) {
  return v == planner::plan::Proof::proven    ? "proven"
         : v == planner::plan::Proof::bounded ? "bounded"
                                              : "impossible";
}
const char* word(planner::work::GrainClass v) {
  return v == planner::work::GrainClass::end_grain ? "end" : "long";
}
const char* word(planner::advice::FaultKind v) {
  return v == planner::advice::FaultKind::locked         ? "locked"
         : v == planner::advice::FaultKind::across_grain ? "across the grain"
                                                         : "gap";
}

}  // namespace cli::json
