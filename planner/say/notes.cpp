#include "planner/say/notes.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "planner/base/side_words.h"
#include "planner/pressure/racking.h"
#include "planner/say/hands_wanted.h"
#include "planner/tables/wood.h"

namespace planner::say {
namespace {

// A stray loose part is no captive: it must touch something, and be stopped along every direction.
bool is_captive(const work::Motions& motions, work::PartId part) {
  for (std::size_t d = 0; d < motions.directions().size(); ++d) {
    bool free = true;
    for (work::PartId other = 0; other < motions.parts(); ++other) {
      free = free && (other == part || motions.clear(d, part, other));
    }
    if (free) {
      return false;
    }
  }
  return true;
}

std::vector<std::string> neighbours(const plan::Plan& plan, const work::Job& job,
                                    work::PartId part) {
  std::vector<std::string> names;
  for (const work::Joint& joint : plan.joints) {
    if (joint.parts[0] == part) {
      names.push_back(job.parts[joint.parts[1]].name);
    } else if (joint.parts[1] == part) {
      names.push_back(job.parts[joint.parts[0]].name);
    }
  }
  return names;
}

// A board between others of a panel slides in from its end or face.
bool only_edge_joints(const plan::Plan& plan, work::PartId part) {
  return std::all_of(plan.joints.begin(), plan.joints.end(), [part](const work::Joint& joint) {
    const bool its = joint.parts[0] == part || joint.parts[1] == part;
    return !its || joint.kind == work::JointKind::edge;
  });
}

void note_captives(const plan::Plan& plan, const work::Job& job, const work::Motions& motions,
                   std::vector<std::string>& out) {
  std::vector<std::string> told, names;
  for (work::PartId part : captured_parts(motions)) {
    if (only_edge_joints(plan, part)) {
      continue;
    }
    const auto around = neighbours(plan, job, part);
    told.push_back(job.parts[part].name + " is captured: it goes in before the last of " +
                   base::list_words(around) + " closes round it");
    names.push_back(job.parts[part].name);
  }
  // Of a frame every part is captive, which a look at it tells.
  constexpr std::size_t kTold = 3;
  if (told.size() > kTold) {
    told = {std::to_string(names.size()) + " parts hold one another captive (" +
            base::list_words(names) +
            "): none goes in once its neighbours are together, so keep to the order"};
  }
  out.insert(out.end(), told.begin(), told.end());
}

// Pushed home and left: what a joint without a clamp gets.
void note_by_hand(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::ByHand& by_hand : stage.by_hand) {
      std::string joints = joint_name(plan.joints[by_hand.joints.front()], job);
      if (by_hand.joints.size() > 1) {
        joints += " and " + std::to_string(by_hand.joints.size() - 1) + " more";
      }
      out.push_back("nothing on the rack closes the shoulders of " + joints + " " +
                    base::axis_words(by_hand.axis) + ": " + std::to_string(by_hand.clamps) +
                    " clamps that open " + rule_words(by_hand.opening_mm, job.units) +
                    " would; without them drive each home with a mallet and a block, and see that "
                    "no light shows");
    }
  }
}

void note_dry_joints(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  std::vector<std::string> names;
  for (const work::Joint& joint : plan.joints) {
    if (!joint.glued) {
      names.push_back(joint_name(joint, job));
    }
  }
  if (!names.empty()) {
    out.push_back("no glue in " + base::list_words(names));
  }
}

// A bow or cup wants its own force before any reaches the glue.
void note_bows(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  constexpr double kOpen_mm = 0.1;  // thinner gaps any glue fills
  for (const plan::LinePressure& line : plan.pressure) {
    if (line.bow_mm == 0) {
      continue;
    }
    const std::string name = joint_name(plan.joints[line.joint], job);
    const std::string bow = short_text(line.bow_mm, job.units) + " of bow";
    out.push_back(
        line.open_gap_mm > kOpen_mm
            ? name + ": the clamps can't close its " + bow + ", " +
                  gap_words(line.open_gap_mm, job.units) +
                  " stay open: joint it straight, or turn the board round"
            : name + ": its " + bow + " takes " + force_words(line.closing_N, job.units) +
                  " of the clamps' force to close, before any presses the glue; draw the clamps at "
                  "the gap first");
  }
}

