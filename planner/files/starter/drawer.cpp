#include <algorithm>
#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Corner { rabbet, dado, finger };

struct Drawer {
  geometry::Length width, depth, height, stock, front_thickness;
  Corner corners = Corner::rabbet;
  geometry::Length rabbet_depth, dado_depth, inset;
  int fingers = 0;
  bool captured = false;  // the bottom lies in all four walls; else it slides in under the back
  geometry::Length bottom_thickness, bottom_depth, bottom_offset, room;
  bool floats = false;
  std::string species, front_species, bottom_species;
  base::Place place, corners_place, bottom_place;

  bool front_housed() const { return corners == Corner::dado; }
  geometry::Length front_low() const { return front_housed() ? inset : geometry::Length(); }
  geometry::Length front_high() const { return front_low() + front_thickness; }
  geometry::Length back_high() const { return corners == Corner::finger ? depth : depth - inset; }
  geometry::Length back_low() const { return back_high() - stock; }
};

class DrawerReader {
 public:
  DrawerReader(const Node& node, FileNotes& notes) : table_(node, kDrawer, notes) {}

  std::optional<Drawer> read() {
    Drawer d;
    d.place = table_.keys().place();
    d.corners_place = table_.keys().place("corners");
    d.bottom_place = table_.keys().place("bottom");
    const auto outside = table_.outside();
    d.width = outside[0];
    d.depth = outside[1];
    d.height = outside[2];
    d.stock = table_.size("stock");
    d.front_thickness = table_.size("front_thickness", d.stock);
    d.species = table_.species();
    d.front_species = table_.species("front_species", d.species);
    read_corners(d);
    read_bottom(d);
    table_.keys().finish();
    if (!table_.failed()) {
      check(d);
    }
    return table_.failed() ? std::nullopt : std::optional(d);
  }

 private:
  // Half the front for its rabbets, a third of a side for its dadoes, which stand off its ends by
  // as much as it is thick: common practice.
  void read_corners(Drawer& d) {
    d.corners = table_.kind<Corner>("corners");
    const bool fingers = d.corners == Corner::finger;
    d.rabbet_depth =
        table_.size_with("rabbet_depth", d.corners == Corner::rabbet, "corners = \"rabbet\"")
            .value_or(d.front_thickness / 2);
    d.dado_depth = table_.size_with("dado_depth", !fingers, "corners = \"rabbet\" or \"dado\"")
                       .value_or(d.stock / 3);
    d.inset =
        table_.size_with("inset", !fingers, "corners = \"rabbet\" or \"dado\"").value_or(d.stock);
    table_.only_with("fingers", fingers, "corners = \"finger\"");
    const std::int64_t t = std::max<std::int64_t>(d.stock.nanometres(), 1);
    const std::int64_t pieces =
        std::clamp<std::int64_t>((d.height.nanometres() + t / 2) / t, 3, work::kMostFingers - 1);
    d.fingers = table_.count("fingers").value_or(static_cast<int>(pieces - 1 + pieces % 2));
  }

  void read_bottom(Drawer& d) {
    const bool fingers = d.corners == Corner::finger;
    d.captured = table_.word("bottom").value_or(fingers ? "captured" : "slide") == "captured";
    if (fingers && !d.captured) {
      table_.keys().refuse("bottom", "a back with fingers over its whole height closes the way in",
                           "write captured");
    }
    const geometry::Length sheet = usual_sheet(table_.units());
    d.bottom_thickness = table_.size("bottom_thickness", sheet);
    d.bottom_depth = table_.size("bottom_depth", d.stock / 3);
    d.bottom_offset = table_.size("bottom_offset", sheet);
    d.bottom_species = table_.species("bottom_species", d.species);
    const auto fit = table_.word("bottom_fit");
    d.floats = fit ? *fit == "float" : !is_sheet(d.bottom_species);
    d.room = d.floats ? usual_room(table_.units()) : geometry::Length();
  }

