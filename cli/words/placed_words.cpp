#include "cli/words/placed_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "planner/base/quantity_text.h"

namespace cli::words {
namespace {

using planner::plan::Plan;
using planner::plan::StarvedJoint;

std::string percent_text(double share) {
  return fmt::format("{} %", std::lround(100 * share));
}

// A case has dozens; the profiles tell each.
std::string few_or_count(const Plan& plan, const std::vector<planner::work::JointId>& joints) {
  constexpr std::size_t kFew = 6;
  if (joints.size() > kFew) {
    return fmt::format("the {} joints that are not held, below", joints.size());
  }
  return joint_texts(plan, joints);
}

// How a weak joint fares, without its name.
std::string weak_text(const StarvedJoint& joint, const Wording& wording) {
  using How = StarvedJoint::How;
  if (joint.how == How::no_pressure) {
    return "no pressure at all";
  }
  const std::string how = joint.how == How::open ? "open by " + gap_text(joint.open_gap_mm, wording)
                          : joint.how == How::weak ? fmt::format("weak hands give {} of what holds",
                                                                 percent_text(joint.held_share))
                                                   : "weak";
  const std::string end = side_word(side_towards(joint.end)) + " end";
  const std::string where =
      joint.from_end_mm == 0
          ? "at the " + end
          : fmt::format("{} from the {}", length_text(joint.from_end_mm, wording), end);
  return fmt::format("{} {}; {} of the length is under it", how, where,
                     percent_text(joint.starved_share));
}

class FindingVisitor {
 public:
  explicit FindingVisitor(const Plan& plan) : plan_(plan), wording_{plan.units} {}

  std::string operator()(const planner::plan::UntouchedAxis& finding) const {
    return fmt::format("nothing presses {}: {} stay{} loose", axis_text(finding.axis),
                       few_or_count(plan_, finding.joints), finding.joints.size() == 1 ? "s" : "");
  }
  std::string operator()(const StarvedJoint& finding) const {
    return joint_text(plan_, finding.joint) + ": " + weak_text(finding, wording_);
  }
  std::string operator()(const planner::plan::DentingClamp& finding) const {
    return fmt::format("no. {} dents the {} or the {}: it presses {} of what the wood bears",
                       finding.clamp, part_name(plan_, finding.low), part_name(plan_, finding.high),
                       percent_text(finding.bearing_share));
  }
  std::string operator()(const planner::plan::OffMiddle& finding) const {
    return fmt::format("{}: the force acts {} beside the middle, {}; {}",
                       joint_text(plan_, finding.joint), length_text(finding.off_mm, wording_),
                       way_text(finding.towards),
                       finding.over_half ? "over half of the joint's width opens"
                                         : "the joint opens on the other side");
  }
  std::string operator()(const planner::plan::IdleClamp& finding) const {
    return fmt::format("no. {} presses no glue face", finding.clamp);
  }

 private:
  const Plan& plan_;
  const Wording wording_;
};

// As the job file's `at` has it: "at x = 40 mm, z = 9.5 mm".
std::string place_text(const geometry::Point& at, const geometry::Direction& axis,
                       const Wording& wording) {
  const auto along = static_cast<std::size_t>(side_towards(axis).axis);
  std::string out = "at";
  for (std::size_t i = 0; i < 3; ++i) {
    if (i != along) {
      out += fmt::format("{} {} = {}", out == "at" ? "" : ",", "xyz"[i],
                         planner::base::short_text(at[i], wording.units));
    }
  }
  return out;
}

std::string blocks_text(double long_mm, double thick_mm, const Wording& wording) {
  return fmt::format("{} long and {} thick", length_text(long_mm, wording),
                     length_text(thick_mm, wording));
}

class ChangeVisitor {
 public:
  explicit ChangeVisitor(const Wording& wording) : wording_(wording) {}

