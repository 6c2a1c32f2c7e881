#include "cli/words/spare_words.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"

namespace cli::words {
namespace {

class SpareVisitor {
 public:
  explicit SpareVisitor(const planner::plan::Plan& plan) : plan_(plan), wording_{plan.units, plan.uk_words, false} {}

  std::string operator()(const planner::plan::SpareClampsNote& note) const {
    std::string places;
    for (const auto& place : note.places) {
      places += (places.empty() ? "" : "; ") + clamp_text(place.kind, wording_) + ", " +
                where_text(place.from_corner, note.axis);
    }
    return spoken(wording_, "of the clamps left over, the next {} would help most {} ({}): where {} is pressed least, "
        "{} becomes {}, for {} more",
        note.places.size() == 1 ? "one" : std::to_string(note.places.size()), axis_text(note.axis),
        places, joint_text(plan_, note.joint), pressure_text(note.before_MPa, wording_),
        pressure_text(note.after_MPa, wording_), duration_text(note.more_s));
  }

  std::string operator()(const planner::plan::StrapShortNote& note) const {
    if (note.straps == 0) {
      return "the work is too low for a strap round it";
    }
    const long percent = std::lround(100 * std::max(0.0, note.share));
    const bool one = note.straps == 1;
    return count_text(note.straps, "band " + clamp_noun(wording_)) + " round it in place of bars " +
           (percent == 0
                ? fmt::format("{} part of a corner without pressure", one ? "leaves" : "leave")
                : fmt::format("{} the worst corner {} % of what holds it", one ? "gives" : "give",
                              percent));
  }

  std::string operator()(const planner::plan::NotFullNote&) const {
    return spoken(wording_, "held, not fully pressed: more clamps of the kinds on the rack wouldn't change that; "
           "sound where joints fit well");
  }

  std::string operator()(const planner::plan::FullLeftOutNote& note) const {
    using Why = planner::plan::FullLeftOutNote::Why;
    return spoken(wording_, note.why == Why::no_time
                                ? "held, not fully pressed: the glue leaves no time for more clamps"
                                : "held, not fully pressed: more clamps of this rack press no joint harder");
  }

  std::string operator()(const planner::plan::CornerClampsNote& note) const {
    using Why = planner::plan::CornerClampsNote::Why;
    const char* why = note.why == Why::one_alone   ? "one alone squares nothing"
                      : note.why == Why::too_thick ? "the parts are too thick for them"
                      : note.why == Why::no_room   ? "no room for them at the corners"
                                                   : "the glue leaves no time to set them";
    return spoken(wording_, "the corner clamps stay on the rack: {}", why);
  }

 private:
  // "4 in from the left and 2 in up"
  std::string where_text(const geometry::Point& from_corner,
                         const geometry::Direction& axis) const {
    static constexpr const char* kFrom[] = {" from the left", " from the front", " up"};
    std::string out;
    for (std::size_t i = 0; i < 3; ++i) {
      if (std::abs(axis[i]) < 0.7) {
        out += (out.empty() ? "" : " and ") + length_text(from_corner[i], wording_) + kFrom[i];
      }
    }
    return out;
  }

  const planner::plan::Plan& plan_;
  const Wording wording_;
};

}  // namespace

std::string spare_text(const planner::plan::Plan& plan, const planner::plan::SpareNote& note) {
  return std::visit(SpareVisitor(plan), note);
}

}  // namespace cli::words
