#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

struct TableBase {
  geometry::Length length, width, height, leg, rail_width, rail_thickness, setback;
  geometry::Length tenon_length, tenon_thickness, tenon_width, well;
  std::optional<geometry::Length> stretcher;  // underside of the lower rails
  std::string species;
  base::Place place, rail_place, tenon_place;

  geometry::Length tenon_side() const { return setback + (rail_thickness - tenon_thickness) / 2; }
};

class TableBaseReader {
 public:
  TableBaseReader(const Node& node, FileNotes& notes) : table_(node, kTableBase, notes) {}

  std::optional<TableBase> read() {
    TableBase t;
    t.place = table_.keys().place();
    const auto outside = table_.outside();
    t.length = outside[0];
    t.width = outside[1];
    t.height = outside[2];
    t.species = table_.species();
    t.leg = table_.size("leg");
    t.rail_width = table_.size("rail_width");
    t.rail_thickness = table_.size("rail_thickness");
    t.rail_place = table_.keys().place("rail_width");
    // As far in from the legs' outside as a thin sheet: common practice.
    t.setback = table_.size("setback", usual_sheet(table_.units()));
    t.stretcher = table_.keys().length("stretcher", Sign::above_zero, Needed::no);
    read_tenon(t);
    table_.keys().finish();
    if (!table_.failed()) {
      check(t);
    }
    return table_.failed() ? std::nullopt : std::optional(t);
  }

 private:
  // A third of the rail, a shoulder of a quarter of its width at the top, and as long as the tenon
  // that comes from the side lets it: common practice.
  void read_tenon(TableBase& t) {
    t.well = usual_room(table_.units());
    t.tenon_thickness = table_.size("tenon_thickness", t.rail_thickness / 3);
    t.tenon_width = table_.size("tenon_width", t.rail_width - t.rail_width / 4);
    t.tenon_length = table_.size("tenon_length", longest_tenon(t));
    t.tenon_place =
        table_.keys().place(table_.keys().has("tenon_length") ? "tenon_length" : "rail_width");
  }

  static geometry::Length longest_tenon(const TableBase& t) {
    return t.leg - t.tenon_side() - t.tenon_thickness - t.well;
  }

  void check(const TableBase& t) {
    if (t.length <= 2 * t.leg || t.width <= 2 * t.leg || t.height <= t.rail_width) {
      table_.keys().refuse("outside", "legs and rails leave nothing between them",
                           "make it larger or its members smaller");
    }
    if (t.setback + t.rail_thickness > t.leg) {
      table_.refuse("setback",
                    "a rail " + table_.text(t.rail_thickness) + " thick, " +
                        table_.text(t.setback) + " in, stands beside its leg of " +
                        table_.text(t.leg),
                    "make the leg thicker or the rail thinner");
    }
    if (t.tenon_thickness >= t.rail_thickness || t.tenon_width >= t.rail_width) {
      table_.refuse(t.tenon_width >= t.rail_width ? "tenon_width" : "tenon_thickness",
                    "a tenon " + table_.text(t.tenon_width) + " x " +
                        table_.text(t.tenon_thickness) + " leaves no shoulder on a rail of " +
                        table_.text(t.rail_width) + " x " + table_.text(t.rail_thickness),
                    "make it thinner and narrower than its rail");
    }
    if (t.tenon_length <= geometry::Length() || t.tenon_length > longest_tenon(t)) {
      table_.refuse(
          "tenon_length",
          "a tenon " + table_.text(t.tenon_length) + " long meets the one that comes from the side",
          "at most " + table_.text(longest_tenon(t)) + " in this leg");
    }
    if (t.stretcher && *t.stretcher + t.rail_width >= t.height - t.rail_width) {
      table_.refuse("stretcher",
                    "lower rails at " + table_.text(*t.stretcher) + " run into the upper ones",
                    "lower them");
    }
  }

  StarterTable table_;
};

class TableBaseMaker {
 public:
  explicit TableBaseMaker(const TableBase& base) : t_(base) {}

  Expansion make() {
    for (const bool back : {false, true}) {
      for (const bool right : {false, true}) {
        add_leg(back, right);
      }
    }
    add_rails("", t_.height - t_.rail_width);
    if (t_.stretcher) {
      add_rails("lower ", *t_.stretcher);
    }
    return std::move(made_);
  }

