#include <algorithm>
#include <utility>

#include "planner/files/part_file.h"
#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Corner { rabbet, dado, finger, dovetail, half_blind };

struct Drawer {
  geometry::Length width, depth, height, stock, front_thickness;
  Corner front = Corner::rabbet, back = Corner::dado;
  geometry::Length rabbet_depth, back_rabbet_depth, dado_depth, inset;
  geometry::Length reach;  // of the sides' tails into the front
  int fingers = 0;
  int front_tails = 0, back_tails = 0, slope = kUsualSlope;
  bool captured = false;  // the bottom lies in all four walls; else it slides in under the back
  geometry::Length bottom_thickness, bottom_depth, bottom_offset, room;
  bool floats = false, dry = false;
  std::string species, front_species, bottom_species;
  base::Place place, corners_place, bottom_place;

  bool dovetailed(Corner corner) const {
    return corner == Corner::dovetail || corner == Corner::half_blind;
  }
  bool any(Corner corner) const { return front == corner || back == corner; }
  bool front_housed() const { return front == Corner::dado; }
  geometry::Length front_low() const { return front_housed() ? inset : geometry::Length(); }
  geometry::Length front_high() const { return front_low() + front_thickness; }
  geometry::Length back_high() const { return back == Corner::dado ? depth - inset : depth; }
  geometry::Length back_low() const { return back_high() - stock; }
  // Where a bottom that slides in needs room below the back.
  geometry::Length back_up() const {
    return captured ? geometry::Length() : bottom_offset + bottom_thickness;
  }
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
    if (!table_.failed()) {
      read_tails(d);
    }
    return table_.failed() ? std::nullopt : std::optional(d);
  }

 private:
  // `corners` says how both ends meet the sides; front_corners and back_corners each of them.
  void read_kinds(Drawer& d) {
    const bool each = table_.keys().has("front_corners") && table_.keys().has("back_corners");
    const std::vector<std::string> words = words_of(key_of(kDrawer, "corners"));
    const auto kind = [&](std::string_view key, Needed needed) -> std::optional<Corner> {
      const auto word = table_.keys().word(key, words, needed);
      const auto found = std::find(words.begin(), words.end(), word.value_or(""));
      return found == words.end() ? std::nullopt
                                  : std::optional(static_cast<Corner>(found - words.begin()));
    };
    const Corner both = kind("corners", each ? Needed::no : Needed::yes).value_or(Corner::rabbet);
    d.front = kind("front_corners", Needed::no).value_or(both);
    const Corner usual = both == Corner::rabbet       ? Corner::dado
                         : both == Corner::half_blind ? Corner::dovetail
                                                      : both;
    d.back = kind("back_corners", Needed::no).value_or(usual);
    if (d.back == Corner::half_blind) {
      table_.refuse("back_corners", "a back is not dovetailed half-blind: nobody sees it",
                    "write dovetail");
    }
  }

  // Half the front for its rabbets, a third of a side for its dadoes, which stand off its ends by
  // as much as it is thick: common practice. Half-blind tails leave a quarter of the front before
  // them: from memory.
  void read_corners(Drawer& d) {
    read_kinds(d);
    const bool rabbets = d.any(Corner::rabbet), dadoes = d.any(Corner::dado);
    d.rabbet_depth = table_.size_with("rabbet_depth", rabbets, "rabbeted corners")
                         .value_or(d.front_thickness / 2);
    d.back_rabbet_depth = d.stock / 2;
    d.dado_depth = table_.size_with("dado_depth", dadoes, "corners in dadoes").value_or(d.stock / 3);
    d.inset = table_.size_with("inset", dadoes, "corners in dadoes").value_or(d.stock);
    table_.only_with("fingers", d.any(Corner::finger), "fingers at a corner");
    const std::int64_t t = std::max<std::int64_t>(d.stock.nanometres(), 1);
    const std::int64_t pieces =
        std::clamp<std::int64_t>((d.height.nanometres() + t / 2) / t, 3, work::kMostFingers - 1);
    d.fingers = table_.count("fingers").value_or(static_cast<int>(pieces - 1 + pieces % 2));
    read_dovetails(table_, d.dovetailed(d.front) || d.dovetailed(d.back), d.slope);
    d.reach = d.front == Corner::half_blind ? d.front_thickness - d.front_thickness / 4
                                            : d.front_thickness;
  }

  void read_bottom(Drawer& d) {
    const bool fingers = d.back == Corner::finger;
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
    d.dry = d.floats || (!d.captured && !fit);
    d.room = d.floats ? usual_room(table_.units()) : geometry::Length();
  }

  void read_tails(Drawer& d) {
    if (d.dovetailed(d.front)) {
      d.front_tails = tails_in(table_, {d.height, d.reach, d.slope});
    }
    if (d.dovetailed(d.back)) {
      d.back_tails = tails_in(table_, {d.height - d.back_up(), d.stock, d.slope});
    }
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
                                 d_.front != Corner::dado, geometry::Length());
    work::Part back = add_cross("back", d_.species, d_.back_low(), d_.back_high(),
                                d_.back != Corner::dado, d_.back_up());
    work::Part left = add_side("left side", geometry::Length());
    work::Part right = add_side("right side", d_.width - d_.stock);
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

  // From what the front leaves before it to what the back leaves behind.
  work::Part add_side(const std::string& name, geometry::Length x) {
    const geometry::Length start = d_.front == Corner::rabbet ? d_.front_thickness - d_.rabbet_depth
                                   : d_.dovetailed(d_.front)  ? d_.front_thickness - d_.reach
                                                              : geometry::Length();
    const geometry::Length end = d_.back == Corner::rabbet
                                     ? d_.depth - d_.stock + d_.back_rabbet_depth
                                     : d_.depth;
    return board(name, d_.species, d_.place, {1, 0},
                 {{x, start, geometry::Length()}, {x + d_.stock, end, d_.height}});
  }

  void join(work::Part& front, work::Part& back, work::Part& left, work::Part& right) {
    for (const work::Face end : {kLeft, kRight}) {
      join_cross(front, end, kBack, d_.front);
      join_cross(back, end, kFront, d_.back);
    }
    for (work::Part* side : {&left, &right}) {
      const work::Face inner = side == &left ? kRight : kLeft;
      join_side(*side, kFront, inner, d_.front, front);
      join_side(*side, kBack, inner, d_.back, back);
    }
  }

  void cut(work::Part& part, auto shape) { part.cuts.push_back({d_.corners_place, shape}); }

  // What the front or back has at an end; `inner`: its face inside the drawer.
  void join_cross(work::Part& cross, work::Face end, work::Face inner, Corner corner) {
    const bool front = inner == kBack;
    if (corner == Corner::rabbet) {
      const geometry::Length deep = front ? d_.rabbet_depth : d_.back_rabbet_depth;
      cut(cross, work::Rabbet{inner, end, d_.stock, deep, {}, {}});
    } else if (corner == Corner::finger) {
      cut(cross, work::Fingers{end, d_.stock, d_.fingers, true});
    } else if (d_.dovetailed(corner)) {
      cut(cross, work::Pins{end, inner, d_.stock, front ? d_.reach : d_.stock,
                            front ? d_.front_tails : d_.back_tails, d_.slope, {}, {}});
    }
  }

  // What a side has at its front or back end.
  void join_side(work::Part& side, work::Face end, work::Face inner, Corner corner,
                 const work::Part& cross) {
    const bool front = end == kFront;
    if (corner == Corner::finger) {
      cut(side, work::Fingers{end, cross.thickness, d_.fingers, false});
    } else if (corner == Corner::dado) {
      cut(side, channel_for(side, inner, 2, cross.blank()));
    } else if (d_.dovetailed(corner)) {
      const geometry::Length up = front ? geometry::Length() : d_.back_up();
      cut(side, work::Tails{end, front ? d_.reach : d_.stock,
                            front ? d_.front_tails : d_.back_tails, d_.slope, up, d_.height});
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
    if (d_.dry) {
      keep_dry("bottom", {"front", "back", "left side", "right side"}, d_.bottom_place, made_);
    } else if (!d_.captured) {
      keep_dry("bottom", {"back"}, d_.bottom_place, made_);  // it may be pinned there
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
constexpr std::array<StarterWord, 7> kCorners = {
    StarterWord{"rabbet"}, StarterWord{"dado"}, StarterWord{"finger"}, StarterWord{"dovetail"},
    StarterWord{"half-blind"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"stock", Holds::length, "of sides and back", kRequired, {"1/2", "12"}},
    {"corners",
     Holds::word,
     "how the walls meet",
     "required, unless both of the next two are given",
     {"rabbet"},
     {{{"rabbet", "the front stepped over the sides, the back in dadoes"},
       {"dado", "both in dadoes of the sides"},
       {"finger"},
       {"dovetail", "tails on the sides"},
       {"half-blind", "dovetails that the front hides, the back's through"}}}},
    {"front_corners", Holds::word, "of the front alone", "as corners says", {}, kCorners},
    {"back_corners", Holds::word, "of the back alone, not half-blind", "as corners says", {},
     kCorners},
    kTailsKey,
    kSlopeKey,
    {"bottom",
     Holds::word,
     "how the walls hold it",
     "slide; with fingers captured",
     {"captured"},
     {{{"slide", "in under the back, dry"}, {"captured", "in all walls"}}}},
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
    {"bottom_fit", Holds::word, "", "a sheet is glued where it is captured, solid wood floats with 1/16 in or 1.5 mm of room on each side", {}, {{{"float"}, {"glue"}}}},
};

}  // namespace

constexpr Starter kDrawer = {
    .name = "drawer",
    .summary = "a drawer: front, back, sides and bottom",
    .about =
        R"(Makes `front`, `back`, `left side`, `right side`, `bottom`. x is its width, y its depth with the front at the low side.
A bottom that slides in under the back, once the walls are glued, stays dry and may be pinned there.)",
    .title = "Drawer",
    .wood = "red_maple",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
