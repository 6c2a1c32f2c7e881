#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "planner/files/part_file.h"
#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Corner { butt, rabbet, mitre, finger, dovetail };
enum class TailsOn { sides, front_and_back };
enum class Lid { none, butt, rabbet, groove, inset };  // how a top or bottom is held

// A top or bottom, as asked for. `depth` is of its rabbet, or of the groove that holds it.
struct Closure {
  explicit Closure(std::string its_name) : name(std::move(its_name)) {}
  std::string name;
  Lid held = Lid::none;
  geometry::Length thickness, depth, offset, room;
  std::string species;
  bool floats = false;
  std::optional<std::string> fit = {};  // of one that isn't in a groove
  base::Place place;
};

struct Box {
  geometry::Length length, width, height, stock;
  Corner corners = Corner::butt;
  geometry::Length rabbet_depth;
  int fingers = 0;
  int tails = 0, slope = kUsualSlope;
  TailsOn tails_on = TailsOn::sides;
  geometry::Length spline;  // how thick; zero where the miters have none
  int keys = 0;
  std::string species;
  Closure top{"top"}, bottom{"bottom"};
  base::Place place, corners_place;

  // How much of the height a closure takes from the walls.
  static geometry::Length beyond_walls(const Closure& c) {
    return c.held == Lid::butt     ? c.thickness
           : c.held == Lid::rabbet ? c.thickness - c.depth
                                   : geometry::Length();
  }
  geometry::Length wall_low() const { return beyond_walls(bottom); }
  geometry::Length wall_high() const { return height - beyond_walls(top); }
  geometry::Length wall_height() const { return wall_high() - wall_low(); }
};

class BoxReader {
 public:
  BoxReader(const Node& node, FileNotes& notes) : table_(node, kBox, notes) {}

  std::optional<Box> read() {
    Box box;
    box.place = table_.keys().place();
    box.corners_place = table_.keys().place("corners");
    const auto outside = table_.outside();
    box.length = outside[0];
    box.width = outside[1];
    box.height = outside[2];
    box.stock = table_.size("stock");
    box.species = table_.species();
    read_corners(box);
    read_closure(box, box.top);
    read_closure(box, box.bottom);
    table_.keys().finish();
    if (table_.failed()) {
      return std::nullopt;
    }
    read_fingers(box);
    if (box.corners == Corner::dovetail && box.wall_height() > geometry::Length()) {
      box.tails = tails_in(table_, {box.wall_height(), box.stock, box.slope});
    }
    check(box);
    return table_.failed() ? std::nullopt : std::optional(box);
  }

 private:
  void read_corners(Box& box) {
    box.corners = table_.kind<Corner>("corners");
    // Half the stock: common practice.
    box.rabbet_depth =
        table_.size_with("rabbet_depth", box.corners == Corner::rabbet, "corners = \"rabbet\"")
            .value_or(box.stock / 2);
    read_dovetails(table_, box.corners == Corner::dovetail, box.slope);
    table_.only_with("tails_on", box.corners == Corner::dovetail, kDovetailed);
    box.tails_on = table_.kind<TailsOn>("tails_on");
    const bool mitred = box.corners == Corner::mitre;
    const std::string mitre = "corners = \"miter\"";
    box.spline = table_.size_with("spline", mitred, mitre).value_or(geometry::Length());
    box.keys = read_keys(table_, mitred, mitre);
    table_.only_with("finger_width", box.corners == Corner::finger, "corners = \"finger\"");
    table_.only_with("fingers", box.corners == Corner::finger, "corners = \"finger\"");
  }