// Pressure beside the middle third of a held joint, along it or across it. One that isn't held is
// the verdict's business.
void note_offsets(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  for (const plan::LinePressure& line : plan.pressure) {
    for (const std::size_t i : {0U, 1U}) {
      const pressure::OffsetVerdict verdict =
          line.size_mm[i] > 0 && line.level != plan::Level::short_of_hold
              ? pressure::judge_offset(line.off_mm[i], line.size_mm[i])
              : pressure::OffsetVerdict::good;
      if (verdict != pressure::OffsetVerdict::good) {
        out.push_back(joint_name(plan.joints[line.joint], job) + ": the clamps' force lies " +
                      rule_words(std::abs(line.off_mm[i]), job.units) + " beside the middle, " +
                      (i == 0 ? "along" : "across") +
                      " the joint: shift them so far back, or set " + "one more at the other side");
      }
    }
  }
}

// "31 N m", "23 lbf ft".
std::string moment_words(double moment_Nmm, base::Units units) {
  constexpr double kPerFootPound_Nmm = 1355.8;
  return units == base::Units::inch
             ? std::to_string(std::lround(moment_Nmm / kPerFootPound_Nmm)) + " lbf ft"
             : std::to_string(std::lround(moment_Nmm / 1000)) + " N m";
}

// The jaws of one clamp that don't stand opposite each other turn a frame.
void note_racking(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  constexpr double kOff_mm = 25.4 / 8;  // as a jaw is set by eye; common practice
  double most_Nmm = 0;
  for (const plan::Stage& stage : plan.stages) {
    std::array<std::vector<pressure::SlantedForce>, 3> slanted;  // by axis
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      for (std::size_t axis = 0; axis < 3; ++axis) {
        if (clamp.round.empty() && clamp.axis[axis] > 0.99 &&
            static_cast<int>(axis) != plan.square_normal) {
          slanted[axis].push_back({clamp.force_N, 0, kOff_mm});
        }
      }
    }
    for (const std::vector<pressure::SlantedForce>& forces : slanted) {
      most_Nmm = std::max(most_Nmm, std::abs(racking_moment_Nmm(forces)));
    }
  }
  constexpr double kTold_Nmm = 1e4;  // less than the weight of a hand on a corner
  if (plan.needs_square && most_Nmm >= kTold_Nmm) {
    out.push_back(
        "set each clamp's jaws opposite one another: heads " + rule_words(kOff_mm, job.units) +
        " to one side pull it out of square with up to " + moment_words(most_Nmm, job.units) +
        "; where the diagonals differ, shift the heads until the clamps lean along the "
        "longer one");
  }
}

// A caul that only its ends are clamped down on bends away from the middle; cork makes up for what
// a plane misses.
void note_cambers(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  constexpr double kPlaned_mm = 0.1;  // a shaving
  std::vector<std::string> told;
  double lining_mm = 0;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (clamp.caul_camber_mm < kPlaned_mm) {
        continue;
      }
      const std::string caul = rule_words(clamp.caul->along_mm, job.units) + " long and " +
                               rule_words(clamp.caul->thick_mm, job.units) +
                               " thick to a camber of " +
                               gap_words(clamp.caul_camber_mm, job.units);
      if (std::find(told.begin(), told.end(), caul) == told.end()) {
        told.push_back(caul);
      }
      lining_mm = std::max(lining_mm, clamp.caul_lining_mm);
    }
  }
  if (!told.empty()) {
    out.push_back("plane the cauls " + base::list_words(told) +
                  (lining_mm > 0
                       ? (told.size() > 1 ? ", and line them with " : " and line them with ") +
                             rule_words(lining_mm, job.units) + " of cork"
                       : std::string()) +
                  ": the middle touches first, and clamped at both ends they press evenly");
  }
}

