#include "cli/words/sentences.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/clamp_sentences.h"
#include "cli/words/note_words.h"
#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"
#include "planner/plan/plan_parts.h"
#include "planner/plan/stage_starts.h"
#include "planner/tables/glue.h"

namespace cli::words {
namespace {

using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;
using planner::work::Joint;
using planner::work::JointId;
using planner::work::PartId;

bool holds(const std::vector<PartId>& parts, PartId id) {
  return std::find(parts.begin(), parts.end(), id) != parts.end();
}

PartId mate_of(const Joint& joint, PartId part) {
  return joint.parts[0] == part ? joint.parts[1] : joint.parts[0];
}

// "the top", but "shelf 2": a name with a number or several words is a name.
std::string the_part(const Plan& plan, PartId id) {
  const std::string name = part_name(plan, id);
  const bool plain_word = !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || c == '-';
  });
  return plain_word ? "the " + name : name;
}

std::vector<std::string> names_of(const Plan& plan, const std::vector<PartId>& parts) {
  std::vector<std::string> names;
  for (const PartId id : parts) {
    names.push_back(the_part(plan, id));
  }
  return names;
}

// "3 rabbets", or "rabbet" for one.
std::string places_text(const std::string& noun, std::size_t n) {
  return n == 1 ? noun : count_text(static_cast<int>(n), noun);
}

// Joints of one part by what they are on it, in the order they come.
struct Places {
  std::string noun;
  std::vector<PartId> mates;  // each once
  std::size_t joints = 0;
  bool all = false;  // of the part's places of that name that get glue, and several
};
void add_place(std::vector<Places>& all, const std::string& noun, PartId mate) {
  auto found =
      std::find_if(all.begin(), all.end(), [&](const Places& p) { return p.noun == noun; });
  if (found == all.end()) {
    all.push_back({noun, {}, 0});
    found = all.end() - 1;
  }
  ++found->joints;
  if (!holds(found->mates, mate)) {
    found->mates.push_back(mate);
  }
}

std::vector<Places> places_on(const Plan& plan, PartId part, const std::vector<JointId>& joints,
                              const Wording& wording) {
  std::vector<Places> all;
  for (const JointId id : joints) {
    const Joint& joint = plan.joints[id];
    add_place(all, place_noun(joint, part, wording), mate_of(joint, part));
  }
  for (Places& places : all) {
    const auto there = std::ranges::count_if(plan.joints, [&](const Joint& joint) {
      const bool of_part = joint.parts[0] == part || joint.parts[1] == part;
      return of_part && joint.glued && joint.spread[joint.parts[0] == part ? 0 : 1] &&
             place_noun(joint, part, wording) == places.noun;
    });
    places.all = places.joints > 1 && places.joints == static_cast<std::size_t>(there);
  }
  return all;
}

// " Only the middle 4 in." where a joint is glued no farther, so that the rest can move.
std::string middle_text(const Plan& plan, const Step& step, const Wording& wording) {
  std::vector<std::string> told;
  for (const JointId id : step.joints) {
    const double middle_mm = plan.joints[id].middle_mm;
    if (middle_mm > 0) {
      told.push_back(fmt::format("{}{}", length_text(middle_mm, wording),
                                 step.joints.size() == 1 ? "" : " of " + joint_text(plan, id)));
    }
  }
  return told.empty() ? "" : fmt::format(" Only the middle {}.", list_text(told));
}

// Some glues need water: it goes on the face that gets none of them.
std::string dampen_text(const Plan& plan, const Step& step) {
  const planner::tables::GlueFamily* family =
      planner::tables::find_glue_family(plan.glue.glue.family);
  const bool dampens =
      family != nullptr && std::count(family->preparation.begin(), family->preparation.end(),
                                      planner::tables::Preparation::dampen) > 0;
  return dampens && step.parts.size() == 1 ? " Dampen what it meets." : "";
}

