#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Corner { mitre, half_lap, bridle, mortise, dowel, loose_tenon, pocket_screw };
enum class Filling { none, floating, glued };

struct Frame {
  geometry::Length width, height, thickness, stile, rail;
  std::vector<geometry::Length> between;  // widths of the rails between bottom and top, from below
  // Widths of the bars within each opening: upright ones from the left, level ones from below.
  std::vector<geometry::Length> muntins, muntins_across;
  geometry::Length stub;  // how long their tenons are
  Corner corners = Corner::mitre;
  geometry::Length tenon_length, tenon_thickness, tenon_width, inner_shoulder;
  geometry::Length well;  // what a blind mortise is deeper than its tenon is long
  // What the outer shoulder of a haunched tenon stands out, and how deep the slot for it is; zero
  // where it has none.
  geometry::Length haunch, haunch_slot;
  int dowels = 0;  // at each corner
  geometry::Length dowel;
  geometry::Length spline;  // how thick; zero where the miters have none
  int keys = 0;
  Filling filling = Filling::none;
  geometry::Length panel_thickness, panel_depth, room;
  std::string species, panel_species;
  base::Place place, corners_place, panel_place;

  bool through() const { return tenon_length == stile; }
  bool rails_between() const {
    return corners == Corner::mortise || corners == Corner::dowel || corners == Corner::loose_tenon ||
           corners == Corner::pocket_screw;
  }
  // Of the outer rails' width, where the panel's groove leaves it whole; of one between two openings.
  geometry::Length rail_wood() const { return rail - inner_shoulder; }
  geometry::Length between_wood(std::size_t n) const { return between[n] - 2 * inner_shoulder; }
  // What one of the openings is high: all alike.
  geometry::Length opening() const {
    geometry::Length free = height - 2 * rail;
    for (const geometry::Length wide : between) {
      free = free - wide;
    }
    return free / static_cast<std::int64_t>(between.size() + 1);
  }
  bool barred() const { return !muntins.empty() || !muntins_across.empty(); }
  geometry::Length light_width() const { return light(width - 2 * stile, muntins); }
  geometry::Length light_height() const { return light(opening(), muntins_across); }
  // What bars leave of an opening between each two: all alike.
  static geometry::Length light(geometry::Length free, const std::vector<geometry::Length>& bars) {
    for (const geometry::Length wide : bars) {
      free = free - wide;
    }
    return free / static_cast<std::int64_t>(bars.size() + 1);
  }
  // Five diameters long in all: from memory, as dowels are sold.
  geometry::Length dowel_depth() const { return 5 * dowel / 2; }
  bool filled() const { return filling != Filling::none; }
};

constexpr int kMostDowels = 20;
constexpr const char* kDowelWood = "beech";  // common practice

class FrameReader {
 public:
  FrameReader(const Node& node, FileNotes& notes) : table_(node, kFrame, notes) {}

  std::optional<Frame> read() {
    Frame f;
    f.place = table_.keys().place();
    f.corners_place = table_.keys().place("corners");
    f.panel_place = table_.keys().place("panel");
    const auto outside = table_.outside();
    f.width = outside[0];
    f.height = outside[1];
    f.thickness = table_.size("thickness");
    f.stile = table_.size("member");
    f.rail = table_.size("rail", f.stile);
    read_between(f);
    f.species = table_.species();
    f.corners = table_.kind<Corner>("corners");
    read_panel(f);
    read_tenon(f);
    read_dowels(f);
    read_muntins(f);
    f.spline = table_.size_with("spline", f.corners == Corner::mitre, "corners = \"miter\"")
                   .value_or(geometry::Length());
    f.keys = read_keys(table_, f.corners == Corner::mitre, "corners = \"miter\"");
    table_.keys().finish();
    if (!table_.failed()) {
      check(f);
    }
    return table_.failed() ? std::nullopt : std::optional(f);
  }

 private:
  // How many, as wide as the others; or their widths.
  void read_between(Frame& f) { f.between = widths("rails_between", f.rail); }

  std::vector<geometry::Length> widths(std::string_view key, geometry::Length usual) {
    const Node* node = table_.keys().value(key);
    if (node != nullptr && node->kind != NodeKind::list) {
      return std::vector<geometry::Length>(static_cast<std::size_t>(table_.count(key).value_or(0)), usual);
    }
    return table_.keys().lengths(key, Sign::above_zero, Needed::no).value_or(std::vector<geometry::Length>());
  }

  // 7/8 in or 22 mm wide, on stub tenons of 3/8 in or 10 mm: from memory, as sashes have them.
  void read_muntins(Frame& f) {
    const bool inch = table_.units() == base::Units::inch;
    const auto usual = inch ? geometry::Length::in_64ths(56) : geometry::Length::whole_mm(22);
    f.muntins = widths("muntins", usual);
    f.muntins_across = widths("muntins_across", usual);
    f.stub = inch ? geometry::Length::in_64ths(24) : geometry::Length::whole_mm(10);
  }

