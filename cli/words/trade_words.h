// Ids, axes and joints of a plan in the trade's words.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// What the bench calls a clamp of the table: "heavy F clamp"; `short` leaves "clamp" away for
// columns: "heavy F". An id the words don't know comes back with blanks for underscores.
std::string clamp_text(const std::string& kind, const Wording& wording);
std::string clamp_short(const std::string& kind, const Wording& wording);
std::string clamp_noun(const Wording& wording);  // "clamp", "cramp"
// The size of a clamp to borrow or buy. The table has the round metric ones: "900 mm", "about 36
// in".
std::string sold_size_text(double opening_mm, const Wording& wording);
// Rounded up to what one asks for: quarter inches, whole millimetres.
std::string least_opening_text(double mm, const Wording& wording);

// "left-right" x, "front-back" y, "top-bottom" z; "slantwise" for anything else.
std::string axis_word(const geometry::Direction& axis);
// The way a clamp presses: along its axis, or "round" for a strap.
std::string clamp_way(const planner::plan::PlannedClamp& clamp);
// "left", "right", "front", "back", "bottom", "top"
std::string side_word(planner::work::Face face);
// The side that a direction points to, by its largest component.
planner::work::Face side_towards(const geometry::Direction& direction);
// "to the left", "up": the way a direction looks, by its largest component.
std::string way_text(const geometry::Direction& direction);
// The way that is nearest to an axis: "left-right", "front-back", "top-bottom".
std::string axis_text(const geometry::Direction& axis);

// What a clamp is for: "hold" with how hard it is drawn, "hold firm"; "boost" (adds up to full pressure);
// "home" (only brings a joint home).
std::string clamp_how_word(const planner::plan::PlannedClamp& clamp);
// What a glue line reaches: "full", "held", "lightly held", "contact", "home", "not held".
std::string line_level_word(planner::plan::Level level);

// "shop bottle (water-resistant PVA, Type II)"; of a glue that goes by its table name, that alone.
std::string glue_name_text(const planner::work::GlueInUse& glue);

std::string part_name(const planner::plan::Plan& plan, planner::work::PartId id);  // printable
std::string part_names(const planner::plan::Plan& plan,
                       const std::vector<planner::work::PartId>& ids);
// "top, left": inside a sentence that has its own "and".
std::string comma_names(const planner::plan::Plan& plan,
                        const std::vector<planner::work::PartId>& ids);
// "top - left": the parts of a joint.
std::string joint_text(const planner::plan::Plan& plan, planner::work::JointId id);
std::string joint_texts(const planner::plan::Plan& plan,
                        const std::vector<planner::work::JointId>& ids);
// The joint and which of its faces: "top - left, cheek", "left - front, shoulder", "side - shelf,
// face 3"; the joint alone where it has one face.
std::string face_text(const planner::plan::Plan& plan, planner::work::JointId id, std::size_t face);

// A part with the rabbet, dado, groove or mortise of the joint.
bool has_the_cut(const planner::work::Joint& joint, planner::work::PartId part);
// The place on `part` where the joint is: "rabbet", "dado", "end", "edge"; plural by the caller.
std::string place_noun(const planner::work::Joint& joint, planner::work::PartId part,
                       const Wording& wording);

}  // namespace cli::words