std::string spread_sentence(const Plan& plan, const Step& step, const Wording& wording) {
  if (step.parts.size() == 2) {
    return fmt::format("Spread both sides where {} meets {}.", the_part(plan, step.parts[0]),
                       the_part(plan, step.parts[1]));
  }
  const PartId part = step.parts.front();
  const std::vector<Places> all = places_on(plan, part, step.joints, wording);
  const auto noun = [](const Places& p) {
    return p.all && p.joints == 2 ? "both " + plural(p.noun)
                                  : (p.all ? "all " : "the ") + places_text(p.noun, p.joints);
  };
  // What has no name of its own is where the other part goes.
  const auto where = [&plan](const Places& p) {
    return fmt::format("where {} {}", list_text(names_of(plan, p.mates)), p.mates.size() == 1 ? "goes" : "go");
  };
  const auto nameless = [](const Places& p) { return p.noun == "place" && !p.all; };
  if (all.size() == 1 && nameless(all[0])) {
    return fmt::format("Spread {} {}.", the_part(plan, part), where(all[0]));
  }
  if (all.size() == 1) {
    return fmt::format("Spread {} of {}{}.", noun(all[0]), the_part(plan, part),
                       all[0].all ? "" : fmt::format(" (for {})", part_names(plan, all[0].mates)));
  }
  std::vector<std::string> pieces;
  for (const Places& places : all) {
    pieces.push_back(nameless(places) ? where(places)
                                      : noun(places) + (places.all ? "" : " for " + part_names(plan, places.mates)));
  }
  return fmt::format("Spread {}: {}.", the_part(plan, part), list_text(pieces));
}

// "Drive 24 pins through the back, 5 7/8 in apart at most: ..."
std::string fasten_sentence(const Plan& plan, const Stage& stage, const Step& step,
                            const Wording& wording) {
  std::size_t count = 0;
  double apart_mm = 0;
  const planner::plan::Fastening* first = nullptr;
  for (const planner::plan::Fastening& row : stage.fastenings) {
    if (std::find(step.joints.begin(), step.joints.end(), row.joint) != step.joints.end()) {
      first = first == nullptr ? &row : first;
      count += row.at.size();
      apart_mm = std::max(apart_mm, row.spacing_mm);
    }
  }
  if (first == nullptr) {
    return {};
  }
  if (first->pocket) {
    return fmt::format(
        "Screw the ends of {}: {} through their pockets. Before each, see that the faces are flush and put "
        "the clamp over the joint: it moves from screw to screw.",
        the_part(plan, first->sheet), count_text(static_cast<int>(count), "screw"));
  }
  const bool screws = first->by == planner::work::HeldBy::screws;
  const char* what = screws ? "screw" : first->by == planner::work::HeldBy::nails ? "nail" : "pin";
  return fmt::format("{} {} through {}, {} apart at most{}.", screws ? "Drive" : "Tap",
                     count_text(static_cast<int>(count), what), the_part(plan, first->sheet),
                     length_text(apart_mm, wording),
                     screws ? ", bored first" : ", while its edges lie true");
}

std::string load_sentence(const Stage& stage) {
  for (const planner::plan::Loading& load : stage.loadings) {
    if (load.by == planner::work::HeldBy::vacuum) {
      return "Close the bag round it, and pump it down.";
    }
    return fmt::format("Lay {} on it, spread evenly.",
                       load.weights > 0 ? count_text(load.weights, "weight") : "weights");
  }
  return {};
}

// How a group goes towards the rest, as seen at the bench.
struct Verb {
  std::string verb, way, where;  // "lower", "", "onto"; "slide", "to the left", "against"
};
Verb verb_for(const geometry::Direction& d, planner::work::Face bench_face,
              const Wording& wording) {
  const geometry::Direction down =
      (bench_face.positive ? 1.0 : -1.0) * geometry::kAxis[bench_face.axis];
  constexpr double kMostly = 0.7;
  if (geometry::dot(d, down) > kMostly) {
    return {"Lower", "", "onto"};
  }
  if (geometry::dot(d, down) < -kMostly) {
    return {"Lift", "", "up under"};
  }
  const planner::work::Face side = side_towards(d);
  const char* way = side.axis == 0 ? "to" : wording.uk_words ? "towards" : "toward";
  return {"Push", fmt::format(" {} the {}", way, side_word(side)), "against"};
}

// The mallet's, instead of a push.
Verb driven(const Verb& verb) {
  const std::string way = verb.verb == "Lower" ? " down" : verb.verb == "Lift" ? " up" : verb.way;
  return {"Drive", way + ", with mallet and block,", "home on"};
}

// Whether all that hangs together by then moves, and is more than one would name.
bool is_all_so_far(const Stage& stage, const Step& step) {
  constexpr std::size_t kFew = 3;
  std::vector<PartId> joined;
  for (const Step& earlier : stage.steps) {
    if (earlier.kind == StepKind::join && earlier.n < step.n) {
      joined.insert(joined.end(), earlier.parts.begin(), earlier.parts.end());
    }
  }
  const std::vector<PartId>& moving = step.motion->moving;
  return moving.size() > kFew &&
         std::ranges::all_of(moving, [&](PartId id) { return holds(joined, id); }) &&
         std::ranges::all_of(joined, [&](PartId id) { return holds(moving, id); });
}