 private:
  void add_leg(bool back, bool right) {
    const geometry::Length x = right ? t_.length - t_.leg : geometry::Length(),
                           y = back ? t_.width - t_.leg : geometry::Length();
    work::Part leg = board(
        std::string(back ? "back" : "front") + (right ? " right leg" : " left leg"), t_.species,
        t_.place, {2, 0}, {{x, y, geometry::Length()}, {x + t_.leg, y + t_.leg, t_.height}});
    add_mortises(leg, right ? kLeft : kRight, back, t_.height - t_.rail_width);
    add_mortises(leg, back ? kFront : kBack, right, t_.height - t_.rail_width);
    if (t_.stretcher) {
      add_mortises(leg, right ? kLeft : kRight, back, *t_.stretcher);
      add_mortises(leg, back ? kFront : kBack, right, *t_.stretcher);
    }
    made_.parts.push_back(std::move(leg));
  }

  // `far`: the rail stands at the high side of the leg, across the way it runs.
  void add_mortises(work::Part& leg, work::Face on, bool far, geometry::Length rail_low) {
    const geometry::Length side =
        far ? t_.leg - t_.tenon_side() - t_.tenon_thickness : t_.tenon_side();
    leg.cuts.push_back({t_.tenon_place, work::Mortise{on,
                                                      {side, rail_low},
                                                      {t_.tenon_thickness, t_.tenon_width},
                                                      t_.tenon_length + t_.well}});
  }

  void add_rails(const std::string& level, geometry::Length low) {
    for (const bool far : {false, true}) {
      add_rail(level + (far ? "back rail" : "front rail"), 0, far, low);
    }
    for (const bool far : {false, true}) {
      add_rail(level + (far ? "right rail" : "left rail"), 1, far, low);
    }
  }

  void add_rail(const std::string& name, int along, bool far, geometry::Length low) {
    const auto run = static_cast<std::size_t>(along);
    const std::size_t across = 1 - run;
    const geometry::Length span = along == 0 ? t_.length : t_.width,
                           other = along == 0 ? t_.width : t_.length;
    LatticeBox box;
    box.lo[run] = t_.leg - t_.tenon_length;
    box.hi[run] = span - box.lo[run];
    box.lo[across] = far ? other - t_.setback - t_.rail_thickness : t_.setback;
    box.hi[across] = box.lo[across] + t_.rail_thickness;
    box.lo[2] = low;
    box.hi[2] = low + t_.rail_width;
    work::Part rail = board(name, t_.species, t_.rail_place, {along, 1 - along}, box);
    const geometry::Length side =
        far ? t_.rail_thickness - (t_.rail_thickness - t_.tenon_thickness) / 2 - t_.tenon_thickness
            : (t_.rail_thickness - t_.tenon_thickness) / 2;
    for (const bool high : {false, true}) {
      rail.cuts.push_back({t_.tenon_place, work::Tenon{{along, high},
                                                       t_.tenon_length,
                                                       {side, geometry::Length()},
                                                       {t_.tenon_thickness, t_.tenon_width}}});
    }
    made_.parts.push_back(std::move(rail));
  }

  const TableBase& t_;
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<TableBase> read = TableBaseReader(table, notes).read();
  return read ? TableBaseMaker(*read).make() : Expansion{};
}

constexpr Dimension kOutside[] = {
    {"length", "32", "800"}, {"width", "16", "400"}, {"height", "24", "600"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"leg", Holds::length, "thickness of the square legs", kRequired, {"2 1/4", "57"}},
    {"rail_width", Holds::length, "height of the rails", kRequired, {"4", "100"}},
    {"rail_thickness", Holds::length, "of the rails", kRequired, {"1", "25"}},
    species_key("of legs and rails"),
    {"setback", Holds::length, "from the legs' outside to the rails", "1/4 in or 6 mm"},
    {"stretcher", Holds::length, "underside of the lower rails", "none", {"5", "125", kAsComment}},
    {"tenon_length", Holds::length, "",
     "as long as the one from the side lets it, less 1/16 in or 1.5 mm for glue"},
    {"tenon_thickness", Holds::length, "", "a third of the rail"},
    {"tenon_width", Holds::length, "", "three quarters of the rail, the shoulder above"},
};

}  // namespace

constexpr Starter kTableBase = {
    .name = "table_base",
    .summary = "a stand: legs and rails, mortise and tenon",
    .about =
        R"(A stand: `front left leg` and the other three, `front rail`, `back rail`, `left rail`, `right rail`, and with
`stretcher` the same again as `lower front rail` ... Rails are mortised into the legs, flush with their tops.)",
    .title = "Hive stand",
    .wood = "beech",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
