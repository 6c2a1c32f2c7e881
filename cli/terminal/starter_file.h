// The files that `glueup new` writes: commented, and planned without a change.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "planner/base/quantity_text.h"

namespace cli::terminal {

// What there is to be asked of a kind of job, and the answers that stand where nobody says
// otherwise.
struct StarterKind {
  std::string name, title;              // "box", "Box"
  std::vector<std::string> dimensions;  // of its size: "length", "width", "height"
  std::vector<std::string> size_in, size_mm;
  std::string species;
  // What else decides the plan: a choice of words, or a length where there is no choice.
  struct Question {
    std::string key, about;
    std::vector<std::string> choice;
    std::string usual_in, usual_mm;
  };
  std::vector<Question> questions = {};
};
const std::vector<std::string>& starter_kinds();  // "box" ... "parts", and "shop"

// REQUIRES: kind is among starter_kinds(), and not "shop".
StarterKind starter_kind(const std::string& kind);

struct StarterAnswers {
  planner::base::Units units = planner::base::Units::mm;
  std::vector<std::string> size;  // as many as the kind has dimensions
  std::string species, glue;
  std::map<std::string, std::string> values = {};  // of the questions' keys; usual where one is missing
};
StarterAnswers usual_answers(const StarterKind& kind, planner::base::Units units);

std::string starter_file(const StarterKind& kind, const StarterAnswers& answers);

struct ShopAnswers {
  planner::base::Units units = planner::base::Units::mm;
  std::string people = "1", temperature;
  struct Clamp {
    std::string kind, count, opening;
  };
  std::vector<Clamp> clamps;
  std::string glue, left;
};
ShopAnswers usual_shop(planner::base::Units units);
std::string shop_starter_file(const ShopAnswers& answers);

}  // namespace cli::terminal