  void read_closure(Box& box, Closure& closure) {
    const std::string& name = closure.name;
    closure.held = table_.kind<Lid>(name);
    closure.place = table_.keys().place(name);
    const bool there = closure.held != Lid::none, grooved = closure.held == Lid::groove;
    const bool sunk = closure.held == Lid::rabbet || grooved;
    const geometry::Length sheet = usual_sheet(table_.units());
    closure.thickness = table_.size_with(name + "_thickness", there, "a " + name)
                            .value_or(grooved ? sheet : box.stock);
    // Half the panel for its rabbet, a third of the wall for a groove in it: common practice.
    closure.depth = table_.size_with(name + "_depth", sunk, name + " = \"rabbet\" or \"groove\"")
                        .value_or(grooved ? box.stock / 3 : closure.thickness / 2);
    closure.offset =
        table_.size_with(name + "_offset", grooved, name + " = \"groove\"").value_or(sheet);
    closure.species = table_.species(name + "_species", box.species);
    table_.only_with(name + "_fit", there, "a " + name);
    const auto fit = table_.word(name + "_fit");
    const bool floating = fit && *fit == "float";
    if (there && fit && *fit != "glue" && grooved != floating) {
      table_.keys().refuse(name + "_fit",
                           floating ? "only what lies in a groove floats"
                                    : "what lies in a groove is held by that",
                           floating ? "leave it out" : "write \"float\" or \"glue\"");
    }
    closure.fit = grooved ? std::nullopt : fit;
    closure.floats = grooved && (fit ? *fit == "float" : !is_sheet(closure.species));
    closure.room = closure.floats ? usual_room(table_.units()) : geometry::Length();
  }

  void read_fingers(Box& box) {
    if (box.corners != Corner::finger || box.wall_height() <= geometry::Length()) {
      return;
    }
    const std::int64_t height = box.wall_height().nanometres();
    if (table_.keys().has("fingers")) {
      box.fingers = table_.count("fingers").value_or(2);
      return;
    }
    const auto width = table_.keys().length("finger_width", Sign::above_zero, Needed::no);
    if (width && height % width->nanometres() != 0) {
      table_.keys().refuse("finger_width",
                           "walls " + table_.text(box.wall_height()) + " high do not divide by it",
                           "give a width that divides them, or fingers = the number of pieces");
    }
    // As wide as the stock is thick, and an odd number so that top and bottom look alike: common
    // practice.
    const std::int64_t wide = width.value_or(box.stock).nanometres();
    const std::int64_t pieces =
        std::clamp<std::int64_t>((height + wide / 2) / wide, 3, work::kMostFingers - 1);
    box.fingers = static_cast<int>(width || pieces % 2 == 1 ? pieces : pieces - 1);
  }

  void check(const Box& box) {
    const geometry::Length walls = 2 * box.stock;
    if (box.length <= walls || box.width <= walls) {
      table_.keys().refuse("stock",
                           "two walls of it leave no room in a box " +
                               table_.text(std::min(box.length, box.width)) + " across",
                           "make the box larger or the stock thinner");
    }
    if (box.corners == Corner::rabbet && box.rabbet_depth >= box.stock) {
      table_.refuse("rabbet_depth",
                    "a rabbet " + table_.text(box.rabbet_depth) + " deep goes through stock of " +
                        table_.text(box.stock),
                    "half the stock is usual");
    }
    check_spline(box);
    check_closure(box, box.top);
    check_closure(box, box.bottom);
    if (box.wall_height() <= geometry::Length()) {
      table_.keys().refuse("outside",
                           "top and bottom take all of its height " + table_.text(box.height),
                           "make the box higher or the top and bottom thinner");
    } else {
      check_room(box);
    }
  }

  // A third of the mitre from its inner corner, a strip reaches a third of the stock into each wall;
  // thicker than that third it would leave too little wood beside it (ours).
  void check_spline(const Box& box) {
    if (box.spline > box.stock / 3) {
      table_.refuse("spline",
                    "a strip " + table_.text(box.spline) + " thick leaves too little of a miter in " +
                        table_.text(box.stock),
                    "make it " + table_.text(box.stock / 3) + " at most");
    }
  }

  void check_closure(const Box& box, const Closure& c) {
    const std::string key = table_.keys().has(c.name + "_depth") ? c.name + "_depth" : c.name;
    if (c.held == Lid::rabbet && c.depth >= c.thickness) {
      table_.refuse(key,
                    "a rabbet " + table_.text(c.depth) + " deep goes through a " + c.name + " of " +
                        table_.text(c.thickness),
                    "half its thickness is usual");
    }
    if (c.held == Lid::groove && c.depth >= box.stock) {
      table_.refuse(key,
                    "a groove " + table_.text(c.depth) + " deep goes through walls of " +
                        table_.text(box.stock),
                    "a third of the stock is usual");
    }
    if (c.floats && c.room >= c.depth) {
      table_.refuse(key,
                    "a groove " + table_.text(c.depth) + " deep does not hold a panel that needs " +
                        table_.text(c.room) + " of room on each side",
                    "make the groove deeper");
    }
  }

