#include "cli/words/verdict_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "planner/base/units.h"

namespace cli::words {
namespace {

using planner::plan::Plan;

// "top rail leaves right stile only up"
std::string ways_apart_text(const Plan& plan, const planner::plan::WaysApart& pair) {
  const std::string stays = comma_names(plan, pair.stays), leaves = comma_names(plan, pair.leaves);
  if (pair.ways.empty()) {
    return fmt::format("{} can't leave {}", leaves, stays);
  }
  return fmt::format("{} leaves {} only {}{}", leaves, stays, way_text(pair.ways.front()),
                     pair.ways.size() > 1 ? " or " + way_text(pair.ways[1]) : "");
}

// "25 kg", "55 lb": what is lifted, and no scale is at hand.
std::string weight_text(double g, const Wording& wording) {
  return wording.units == planner::base::Units::inch
             ? fmt::format("{} lb", std::lround(g / planner::base::kGramPerPound))
             : fmt::format("{} kg", std::lround(g / 1000));
}

class ReasonWords {
 public:
  explicit ReasonWords(const Plan& plan)
      : plan_(plan), wording_{plan.units, plan.uk_words, false} {}

  std::string operator()(const planner::plan::Locked& r) const {
    std::string text = "no way to put together " + comma_names(plan_, r.parts) + ": ";
    if (r.pairs.empty()) {
      return text + "each is locked by the others";
    }
    for (const planner::plan::WaysApart& pair : r.pairs) {
      text += (&pair == &r.pairs.front() ? "" : ", ") + ways_apart_text(plan_, pair);
    }
    return text + "; so each locks the others in";
  }

  std::string operator()(const planner::plan::TooHeavy& r) const {
    const std::string text = "in every order some join lifts more than the people there can";
    return r.heaviest.empty()
               ? text
               : fmt::format("{}: {} each; {} weighs {}", text, weight_text(r.limit_g, wording_),
                             comma_names(plan_, r.heaviest), weight_text(r.mass_g, wording_));
  }

  std::string operator()(const planner::plan::StoppedEarly&) const {
    return "stopped before an order was found";
  }

  std::string operator()(const planner::plan::SearchCutShort&) const {
    return "no order was found in as many steps as the search may take; --no-limit searches on";
  }

  std::string operator()(const planner::plan::TooCold& r) const {
    return fmt::format("at {} it is too cold for this glue: it wants {} or more",
                       temperature_text(r.temperature_C, wording_),
                       temperature_text(r.least_C, wording_));
  }

  std::string operator()(const planner::plan::TooWarm&) const {
    return "too warm for this glue: no time for it is published; cool the shop";
  }

  std::string operator()(const planner::plan::OutOfTime& r) const {
    const std::string what = joint_text(plan_, r.joint) + (r.open ? ": open time" : ": total time");
    return r.slack_s < 0
               ? fmt::format("{} is over its limit by {}", what, duration_text(-r.slack_s))
               : fmt::format("{} has only {} to spare", what, duration_text(r.slack_s));
  }

  std::string operator()(const planner::plan::NotHeld& r) const {
    const std::string joints =
        joint_text(plan_, r.joints.front()) +
        (r.joints.size() > 1 ? fmt::format(" and {} more", r.joints.size() - 1) : "");
    return r.too_slight ? spoken(wording_, "the parts are too slight to clamp {}: even a snug clamp "
                                      "dents them",
                                      joints)
                        : spoken(wording_, "the clamps don't hold {} all along", joints);
  }

  std::string operator()(const planner::plan::TooLittleGlue&) const {
    return "the bottle holds less glue than this job needs";
  }

 private:
  const Plan& plan_;
  Wording wording_;
};

struct RiskWords {
  const Plan& plan;
  bool uk_words = false;

  const char* clamp() const { return uk_words ? "cramp" : "clamp"; }
  bool clamped() const {
    return std::ranges::any_of(plan.stages,
                               [](const planner::plan::Stage& stage) { return !stage.clamps.empty(); });
  }
  bool loaded() const {
    return std::ranges::any_of(plan.stages,
                               [](const planner::plan::Stage& stage) { return !stage.loadings.empty(); });
  }

  std::string operator()(const planner::plan::VerdictReason& r) const {
    return reason_text(plan, r);
  }
  std::string operator()(const planner::plan::ShouldersRisk& r) const {
    return fmt::format("no {} to close the shoulders {}; see Watch out", clamp(),
                       axis_text(r.axis));
  }
  std::string operator()(const planner::plan::CrossGrainRisk& r) const {
    return joint_text(plan, r.joint) + " is glued across the grain and will move";
  }
  std::string operator()(const planner::plan::SquareRisk&) const {
    return (clamped() ? fmt::format("{}s pull it", clamp()) : "it sets") +
           " out of square; check while the glue still moves";
  }
  std::string operator()(const planner::plan::EndGrainRisk&) const {
    return "end grain drinks the glue; size it first and let it tack";
  }
  std::string operator()(const planner::plan::SlipRisk&) const {
    return clamped()  ? fmt::format("boards slip as they are {}ed; snug, align, then tighten", clamp())
           : loaded() ? "what is laid on wet glue slides as it is pressed; tape its edges first"
                      : "boards slip before the glue grabs; steady them until it does";
  }
};

}  // namespace

std::string reason_text(const Plan& plan, const planner::plan::VerdictReason& reason) {
  return std::visit(ReasonWords(plan), reason);
}

std::vector<std::string> reason_texts(const Plan& plan) {
  std::vector<std::string> texts;
  for (const planner::plan::VerdictReason& reason : plan.verdict.reasons) {
    texts.push_back(reason_text(plan, reason));
  }
  return texts;
}

std::string risk_text(const Plan& plan, bool uk_words) {
  return std::visit(RiskWords{plan, uk_words}, plan.verdict.risk);
}

}  // namespace cli::words
