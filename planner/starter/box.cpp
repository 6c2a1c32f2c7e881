#include <algorithm>
#include <array>
#include <utility>

#include "planner/part_file.h"
#include "planner/starter/starter.h"
#include "planner/tables/wood.h"

namespace planner::starter {
namespace {

enum class Corner { butt, rabbet, mitre, finger };
enum class Lid { none, butt, rabbet, groove, inset };  // how a top or bottom is held

constexpr Face kLeft{0, false}, kRight{0, true}, kFront{1, false}, kBack{1, true}, kDown{2, false},
    kUp{2, true};

Face opposite(Face face) {
  return {face.axis, !face.positive};
}

// A top or bottom, as asked for. `depth` is of its rabbet, or of the groove that holds it.
struct Closure {
  explicit Closure(std::string its_name) : name(std::move(its_name)) {}
  std::string name;
  Lid held = Lid::none;
  Length thickness, depth, offset, play;
  std::string species;
  bool floats = false;
  Place place;
};

struct Box {
  Length length, width, height, stock;
  Corner corners = Corner::butt;
  Length rabbet_depth;
  int fingers = 0;
  std::string species;
  Closure top{"top"}, bottom{"bottom"};
  Place place, corners_place;

  // How much of the height a closure takes from the walls.
  static Length beyond_walls(const Closure& c) {
    return c.held == Lid::butt     ? c.thickness
           : c.held == Lid::rabbet ? c.thickness - c.depth
                                   : Length();
  }
  Length wall_low() const { return beyond_walls(bottom); }
  Length wall_high() const { return height - beyond_walls(top); }
  Length wall_height() const { return wall_high() - wall_low(); }
};

class BoxReader {
 public:
  BoxReader(const Node& node, FileNotes& notes)
      : notes_(notes), before_(notes.diagnostics.size()), table_(node, job_keys("box"), notes) {}

  std::optional<Box> read() {
    Box box;
    box.place = table_.place();
    box.corners_place = table_.place("corners");
    const auto outside =
        table_.lengths("outside", 3, "length, width and height", Sign::above_zero, Needed::yes);
    if (outside) {
      box.length = (*outside)[0];
      box.width = (*outside)[1];
      box.height = (*outside)[2];
    }
    box.stock = table_.length("stock", Sign::above_zero, Needed::yes).value_or(Length());
    box.species = read_species(table_, "species", Needed::yes).value_or("");
    read_corners(box);
    read_closure(box, box.top);
    read_closure(box, box.bottom);
    table_.finish();
    if (notes_.diagnostics.size() != before_ || table_.any_unread()) {
      return std::nullopt;
    }
    read_fingers(box);
    check(box);
    return notes_.diagnostics.size() == before_ ? std::optional(box) : std::nullopt;
  }

 private:
  void read_corners(Box& box) {
    const std::vector<std::string> kinds = {"butt", "rabbet", "mitre", "finger"};
    const auto word = table_.word("corners", kinds, Needed::yes);
    const auto kind = std::find(kinds.begin(), kinds.end(), word.value_or("butt"));
    box.corners = static_cast<Corner>(kind - kinds.begin());
    // Half the stock: common practice.
    box.rabbet_depth =
        length_with("rabbet_depth", box.corners == Corner::rabbet, "corners = \"rabbet\"")
            .value_or(box.stock / 2);
    length_with("finger_width", box.corners == Corner::finger, "corners = \"finger\"");
    if (table_.has("fingers") && box.corners != Corner::finger) {
      table_.refuse("fingers", "it means nothing without corners = \"finger\"", "leave it out");
    }
  }

  void read_closure(Box& box, Closure& closure) {
    const std::vector<std::string> kinds = {"none", "butt", "rabbet", "groove", "inset"};
    const std::string& name = closure.name;
    const auto word = table_.word(name, kinds, Needed::no);
    const auto kind = std::find(kinds.begin(), kinds.end(), word.value_or("none"));
    closure.held = static_cast<Lid>(kind - kinds.begin());
    closure.place = table_.place(name);
    const bool there = closure.held != Lid::none, grooved = closure.held == Lid::groove;
    const bool sunk = closure.held == Lid::rabbet || grooved;
    // A quarter inch or 6 mm is the sheet that drawers and boxes are bottomed with: common
    // practice.
    const Length sheet = notes_.units == Units::inch ? Length::in_64ths(16) : Length::whole_mm(6);
    closure.thickness =
        length_with(name + "_thickness", there, "a " + name).value_or(grooved ? sheet : box.stock);
    // Half the panel for its rabbet, a third of the wall for a groove in it: common practice.
    closure.depth = length_with(name + "_depth", sunk, name + " = \"rabbet\" or \"groove\"")
                        .value_or(grooved ? box.stock / 3 : closure.thickness / 2);
    closure.offset = length_with(name + "_offset", grooved, name + " = \"groove\"").value_or(sheet);
    closure.species = read_species(table_, name + "_species", Needed::no).value_or(box.species);
    read_fit(closure, grooved);
  }

