#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "geometry/elementary.h"
#include "planner/files/starter/boards.h"
#include "planner/tables/clamp.h"
#include "planner/work/compound_mitre.h"

namespace planner::files::starter {
namespace {

using geometry::Length;

enum class Held { none, butt, groove, inset };  // how a bottom is held

struct Ring {
  int sides = 0;
  Length across, height, thickness;
  std::string species;
  Held bottom = Held::none;
  Length bottom_thickness, bottom_depth, bottom_offset, room;
  std::string bottom_species;
  bool floats = false;
  int keys = 0;
  double slope_deg = 0;  // of the sides, out going up; below 0 in
  base::Place place, bottom_place;

  double slope() const { return slope_deg * std::numbers::pi / 180; }
  double angle() const { return std::numbers::pi / sides; }  // half of what a side turns through
  double inradius_mm() const { return across.mm() / 2; }
  // A side's length outside.
  Length side() const { return Length::nm(std::llround(across.mm() * geometry::tangent(angle()) * 1e6)); }
  Length wall_low() const { return bottom == Held::butt ? bottom_thickness : Length(); }
  double wall_mm() const { return (height - wall_low()).mm(); }
  // By how much the ring is narrower at one edge than at the other, from its middle to a side.
  double narrows_mm() const { return wall_mm() * geometry::tangent(std::abs(slope())); }
  double low_inradius_mm() const { return inradius_mm() - (slope_deg > 0 ? narrows_mm() : 0); }
};

class RingReader {
 public:
  RingReader(const Node& node, FileNotes& notes) : table_(node, kRing, notes) {}

  std::optional<Ring> read() {
    Ring r;
    r.place = table_.keys().place();
    r.bottom_place = table_.keys().place("bottom");
    r.sides = table_.count("sides").value_or(3);
    r.across = table_.size("across");
    r.height = table_.size("height");
    r.thickness = table_.size("thickness");
    r.species = table_.species();
    r.keys = table_.count("keys").value_or(0);
    r.slope_deg = table_.keys().degrees("slope", Needed::no).value_or(0);
    read_bottom(r);
    table_.keys().finish();
    if (!table_.failed()) {
      check(r);
    }
    return table_.failed() ? std::nullopt : std::optional(r);
  }

 private:
  void read_bottom(Ring& r) {
    r.bottom = table_.kind<Held>("bottom");
    const bool there = r.bottom != Held::none, grooved = r.bottom == Held::groove;
    const std::string needs = "bottom = \"groove\"";
    const Length sheet = usual_sheet(table_.units());
    r.bottom_thickness = table_.size_with("bottom_thickness", there, "a bottom").value_or(sheet);
    // A third of the side: common practice.
    r.bottom_depth = table_.size_with("bottom_depth", grooved, needs).value_or(r.thickness / 3);
    r.bottom_offset = table_.size_with("bottom_offset", grooved, needs).value_or(sheet);
    table_.only_with("bottom_species", there, "a bottom");
    r.bottom_species = table_.species("bottom_species", r.species);
    table_.only_with("bottom_fit", grooved, needs);
    const auto fit = table_.word("bottom_fit");
    r.floats = grooved && (fit ? *fit == "float" : !is_sheet(r.bottom_species));
    r.room = r.floats ? usual_room(table_.units()) : Length();
  }

  void check(const Ring& r) {
    if (2 * r.thickness >= r.across) {
      table_.refuse("thickness",
                    "sides " + table_.text(r.thickness) + " thick leave no opening in a ring " +
                        table_.text(r.across) + " across",
                    "make them thinner than " + table_.text(r.across / 2));
    }
    if (r.bottom == Held::groove && (r.bottom_depth >= r.thickness || r.bottom_depth <= r.room)) {
      table_.refuse("bottom_depth",
                    r.bottom_depth <= r.room
                        ? "a groove " + table_.text(r.bottom_depth) +
                              " deep does not hold a bottom that needs " + table_.text(r.room) +
                              " of room on each side"
                        : "a groove " + table_.text(r.bottom_depth) + " deep goes through sides of " +
                              table_.text(r.thickness),
                    "a third of the sides is usual, " + table_.text(r.thickness / 3));
    }
    const Length used = r.bottom == Held::none ? Length()
                        : r.bottom == Held::groove ? r.bottom_offset + r.bottom_thickness
                                                   : r.bottom_thickness;
    if (used >= r.height) {
      table_.refuse("height",
                    "a ring " + table_.text(r.height) + " high has no room for its bottom",
                    "make it higher than " + table_.text(used));
    }
    if (r.slope_deg != 0 && !table_.failed()) {
      check_slope(r);
    }
  }