  // What sits within the walls' height must fit there.
  void check_room(const Box& box) {
    geometry::Length used;
    for (const Closure* c : {&box.top, &box.bottom}) {
      used += c->held == Lid::groove  ? c->offset + c->thickness
              : c->held == Lid::inset ? c->thickness
                                      : geometry::Length();
    }
    if (used >= box.wall_height()) {
      table_.keys().refuse(
          "outside",
          "walls " + table_.text(box.wall_height()) + " high have no room for top and bottom",
          "make the box higher or the top and bottom thinner");
    }
  }

  StarterTable table_;
};

class BoxMaker {
 public:
  explicit BoxMaker(const Box& box) : box_(box) {}

  Expansion make() {
    const geometry::Length l = box_.length, w = box_.width, t = box_.stock;
    // Front and back run the whole length; the ends stand between them, or reach into their
    // corners.
    const geometry::Length reach = box_.corners == Corner::butt     ? geometry::Length()
                                   : box_.corners == Corner::rabbet ? box_.rabbet_depth
                                                                    : t;
    add_wall("front", kFront, {{geometry::Length(), geometry::Length()}, {l, t}});
    add_wall("back", kBack, {{geometry::Length(), w - t}, {l, w}});
    add_wall("left", kLeft, {{geometry::Length(), t - reach}, {t, w - t + reach}});
    add_wall("right", kRight, {{l - t, t - reach}, {l, w - t + reach}});
    add_closure(box_.bottom);
    add_closure(box_.top);
    if (box_.spline > geometry::Length()) {
      for (const geometry::Length x : {geometry::Length(), l}) {
        for (const geometry::Length y : {geometry::Length(), w}) {
          add_spline(x, y);
        }
      }
    }
    if (box_.keys > 0) {
      made_.keys = work::Keys{box_.keys, 4, box_.corners_place};
    }
    return std::move(made_);
  }

 private:
  struct Plan {
    std::array<geometry::Length, 2> lo, hi;  // x and y
  };

  void add_wall(const std::string& name, work::Face outer, const Plan& plan) {
    const int along = 1 - outer.axis;
    work::Part wall = board(
        name, box_.species, box_.place, {along, outer.axis},
        {{plan.lo[0], plan.lo[1], box_.wall_low()}, {plan.hi[0], plan.hi[1], box_.wall_high()}});
    const bool runs_whole = along == 0;
    for (const work::Face end : {work::Face{along, false}, work::Face{along, true}}) {
      if (box_.corners == Corner::rabbet && runs_whole) {
        add_cut(wall, work::Rabbet{opposite(outer), end, box_.stock, box_.rabbet_depth, {}, {}});
      } else if (box_.corners == Corner::mitre) {
        add_cut(wall, work::Mitre{end, outer, 45});
        add_kerf(wall, end, outer);
      } else if (box_.corners == Corner::dovetail) {
        add_dovetails(wall, end, outer, runs_whole);
      } else if (box_.corners == Corner::finger) {
        add_cut(wall, work::Fingers{end, box_.stock, box_.fingers, runs_whole});
      }
    }
    for (const Closure* c : {&box_.bottom, &box_.top}) {
      if (c->held == Lid::groove) {
        add_groove(wall, opposite(outer), *c);
      }
    }
    made_.parts.push_back(std::move(wall));
  }

  void add_cut(work::Part& wall, auto shape) { wall.cuts.push_back({box_.corners_place, shape}); }

  void add_dovetails(work::Part& wall, work::Face end, work::Face outer, bool runs_whole) {
    const bool tails = runs_whole == (box_.tails_on == TailsOn::front_and_back);
    if (tails) {
      add_cut(wall, work::Tails{end, box_.stock, box_.tails, box_.slope, {}, {}});
    } else {
      add_cut(wall, work::Pins{end,         opposite(outer), box_.stock, box_.stock, box_.tails,
                               box_.slope, {},              {}});
    }
  }