  void read_panel(Frame& f) {
    f.filling = table_.kind<Filling>("panel");
    const bool grooved = f.filled();
    f.panel_thickness = table_.size_with("panel_thickness", grooved, "a panel")
                            .value_or(usual_sheet(table_.units()));
    // 3/8 in or 10 mm: common practice.
    const geometry::Length usual = table_.units() == base::Units::inch
                                       ? geometry::Length::in_64ths(24)
                                       : geometry::Length::whole_mm(10);
    f.panel_depth = table_.size_with("panel_depth", grooved, "a panel").value_or(usual);
    table_.only_with("panel_species", grooved, "a panel");
    f.panel_species = table_.species("panel_species", f.species);
    f.room = f.filling == Filling::floating ? usual_room(table_.units()) : geometry::Length();
  }

  // A third of the thickness, or as thick as the panel's groove where a haunch fills its end; two
  // thirds of the stile; an outer shoulder of a quarter of the rail, so that the mortise has wood
  // beyond it: common practice. A loose tenon is half the rail wide, in its middle, and goes into a
  // short rail by a third of it from each end (ours).
  void read_tenon(Frame& f) {
    const bool mortise = f.corners == Corner::mortise, loose = f.corners == Corner::loose_tenon;
    const bool tenons = mortise || loose, thirds = tenons || f.corners == Corner::bridle;
    const std::string needs = "corners = \"mortise\" or \"loose-tenon\"";
    table_.only_with("haunch", mortise, "corners = \"mortise\"");
    const bool haunched = table_.keys().truth("haunch").value_or(false) && mortise;
    f.tenon_thickness = table_.size_with("tenon_thickness", thirds, needs + " or \"bridle\"")
                            .value_or(haunched && f.filled() ? f.panel_thickness : f.thickness / 3);
    const geometry::Length usual =
        loose ? std::min(2 * f.stile / 3, (f.width - 2 * f.stile) / 3) : 2 * f.stile / 3;
    f.tenon_length = table_.size_with("tenon_length", tenons, needs).value_or(usual);
    f.well = usual_room(table_.units());
    f.inner_shoulder = f.filled() ? f.panel_depth : geometry::Length();
    f.tenon_width = table_.size_with("tenon_width", tenons, needs)
                        .value_or(loose ? f.rail_wood() / 2 : f.rail_wood() - f.rail / 4);
    if (haunched) {
      // It fills the end of the panel's groove; without one it is as long as the tenon is thick:
      // from memory.
      f.haunch_slot = f.filled() ? f.panel_depth : f.tenon_thickness + f.well;
      f.haunch = f.haunch_slot - f.well;
    }
  }

  // Two a corner of 3/8 in or 10 mm, in stock thinner than twice that half as thick: from memory.
  void read_dowels(Frame& f) {
    const bool sense = f.corners == Corner::dowel;
    table_.only_with("dowels", sense, "corners = \"dowel\"");
    f.dowels = table_.count("dowels").value_or(2);
    const geometry::Length usual = table_.units() == base::Units::inch
                                       ? geometry::Length::in_64ths(24)
                                       : geometry::Length::whole_mm(10);
    f.dowel = table_.size_with("dowel", sense, "corners = \"dowel\"")
                  .value_or(std::min(usual, f.thickness / 2));
  }

  void check(const Frame& f) {
    if (f.width <= 2 * f.stile || f.height <= 2 * f.rail) {
      table_.keys().refuse("outside", "stiles and rails leave no opening",
                           "make the frame larger or its members narrower");
    }
    if (!f.between.empty()) {
      check_between(f);
    }
    if (f.barred() && !table_.failed()) {
      check_muntins(f);
    }
    if (f.corners == Corner::mitre && f.stile != f.rail) {
      table_.refuse("rail", "mitered members must be equally wide",
                    "leave rail out, or use other corners");
    }
    if (f.tenon_thickness >= f.thickness) {
      table_.refuse(
          "tenon_thickness",
          "a tenon " + table_.text(f.tenon_thickness) + " thick is no thinner than its rail",
          "a third of " + table_.text(f.thickness) + " is usual");
    }
    if (f.spline > f.thickness / 3) {
      table_.refuse("spline",
                    "a strip " + table_.text(f.spline) + " thick leaves too little of members " +
                        table_.text(f.thickness) + " thick",
                    "make it " + table_.text(f.thickness / 3) + " at most");
    }
    if (f.filled()) {
      check_panel(f);
    }
    if ((f.corners == Corner::mortise || f.corners == Corner::loose_tenon) && !table_.failed()) {
      check_tenon(f);
    }
    if (f.corners == Corner::loose_tenon && !table_.failed()) {
      check_rail(f, "tenon_length", f.tenon_length);
    }
    if (f.corners == Corner::pocket_screw && !table_.failed()) {
      check_pockets(f);
    }
    if (f.corners == Corner::dowel && !table_.failed()) {
      check_dowels(f);
      check_rail(f, "dowel", f.dowel_depth());
    }
  }