  void check(const Drawer& d) {
    if (d.width <= 2 * d.stock || d.back_low() <= d.front_high()) {
      table_.keys().refuse("outside", "its walls leave nothing inside",
                           "make it larger or the stock thinner");
    }
    too_deep("rabbet_depth", d.rabbet_depth, d.front_thickness, "a rabbet",
             "half the front is usual");
    too_deep("dado_depth", d.dado_depth, d.stock, "a dado", "a third of the stock is usual");
    too_deep("bottom_depth", d.bottom_depth, std::min(d.stock, d.front_thickness), "a groove",
             "a third of the stock is usual");
    if (d.bottom_offset + d.bottom_thickness >= d.height) {
      table_.refuse("bottom_offset",
                    "walls " + table_.text(d.height) + " high have no room for the bottom",
                    "lower the bottom or make it thinner");
    }
    if (d.floats && d.room >= d.bottom_depth) {
      table_.refuse("bottom_depth",
                    "a groove " + table_.text(d.bottom_depth) +
                        " deep does not hold a bottom that needs " + table_.text(d.room) +
                        " of room on each side",
                    "make it deeper");
    }
  }

  void too_deep(std::string_view key, geometry::Length depth, geometry::Length stock,
                const std::string& cut, const std::string& usual) {
    if (depth >= stock) {
      table_.refuse(
          key, cut + " " + table_.text(depth) + " deep goes through stock of " + table_.text(stock),
          usual);
    }
  }

  StarterTable table_;
};

class DrawerMaker {
 public:
  explicit DrawerMaker(const Drawer& drawer) : d_(drawer) {}

  Expansion make() {
    work::Part front = add_cross("front", d_.front_species, d_.front_low(), d_.front_high(),
                                 d_.corners != Corner::dado, geometry::Length());
    work::Part back =
        add_cross("back", d_.species, d_.back_low(), d_.back_high(), d_.corners == Corner::finger,
                  d_.captured ? geometry::Length() : d_.bottom_offset + d_.bottom_thickness);
    const geometry::Length start =
        d_.corners == Corner::rabbet ? d_.front_thickness - d_.rabbet_depth : geometry::Length();
    work::Part left = add_side("left side", start, geometry::Length());
    work::Part right = add_side("right side", start, d_.width - d_.stock);
    join(front, back, left, right);
    groove(front, kBack);
    if (d_.captured) {
      groove(back, kFront);
    }
    groove(left, kRight);
    groove(right, kLeft);
    for (work::Part* part : {&front, &back, &left, &right}) {
      made_.parts.push_back(std::move(*part));
    }
    add_bottom();
    return std::move(made_);
  }

 private:
  // Front or back: over the whole width, or housed in the sides.
  work::Part add_cross(const std::string& name, const std::string& species, geometry::Length low,
                       geometry::Length high, bool whole, geometry::Length up) {
    const geometry::Length margin = whole ? geometry::Length() : d_.stock - d_.dado_depth;
    return board(name, species, d_.place, {0, 1},
                 {{margin, low, up}, {d_.width - margin, high, d_.height}});
  }

  work::Part add_side(const std::string& name, geometry::Length start, geometry::Length x) {
    return board(name, d_.species, d_.place, {1, 0},
                 {{x, start, geometry::Length()}, {x + d_.stock, d_.depth, d_.height}});
  }

  void join(work::Part& front, work::Part& back, work::Part& left, work::Part& right) {
    const auto cut = [&](work::Part& part, auto shape) {
      part.cuts.push_back({d_.corners_place, shape});
    };
    for (const work::Face end : {kLeft, kRight}) {
      if (d_.corners == Corner::rabbet) {
        cut(front, work::Rabbet{kBack, end, d_.stock, d_.rabbet_depth, {}, {}});
      } else if (d_.corners == Corner::finger) {
        cut(front, work::Fingers{end, d_.stock, d_.fingers, true});
        cut(back, work::Fingers{end, d_.stock, d_.fingers, true});
      }
    }
    for (work::Part* side : {&left, &right}) {
      const work::Face inner = side == &left ? kRight : kLeft;
      if (d_.corners == Corner::finger) {
        cut(*side, work::Fingers{kFront, d_.front_thickness, d_.fingers, false});
        cut(*side, work::Fingers{kBack, d_.stock, d_.fingers, false});
        continue;
      }
      if (d_.front_housed()) {
        cut(*side, channel_for(*side, inner, 2, front.blank()));
      }
      cut(*side, channel_for(*side, inner, 2, back.blank()));
    }
  }