  // A strap slides off sides that lean more than its friction holds. At its narrow end an opening is
  // left where (inradius) cos s - (height) sin s is more than the thickness.
  void check_slope(const Ring& r) {
    constexpr double kDegree = std::numbers::pi / 180;
    const double high = r.wall_mm(), wide = r.inradius_mm();
    const double holds = geometry::arc_tangent(tables::kStrapFriction) / kDegree,
                 open = (geometry::arc_cosine(r.thickness.mm() / geometry::hypotenuse(wide, high)) -
                         geometry::arc_tangent(high, wide)) / kDegree;
    const std::string leaning = "sides that lean " + degrees(std::abs(r.slope_deg));
    if (r.bottom == Held::groove || r.bottom == Held::inset) {
      table_.refuse("bottom", "a bottom lies level, and " + leaning + " have no edge or groove level for it",
                    "take bottom = \"butt\", laid under them, or leave it out");
    } else if (std::abs(r.slope_deg) >= open) {
      table_.refuse("slope", leaning + " leave no opening at the ring's narrow end",
                    "make it less than " + degrees(open));
    } else if (std::abs(r.slope_deg) > holds) {
      table_.refuse("slope", "a strap slides off " + leaning + ": its friction is taken as 0.3",
                    "make it " + degrees(holds) + " at most");
    }
  }

  // A tenth, rounded down: "16.6 degrees".
  static std::string degrees(double angle) {
    const auto tenths = std::llround(std::floor(angle * 10 + 1e-9));
    return std::to_string(tenths / 10) + (tenths % 10 != 0 ? "." + std::to_string(tenths % 10) : "") + " degrees";
  }

  StarterTable table_;
};

class RingMaker {
 public:
  explicit RingMaker(const Ring& ring) : r_(ring), middle_(r_.inradius_mm() * wide()) {}

  Expansion make() {
    for (int n = 0; n < r_.sides; ++n) {
      add_side(n);
    }
    if (r_.bottom != Held::none) {
      add_bottom();
    }
    made_.even_ring = work::EvenRing{r_.sides, r_.across, r_.slope_deg};
    if (r_.keys > 0) {
      made_.keys = work::Keys{r_.keys, r_.sides, r_.place};
    }
    return std::move(made_);
  }

 private:
  static Length nm(double mm) { return Length::nm(std::llround(mm * 1e6)); }

  // Half the ring's extent to the right, and to the back, over its inradius; to the front it is 1.
  double wide() const {
    double most = 0;
    for (int n = 0; n < r_.sides; ++n) {
      most = std::max(most, std::abs(geometry::sine((2 * n + 1) * r_.angle())));
    }
    return most / geometry::cosine(r_.angle());
  }
  double deep() const { return r_.sides % 2 == 0 ? 1 : 1 / geometry::cosine(r_.angle()); }

  // Before it is leaned about its outer lower arris, from there: a board so long up its slant that
  // level edges can be sawn on it.
  geometry::LatticeBox blank() const {
    const Length half = r_.side() / 2, middle = nm(middle_);
    const double lean = std::abs(r_.slope()), t = r_.thickness.mm(), sine = geometry::sine(lean);
    const bool out = r_.slope_deg > 0;
    const Length slant = lean == 0 ? r_.height - r_.wall_low()
                                   : nm((r_.wall_mm() + t * sine) / geometry::cosine(lean));
    const Length front = out ? nm(r_.narrows_mm() + t * sine * geometry::tangent(lean)) : Length(),
                 low = r_.wall_low() - (out ? nm(t * sine) : Length());
    return {{middle - half, front, low}, {middle + half, front + r_.thickness, low + slant}};
  }

  // Side 1 lies in front, the others follow to the right and round. Grain runs along the longer
  // way: round the ring, or upright as in staves.
  void add_side(int n) {
    const geometry::LatticeBox box = blank();
    const Length middle = nm(middle_);
    const int along = r_.side() >= r_.height ? 0 : 2;
    work::Part side = board("side " + std::to_string(n + 1), r_.species, r_.place, {along, 1}, box);
    const work::CompoundMitre saw = work::compound_mitre(r_.sides, r_.slope_deg);
    for (const work::Face end : {kLeft, kRight}) {
      side.cuts.push_back({r_.place, work::Mitre{end, kFront, saw.blade_deg, -saw.gauge_deg}});
    }
    if (r_.slope_deg != 0) {
      const bool out = r_.slope_deg > 0;
      side.cuts.push_back({r_.place, work::Mitre{kDown, out ? kBack : kFront, std::abs(r_.slope_deg)}});
      side.cuts.push_back({r_.place, work::Mitre{kUp, out ? kFront : kBack, std::abs(r_.slope_deg)}});
      side.turns.push_back({0, r_.slope_deg, {middle, box.lo[1], box.lo[2]}});
    }
    if (r_.bottom == Held::groove) {
      side.cuts.push_back({r_.bottom_place,
                           work::Channel{along == 2, kBack, 0, r_.bottom_offset,
                                         r_.bottom_thickness, r_.bottom_depth, {}, {}}});
    }
    if (n > 0) {
      side.turns.push_back({2, 360.0 * n / r_.sides, {middle, r_.across / 2, Length()}});
    }
    made_.parts.push_back(std::move(side));
  }

