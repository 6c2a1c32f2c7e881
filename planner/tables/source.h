// Where a number comes from. Every value of the tables carries one, and every value that reaches a
// user is printed with it.
#pragma once
#include <string>
#include <string_view>

namespace planner::tables {

enum class Mark {
  published,        // read in the document that `text` names
  common_practice,  // a fact of the trade with no published source
  from_memory,      // remembered of a document, or typical; to be confirmed
  derived           // worked out for these tables from what `text` names
};
std::string_view to_text(Mark mark);  // "published", "common practice", "from memory", "derived"

struct Source {
  Mark mark = Mark::from_memory;
  std::string text;
};
std::string to_text(const Source& source);  // "published: GTR-190 Table 13-5"

// Low and high end of what a table gives; equal where it gives one value. A limit is planned on its
// low end, a wait and a quantity to have ready on its high end.
struct Range {
  double lo = 0, hi = 0;
};

}  // namespace planner::tables