  void check_between(const Frame& f) {
    if (!f.rails_between()) {
      table_.refuse("rails_between", "rails between two openings meet the stiles' edges",
                    "take corners = \"mortise\", \"dowel\", \"loose-tenon\" or \"pocket-screw\"");
      return;
    }
    if (f.opening() <= geometry::Length()) {
      table_.refuse("rails_between", "the rails leave no opening", "make them narrower, or the frame higher");
    }
    for (std::size_t n = 0; n < f.between.size(); ++n) {
      if (f.between_wood(n) <= f.rail_wood() / 2) {
        table_.refuse("rails_between",
                      "a rail " + table_.text(f.between[n]) + " wide" +
                          (f.filled() ? ", grooved on both sides," : "") + " is too narrow for its joint",
                      "make it wider than " + table_.text(f.rail_wood() / 2 + 2 * f.inner_shoulder));
      }
    }
  }

  // Lights wide enough for what the rails' ends hold; stubs that don't meet in a member.
  void check_muntins(const Frame& f) {
    const char* key = f.muntins.empty() ? "muntins_across" : "muntins";
    const geometry::Length sunk = f.stub + f.well, in_rail = f.corners == Corner::dowel ? f.dowel_depth() + f.well
                                                             : f.corners == Corner::loose_tenon
                                                                 ? f.tenon_length + f.well
                                                                 : geometry::Length();
    geometry::Length narrowest = f.between.empty() ? f.rail : std::min(f.rail, *std::ranges::min_element(f.between));
    narrowest = f.between.empty() ? narrowest : narrowest / 2;
    if (!f.rails_between()) {
      table_.refuse(key, "bars go into stiles and rails that close upon them square",
                    "take corners = \"mortise\", \"dowel\", \"loose-tenon\" or \"pocket-screw\"");
    } else if (f.filled()) {
      table_.refuse(key, "bars stand where the panel lies", "leave the panel out: what they hold is set in afterwards");
    } else if (f.light_width() <= in_rail || f.light_height() <= geometry::Length()) {
      table_.refuse(f.light_width() <= in_rail ? "muntins" : "muntins_across",
                    "the bars leave lights of " + table_.text(f.light_width()) + " by " +
                        table_.text(f.light_height()) + " between them",
                    in_rail > geometry::Length() ? "make the lights wider than " + table_.text(in_rail) +
                                                       ", which the rails' ends need"
                                                 : "make them fewer or narrower");
    } else if (sunk >= narrowest || sunk >= f.stile) {
      table_.refuse(key, "the mortises of their tenons, " + table_.text(sunk) + " deep, go through or meet",
                    "make stiles wider than " + table_.text(sunk) + ", and rails" +
                        (f.between.empty() ? "" : " between two openings than " + table_.text(2 * sunk)));
    }
  }

  // Two pockets side by side, and thickness enough for one (common practice: 1 1/2 in and 1/2 in).
  void check_pockets(const Frame& f) {
    const bool inches = table_.units() == base::Units::inch;
    const auto least_rail = inches ? geometry::Length::in_64ths(96) : geometry::Length::whole_mm(38);
    const auto least_thick = inches ? geometry::Length::in_64ths(32) : geometry::Length::whole_mm(12);
    if (f.rail_wood() < least_rail) {
      table_.refuse("corners",
                    "rails of " + table_.text(f.rail_wood()) + " have no room for two pocket screws",
                    "make them " + table_.text(least_rail) + " wide at least, or use other corners");
    }
    if (f.thickness < least_thick) {
      table_.refuse("corners", "members " + table_.text(f.thickness) + " thick are too thin for pocket screws",
                    "make them " + table_.text(least_thick) + " at least, or use other corners");
    }
  }

  void check_tenon(const Frame& f) {
    const geometry::Length most = f.rail - f.inner_shoulder;
    if (f.tenon_width <= geometry::Length() || f.tenon_width >= most) {
      table_.refuse("tenon_width",
                    "a tenon " + table_.text(f.tenon_width) +
                        " wide leaves no shoulder outside on a rail of " + table_.text(f.rail) +
                        (f.filled() ? ", less the panel's groove" : ""),
                    "make it narrower than " + table_.text(most));
    }
    if (f.tenon_length > f.stile) {
      table_.refuse("tenon_length",
                    "a tenon " + table_.text(f.tenon_length) + " long stands out of its stile",
                    "make it no longer than " + table_.text(f.stile));
    } else if (!f.through() && f.tenon_length + f.well >= f.stile) {
      table_.refuse("tenon_length",
                    "the mortise of a tenon " + table_.text(f.tenon_length) + " long, " +
                        table_.text(f.well) + " deeper for glue, breaks through the stile",
                    f.corners == Corner::mortise
                        ? "make it shorter, or " + table_.text(f.stile) + " to go through"
                        : "make it shorter than " + table_.text(f.stile - f.well));
    } else if (f.haunch_slot >= f.tenon_length) {
      table_.refuse("haunch",
                    "a haunch in a slot " + table_.text(f.haunch_slot) +
                        " deep is no shorter than its tenon of " + table_.text(f.tenon_length),
                    "make the tenon longer than " + table_.text(f.haunch_slot));
    }
  }

