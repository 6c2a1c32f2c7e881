#include "plans/random_work.h"

#include <algorithm>
#include <map>
#include <utility>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/tables/clamp.h"
#include "planner/work/cut.h"

namespace random_work {
namespace {

using geometry::Length;

std::string number(std::int64_t n) {
  return std::to_string(n);
}

std::string one_of(Dice& dice, const std::vector<std::string>& words) {
  return words[static_cast<std::size_t>(
      dice.from_to(0, static_cast<std::int64_t>(words.size()) - 1))];
}

std::string key(const std::string& name, const std::string& value) {
  return name + " = " + value + "\n";
}
std::string quoted(const std::string& text) {
  return "\"" + text + "\"";
}
std::string list(const std::vector<std::int64_t>& values) {
  std::string text;
  for (const std::int64_t v : values) {
    text += (text.empty() ? "[" : ", ") + number(v);
  }
  return text + "]";
}

// Millimetres, many of them ones that a rule shows.
std::int64_t size(Dice& dice, std::int64_t lo, std::int64_t hi) {
  return dice.one_in(3) ? (dice.from_to(lo, hi) / 10) * 10 + 10 : dice.from_to(lo, hi);
}

std::string panel(Dice& dice) {
  std::vector<std::int64_t> boards;
  for (std::int64_t n = dice.from_to(2, 5); n > 0; --n) {
    boards.push_back(size(dice, 40, 140));
  }
  std::string text = "[panel]\n" + key("length", number(size(dice, 200, 1100))) +
                     key("thickness", number(dice.from_to(12, 45))) + key("boards", list(boards));
  return text + (dice.one_in(3) ? key("tongue", quoted(one_of(dice, {"loose", "real"}))) : "");
}

std::string frame(Dice& dice) {
  const std::int64_t member = dice.from_to(40, 75);
  std::string text = "[frame]\n" +
                     key("outside", list({size(dice, 220, 600), size(dice, 240, 900)})) +
                     key("thickness", number(dice.from_to(18, 32))) + key("member", number(member));
  if (dice.one_in(3)) {
    return text + key("panel", quoted("float")) +
           key("corners", quoted(one_of(dice, {"miter", "half-lap", "bridle", "mortise", "dowel", "loose-tenon"})));
  }
  const std::string corners = one_of(
      dice, {"miter", "half-lap", "bridle", "mortise", "dowel", "loose-tenon", "pocket-screw", "pocket-screw"});
  text += key("corners", quoted(corners));
  const bool between = corners == "mortise" || corners == "pocket-screw";
  if (between && dice.one_in(3)) {
    return text + key("muntins", number(dice.from_to(1, 2))) +
           (dice.one_in(2) ? key("muntins_across", number(dice.from_to(1, 2))) : "");
  }
  return text + (between && dice.one_in(2) ? key("rails_between", "1") : "") +
         (corners == "mortise" && dice.one_in(3) ? key("haunch", "true") : "");
}

// Boards between breadboard ends, or a sheet with edging.
std::string dressed_panel(Dice& dice) {
  const std::string text = "[panel]\n" + key("length", number(size(dice, 250, 900)));
  if (dice.one_in(2)) {
    return text + key("thickness", number(dice.from_to(12, 25))) + key("width", number(size(dice, 200, 500))) +
           key("boards", "1") + key("species", quoted("plywood_birch")) +
           key("edging", quoted(one_of(dice, {"front", "all"}))) +
           key("edging_thickness", number(dice.from_to(4, 20))) + key("edging_species", quoted("sugar_maple"));
  }
  std::vector<std::int64_t> boards;
  for (std::int64_t n = dice.from_to(1, 4); n > 0; --n) {
    boards.push_back(size(dice, 60, 140));
  }
  boards.push_back(size(dice, 60, 140));
  return text + key("thickness", number(dice.from_to(18, 40))) + key("boards", list(boards)) +
         key("ends", quoted("breadboard"));
}

std::string veneer(Dice& dice) {
  return "[veneer]\n" + key("size", list({size(dice, 150, 700), size(dice, 100, 500)})) +
         key("core", number(dice.from_to(6, 25))) + key("face", one_of(dice, {"0.6", "0.9", "2.5"})) +
         (dice.one_in(4) ? key("faces", "1") : "") +
         key("core_species", quoted(one_of(dice, {"plywood_birch", "mdf"})));
}

std::string bent(Dice& dice) {
  const std::int64_t ply = dice.from_to(2, 4);
  return "[bent]\n" + key("radius", number(size(dice, 50 * ply, 800))) + key("arc", number(dice.from_to(20, 180))) +
         key("plies", number(dice.from_to(2, 10))) + key("ply", number(ply)) +
         key("width", number(size(dice, 30, 120)));
}

std::string box(Dice& dice) {
  const std::vector<std::string> lids = {"none", "butt", "rabbet", "inset", "groove"};
  std::string text =
      "[box]\n" +
      key("outside", list({size(dice, 160, 500), size(dice, 120, 320), size(dice, 90, 260)})) +
      key("stock", number(dice.from_to(9, 20)));
  const std::string corners = one_of(dice, {"butt", "rabbet", "miter", "finger", "dovetail"});
  text += key("corners", quoted(corners));
  text += corners == "miter" && dice.one_in(3) ? key(one_of(dice, {"spline", "keys"}), "3") : "";
  text += key("bottom", quoted(one_of(dice, lids)));
  return text + (dice.one_in(3) ? key("top", quoted(one_of(dice, lids))) : "");
}

std::string carcass(Dice& dice) {
  std::string text =
      "[carcass]\n" +
      key("outside", list({size(dice, 300, 800), size(dice, 160, 400), size(dice, 300, 900)})) +
      key("stock", number(dice.from_to(15, 22)));
  text += dice.one_in(2) ? key("shelves", number(dice.from_to(1, 3))) : "";
  text += dice.one_in(2) ? key("top", quoted(one_of(dice, {"rabbet", "butt"}))) : "";
  return text + (dice.one_in(3) ? key("back", quoted("rabbet")) : "");
}

std::string drawer(Dice& dice) {
  const std::string text =
      "[drawer]\n" + key("outside", list({size(dice, 220, 600), size(dice, 200, 500), size(dice, 80, 180)})) +
      key("stock", number(dice.from_to(10, 16)));
  const std::vector<std::string> corners = {"rabbet", "dado", "finger", "dovetail", "half-blind"};
  return dice.one_in(3) ? text + key("front_corners", quoted(one_of(dice, {"rabbet", "dovetail", "half-blind"}))) +
                              key("back_corners", quoted(one_of(dice, {"dado", "dovetail"})))
                        : text + key("corners", quoted(one_of(dice, corners)));
}

std::string lamination(Dice& dice) {
  std::vector<std::int64_t> layers;
  for (std::int64_t n = dice.from_to(2, 5); n > 0; --n) {
    layers.push_back(dice.from_to(3, 30));
  }
  return "[lamination]\n" + key("length", number(size(dice, 150, 900))) +
         key("width", number(size(dice, 30, 90))) + key("layers", list(layers));
}

std::string ring(Dice& dice) {
  const bool leans = dice.one_in(3);
  const std::string text = "[ring]\n" + key("sides", number(dice.from_to(3, leans ? 12 : 8))) +
                           key("across", number(size(dice, leans ? 240 : 160, 400))) +
                           key("height", number(size(dice, 40, leans ? 220 : 160))) +
                           key("thickness", number(dice.from_to(9, 20)));
  if (leans) {
    return text + key("slope", number(dice.from_to(1, 12) * (dice.one_in(3) ? -1 : 1))) +
           (dice.one_in(3) ? key("bottom", quoted("butt")) + key("bottom_species", quoted("plywood_birch")) : "");
  }
  return text + (dice.one_in(2) ? key("bottom", quoted("groove")) : "");
}

std::string table_base(Dice& dice) {
  const std::int64_t leg = dice.from_to(40, 70);
  return "[table_base]\n" +
         key("outside", list({size(dice, 400, 1000), size(dice, 300, 600), size(dice, 350, 800)})) +
         key("leg", number(leg)) + key("rail_width", number(dice.from_to(60, 110))) +
         key("rail_thickness", number(dice.from_to(18, 26)));
}

// Where each axis goes: what lay along x lies along the first of them then.
using Axes = std::array<int, 3>;

struct TurnCut {
  Axes to;
  int next(int axis) const { return to[static_cast<std::size_t>(axis)]; }
  planner::work::Face next(planner::work::Face face) const {
    return {next(face.axis), face.positive};
  }
  std::array<Length, 3> next(const std::array<Length, 3>& at) const {
    std::array<Length, 3> out;
    for (std::size_t i = 0; i < 3; ++i) {
      out[static_cast<std::size_t>(to[i])] = at[i];
    }
    return out;
  }
  // Two lengths along a face's axes in x y z order, the face as it was before the turn.
  std::array<Length, 2> next(planner::work::Face on, const std::array<Length, 2>& pair) const {
    const auto [low, high] = planner::work::axes_of(on);
    return next(low) < next(high) ? pair : std::array<Length, 2>{pair[1], pair[0]};
  }