// What a movement closes: the joints between what moves and the rest, glued or dry.
std::vector<JointId> closed_joints(const Plan& plan, const Step& step) {
  std::vector<JointId> closed;
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    const auto& [a, b] = plan.joints[id].parts;
    const bool both = holds(step.parts, a) && holds(step.parts, b);
    if (both && holds(step.motion->moving, a) != holds(step.motion->moving, b)) {
      closed.push_back(id);
    }
  }
  return closed;
}

// Where the moving parts arrive: first into cuts of the others, then onto what is plain.
std::string arrival_text(const Plan& plan, const Step& step, const std::string& plainly,
                         const Wording& wording) {
  std::vector<Places> into;
  std::vector<PartId> onto;
  for (const JointId id : closed_joints(plan, step)) {
    const Joint& joint = plan.joints[id];
    const PartId other =
        holds(step.motion->moving, joint.parts[0]) ? joint.parts[1] : joint.parts[0];
    if (has_the_cut(joint, other)) {
      add_place(into, (joint.glued ? "" : "dry ") + place_noun(joint, other, wording), other);
    } else if (!holds(onto, other)) {
      onto.push_back(other);
    }
  }
  std::vector<std::string> pieces;
  for (const Places& places : into) {
    pieces.push_back(fmt::format("into the {} of {}",
                                 places.joints == 1 ? places.noun : plural(places.noun),
                                 part_names(plan, places.mates)));
  }
  if (!onto.empty()) {
    pieces.push_back(plainly + " " + part_names(plan, onto));
  }
  return list_text(pieces);
}

// "; two lift, 24.0 kg"; nothing where one does.
std::string two_text(const Step& step, const Wording& wording) {
  return step.wants_two() ? fmt::format("; two lift, {}", mass_text(1000 * step.lifted_kg, wording)) : "";
}

// A corner that was laid open and taped is folded shut; what else it closes comes last.
std::string fold_sentence(const Plan& plan, const Stage& stage, const Step& step) {
  const planner::plan::FoldUp& fold = *step.motion->fold;
  std::vector<PartId> others;
  for (const JointId id : closed_joints(plan, step)) {
    const auto& [a, b] = plan.joints[id].parts;
    const PartId still = holds(step.motion->moving, a) ? b : a;
    if (still != fold.stays && !holds(others, still)) {
      others.push_back(still);
    }
  }
  const bool alone = step.motion->moving.size() == 1;
  return fmt::format(
      "Fold {}{} round the corner of {} and {}, hinged on tape across its outside{}{}.",
      alone ? the_part(plan, fold.turns) : group_names(plan, stage, step.motion->moving),
      alone ? "" : ", as one,", part_names(plan, {fold.turns}), part_names(plan, {fold.stays}),
      others.empty() ? "" : ", shut against " + part_names(plan, others),
      step.wants_hand ? "; steady it" : "");
}

std::string join_sentence(const Plan& plan, const Stage& stage, const Step& step,
                          const Wording& wording) {
  if (!step.motion || step.motion->moving.empty()) {
    return fmt::format("Bring {} together.", part_names(plan, step.parts));
  }
  if (step.motion->fold) {
    return fold_sentence(plan, stage, step);
  }
  const std::vector<JointId> closed = closed_joints(plan, step);
  const bool drives = std::any_of(closed.begin(), closed.end(), [&](JointId id) {
    const Joint& joint = plan.joints[id];
    return joint.glued && joint.driven && joint.kind == planner::work::JointKind::dovetail;
  });
  const Verb plainly = verb_for(step.motion->direction, bench_face_after(stage, step), wording);
  const Verb verb = drives ? driven(plainly) : plainly;
  const std::string arrival = arrival_text(plan, step, verb.where, wording);
  const std::string moving =
      step.motion->moving.size() == 1     ? the_part(plan, step.motion->moving.front())
      : is_all_so_far(stage, step)        ? "all of it"
                                          : group_names(plan, stage, step.motion->moving);
  const std::string together =
      step.motion->moving.size() > 1 && moving.find(" and ") != std::string::npos ? ", as one,"
                                                                                  : "";
  const char* rub = step.motion->rubbed
                        ? ", slide it to and fro under your hands until it grabs, and leave it"
                        : "";
  const bool taped = std::any_of(step.joints.begin(), step.joints.end(), [&](JointId id) {
    return plan.joints[id].held_by == planner::work::HeldBy::tape;
  });
  return fmt::format("{} {}{}{}{}{}{}{}{}.", step.motion->rubbed ? "Rub" : verb.verb, moving, together,
                     verb.way, arrival.empty() ? "" : " " + arrival, rub,
                     taped ? ", and tape it across the outside" : "",
                     step.wants_hand ? "; steady it" : "", two_text(step, wording));
}