  // A solid panel must be free to move across its grain; a sheet need not.
  void read_fit(Closure& closure, bool grooved) {
    const std::string key = closure.name + "_fit";
    const auto fit = table_.word(key, {"float", "glue"}, Needed::no);
    if (fit && !grooved) {
      table_.refuse(key, "only a panel in a groove can float", "leave it out");
    }
    const Wood* wood = find_wood(closure.species);
    const bool sheet = wood != nullptr && wood->kind == WoodKind::sheet;
    closure.floats = grooved && (fit ? *fit == "float" : !sheet);
    if (closure.floats) {
      // Room on each side for the panel to swell into: common practice, 1/16 in or 1.5 mm.
      closure.play = notes_.units == Units::inch ? Length::in_64ths(4) : Length::nm(1'500'000);
    }
  }

  // A length that only makes sense where `sense` holds.
  std::optional<Length> length_with(const std::string& key, bool sense, const std::string& needs) {
    const auto length = table_.length(key, Sign::above_zero, Needed::no);
    if (length && !sense) {
      table_.refuse(key, "it means nothing without " + needs, "leave it out");
    }
    return length;
  }

  void read_fingers(Box& box) {
    if (box.corners != Corner::finger || box.wall_height() <= Length()) {
      return;
    }
    const std::int64_t height = box.wall_height().nanometres();
    if (table_.has("fingers")) {
      box.fingers = table_.whole("fingers", 2, 1000, Needed::no).value_or(2);
      return;
    }
    const auto width = table_.length("finger_width", Sign::above_zero, Needed::no);
    if (width && height % width->nanometres() != 0) {
      table_.refuse("finger_width",
                    "walls " + text(box.wall_height()) + " high do not divide by it",
                    "give a width that divides them, or fingers = the number of pieces");
    }
    // As wide as the stock is thick, and an odd number so that top and bottom look alike: common
    // practice.
    const std::int64_t wide = width.value_or(box.stock).nanometres();
    const std::int64_t pieces = std::clamp<std::int64_t>((height + wide / 2) / wide, 3, 1000);
    box.fingers = static_cast<int>(width || pieces % 2 == 1 ? pieces : pieces - 1);
  }

  void check(const Box& box) {
    const Length walls = 2 * box.stock;
    if (box.length <= walls || box.width <= walls) {
      table_.refuse("stock",
                    "two walls of it leave no room in a box " +
                        text(std::min(box.length, box.width)) + " across",
                    "make the box larger or the stock thinner");
    }
    if (box.corners == Corner::rabbet && box.rabbet_depth >= box.stock) {
      refuse(
          table_.place("rabbet_depth"),
          "a rabbet " + text(box.rabbet_depth) + " deep goes through stock of " + text(box.stock),
          "half the stock is usual");
    }
    check_closure(box, box.top);
    check_closure(box, box.bottom);
    if (box.wall_height() <= Length()) {
      table_.refuse("outside", "top and bottom take all of its height " + text(box.height),
                    "make the box higher or the top and bottom thinner");
    } else {
      check_room(box);
    }
  }

  void check_closure(const Box& box, const Closure& c) {
    const Place at = table_.place(table_.has(c.name + "_depth") ? c.name + "_depth" : c.name);
    if (c.held == Lid::rabbet && c.depth >= c.thickness) {
      refuse(at,
             "a rabbet " + text(c.depth) + " deep goes through a " + c.name + " of " +
                 text(c.thickness),
             "half its thickness is usual");
    }
    if (c.held == Lid::groove && c.depth >= box.stock) {
      refuse(at, "a groove " + text(c.depth) + " deep goes through walls of " + text(box.stock),
             "a third of the stock is usual");
    }
    if (c.floats && c.play >= c.depth) {
      refuse(at,
             "a groove " + text(c.depth) + " deep does not hold a panel that needs " +
                 text(c.play) + " of room on each side",
             "make the groove deeper");
    }
  }

  // What sits within the walls' height must fit there.
  void check_room(const Box& box) {
    Length used;
    for (const Closure* c : {&box.top, &box.bottom}) {
      used += c->held == Lid::groove  ? c->offset + c->thickness
              : c->held == Lid::inset ? c->thickness
                                      : Length();
    }
    if (used >= box.wall_height()) {
      table_.refuse("outside",
                    "walls " + text(box.wall_height()) + " high have no room for top and bottom",
                    "make the box higher or the top and bottom thinner");
    }
  }

  std::string text(Length length) const { return to_text(length, notes_.units); }
  void refuse(const Place& at, std::string message, std::string remedy) {
    notes_.error(at, std::move(message), std::move(remedy));
  }

  FileNotes& notes_;
  std::size_t before_;
  TableReader table_;
};

class BoxMaker {
 public:
  explicit BoxMaker(const Box& box) : box_(box) {}

  Expansion make() {
    add_long_wall("front", kFront);
    add_long_wall("back", kBack);
    add_end("left", kLeft);
    add_end("right", kRight);
    add_closure(box_.bottom);
    add_closure(box_.top);
    return std::move(made_);
  }