  // Holes or mortises from both ends of a rail must not meet.
  void check_rail(const Frame& f, std::string_view key, geometry::Length depth) {
    const geometry::Length least = 2 * (f.stile + depth + f.well);
    if (f.width <= least) {
      table_.refuse(key,
                    "what it reaches into a rail of " + table_.text(f.width - 2 * f.stile) +
                        " from both ends would meet",
                    "make the frame wider than " + table_.text(least) + ", or it shorter");
    }
  }

  // Wood between two dowels at least half as wide as they are, so at the rail's edges a quarter
  // (ours); in its thickness a sixth on each side: a third to half of it is usual (common practice).
  void check_dowels(const Frame& f) {
    const auto most = f.rail_wood().nanometres() / std::max<std::int64_t>((3 * f.dowel / 2).nanometres(), 1);
    if (f.dowel > 2 * f.thickness / 3) {
      table_.refuse("dowel",
                    "dowels of " + table_.text(f.dowel) + " leave too little of members " +
                        table_.text(f.thickness) + " thick",
                    table_.text(f.thickness / 2) + " at most is usual");
    } else if (f.dowels > most) {
      table_.refuse("dowels",
                    std::to_string(f.dowels) + " dowels of " + table_.text(f.dowel) +
                        " do not go into a rail of " + table_.text(f.rail_wood()) +
                        (f.filled() ? " beside the panel's groove" : ""),
                    most > 0 ? "make it " + std::to_string(most) + " at most, or thinner dowels"
                             : "make the rail wider");
    } else if (f.dowel_depth() + f.well >= f.stile) {
      table_.refuse("dowel",
                    "its hole, two and a half times so deep and " + table_.text(f.well) +
                        " for glue, breaks through the stile of " + table_.text(f.stile),
                    "make it " + table_.text(2 * (f.stile - f.well) / 5) + " at most");
    }
  }

  void check_panel(const Frame& f) {
    if (f.panel_thickness >= f.thickness) {
      table_.refuse("panel_thickness",
                    "a panel " + table_.text(f.panel_thickness) +
                        " thick leaves no groove in members of " + table_.text(f.thickness),
                    "make it thinner");
    }
    if (f.panel_depth >= std::min(f.stile, f.rail) || f.panel_depth <= f.room) {
      table_.refuse("panel_depth",
                    f.panel_depth <= f.room ? "a groove " + table_.text(f.panel_depth) +
                                                  " deep does not hold a panel that needs " +
                                                  table_.text(f.room) + " of room on each side"
                                            : "a groove " + table_.text(f.panel_depth) +
                                                  " deep goes through its member",
                    "3/8 in or 10 mm is usual");
    }
  }

  StarterTable table_;
};

class FrameMaker {
 public:
  explicit FrameMaker(const Frame& frame) : f_(frame) {
    rails_.push_back({"bottom rail", geometry::Length(), f_.rail, Rail::Place::bottom});
    geometry::Length low = f_.rail + f_.opening();
    for (std::size_t n = 0; n < f_.between.size(); ++n) {
      rails_.push_back({f_.between.size() == 1 ? "middle rail" : "rail " + std::to_string(n + 2), low,
                        f_.between[n], Rail::Place::between});
      low += f_.between[n] + f_.opening();
    }
    rails_.push_back({"top rail", f_.height - f_.rail, f_.rail, Rail::Place::top});
  }

  Expansion make() {
    const geometry::Length w = f_.width, h = f_.height, t = f_.thickness;
    // Rails that meet the stiles' inner faces stop short of the frame's outside.
    const geometry::Length start = f_.corners == Corner::mortise ? f_.stile - f_.tenon_length
                                   : f_.rails_between()          ? f_.stile
                                                                 : geometry::Length();
    add_stile("left stile", kLeft,
              {{geometry::Length(), geometry::Length(), geometry::Length()}, {f_.stile, h, t}});
    add_stile("right stile", kRight,
              {{w - f_.stile, geometry::Length(), geometry::Length()}, {w, h, t}});
    for (const Rail& rail : rails_) {
      add_rail(rail, {{start, rail.low, geometry::Length()}, {w - start, rail.low + rail.width, t}});
    }
    for (std::size_t n = 0; n + 1 < rails_.size() && f_.filled(); ++n) {
      add_panel(n);
    }
    for (std::size_t n = 0; n + 1 < rails_.size() && f_.barred(); ++n) {
      add_muntins(n);
    }
    add_pegs();
    if (f_.spline > geometry::Length()) {
      for (const geometry::Length x : {geometry::Length(), w}) {
        for (const geometry::Length y : {geometry::Length(), h}) {
          add_spline(x, y);
        }
      }
    }
    if (f_.corners == Corner::pocket_screw) {
      add_pockets();
    }
    if (f_.keys > 0) {
      made_.keys = work::Keys{f_.keys, 4, f_.corners_place};
    }
    return std::move(made_);
  }

 private:
  struct Rail {
    enum class Place { bottom, between, top };
    std::string name;
    geometry::Length low, width;  // its low edge in the frame
    Place place = Place::bottom;
  };