  // What the bottom and its room to swell fill. One that slides in ends with the sides.
  LatticeBox bottom_space() const {
    const geometry::Length side = d_.stock - d_.bottom_depth,
                           front = d_.front_high() - d_.bottom_depth;
    const geometry::Length rear = d_.captured ? d_.back_low() + d_.bottom_depth : d_.depth;
    return {{side, front, d_.bottom_offset},
            {d_.width - side, rear, d_.bottom_offset + d_.bottom_thickness}};
  }

  void groove(work::Part& wall, work::Face on) {
    wall.cuts.push_back({d_.bottom_place, channel_for(wall, on, wall.along, bottom_space())});
  }

  // Grain across the drawer, so that a solid bottom swells towards the back.
  void add_bottom() {
    LatticeBox filled = shrunk(bottom_space(), 0, d_.room);
    filled.lo[1] += d_.room;
    filled.hi[1] -= d_.captured ? d_.room : geometry::Length();
    made_.parts.push_back(board("bottom", d_.bottom_species, d_.bottom_place, {0, 2}, filled));
    if (d_.floats) {
      keep_dry("bottom", {"front", "back", "left side", "right side"}, d_.bottom_place, made_);
    } else if (!d_.captured) {
      keep_dry("bottom", {"back"}, d_.bottom_place, made_);  // it is pinned there: common practice
    }
  }

  const Drawer& d_;
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Drawer> read = DrawerReader(table, notes).read();
  return read ? DrawerMaker(*read).make() : Expansion{};
}

constexpr std::string_view kSheet = "1/4 in or 6 mm", kSides = "the sides'";
constexpr Dimension kOutside[] = {
    {"width", "16", "400"}, {"depth", "18", "450"}, {"height", "5", "120"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"stock", Holds::length, "of sides and back", kRequired, {"1/2", "12"}},
    {"corners",
     Holds::word,
     "how the walls meet",
     kRequired,
     {"rabbet"},
     {{{"rabbet", "the front stepped over the sides, the back in dadoes"},
       {"dado", "both in dadoes of the sides"},
       {"finger"}}}},
    {"bottom",
     Holds::word,
     "how the walls hold it",
     "slide; with fingers captured",
     {"captured"},
     {{{"slide", "under the back"}, {"captured", "in all walls"}}}},
    {"bottom_species", Holds::wood, "", kSides, {"plywood_birch"}},
    species_key("of sides and back"),
    {"front_thickness", Holds::length, "", "the stock", {"3/4", "19", kAsComment}},
    {"front_species", Holds::wood, "", kSides},
    {"rabbet_depth", Holds::length, "into the front", "half the front"},
    {"dado_depth", Holds::length, "into the sides", "a third of a side"},
    {"inset", Holds::length, "from the sides' ends to their dadoes", "the stock"},
    {"fingers",
     Holds::count,
     "pieces that a corner is divided into",
     "an odd number, each about as high as the stock is thick",
     {},
     {},
     2,
     work::kMostFingers},
    {"bottom_thickness", Holds::length, "", kSheet},
    {"bottom_depth", Holds::length, "of its grooves", "a third of the stock"},
    {"bottom_offset", Holds::length, "from the walls' lower edge to its grooves", kSheet},
    {"bottom_fit", Holds::word, "", kUsualFit, {}, {{{"float"}, {"glue"}}}},
};

}  // namespace

constexpr Starter kDrawer = {
    .name = "drawer",
    .summary = "a drawer: front, back, sides and bottom",
    .about =
        R"(Makes `front`, `back`, `left side`, `right side`, `bottom`. x is its width, y its depth with the front at the low side.
A bottom that slides in under the back, once the walls are glued, is pinned there.)",
    .title = "Drawer",
    .wood = "red_maple",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