// "Turn it all over, onto the bottom; two lift, 20.4 kg."
std::string turn_sentence(const Stage& stage, const Step& step, const Wording& wording) {
  return fmt::format("Turn it all over, onto the {}{}{}.",
                     side_word(bench_face_after(stage, step)),
                     step.wants_hand ? "; hold on to what was set down last" : "", two_text(step, wording));
}

// "Set 2 pairs of cauls across the boards, ..."
std::string cauls_sentence(const Stage& stage, const Wording& wording) {
  const planner::plan::CrossCauls& cauls = *stage.cross_cauls;
  const std::size_t pairs = cauls.at_mm.size();
  return fmt::format(
      "Set {} of cauls across the boards, above and below, a {} at each end: just tight enough to "
      "keep the faces flush.",
      pairs == 1 ? "the pair" : fmt::format("{} pairs", pairs), wording.uk_words ? "cramp" : "clamp");
}

// Middle of a ring along the axis that it lies across.
double middle_of(const Plan& plan, const planner::work::Ring& ring) {
  const auto axis = static_cast<std::size_t>(ring.normal_axis);
  double sum = 0;
  for (const PartId part : ring.parts) {
    sum += (plan.parts[part].bounds.lo[axis] + plan.parts[part].bounds.hi[axis]) / 2;
  }
  return sum / static_cast<double>(ring.parts.size());
}

// "front", "back": where of several that lie across one axis a ring is; "third from the front".
std::string ring_place(const Plan& plan, std::size_t index) {
  static constexpr const char* kEnds[3][2] = {
      {"left", "right"}, {"front", "back"}, {"bottom", "top"}};
  const planner::work::Ring& ring = plan.rings[index];
  std::vector<double> middles;
  for (const planner::work::Ring& other : plan.rings) {
    if (other.normal_axis == ring.normal_axis) {
      middles.push_back(middle_of(plan, other));
    }
  }
  std::ranges::sort(middles);
  const auto nth = static_cast<std::size_t>(std::ranges::find(middles, middle_of(plan, ring)) -
                                            middles.begin());
  const auto& ends = kEnds[ring.normal_axis];
  return nth == 0                    ? ends[0]
         : nth + 1 == middles.size() ? ends[1]
                                     : fmt::format("no. {} from the {}", nth + 1, ends[0]);
}

// " of the front and back", " seen from above"; nothing where there is only one ring.
std::string whose_diagonals(const Plan& plan, const std::vector<std::size_t>& rings) {
  static constexpr const char* kSeen[] = {"the left", "the front", "above"};
  if (plan.rings.size() < 2 || rings.empty()) {
    return "";
  }
  const int axis = plan.rings[rings.front()].normal_axis;
  const auto across = std::ranges::count(plan.rings, axis, &planner::work::Ring::normal_axis);
  if (across == 1) {
    return fmt::format(" seen from {}", kSeen[axis]);
  }
  std::vector<std::string> places;
  for (const std::size_t ring : rings) {
    places.push_back(ring_place(plan, ring));
  }
  return " of the " + list_text(places);
}

// What is looked at, and what to do where it isn't so.
std::string check_sentence(const Plan& plan, const Stage& stage, const Step& step,
                           const Wording& wording) {
  // A strap has no heads to shift.
  const bool clamped = std::ranges::any_of(
      stage.clamps, [](const planner::plan::PlannedClamp& clamp) { return clamp.round.empty(); });
  switch (*step.check) {
    case planner::plan::Check::flush:
      return "Check that every joint is flush: tap down what stands proud.";
    case planner::plan::Check::square:
      if (const planner::plan::RingTrueNote* ring = ring_to_be_true(plan, stage)) {
        return as_sentence(ring_true_text(*ring, wording));
      }
      return std::string(has_square_corners(plan, stage) ? "Check every corner with a square"
                                                         : "Check that every corner is shut, inside and out") +
             "; if one gapes, " + (clamped ? "shift heads." : "push it shut by hand.");
    case planner::plan::Check::wind:
      return std::string("Sight across it for wind; press a high corner down") +
             (clamped ? ", or shift heads." : ", and let it set on a flat bench.");
    case planner::plan::Check::inside_diagonals:
    case planner::plan::Check::outside_diagonals:
      break;
  }
  const bool inside = step.check == planner::plan::Check::inside_diagonals;
  std::array<double, 2> sides_mm = inside ? plan.inside_mm : plan.outside_mm;
  if (!step.rings.empty()) {
    const planner::work::Ring& ring = plan.rings[step.rings.front()];
    sides_mm = inside ? ring.inside_mm : ring.outside_mm;
  }
  return fmt::format("Check the {} diagonals{}: {}; if not, {}.",
                     inside ? "inside" : "outside", whose_diagonals(plan, step.rings),
                     diagonal_text(sides_mm, wording),
                     clamped ? "shift heads" : "press the corners of the longer one together");
}