  geometry::Length tenon_low() const { return (f_.thickness - f_.tenon_thickness) / 2; }
  // Of the shoulder on the frame's outside, which is the broad one; a loose tenon has two alike.
  geometry::Length outer_shoulder() const {
    const geometry::Length both = f_.rail_wood() - f_.tenon_width;
    return f_.corners == Corner::loose_tenon ? both / 2 : both;
  }
  // Between two openings the tenon is the other rails', or three quarters of less wood, in the middle.
  geometry::Length tenon_width(const Rail& rail) const {
    const geometry::Length wood = rail.width - 2 * f_.inner_shoulder;
    return rail.place != Rail::Place::between ? f_.tenon_width
                                              : std::min(f_.tenon_width, 3 * wood / 4);
  }
  // From the rail's low edge to its tenon's.
  geometry::Length tenon_from(const Rail& rail) const {
    switch (rail.place) {
      case Rail::Place::bottom:
        return outer_shoulder();
      case Rail::Place::top:
        return f_.rail - outer_shoulder() - f_.tenon_width;
      case Rail::Place::between:
        break;
    }
    return (rail.width - tenon_width(rail)) / 2;
  }
  // From the rail's low edge to a dowel's axis: each has the same share of the rail.
  geometry::Length dowel_at(const Rail& rail, int n) const {
    if (rail.place == Rail::Place::between) {
      return f_.inner_shoulder +
             (2 * n + 1) * (rail.width - 2 * f_.inner_shoulder) / (2 * f_.dowels);
    }
    const geometry::Length off = (2 * n + 1) * f_.rail_wood() / (2 * f_.dowels);
    return rail.place == Rail::Place::bottom ? off : f_.rail - off;
  }

  void add_stile(const std::string& name, work::Face outer, const LatticeBox& box) {
    work::Part stile = board(name, f_.species, f_.place, {1, 2}, box);
    const auto cut = [&](auto shape) { stile.cuts.push_back({f_.corners_place, shape}); };
    for (const work::Face end : {kFront, kBack}) {
      const geometry::Length end_low = end.positive ? f_.height - f_.rail : geometry::Length();
      switch (f_.corners) {
        case Corner::mitre:
          cut(work::Mitre{end, outer, 45});
          if (f_.spline > geometry::Length()) {
            cut(work::Kerf{end, outer, 45, f_.thickness / 2, f_.spline, spline_depth(), true});
          }
          break;
        case Corner::half_lap:
          cut(work::Rabbet{kUp, end, f_.rail, f_.thickness / 2, {}, {}});
          break;
        case Corner::bridle:
          cut(work::Notch{{geometry::Length(), end_low, tenon_low()},
                          {f_.stile, f_.rail, f_.tenon_thickness}});
          break;
        case Corner::mortise:
          slot_for_haunch(stile, opposite(outer), end);
          break;
        case Corner::dowel:
        case Corner::loose_tenon:
        case Corner::pocket_screw:
          break;
      }
    }
    for (const Rail& rail : rails_) {
      if (f_.corners == Corner::mortise) {
        cut(work::Mortise{opposite(outer),
                          {rail.low + tenon_from(rail), tenon_low()},
                          {tenon_width(rail), f_.tenon_thickness},
                          f_.through() ? f_.stile : f_.tenon_length + f_.well});
      } else {
        peg_holes(stile, opposite(outer), rail.low, rail);
      }
    }
    for (std::size_t n = 0; n + 1 < rails_.size(); ++n) {
      for (const Bar& bar : level_bars(n)) {
        stub_mortise(stile, opposite(outer), geometry::Length(), bar);
      }
    }
    add_groove(stile, opposite(outer));
    made_.parts.push_back(std::move(stile));
  }

  void add_rail(const Rail& of, const LatticeBox& box) {
    work::Part rail = board(of.name, f_.species, f_.place, {0, 2}, box);
    const work::Face outer = of.place == Rail::Place::top ? kBack : kFront;
    const auto cut = [&](auto shape) { rail.cuts.push_back({f_.corners_place, shape}); };
    for (const work::Face end : {kLeft, kRight}) {
      switch (f_.corners) {
        case Corner::mitre:
          cut(work::Mitre{end, outer, 45});
          if (f_.spline > geometry::Length()) {
            cut(work::Kerf{end, outer, 45, f_.thickness / 2, f_.spline, spline_depth(), true});
          }
          break;
        case Corner::half_lap:
          cut(work::Rabbet{kDown, end, f_.stile, f_.thickness - f_.thickness / 2, {}, {}});
          break;
        case Corner::bridle:
          cut(work::Tenon{
              end, f_.stile, {geometry::Length(), tenon_low()}, {f_.rail, f_.tenon_thickness}});
          break;
        case Corner::mortise:
          tenon(rail, end, of);
          break;
        case Corner::dowel:
        case Corner::loose_tenon:
          peg_holes(rail, end, geometry::Length(), of);
          break;
        case Corner::pocket_screw:
          break;
      }
    }
    add_groove(rail, opposite(outer));
    if (of.place == Rail::Place::between) {
      add_groove(rail, outer);
    }
    for (const Bar& bar : upright_bars()) {
      stub_mortise(rail, opposite(outer), box.lo[0], bar);
      if (of.place == Rail::Place::between) {
        stub_mortise(rail, outer, box.lo[0], bar);
      }
    }
    made_.parts.push_back(std::move(rail));
  }

