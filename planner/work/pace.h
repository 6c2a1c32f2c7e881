// How fast these people work: the numbers of the shop file's [pace].
#pragma once
#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "planner/base/units.h"

namespace planner::work {

// Defaults are common practice (docs/method.md "Pace"), until a rehearsal says otherwise.
struct Pace {
  // Spreading. By length: an edge by bead and roller; rabbets, grooves and dadoes by brush, with a
  // little on top for each joint.
  double edge_s_per_mm = 5 / base::kMmPerFoot;
  double channel_s_per_mm = 15 / base::kMmPerFoot;
  double channel_joint_s = 4;
  // By the piece: a mitre, lap or butt; a tenon with its mortise; a finger corner, and each piece of
  // one board on top; a dowel with its hole.
  double face_s = 10;
  double tenon_s = 20;
  double corner_s = 15, corner_piece_s = 2;
  double dowel_s = 5;
  double spline_s = 10;  // with both its kerfs
  // By area, faces wider than 50 mm. Nothing: 20 s a square foot with a notched spreader for face
  // laminations, 60 by brush for others.
  std::optional<double> wide_s_per_mm2;

  // Joining: a part under 20 in long, one to 4 ft, a longer one; each further joint that has to be
  // started in the same go; a strip of a slab.
  double join_short_s = 8, join_s = 20, join_long_s = 40;
  double next_s = 10;
  double strip_s = 5;
  double turn_s = 20;  // all of it turned over with its clamps

  // Setting a clamp with its pad and bringing it snug, by id of its kind; what is left out as the
  // clamp table has it. `any_snug_s`: of every kind, as older files write it.
  std::map<std::string, double, std::less<>> snug_s;
  std::optional<double> any_snug_s;
  double platen_s = 15;     // a clamp over platens or a form
  double caul_pair_s = 30;  // a pair of cauls across a panel, with its two clamps
  double tighten_s = 5;     // a clamp

  // By means that are no clamps: a pin or nail, a screw; a weight laid on; the bag closed round the
  // work, and pumped down. A corner folded shut on its tape; a joint rubbed.
  double pin_s = 5, screw_s = 10;
  double weight_s = 5;
  double bag_s = 120, pump_s = 60;
  double fold_s = 10, rub_s = 5;

  // For square or wind, of what is under 20 in too; that faces are flush, a joint.
  double check_s = 45, check_small_s = 20;
  double flush_s = 5;
};

enum class PaceBy { piece, length };  // seconds; seconds a mm

// A number of the pace by its key in the shop file. `wide` and `snug` have no one default and stand apart.
struct PaceKey {
  std::string_view key;
  PaceBy by;
  double Pace::*value;
};
inline constexpr std::array<PaceKey, 28> kPaceKeys = {{
    {"edge", PaceBy::length, &Pace::edge_s_per_mm},
    {"channel", PaceBy::length, &Pace::channel_s_per_mm},
    {"channel_joint", PaceBy::piece, &Pace::channel_joint_s},
    {"face", PaceBy::piece, &Pace::face_s},
    {"tenon", PaceBy::piece, &Pace::tenon_s},
    {"corner", PaceBy::piece, &Pace::corner_s},
    {"corner_piece", PaceBy::piece, &Pace::corner_piece_s},
    {"dowel", PaceBy::piece, &Pace::dowel_s},
    {"spline", PaceBy::piece, &Pace::spline_s},
    {"join_short", PaceBy::piece, &Pace::join_short_s},
    {"join", PaceBy::piece, &Pace::join_s},
    {"join_long", PaceBy::piece, &Pace::join_long_s},
    {"next", PaceBy::piece, &Pace::next_s},
    {"strip", PaceBy::piece, &Pace::strip_s},
    {"turn", PaceBy::piece, &Pace::turn_s},
    {"platen", PaceBy::piece, &Pace::platen_s},
    {"caul_pair", PaceBy::piece, &Pace::caul_pair_s},
    {"tighten", PaceBy::piece, &Pace::tighten_s},
    {"pin", PaceBy::piece, &Pace::pin_s},
    {"screw", PaceBy::piece, &Pace::screw_s},
    {"weight", PaceBy::piece, &Pace::weight_s},
    {"bag", PaceBy::piece, &Pace::bag_s},
    {"pump", PaceBy::piece, &Pace::pump_s},
    {"fold", PaceBy::piece, &Pace::fold_s},
    {"rub", PaceBy::piece, &Pace::rub_s},
    {"check", PaceBy::piece, &Pace::check_s},
    {"check_small", PaceBy::piece, &Pace::check_small_s},
    {"flush", PaceBy::piece, &Pace::flush_s},
}};

}  // namespace planner::work