  geometry::Length spline_in() const { return 2 * box_.stock / 3; }  // from the outer face
  geometry::Length spline_depth() const { return box_.stock / 3; }

  void add_kerf(work::Part& wall, work::Face end, work::Face outer) {
    if (box_.spline > geometry::Length()) {
      add_cut(wall, work::Kerf{end, outer, 45, spline_in(), box_.spline, spline_depth()});
    }
  }

  // Its corners cut off where they would run into the splines, with 1/64 in to spare (ours).
  void clear_splines(work::Part& panel) {
    // Along either wall, from the box's corner: what the strip's inner face, square to the corner's
    // bisector, leaves of both together.
    const geometry::Length strip = geometry::Length::nm(std::llround(
        (2 * spline_in().mm() + box_.spline.mm() / std::numbers::sqrt2) * 1e6));
    const geometry::Length off =
        strip - panel.at[0] - panel.at[1] + geometry::Length::in_64ths(1);
    if (off <= geometry::Length()) {
      return;
    }
    for (const work::Face end : {kLeft, kRight}) {
      for (const work::Face side : {kFront, kBack}) {
        panel.cuts.push_back({box_.corners_place, work::Chamfer{side, end, off, off}});
      }
    }
  }

  // A strip in the two kerfs of a corner, its grain across the miter, 1/64 in narrower on each side
  // than they are deep so that it never holds the miter open: common practice.
  void add_spline(geometry::Length x, geometry::Length y) {
    const bool right = x > geometry::Length(), back = y > geometry::Length();
    const geometry::Length at_x = right ? x - spline_in() : spline_in(),
                           at_y = back ? y - spline_in() : spline_in(),
                           reach = spline_depth() - geometry::Length::in_64ths(1);
    work::Part strip = board(
        "spline " + std::to_string(++splines_), box_.species, box_.corners_place, {0, 1},
        {{at_x - reach, at_y - box_.spline / 2, box_.wall_low()},
         {at_x + reach, at_y - box_.spline / 2 + box_.spline, box_.wall_high()}});
    strip.turns.push_back({2, right == back ? -45.0 : 45.0, {at_x, at_y, geometry::Length()}});
    made_.parts.push_back(std::move(strip));
  }

  // As far as the panel's space reaches, so that none shows at the corners; through at mitres,
  // where none would.
  void add_groove(work::Part& wall, work::Face on, const Closure& c) {
    work::Channel groove = channel_for(wall, on, wall.along, space_of(c));
    if (box_.corners == Corner::mitre) {
      groove.from.reset();
      groove.to.reset();
    }
    wall.cuts.push_back({c.place, groove});
  }

  // Where the closure lies, the room it has to swell included.
  LatticeBox space_of(const Closure& c) const {
    const geometry::Length margin = c.held == Lid::inset    ? box_.stock
                                    : c.held == Lid::groove ? box_.stock - c.depth
                                                            : geometry::Length();
    const bool top = &c == &box_.top, beyond = c.held == Lid::butt || c.held == Lid::rabbet;
    const geometry::Length edge = beyond ? (top ? box_.height : geometry::Length())
                                  : top  ? box_.wall_high()
                                         : box_.wall_low();
    const geometry::Length inward = c.held == Lid::groove ? c.offset : geometry::Length();
    const geometry::Length low = top ? edge - inward - c.thickness : edge + inward;
    return {{margin, margin, low}, {box_.length - margin, box_.width - margin, low + c.thickness}};
  }

  void add_closure(const Closure& c) {
    if (c.held == Lid::none) {
      return;
    }
    const LatticeBox filled = shrunk(shrunk(space_of(c), 0, c.room), 1, c.room);
    const int along = filled.hi[1] - filled.lo[1] > filled.hi[0] - filled.lo[0] ? 1 : 0;
    work::Part panel = board(c.name, c.species, c.place, {along, 2}, filled);
    if (c.held == Lid::rabbet) {
      for (const work::Face side : {kLeft, kRight, kFront, kBack}) {
        panel.cuts.push_back(
            {c.place,
             work::Rabbet{&c == &box_.top ? kDown : kUp, side, box_.stock, c.depth, {}, {}}});
      }
    }
    if (c.held == Lid::groove && box_.spline > geometry::Length()) {
      clear_splines(panel);
    }
    made_.parts.push_back(std::move(panel));
    fit_sheet(c.fit, c.name, {"front", "back", "left", "right"}, c.place, made_);
    if (c.floats) {
      keep_dry(c.name, {"front", "back", "left", "right"}, c.place, made_);
    }
  }