// Glues that are pressed only after a while soak in meanwhile; the others take hold once snug.
std::string wait_sentence(const Plan& plan, const Step& step) {
  const std::string wait = duration_text(step.end_s - step.start_s);
  return plan.glue.glue.min_wait_s > 0
             ? fmt::format("Wait {}: the glue soaks in before it is pressed.", wait)
             : fmt::format("Wait {} for the glue to tack; push back what has slipped.", wait);
}

}  // namespace

std::vector<std::string> outside_diagonals(const Plan& plan, const Wording& wording) {
  std::vector<std::vector<std::size_t>> alike;
  for (std::size_t r = 0; r < plan.rings.size(); ++r) {
    const auto same = [&](const std::vector<std::size_t>& group) {
      const planner::work::Ring& other = plan.rings[group.front()];
      return other.normal_axis == plan.rings[r].normal_axis &&
             diagonal_text(other.outside_mm, wording) ==
                 diagonal_text(plan.rings[r].outside_mm, wording);
    };
    const auto group = std::ranges::find_if(alike, same);
    if (group == alike.end()) {
      alike.push_back({r});
    } else {
      group->push_back(r);
    }
  }
  std::vector<std::string> texts;
  for (const std::vector<std::size_t>& group : alike) {
    const std::string whose = whose_diagonals(plan, group);
    texts.push_back((whose.empty() ? "" : whose.substr(1) + " ") +
                    diagonal_text(plan.rings[group.front()].outside_mm, wording));
  }
  return texts;
}

std::string step_sentence(const Plan& plan, const Stage& stage, const Step& step,
                          const Wording& wording) {
  switch (step.kind) {
    case StepKind::spread:
      return spread_sentence(plan, step, wording) + dampen_text(plan, step) +
             middle_text(plan, step, wording);
    case StepKind::join:
      return join_sentence(plan, stage, step, wording);
    case StepKind::snug:
      return snug_sentence(stage, step, wording);
    case StepKind::cauls:
      return cauls_sentence(stage, wording);
    case StepKind::check:
      return check_sentence(plan, stage, step, wording);
    case StepKind::tighten:
      return tighten_sentence(plan, stage, step, wording);
    case StepKind::wait:
      return wait_sentence(plan, step);
    case StepKind::fasten:
      return fasten_sentence(plan, stage, step, wording);
    case StepKind::load:
      return load_sentence(stage);
    case StepKind::turn:
      return turn_sentence(stage, step, wording);
    case StepKind::ease:
      return "Lift and tap the strap at each corner, and draw up what comes loose.";
  }
  return {};
}

std::vector<BenchStep> bench_steps(const Stage& stage) {
  std::vector<BenchStep> told;
  for (const Step& step : stage.steps) {
    Step* before = told.empty() ? nullptr : &told.back().step;
    const bool same = before != nullptr && before->kind == step.kind &&
                      before->people == step.people && before->parts == step.parts &&
                      (step.kind == StepKind::spread || step.kind == StepKind::tighten);
    if (!same) {
      told.push_back({step, step.n});
      continue;
    }
    told.back().last_n = step.n;
    before->end_s = step.end_s;
    before->joints.insert(before->joints.end(), step.joints.begin(), step.joints.end());
    before->clamps.insert(before->clamps.end(), step.clamps.begin(), step.clamps.end());
  }
  return told;
}

std::string number_text(const BenchStep& step) {
  return step.last_n == step.step.n ? std::to_string(step.step.n)
                                    : fmt::format("{}-{}", step.step.n, step.last_n);
}