  void operator()(planner::work::Rabbet& c) const {
    c.on = next(c.on);
    c.side = next(c.side);
  }
  void operator()(planner::work::Channel& c) const {
    c.on = next(c.on);
    c.runs = next(c.runs);
  }
  void operator()(planner::work::Notch& c) const {
    c.from = next(c.from);
    c.size = next(c.size);
  }
  void operator()(planner::work::Mortise& c) const { turn_pair(c); }
  void operator()(planner::work::Tenon& c) const { turn_pair(c); }
  void operator()(planner::work::Mitre& c) const {
    c.side = next(c.side);
    c.long_face = next(c.long_face);
  }
  void operator()(planner::work::Fingers& c) const { c.side = next(c.side); }
  void operator()(planner::work::Tails& c) const { c.side = next(c.side); }
  void operator()(planner::work::Pins& c) const {
    c.side = next(c.side);
    c.on = next(c.on);
  }
  void operator()(planner::work::Kerf& c) const {
    c.side = next(c.side);
    c.long_face = next(c.long_face);
  }
  void operator()(planner::work::Chamfer& c) const {
    c.on = next(c.on);
    c.side = next(c.side);
  }
  void operator()(planner::work::Hole& c) const {
    c.at = next(c.on, c.at);
    c.on = next(c.on);
  }
  template <class Sunk>
  void turn_pair(Sunk& c) const {
    c.from = next(c.on, c.from);
    c.size = next(c.on, c.size);
    c.on = next(c.on);
  }
};

void twice(Length& length) {
  length = 2 * length;
}
void twice(std::optional<Length>& length) {
  if (length) {
    twice(*length);
  }
}
template <std::size_t N>
void twice(std::array<Length, N>& lengths) {
  for (Length& length : lengths) {
    twice(length);
  }
}

struct DoubleCut {
  void operator()(planner::work::Rabbet& c) const { all(c.width, c.depth, c.from, c.to); }
  void operator()(planner::work::Channel& c) const {
    all(c.offset, c.width, c.depth, c.from, c.to);
  }
  void operator()(planner::work::Notch& c) const { all(c.from, c.size); }
  void operator()(planner::work::Mortise& c) const { all(c.from, c.size, c.depth); }
  void operator()(planner::work::Tenon& c) const { all(c.length, c.from, c.size); }
  void operator()(planner::work::Mitre&) const {}
  void operator()(planner::work::Fingers& c) const { all(c.depth); }
  void operator()(planner::work::Tails& c) const { all(c.depth, c.from, c.to); }
  void operator()(planner::work::Pins& c) const { all(c.depth, c.reach, c.from, c.to); }
  void operator()(planner::work::Kerf& c) const { all(c.in, c.width, c.depth); }
  void operator()(planner::work::Chamfer& c) const { all(c.width, c.depth); }
  void operator()(planner::work::Hole& c) const { all(c.at, c.diameter, c.depth); }
  template <class... Lengths>
  static void all(Lengths&... lengths) {
    (twice(lengths), ...);
  }
};

// All along other axes; `sense` is -1 where that makes a left hand a right one.
planner::work::Job with_axes(planner::work::Job job, const Axes& to, int sense) {
  const TurnCut turn{to};
  for (planner::work::Part& part : job.parts) {
    part.along = turn.next(part.along);
    part.face = turn.next(part.face);
    part.at = turn.next(part.at);
    for (planner::work::Cut& cut : part.cuts) {
      std::visit(turn, cut.shape);
    }
    for (geometry::Turn& by : part.turns) {
      by.axis = turn.next(by.axis);
      by.about = turn.next(by.about);
      by.angle_deg *= sense;
    }
  }
  return job;
}

}  // namespace

std::string job_text(Dice& dice) {
  using Make = std::string (*)(Dice&);
  constexpr Make kKinds[] = {panel,   panel,      frame, frame,         box,    box,   drawer, lamination,
                             carcass, table_base, ring,  dressed_panel, veneer, bent};
  std::string text =
      key("units", quoted("mm")) +
      key("species",
          quoted(one_of(dice, {"black_cherry", "sugar_maple", "red_oak", "eastern_white_pine"})));
  const auto kind = static_cast<std::size_t>(dice.from_to(0, std::ssize(kKinds) - 1));
  text += "\n" + kKinds[kind](dice);
  return text + "\n[glue]\n" +
         key("use", quoted(one_of(dice, {"pva_type2", "pva_type1", "epoxy_slow", "pva_type2"})));
}

ShopAsText shop(Dice& dice) {
  planner::work::Shop shop = planner::files::unlimited_shop();
  shop.people = static_cast<int>(dice.from_to(1, 3));
  std::string text = "units = \"mm\"\npeople = " + number(shop.people) + "\n";
  if (dice.one_in(3)) {
    return {"# any clamp\n" + text, shop};
  }
  for (std::int64_t rows = dice.from_to(1, 3); rows > 0; --rows) {
    text += "\n[[clamp]]\n" +
            key("kind", quoted(one_of(dice, {"f_heavy", "f_light", "pipe_3_4", "parallel"}))) +
            key("count", number(dice.from_to(1, 12))) +
            key("opening", number(100 * dice.from_to(2, 12)));
  }
  text += dice.one_in(2) ? "\n[pace]\nplace = \"" + number(dice.from_to(5, 60)) + " s\"\n" : "";
  planner::files::ShopReading read = planner::files::read_shop("shop.toml", text);
  REQUIRE(read.shop);
  return {text, *read.shop};
}

planner::work::Job job_of(const std::string& text) {
  planner::files::JobReading read = planner::files::read_job("job.toml", text);
  for (const planner::base::Diagnostic& d : read.diagnostics) {
    FAIL_CHECK(to_text(d), "\n", text);
  }
  REQUIRE(read.job);
  return *read.job;
}

planner::work::Job carried(planner::work::Job job, Dice& dice) {
  std::array<Length, 3> by;
  for (Length& length : by) {
    length = Length::nm(dice.from_to(-2'000'000'000, 2'000'000'000));
  }
  for (planner::work::Part& part : job.parts) {
    for (std::size_t i = 0; i < 3; ++i) {
      part.at[i] += by[i];
    }
    for (geometry::Turn& turn : part.turns) {
      for (std::size_t i = 0; i < 3; ++i) {
        turn.about[i] += by[i];
      }
    }
  }
  return job;
}

planner::work::Job turned(planner::work::Job job) {
  return with_axes(std::move(job), {{1, 2, 0}}, 1);
}

planner::work::Job mirrored(planner::work::Job job) {
  return with_axes(std::move(job), {{1, 0, 2}}, -1);
}

planner::work::Job quarter_turned(planner::work::Job job) {
  for (planner::work::Part& part : job.parts) {
    part.turns.push_back({2, 90, {}});
  }
  return job;
}

planner::work::Job renamed(planner::work::Job job) {
  std::map<std::string, std::string> names;
  for (planner::work::Part& part : job.parts) {
    const std::string name = "board " + number(static_cast<std::int64_t>(100 - names.size()));
    names[part.name] = name;
    part.name = name;
  }
  for (planner::work::JointOverride& joint : job.overrides) {
    joint.between = {names.at(joint.between[0]), names.at(joint.between[1])};
  }
  return job;
}

planner::work::Job reordered(planner::work::Job job, Dice& dice) {
  for (std::size_t i = job.parts.size(); i > 1; --i) {
    std::swap(
        job.parts[i - 1],
        job.parts[static_cast<std::size_t>(dice.from_to(0, static_cast<std::int64_t>(i) - 1))]);
  }
  return job;
}

planner::work::Job doubled(planner::work::Job job) {
  for (planner::work::Part& part : job.parts) {
    twice(part.length);
    twice(part.width);
    twice(part.thickness);
    twice(part.at);
    for (planner::work::Cut& cut : part.cuts) {
      std::visit(DoubleCut(), cut.shape);
    }
    for (geometry::Turn& turn : part.turns) {
      twice(turn.about);
    }
  }
  for (planner::work::JointOverride& joint : job.overrides) {
    twice(joint.middle);
  }
  return job;
}

}  // namespace random_work