  // A haunched one reaches to the rail's outer edge, there as far out as its haunch.
  void tenon(work::Part& rail, work::Face end, const Rail& of) {
    const auto cut = [&](auto shape) { rail.cuts.push_back({f_.corners_place, shape}); };
    const bool bottom = of.place == Rail::Place::bottom;
    const bool haunched = f_.haunch_slot > geometry::Length() && of.place != Rail::Place::between;
    const geometry::Length outer = outer_shoulder(), beyond = f_.tenon_length - f_.haunch,
                           more = haunched ? outer : geometry::Length();
    const geometry::Length from = bottom ? outer - more : tenon_from(of);
    cut(work::Tenon{end,
                    f_.tenon_length,
                    {from, tenon_low()},
                    {tenon_width(of) + more, f_.tenon_thickness}});
    if (haunched) {
      cut(work::Notch{{end.positive ? rail.length - beyond : geometry::Length(),
                       bottom ? geometry::Length() : f_.rail - outer, geometry::Length()},
                      {beyond, outer, f_.thickness}});
    }
  }

  // From the stile's end to the mortise.
  void slot_for_haunch(work::Part& stile, work::Face on, work::Face end) {
    if (f_.haunch_slot > geometry::Length()) {
      stile.cuts.push_back(
          {f_.corners_place,
           work::Notch{{on.positive ? f_.stile - f_.haunch_slot : geometry::Length(),
                        end.positive ? f_.height - outer_shoulder() : geometry::Length(),
                        tenon_low()},
                       {f_.haunch_slot, outer_shoulder(), f_.tenon_thickness}}});
    }
  }

  // For dowels or a loose tenon in a stile's inner face or a rail's end; `low`: where the rail's
  // low edge lies on it.
  void peg_holes(work::Part& member, work::Face on, geometry::Length low, const Rail& rail) {
    const auto cut = [&](auto shape) { member.cuts.push_back({f_.corners_place, shape}); };
    if (f_.corners == Corner::loose_tenon) {
      cut(work::Mortise{on,
                        {low + tenon_from(rail), tenon_low()},
                        {tenon_width(rail), f_.tenon_thickness},
                        f_.tenon_length + f_.well});
      return;
    }
    for (int n = 0; n < (f_.corners == Corner::dowel ? f_.dowels : 0); ++n) {
      cut(work::Hole{on,
                     {low + dowel_at(rail, n), f_.thickness / 2},
                     f_.dowel,
                     f_.dowel_depth() + f_.well});
    }
  }

  // Dowels or loose tenons, half in the stile and half in the rail.
  void add_pegs() {
    if (f_.corners != Corner::dowel && f_.corners != Corner::loose_tenon) {
      return;
    }
    for (const Rail& rail : rails_) {
      for (const geometry::Length joint : {f_.stile, f_.width - f_.stile}) {
        if (f_.corners == Corner::loose_tenon) {
          const geometry::Length y = rail.low + tenon_from(rail);
          made_.parts.push_back(
              board("tenon " + std::to_string(++pegs_), f_.species, f_.corners_place, {0, 2},
                    {{joint - f_.tenon_length, y, tenon_low()},
                     {joint + f_.tenon_length, y + tenon_width(rail),
                      tenon_low() + f_.tenon_thickness}}));
        }
        for (int n = 0; n < (f_.corners == Corner::dowel ? f_.dowels : 0); ++n) {
          const geometry::Length y = rail.low + dowel_at(rail, n) - f_.dowel / 2,
                                 z = f_.thickness / 2 - f_.dowel / 2;
          work::Part dowel =
              board("dowel " + std::to_string(++pegs_), kDowelWood, f_.corners_place, {0, 2},
                    {{joint - f_.dowel_depth(), y, z},
                     {joint + f_.dowel_depth(), y + f_.dowel, z + f_.dowel}});
          dowel.round = true;
          made_.parts.push_back(std::move(dowel));
        }
      }
    }
  }

  void add_pockets() {
    for (const Rail& rail : rails_) {
      for (const char* stile : {"left stile", "right stile"}) {
        work::JointOverride joint{{rail.name, stile}, {}, {}, {}, {}, f_.corners_place};
        joint.held_by = work::HeldBy::screws;
        joint.pocket = true;
        made_.overrides.push_back(std::move(joint));
      }
    }
  }

  // A quarter of the member into each (ours).
  geometry::Length spline_depth() const { return f_.stile / 4; }