std::string group_names(const Plan& plan, const Stage& stage, const std::vector<PartId>& parts) {
  std::vector<PartId> single = parts;
  std::vector<std::string> names;
  // The last stage first: it holds what the earlier ones glued.
  for (std::size_t i = plan.stages.size(); i-- > 0;) {
    const Stage& earlier = plan.stages[i];
    const bool before = i < plan.stages_done || (!earlier.steps.empty() && !stage.steps.empty() &&
                                                 earlier.steps.front().n < stage.steps.front().n);
    const bool whole = std::all_of(earlier.parts.begin(), earlier.parts.end(),
                                   [&](PartId id) { return holds(single, id); });
    if (before && whole && !earlier.parts.empty()) {
      names.insert(names.begin(), earlier.name.empty() ? fmt::format("the piece from stage {}", i + 1)
                                                       : "the " + printable(earlier.name));
      std::erase_if(single, [&](PartId id) { return holds(earlier.parts, id); });
    }
  }
  for (const PartId id : single) {
    names.push_back(part_name(plan, id));
  }
  return list_text(runs_of_names(names));
}

std::string stage_title(const Plan& plan, std::size_t index) {
  const Stage& stage = plan.stages[index];
  const std::string parts = group_names(plan, stage, stage.parts);
  return fmt::format("{} of {}: {}", index + 1, plan.stages.size(),
                     stage.name.empty() ? parts
                                        : fmt::format("{} ({})", printable(stage.name), parts));
}

std::string between_text(const Plan& plan, std::size_t stage, const Wording& wording) {
  const Stage& one = plan.stages[stage];
  const bool meanwhile =
      plan.stages[stage + 1].starts_s < one.starts_s + one.makespan_s + clamps_off_s(plan, one);
  return spoken(wording, meanwhile ? "Leave it in the clamps {} and don't move it; stage {} goes on meanwhile."
                                   : "Leave it in the clamps {} and don't move it; then take them off for stage {}.",
                duration_text(one.clamp_time_s), stage + 2);
}

std::string diagonal_text(const std::array<double, 2>& sides_mm, const Wording& wording) {
  return "both " + length_text(geometry::hypotenuse(sides_mm[0], sides_mm[1]), wording);
}

std::string order_text(const Plan& plan, const Stage& stage) {
  std::vector<PartId> placed;
  std::vector<std::string> names;
  for (const Step& step : stage.steps) {
    if (step.kind != StepKind::join) {
      continue;
    }
    // Of a first join the part that stays put comes first.
    std::vector<PartId> resting, moving;
    for (const PartId id : step.parts) {
      if (!holds(placed, id)) {
        (step.motion && holds(step.motion->moving, id) ? moving : resting).push_back(id);
      }
    }
    for (const auto* group : {&resting, &moving}) {
      for (const PartId id : *group) {
        placed.push_back(id);
        names.push_back(part_name(plan, id));
      }
    }
  }
  names = runs_of_names(names);
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == names.size() ? ", then " : ", ") + names[i];
  }
  return text;
}

geometry::Point stage_corner(const Plan& plan, const Stage& stage) {
  if (stage.parts.empty()) {
    return {};
  }
  geometry::Point lo = plan.parts[stage.parts.front()].bounds.lo;
  for (const PartId id : stage.parts) {
    const geometry::Point& p = plan.parts[id].bounds.lo;
    lo = {std::min(lo.x, p.x), std::min(lo.y, p.y), std::min(lo.z, p.z)};
  }
  return lo;
}

std::string who_text(const Plan& plan, const Step& step) {
  if (plan.people <= 1) {
    return "";
  }
  std::string who;
  for (const int person : step.people) {
    who += (who.empty() ? "" : "+") + std::to_string(person);
  }
  return who;
}

bool has_square_corners(const Plan& plan, const Stage& stage) {
  constexpr double kNearly = 0.02;
  return std::ranges::all_of(stage.joints, [&plan](const JointId id) {
    const auto& [a, b] = plan.joints[id].parts;
    const double along = std::abs(dot(plan.parts[a].grain, plan.parts[b].grain));
    return along < kNearly || along > 1 - kNearly;
  });
}

const planner::plan::RingTrueNote* ring_to_be_true(const Plan& plan, const Stage& stage) {
  for (const planner::plan::Note& note : plan.notes) {
    const auto* ring = std::get_if<planner::plan::RingTrueNote>(&note);
    if (ring != nullptr && static_cast<int>(stage.parts.size()) >= ring->sides) {
      return ring;
    }
  }
  return nullptr;
}

}  // namespace cli::words
