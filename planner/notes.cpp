#include "planner/notes.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "planner/side_words.h"
#include "planner/tables/wood.h"

namespace planner {
namespace {

std::string list(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  }
  return text;
}

// A stray loose part is no captive: it must touch something, and be stopped along every direction.
bool is_captive(const Motions& motions, PartId part) {
  for (std::size_t d = 0; d < motions.directions().size(); ++d) {
    bool free = true;
    for (PartId other = 0; other < motions.parts(); ++other) {
      free = free && (other == part || motions.clear(d, part, other));
    }
    if (free) {
      return false;
    }
  }
  return true;
}

std::vector<std::string> neighbours(const Plan& plan, const Job& job, PartId part) {
  std::vector<std::string> names;
  for (const Joint& joint : plan.joints) {
    if (joint.parts[0] == part) {
      names.push_back(job.parts[joint.parts[1]].name);
    } else if (joint.parts[1] == part) {
      names.push_back(job.parts[joint.parts[0]].name);
    }
  }
  return names;
}

// A board between others of a panel slides in from its end or face.
bool only_edge_joints(const Plan& plan, PartId part) {
  return std::all_of(plan.joints.begin(), plan.joints.end(), [part](const Joint& joint) {
    const bool its = joint.parts[0] == part || joint.parts[1] == part;
    return !its || joint.kind == JointKind::edge;
  });
}

void note_captives(const Plan& plan, const Job& job, const Motions& motions,
                   std::vector<std::string>& out) {
  for (PartId part : captured_parts(motions)) {
    if (only_edge_joints(plan, part)) {
      continue;
    }
    const auto around = neighbours(plan, job, part);
    out.push_back(job.parts[part].name + " is captured: it goes in before the last of " +
                  list(around) + " closes round it");
  }
}

void note_dry_joints(const Plan& plan, const Job& job, std::vector<std::string>& out) {
  std::vector<std::string> names;
  for (const Joint& joint : plan.joints) {
    if (!joint.glued) {
      names.push_back(joint_name(joint, job));
    }
  }
  if (!names.empty()) {
    out.push_back("no glue in " + list(names));
  }
}

// A bow or cup wants its own force before any reaches the glue.
void note_bows(const Plan& plan, const Job& job, std::vector<std::string>& out) {
  constexpr double kOpen_mm = 0.1;  // thinner gaps any glue fills
  for (const LinePressure& line : plan.pressure) {
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

// Corners where one side is end grain are strong only as far as their long-grain faces go.
void note_end_grain(const Plan& plan, std::vector<std::string>& out) {
  const double all = plan.long_mm2 + plan.cross_mm2 + plan.end_mm2;
  if (all > 0 && plan.end_mm2 > 0) {
    const long share = std::lround(100 * plan.end_mm2 / all);
    out.push_back(
        std::to_string(share) +
        " % of the glued area has end grain on one side: size it first, and don't count on "
        "it for strength");
  }
}

void note_class_values(const Job& job, std::vector<std::string>& out) {
  std::set<std::string> woods;
  for (const Part& part : job.parts) {
    const Wood* wood = find_wood(part.species);
    if (wood != nullptr && (elastic_of(*wood).from_class || crush_strength_of(*wood).from_class)) {
      woods.insert(wood->name);
    }
  }
  for (const std::string& wood : woods) {
    out.push_back(wood + ": some constants are not published for it; its class's stand in");
  }
}

}  // namespace

std::vector<PartId> captured_parts(const Motions& motions) {
  std::vector<PartId> captives;
  for (PartId part = 0; part < motions.parts(); ++part) {
    if (is_captive(motions, part)) {
      captives.push_back(part);
    }
  }
  return captives;
}

std::vector<std::string> notes_for(const Plan& plan, const Job& job, const Motions& motions) {
  std::vector<std::string> out;
  note_captives(plan, job, motions, out);
  note_dry_joints(plan, job, out);
  note_bows(plan, job, out);
  note_end_grain(plan, out);
  note_class_values(job, out);
  return out;
}

}  // namespace planner