  const Box& box_;
  int splines_ = 0;  // made so far
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Box> read = BoxReader(table, notes).read();
  return read ? BoxMaker(*read).make() : Expansion{};
}

constexpr std::array<StarterWord, 7> kLids = {
    StarterWord{"none"}, StarterWord{"butt", "laid on the walls"},
    StarterWord{"rabbet", "its rim stepped over the walls"},
    StarterWord{"groove", "in grooves of the walls"}, StarterWord{"inset", "between the walls"}};
constexpr std::string_view kLidThickness = "the stock; grooved 1/4 in or 6 mm",
                           kLidDepthHelp = "of its rabbet, or of the groove",
                           kLidDepth = "half its thickness; a third of the stock",
                           kLidOffsetHelp = "from the walls' edge to the groove",
                           kSheet = "1/4 in or 6 mm";
constexpr Dimension kOutside[] = {
    {"length", "14", "360"}, {"width", "9", "230"}, {"height", "8", "200"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"stock", Holds::length, "thickness of the walls", kRequired, {"3/4", "19"}},
    {"corners",
     Holds::word,
     "how the walls meet",
     kRequired,
     {"rabbet"},
     {{{"butt"},
       {"rabbet", "in front and back"},
       {"miter"},
       {"finger"},
       {"dovetail", "through"}}}},
    {"top", Holds::word, "how it is held", "none", {"rabbet"}, kLids},
    {"bottom", Holds::word, "how it is held", "none", {"rabbet"}, kLids},
    species_key("of all that no other key names"),
    {"rabbet_depth",
     Holds::length,
     "of the corners' rabbets",
     "half the stock",
     {"3/8", "9.5", kAsComment}},
    {"fingers",
     Holds::count,
     "pieces that a corner is divided into",
     "an odd number, each about as high as the stock is thick",
     {},
     {},
     2,
     work::kMostFingers},
    kTailsKey,
    kSlopeKey,
    {"tails_on",
     Holds::word,
     "which walls have the tails; the others have pins",
     "sides",
     {},
     {{{"sides", "left and right"}, {"front-and-back"}}}},
    {"spline", Holds::length, "thickness of a strip in a kerf along each miter", "none"},
    kKeysKey,
    {"finger_width", Holds::length, "instead of `fingers`; it must divide the walls' height"},
    {"top_thickness", Holds::length, "", kLidThickness, {"1/2", "12", kAsComment}},
    {"top_depth", Holds::length, kLidDepthHelp, kLidDepth},
    {"top_offset", Holds::length, kLidOffsetHelp, kSheet},
    {"top_fit",
     Holds::word,
     "how it is held",
     kUsualFit,
     {"float", "", kAsComment},
     {{{"float", "in a groove"}, {"glue"}, {"pins"}, {"screws"}, {"dry"}}}},
    {"top_species", Holds::wood, "", "the walls'"},
    {"bottom_thickness", Holds::length, "", kLidThickness},
    {"bottom_depth", Holds::length, kLidDepthHelp, kLidDepth},
    {"bottom_offset", Holds::length, kLidOffsetHelp, kSheet},
    {"bottom_fit",
     Holds::word,
     "how it is held",
     kUsualFit,
     {},
     {{{"float", "in a groove"}, {"glue"}, {"pins"}, {"screws"}, {"dry"}}}},
    {"bottom_species", Holds::wood, "", "the walls'"},
};

}  // namespace

constexpr Starter kBox = {
    .name = "box",
    .summary = "a box: front, back, left, right, bottom and top",
    .about =
        R"(Makes `front`, `back`, `left`, `right`, and `bottom` and `top` where there are such. Front and back run the whole
length. Grain runs along each wall, and along the longer way of bottom and top. Grooves reach as far as the panel does,
so that none shows at a corner; at mitered corners they run through. Splines are
`spline 1` and so on, their grain across the miter; keys are let in once the glue has cured.)",
    .title = "Box",
    .wood = "black_cherry",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