  std::string operator()(const planner::plan::MoveClamp& change) const {
    return fmt::format("move no. {} {} {}", change.clamp, length_text(change.by_mm, wording_),
                       way_text(change.towards));
  }
  std::string operator()(const planner::plan::PutBlocks& change) const {
    std::vector<std::string> numbers;
    for (const int n : change.clamps) {
      numbers.push_back(std::to_string(n));
    }
    return fmt::format("put {} {} under no. {}", change.edge_cauls ? "edge cauls" : "pads",
                       blocks_text(change.long_mm, change.thick_mm, wording_), list_text(numbers));
  }
  std::string operator()(const planner::plan::DrawHarder& change) const {
    std::vector<std::string> each;
    for (const auto& draw : change.draws) {
      each.push_back(fmt::format("no. {} {} harder ({})", draw.clamp, percent_text(draw.more_share),
                                 force_text(draw.force_N, wording_)));
    }
    return "draw " + list_text(each);
  }
  std::string operator()(const planner::plan::SpreadEvenly& change) const {
    std::vector<std::string> each;
    for (const auto& line : change.lines) {
      each.push_back(fmt::format("{} apart, the outer ones {} from the ends",
                                 length_text(line.apart_mm, wording_),
                                 length_text(line.from_end_mm, wording_)));
    }
    return "spread them evenly: " + list_text(each);
  }
  std::string operator()(const planner::plan::LayStrip& change) const {
    return fmt::format("lay a caul {} thick, the length of the joint, under the jaws",
                       length_text(change.thick_mm, wording_));
  }
  std::string operator()(const planner::plan::SetMore& change) const {
    std::vector<std::string> places;
    for (const geometry::Point& at : change.at) {
      places.push_back(place_text(at, change.axis, wording_));
    }
    return (places.size() == 1 ? spoken(wording_, "set one more clamp ")
                               : spoken(wording_, "set {} more clamps: ", places.size())) +
           list_text(places);
  }
  std::string operator()(const planner::plan::SetAnew& change) const {
    std::vector<std::string> rows;
    for (const auto& row : change.lines) {
      rows.push_back(fmt::format(
          "{} on each of {} {} long, {}", row.clamps_each, count_text(row.lines, "line"),
          length_text(row.length_mm, wording_),
          row.clamps_each == 1
              ? "in its middle"
              : fmt::format("{} apart and {} from the ends", length_text(row.apart_mm, wording_),
                            length_text(row.from_end_mm, wording_))));
    }
    const std::string under =
        change.strips ? fmt::format(", on cauls {} thick and as long as the line",
                                    length_text(change.thick_mm, wording_))
        : change.block_mm > 0
            ? ", on pads " + blocks_text(change.block_mm, change.thick_mm, wording_)
            : "";
    return fmt::format("set {} of them anew: {}{}, {} each", change.clamps, list_text(rows), under,
                       force_text(change.force_N, wording_));
  }

 private:
  const Wording wording_;
};

}  // namespace

std::string finding_text(const Plan& plan, const planner::plan::PlacedFinding& finding) {
  return std::visit(FindingVisitor(plan), finding);
}

std::vector<std::string> finding_texts(const Plan& plan, const planner::plan::PlacedTrial& trial) {
  const Wording wording{plan.units};
  std::vector<std::string> texts;
  std::vector<char> told(trial.findings.size(), 0);
  for (std::size_t i = 0; i < trial.findings.size(); ++i) {
    const auto* first = std::get_if<StarvedJoint>(&trial.findings[i]);
    if (first == nullptr) {
      texts.push_back(finding_text(plan, trial.findings[i]));
      continue;
    }
    if (told[i] != 0) {
      continue;
    }
    const std::string how = weak_text(*first, wording);
    std::vector<planner::work::JointId> alike;
    for (std::size_t k = i; k < trial.findings.size(); ++k) {
      const auto* other = std::get_if<StarvedJoint>(&trial.findings[k]);
      if (other != nullptr && other->axis == first->axis && weak_text(*other, wording) == how) {
        alike.push_back(other->joint);
        told[k] = 1;
      }
    }
    texts.push_back(few_or_count(plan, alike) + ": " + how);
  }
  return texts;
}

std::string change_text(const Plan& plan, const planner::plan::PlacedChange& change) {
  return std::visit(ChangeVisitor(Wording{plan.units, plan.uk_words, false}), change);
}

std::string mend_text(const Plan& plan, const planner::plan::PlacedMend& mend) {
  std::vector<std::string> changes;
  for (const planner::plan::PlacedChange& change : mend.changes) {
    changes.push_back(change_text(plan, change));
  }
  return axis_text(mend.axis) + ": " + list_text(changes);
}

}  // namespace cli::words