  // A board round the bottom's outline, of which the sides that don't lie along its own are cut off.
  void add_bottom() {
    const double sunk = r_.bottom == Held::groove ? r_.bottom_depth.mm() - r_.room.mm() : 0;
    const double inside = r_.bottom == Held::butt ? r_.low_inradius_mm()
                                                  : r_.inradius_mm() - r_.thickness.mm() + sunk;
    const double x = inside * wide(), back = inside * deep(), centre = r_.inradius_mm();
    const Length low = r_.bottom == Held::groove ? r_.bottom_offset : Length();
    work::Part panel = board("bottom", r_.bottom_species, r_.bottom_place, {0, 2},
                             {{nm(middle_ - x), nm(centre - inside), low},
                              {nm(middle_ + x), nm(centre + back), low + r_.bottom_thickness}});
    for (int n = 0; n < r_.sides; ++n) {
      // The side's outward normal; side 1 looks to the front.
      const double nx = geometry::sine(2 * n * r_.angle()), ny = -geometry::cosine(2 * n * r_.angle());
      if (std::abs(nx) < 1e-9 || std::abs(ny) < 1e-9) {
        continue;
      }
      const double y = ny > 0 ? back : inside;
      const double from_side = x - (inside - std::abs(ny) * y) / std::abs(nx),
                   from_face = y - (inside - std::abs(nx) * x) / std::abs(ny);
      panel.cuts.push_back({r_.bottom_place, work::Chamfer{ny > 0 ? kBack : kFront,
                                                           nx > 0 ? kRight : kLeft,
                                                           nm(from_side), nm(from_face)}});
    }
    made_.parts.push_back(std::move(panel));
    if (r_.floats) {
      std::vector<std::string> sides;
      for (int n = 1; n <= r_.sides; ++n) {
        sides.push_back("side " + std::to_string(n));
      }
      keep_dry("bottom", sides, r_.bottom_place, made_);
    }
  }

  const Ring& r_;
  double middle_;  // x of the ring's axis, mm
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Ring> read = RingReader(table, notes).read();
  return read ? RingMaker(*read).make() : Expansion{};
}

constexpr Dimension kWhole[] = {
    {"across", "12", "300"}, {"height", "3", "80"}, {"thickness", "1/2", "12"}};
constexpr StarterKey kKeys[] = {
    {"sides", Holds::count, "how many", kRequired, {"6"}, {}, 3, 36},
    {"across", Holds::length,
     "outside, flat to flat where it is widest: twice the way from middle to side", kRequired},
    {"height", Holds::length, "of the whole", kRequired},
    {"thickness", Holds::length, "of the sides", kRequired},
    {"slope", Holds::angle, "degrees by which the sides lean out, going up; below 0 in", "0, upright"},
    {"bottom",
     Holds::word,
     "how it is held",
     "none",
     {"groove"},
     {{{"none"},
       {"butt", "laid under the sides"},
       {"groove", "in grooves of the sides"},
       {"inset", "between the sides"}}}},
    {"bottom_species", Holds::wood, "", "the sides'", {"plywood_birch"}},
    species_key("of the sides"),
    {"bottom_thickness", Holds::length, "", "1/4 in or 6 mm"},
    {"bottom_depth", Holds::length, "of its grooves", "a third of the sides"},
    {"bottom_offset", Holds::length, "from the sides' lower edge to its grooves", "1/4 in or 6 mm"},
    {"bottom_fit", Holds::word, "in a groove", kUsualFit, {}, {{{"float"}, {"glue"}}}},
    kKeysKey,
};

}  // namespace

constexpr Starter kRing = {
    .name = "ring",
    .summary = "a ring of mitered sides or staves, 3 to 36 of them, and a bottom",
    .about =
        R"(Makes `side 1`, which lies in front, `side 2` and so on from there to the right, and `bottom` where there is one. Grain
runs along the longer way of a side: round the ring as in a tray, or upright as in staves. With `slope` the sides lean as a
tub's do, their edges level, and the plan says how a saw is set for their ends.)",
    .title = "Ring",
    .wood = "black_cherry",
    .dimensions = kWhole,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