 private:
  Part& add(const std::string& name, const std::string& species, const Place& place) {
    Part part;
    part.name = name;
    part.species = species;
    part.place = place;
    made_.parts.push_back(std::move(part));
    return made_.parts.back();
  }

  // Front and back run the whole length; the ends stand between them, or reach into their corners.
  void add_long_wall(const std::string& name, Face outer) {
    Part& wall = add(name, box_.species, box_.place);
    wall.along = 0;
    wall.face = 1;
    wall.length = box_.length;
    wall.width = box_.wall_height();
    wall.thickness = box_.stock;
    wall.at = {Length(), outer.positive ? box_.width - box_.stock : Length(), box_.wall_low()};
    for (const Face end : {kLeft, kRight}) {
      if (box_.corners == Corner::rabbet) {
        wall.cuts.push_back({box_.corners_place,
                             Rabbet{opposite(outer), end, box_.stock, box_.rabbet_depth, {}, {}}});
      }
      add_corner(wall, end, outer, true);
    }
    add_grooves(wall, outer);
  }

  void add_end(const std::string& name, Face outer) {
    const Length start = box_.corners == Corner::butt     ? box_.stock
                         : box_.corners == Corner::rabbet ? box_.stock - box_.rabbet_depth
                                                          : Length();
    Part& wall = add(name, box_.species, box_.place);
    wall.along = 1;
    wall.face = 0;
    wall.length = box_.width - 2 * start;
    wall.width = box_.wall_height();
    wall.thickness = box_.stock;
    wall.at = {outer.positive ? box_.length - box_.stock : Length(), start, box_.wall_low()};
    for (const Face end : {kFront, kBack}) {
      add_corner(wall, end, outer, false);
    }
    add_grooves(wall, outer);
  }

  void add_corner(Part& wall, Face end, Face outer, bool first_kept) {
    if (box_.corners == Corner::mitre) {
      wall.cuts.push_back({box_.corners_place, Mitre{end, outer, 45}});
    } else if (box_.corners == Corner::finger) {
      wall.cuts.push_back({box_.corners_place, Fingers{end, box_.stock, box_.fingers, first_kept}});
    }
  }

  // A groove reaches as far as the panel's space does, so that none shows at the corners.
  void add_grooves(Part& wall, Face outer) {
    for (const Closure* c : {&box_.bottom, &box_.top}) {
      if (c->held != Lid::groove) {
        continue;
      }
      const Length run = wall.along == 0 ? box_.length : box_.width;
      const Length start =
          std::max(box_.stock - c->depth - wall.at[static_cast<std::size_t>(wall.along)], Length());
      const Length end = std::min(
          run - box_.stock + c->depth - wall.at[static_cast<std::size_t>(wall.along)], wall.length);
      const bool through =
          box_.corners == Corner::mitre || (start == Length() && end == wall.length);
      wall.cuts.push_back(
          {c->place, Channel{false, opposite(outer), wall.along, low_of(*c) - box_.wall_low(),
                             c->thickness, c->depth, through ? std::nullopt : std::optional(start),
                             through ? std::nullopt : std::optional(end)}});
    }
  }

  Length low_of(const Closure& c) const {
    const bool top = &c == &box_.top;
    const Length inward = c.held == Lid::groove ? c.offset : Length();
    if (c.held == Lid::butt || c.held == Lid::rabbet) {
      return top ? box_.height - c.thickness : Length();
    }
    return top ? box_.wall_high() - inward - c.thickness : box_.wall_low() + inward;
  }

  void add_closure(const Closure& c) {
    if (c.held == Lid::none) {
      return;
    }
    const Length margin = c.held == Lid::inset    ? box_.stock
                          : c.held == Lid::groove ? box_.stock - c.depth + c.play
                                                  : Length();
    const Length along_x = box_.length - 2 * margin, along_y = box_.width - 2 * margin;
    Part& panel = add(c.name, c.species, c.place);
    panel.along = along_y > along_x ? 1 : 0;
    panel.face = 2;
    panel.length = std::max(along_x, along_y);
    panel.width = std::min(along_x, along_y);
    panel.thickness = c.thickness;
    panel.at = {margin, margin, low_of(c)};
    if (c.held == Lid::rabbet) {
      const Face underside = &c == &box_.top ? kDown : kUp;
      for (const Face side : {kLeft, kRight, kFront, kBack}) {
        panel.cuts.push_back({c.place, Rabbet{underside, side, box_.stock, c.depth, {}, {}}});
      }
    }
    if (c.floats) {
      for (const char* wall : {"front", "back", "left", "right"}) {
        made_.overrides.push_back({{c.name, wall}, false, {}, {}, {}, c.place});
      }
    }
  }

  const Box& box_;
  Expansion made_;
};

}  // namespace

Expansion box(const Node& table, FileNotes& notes) {
  const std::optional<Box> read = BoxReader(table, notes).read();
  return read ? BoxMaker(*read).make() : Expansion{};
}

}  // namespace planner::starter