  // A strip in the two kerfs of a corner, its grain across the miter, 1/64 in narrower on each side
  // than they are deep so that it never holds the miter open: common practice. It ends where its own
  // corners would stand out of the frame, and before the panel.
  void add_spline(geometry::Length x, geometry::Length y) {
    const bool right = x > geometry::Length(), back = y > geometry::Length();
    const geometry::Length reach = spline_depth() - geometry::Length::in_64ths(1);
    // Along each member from the outer corner to the strip's ends and its middle, square to them.
    const auto across = [](geometry::Length l) {
      return geometry::Length::nm(std::llround(l.mm() / std::numbers::sqrt2 * 1e6));
    };
    const geometry::Length from = across(reach), to = f_.stile - from - f_.inner_shoulder,
                           off = (from + to) / 2;
    const geometry::Length half =
        geometry::Length::nm(std::llround((to - from).mm() / std::numbers::sqrt2 * 1e6));
    const geometry::Length at_x = right ? x - off : off, at_y = back ? y - off : off,
                           low = f_.thickness / 2 - f_.spline / 2;
    work::Part strip =
        board("spline " + std::to_string(++splines_), f_.species, f_.corners_place, {0, 2},
              {{at_x - reach, at_y - half, low}, {at_x + reach, at_y + half, low + f_.spline}});
    strip.turns.push_back({2, right == back ? -45.0 : 45.0, {at_x, at_y, geometry::Length()}});
    made_.parts.push_back(std::move(strip));
  }

  // A bar of an opening, from its low edge on. Its stubs are a third as thick as the frame, as tenons are.
  struct Bar {
    geometry::Length low, width;
  };
  static std::vector<Bar> bars_of(geometry::Length from, geometry::Length light,
                                  const std::vector<geometry::Length>& widths) {
    std::vector<Bar> bars;
    for (const geometry::Length width : widths) {
      from += light;
      bars.push_back({from, width});
      from += width;
    }
    return bars;
  }
  std::vector<Bar> upright_bars() const { return bars_of(f_.stile, f_.light_width(), f_.muntins); }
  std::vector<Bar> level_bars(std::size_t opening) const {
    return bars_of(rails_[opening].low + rails_[opening].width, f_.light_height(), f_.muntins_across);
  }

  // In the face `on` of a rail or stile that begins at `from` along its grain.
  void stub_mortise(work::Part& member, work::Face on, geometry::Length from, const Bar& bar) {
    member.cuts.push_back({f_.place, work::Mortise{on,
                                                   {bar.low - from, f_.thickness / 3},
                                                   {bar.width, f_.thickness / 3},
                                                   f_.stub + f_.well}});
  }

  // Over each other they are halved, the level ones below.
  void add_muntins(std::size_t opening) {
    const geometry::Length low = rails_[opening].low + rails_[opening].width - f_.stub,
                           high = rails_[opening + 1].low + f_.stub, zero, half = f_.thickness / 2;
    const geometry::Length left = f_.stile - f_.stub, right = f_.width - left;
    for (const Bar& bar : upright_bars()) {
      work::Part muntin = muntin_of("muntin " + std::to_string(++muntins_), 1,
                                    {{bar.low, low, zero}, {bar.low + bar.width, high, f_.thickness}});
      for (const Bar& level : level_bars(opening)) {
        muntin.cuts.push_back({f_.place, work::Notch{{zero, level.low - low, zero}, {bar.width, level.width, half}}});
      }
      made_.parts.push_back(std::move(muntin));
    }
    for (const Bar& bar : level_bars(opening)) {
      work::Part muntin = muntin_of("cross muntin " + std::to_string(++cross_muntins_), 0,
                                    {{left, bar.low, zero}, {right, bar.low + bar.width, f_.thickness}});
      for (const Bar& upright : upright_bars()) {
        muntin.cuts.push_back({f_.place, work::Notch{{upright.low - left, zero, half},
                                                     {upright.width, bar.width, f_.thickness - half}}});
      }
      made_.parts.push_back(std::move(muntin));
    }
  }

  work::Part muntin_of(const std::string& name, int along, const LatticeBox& box) {
    work::Part muntin = board(name, f_.species, f_.place, {along, 2}, box);
    for (const bool high : {false, true}) {
      muntin.cuts.push_back({f_.place, work::Tenon{{along, high},
                                                   f_.stub,
                                                   {geometry::Length(), f_.thickness / 3},
                                                   {muntin.width, f_.thickness / 3}}});
    }
    return muntin;
  }

  // What a panel and its room to swell fill, in the opening over this rail.
  LatticeBox panel_space(std::size_t n) const {
    const geometry::Length x = f_.stile - f_.panel_depth,
                           low = rails_[n].low + rails_[n].width - f_.panel_depth,
                           high = rails_[n + 1].low + f_.panel_depth;
    const geometry::Length z = (f_.thickness - f_.panel_thickness) / 2;
    return {{x, low, z}, {f_.width - x, high, z + f_.panel_thickness}};
  }

