// By what each joint is held: as the job says, else as the trade would with what the shop has.
#pragma once
#include <vector>

#include "planner/work/glue_quantity.h"
#include "planner/work/joint.h"

namespace planner::work {

// Sheets to here, on or in rabbets, are fastened (common practice: 10 mm, 3/8 in).
inline constexpr double kFastenedSheet_mm = 10;
// Between two fasteners, at most; two a joint at least (common practice: every 4 to 6 in).
inline constexpr double kFastenerSpacing_mm = 6 * 25.4;
// Tape closes boxes no longer than this of stock no thicker (common practice: 12 in, 1/2 in).
inline constexpr double kTapedSide_mm = 12 * 25.4, kTapedStock_mm = 0.5 * 25.4;
// Hot hide edges to here are rubbed (common practice: 2 ft).
inline constexpr double kRubbed_mm = 24 * 25.4;
// A skin is no thicker (common practice: veneers are sliced to 1/8 in); a veneer that weights hold no
// thicker than 1 mm (common practice).
inline constexpr double kSkin_mm = 3.2, kWeightedVeneer_mm = 1;

// Sets `held_by` of every joint. What the job says of a joint wins. Else: what lies in grooves all
// round asks for nothing of its own, nor do bars halved where they cross, both ends let in; a thin back or bottom of a sheet good on or in a rabbet is pinned, unless
// its outside is named to show; short edges in hot hide glue are rubbed; small mitred boxes are folded up on tape, where
// the shop has any; veneers and skins go into the bag, or veneers under weights, where the shop has those;
// all others are clamped. REQUIRES: joints as classify_joints() made them of the
// job.
void take_means(std::vector<Joint>& joints, const Job& job, const Shop& shop,
                const GlueInUse& glue);

// A veneer or a skin: glued on its whole face, and thin beside what it lies on. REQUIRES: as take_means().
bool is_veneer(const Joint& joint, const Job& job);

// The joint's face that the broad side of a thin sheet lies on, and which of its two parts is the
// sheet; nothing where there is none.
struct SheetFace {
  std::size_t face = 0, sheet = 0;  // indices into Joint::faces, Joint::parts
};
std::optional<SheetFace> sheet_face(const Joint& joint, const Job& job);

}  // namespace planner::work
