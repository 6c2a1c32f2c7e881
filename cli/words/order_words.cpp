#include "cli/words/order_words.h"

#include <fmt/format.h>

#include "cli/words/trade_words.h"

namespace cli::words {
namespace {

using planner::plan::Plan;

void add_share(std::string& text, const char* what, double seconds) {
  if (seconds > 0) {
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", what, duration_text(seconds));
  }
}

std::string hands_text(int hands) {
  return hands == 0   ? "no part wants a hand until it is pressed"
         : hands == 1 ? "one part wants a hand until it is pressed"
                      : fmt::format("{} parts want a hand until they are pressed", hands);
}

struct OrderWords {
  const Plan& plan;

  std::string operator()(const planner::plan::TightestJoint& r) const {
    std::string shares;
    add_share(shares, "spreading", r.spreading_s);
    add_share(shares, "joining", r.joining_s);
    add_share(shares, "snugging", r.snugging_s);
    add_share(shares, "checking", r.checking_s);
    add_share(shares, "tightening", r.tightening_s);
    add_share(shares, "waiting", r.waiting_s);
    return fmt::format("{} has least to spare: {} of its {} {} time go into {}",
                       joint_text(plan, r.joint), duration_text(r.used_s), duration_text(r.limit_s),
                       r.open ? "open" : "total", shares);
  }
  std::string operator()(const planner::plan::NextBestOrder& r) const {
    return fmt::format(
        "the best order that doesn't join {} with {} at once {}", comma_names(plan, r.moving),
        comma_names(plan, r.staying),
        r.less_s > 0 ? fmt::format("has {} less to spare", duration_text(r.less_s))
                     : "has as much to spare; this one wipes less, or keeps the job file's order");
  }
  std::string operator()(const planner::plan::NoOtherOrder&) const {
    return "there is no other order: everything else shuts a part out or wipes glue off";
  }
  std::string operator()(const planner::plan::NoneBetter&) const {
    return "no order of this stage has more to spare; all were looked at or ruled out";
  }
  std::string operator()(const planner::plan::MaybeBetter&) const {
    return "the search was cut short; an order with more to spare may exist";
  }
  std::string operator()(const planner::plan::BenchSideChosen& r) const {
    return fmt::format(
        "with the {} on the bench {}{}", side_word(side_towards(r.down)), hands_text(r.hands),
        r.hands == r.hands_as_drawn
            ? ""
            : fmt::format("; with the {} down {} would", side_word(side_towards(r.down_as_drawn)),
                          r.hands_as_drawn));
  }
  std::string operator()(const planner::plan::ClosedFromAbove&) const {
    return "what closes it comes down on it at last";
  }
};

struct StepWords {
  const Plan& plan;

  std::string operator()(const planner::plan::NothingToTell&) const { return {}; }
  std::string operator()(const planner::plan::OpenFor& r) const {
    return fmt::format("open for {} of {} until it is brought together", duration_text(r.used_s),
                       duration_text(r.limit_s));
  }
  std::string operator()(const planner::plan::Closes& r) const {
    return (r.joints.empty() ? "goes in dry, before the parts round it close"
                             : "closes " + joint_texts(plan, r.joints)) +
           "; nothing still to come is shut out";
  }
  std::string operator()(const planner::plan::AllClosed& r) const {
    return "all it presses is closed: " + joint_texts(plan, r.joints);
  }
  std::string operator()(const planner::plan::InsideStillOpen& r) const {
    return fmt::format("once {} is on, the inside can't be measured", part_names(plan, r.next));
  }
  std::string operator()(const planner::plan::StillMoves&) const {
    return "all is snug and the glue still moves";
  }
  std::string operator()(const planner::plan::EvenlyDrawn&) const {
    return "all of its ring is snug, so nothing is pulled out of square";
  }
  std::string operator()(const planner::plan::BoardsFlush&) const {
    return "bars alone let thin boards buckle and slide up past one another";
  }
  std::string operator()(const planner::plan::LegsAlike&) const {
    return "round a corner friction leaves one leg slacker, and the joint would slide";
  }
  std::string operator()(const planner::plan::FromAbove&) const {
    return "the next part comes to what is pressed, and from above";
  }
  std::string operator()(const planner::plan::GlueGrabs&) const {
    return "the glue grabs, so that nothing slides when it is tightened";
  }
};

}  // namespace

std::string order_reason_text(const Plan& plan, const planner::plan::OrderReason& reason) {
  return std::visit(OrderWords{plan}, reason);
}

std::string step_reason_text(const Plan& plan, const planner::plan::StepReason& reason) {
  return std::visit(StepWords{plan}, reason);
}

std::string clamp_reason_text(const Plan& plan, const planner::plan::PlannedClamp& clamp) {
  if (!clamp.round.empty()) {
    std::string corners;
    for (const planner::work::JointId id : clamp.joints) {
      corners += (corners.empty() ? "" : ", ") + joint_text(plan, id);
    }
    return "pulls the corners together all at once: " + corners;
  }
  const std::string does = clamp.level == planner::plan::Level::seat   ? "closes the shoulders of "
                           : clamp.level == planner::plan::Level::full ? "adds to the pressure on "
                                                                       : "holds ";
  return does + joint_texts(plan, clamp.joints) +
         (clamp.edge_caul ? "; on a caul along the edge, as a pad would tip on one so narrow"
                          : "");
}

}  // namespace cli::words