  // As far as the panels' spaces reach; between the shoulders of a tenoned rail; through at
  // mitres.
  void add_groove(work::Part& member, work::Face on) {
    if (!f_.filled()) {
      return;
    }
    for (std::size_t n = 0; n + 1 < rails_.size(); ++n) {
      LatticeBox space = panel_space(n);
      const bool rail = member.along == 0;
      if (rail && (on.positive ? member.at[1] != rails_[n].low : member.at[1] != rails_[n + 1].low)) {
        continue;  // another opening's
      }
      if (rail && f_.rails_between()) {
        space = shrunk(space, 0, f_.panel_depth);
      }
      work::Channel groove = channel_for(member, on, member.along, space);
      if (f_.corners == Corner::mitre) {
        groove.from.reset();
        groove.to.reset();
      }
      member.cuts.push_back({f_.panel_place, groove});
    }
  }

  void add_panel(std::size_t n) {
    const std::string name = rails_.size() == 2 ? "panel" : "panel " + std::to_string(n + 1);
    const LatticeBox filled = shrunk(shrunk(panel_space(n), 0, f_.room), 1, f_.room);
    const int along = filled.hi[0] - filled.lo[0] > filled.hi[1] - filled.lo[1] ? 0 : 1;
    made_.parts.push_back(board(name, f_.panel_species, f_.panel_place, {along, 2}, filled));
    if (f_.filling == Filling::floating) {
      keep_dry(name, {"left stile", "right stile", rails_[n].name, rails_[n + 1].name}, f_.panel_place, made_);
    }
  }

  const Frame& f_;
  std::vector<Rail> rails_;  // from below
  int pegs_ = 0, splines_ = 0, muntins_ = 0, cross_muntins_ = 0;  // made so far
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Frame> read = FrameReader(table, notes).read();
  return read ? FrameMaker(*read).make() : Expansion{};
}

constexpr Dimension kOutside[] = {{"width", "18", "450"}, {"height", "30", "750"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"thickness", Holds::length, "of the members", kRequired, {"3/4", "20"}},
    {"member",
     Holds::length,
     "width of the stiles; `rail` where rails differ",
     kRequired,
     {"2 1/4", "57"}},
    {"rail", Holds::length, "width of the rails", "the stiles'"},
    {"rails_between",
     Holds::lengths,
     "more rails, as wide; or their widths from the bottom up: [90, 57]. The openings are alike",
     "none",
     {},
     {},
     1,
     20},
    {"muntins",
     Holds::lengths,
     "upright bars in each opening, on stub tenons, 7/8 in or 22 mm wide; or their widths from the left. Lights are alike",
     "none",
     {},
     {},
     1,
     20},
    {"muntins_across",
     Holds::lengths,
     "level ones, halved over those, from below",
     "none",
     {},
     {},
     1,
     20},
    {"corners",
     Holds::word,
     "how the members meet",
     kRequired,
     {"mortise"},
     {{{"miter"},
       {"half-lap"},
       {"bridle"},
       {"mortise", "and tenon"},
       {"dowel"},
       {"loose-tenon", "let into both"},
       {"pocket-screw", "screwed aslant through the rails' ends"}}}},
    {"panel",
     Holds::word,
     "whether it has one",
     "none",
     {"float"},
     {{{"none"}, {"float", "as a solid one must"}, {"glue"}}}},
    species_key("of the members"),
    {"panel_species", Holds::wood, "", "the members'", {"plywood_birch", "", kAsComment}},
    {"panel_thickness", Holds::length, "", "1/4 in or 6 mm"},
    {"panel_depth", Holds::length, "of its grooves", "3/8 in or 10 mm"},
    {"haunch",
     Holds::truth,
     "whether the outer shoulder of a tenon is left standing, as deep as the panel's groove",
     "false"},
    {"dowels", Holds::count, "at each corner", "2", {}, {}, 1, kMostDowels},
    {"dowel",
     Holds::length,
     "their diameter; each is five diameters long",
     "3/8 in or 10 mm, at most half the thickness"},
    {"spline", Holds::length, "thickness of a strip in a kerf along each miter", "none"},
    kKeysKey,
    {"tenon_length",
     Holds::length,
     "all of the stile's width goes through; a blind mortise is 1/16 in or 1.5 mm deeper",
     "two thirds of the stile; loose, a third of a short rail",
     {"1 1/2", "38", kAsComment}},
    {"tenon_thickness", Holds::length, "also of a bridle's",
     "a third of the members' thickness; haunched, the panel's"},
    {"tenon_width", Holds::length, "",
     "three quarters of the rail, the shoulder outside, less the panel's groove; loose, half"},
};

}  // namespace

constexpr Starter kFrame = {
    .name = "frame",
    .summary = "a frame, or with a panel a door: stiles, rails and panel, flat on the bench",
    .about =
        R"(Makes `left stile`, `right stile`, `bottom rail`, `top rail`, and with a `panel`, which makes it a door, that. More rails
are `middle rail` or `rail 2` and so on from below, panels then `panel 1` and so on; bars are `muntin 1` and so on from the
left, `cross muntin 1` from below, opening by opening. It lies flat on the bench, its height along y. Stiles run the whole height. Dowels are `dowel 1` and so on, of beech; loose
tenons `tenon 1`, splines `spline 1` and so on. Keys are let in once the glue has cured.)",
    .title = "Door",
    .wood = "white_oak",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