// Nobody grows a third hand: what would fall is propped, or somebody helps.
void note_hands(const plan::Plan& plan, const work::Job& job, std::vector<std::string>& out) {
  for (const plan::Stage& stage : plan.stages) {
    const std::vector<HandsWanted> all = joins_short_of_hands(stage, plan.people);
    for (std::size_t i = 0; i < all.size();) {
      const HandsWanted& wanted = all[i];
      const std::size_t first = i;
      while (i < all.size() && all[i].loose == wanted.loose) {
        ++i;
      }
      std::vector<std::string> names;
      for (const work::PartId part : wanted.loose) {
        names.push_back(job.parts[part].name);
      }
      const bool every = wanted.props >= static_cast<int>(names.size());
      const std::string count = wanted.props == 1 ? "one" : std::to_string(wanted.props);
      const std::string step = "step " + std::to_string(wanted.step);
      out.push_back((i - first > 1 ? "from " + step + " on the joins want " : step + " wants ") +
                    std::to_string(wanted.hands) + " hands and there are " +
                    std::to_string(2 * plan.people) + ": prop " + (every ? "" : count + " of ") +
                    base::list_words(names) +
                    (wanted.props == 1 ? " with a square block" : " with square blocks") +
                    " first, or have somebody help");
    }
  }
}

// A strap gives its corners less the farther they are from its buckle.
void note_straps(const plan::Plan& plan, std::vector<std::string>& out) {
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (!clamp.round.empty()) {
        out.push_back(
            "wax the pads under the strap, and as you draw it tap every corner with a mallet: it "
            "sticks there, and the corners far from the buckle get least");
        return;
      }
    }
  }
}

// Corners where one side is end grain are strong only as far as their long-grain faces go.
void note_end_grain(const plan::Plan& plan, std::vector<std::string>& out) {
  const double all = plan.long_mm2 + plan.cross_mm2 + plan.end_mm2;
  if (all > 0 && plan.end_mm2 > 0) {
    const long share = std::lround(100 * plan.end_mm2 / all);
    out.push_back(
        std::to_string(share) +
        " % of the glued area has end grain on one side: size it first, and don't count on "
        "it for strength");
  }
}

void note_class_values(const work::Job& job, std::vector<std::string>& out) {
  std::set<std::string> missing;
  for (const work::Part& part : job.parts) {
    const tables::Wood* wood = tables::find_wood(part.species);
    if (wood == nullptr) {
      continue;
    }
    const bool elastic = elastic_of(*wood).from_class, crush = crush_strength_of(*wood).from_class;
    if (elastic || crush) {
      missing.insert(wood->name + ": no " + (elastic ? "elastic ratios" : "") +
                     (elastic && crush ? " or " : "") +
                     (crush ? "crushing strength across the grain" : "") + " published for it");
    }
  }
  for (const std::string& what : missing) {
    out.push_back(what + "; its class's stand in");
  }
}

}  // namespace

std::vector<work::PartId> captured_parts(const work::Motions& motions) {
  std::vector<work::PartId> captives;
  for (work::PartId part = 0; part < motions.parts(); ++part) {
    if (is_captive(motions, part)) {
      captives.push_back(part);
    }
  }
  return captives;
}

std::vector<std::string> notes_for(const plan::Plan& plan, const work::Job& job,
                                   const work::Motions& motions) {
  std::vector<std::string> out;
  note_by_hand(plan, job, out);
  note_hands(plan, job, out);
  note_captives(plan, job, motions, out);
  note_dry_joints(plan, job, out);
  note_bows(plan, job, out);
  note_offsets(plan, job, out);
  note_racking(plan, job, out);
  note_cambers(plan, job, out);
  note_straps(plan, out);
  note_end_grain(plan, out);
  note_class_values(job, out);
  return out;
}

}  // namespace planner::say
