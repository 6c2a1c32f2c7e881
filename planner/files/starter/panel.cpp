#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Tongue { none, loose, real };
enum class Ends { none, breadboard };
enum class Edging { none, front, all };

struct Panel {
  geometry::Length length, thickness;
  std::vector<geometry::Length> widths;
  std::string species, tongue_species;
  Tongue tongue = Tongue::none;
  geometry::Length tongue_thickness, tongue_depth, room;
  Ends ends = Ends::none;
  geometry::Length end_width, end_tongue, end_glue;
  Edging edging = Edging::none;
  geometry::Length edging_thickness;
  std::string edging_species;
  base::Place place, tongue_place, ends_place, edging_place;

  bool breadboards() const { return ends == Ends::breadboard; }
  // From the low end to the boards' shoulders, and to their own ends.
  geometry::Length shoulder() const { return breadboards() ? end_width : geometry::Length(); }
  geometry::Length board_low() const { return shoulder() - end_tongue; }
  geometry::Length board_length() const { return length + 2 * end_tongue; }
  geometry::Length tongue_low() const { return (thickness - tongue_thickness) / 2; }
};

class PanelReader {
 public:
  PanelReader(const Node& node, FileNotes& notes) : table_(node, kPanel, notes) {}

  std::optional<Panel> read() {
    Panel p;
    p.length = table_.size("length");
    p.thickness = table_.size("thickness");
    p.species = table_.species();
    p.widths = table_.pieces("boards", "width", "board");
    p.place = table_.keys().place("boards");
    read_tongue(p);
    read_ends(p);
    read_edging(p);
    table_.keys().finish();
    if (!table_.failed() && p.tongue != Tongue::none) {
      check_tongue(p);
    }
    if (!table_.failed() && p.breadboards()) {
      check_ends(p);
    }
    if (!table_.failed()) {
      check_edging(p);
    }
    return table_.failed() ? std::nullopt : std::optional(p);
  }

 private:
  // A third of the thickness, and as deep as thick: common practice. A loose tongue is cut short of
  // its two grooves by a little room for glue.
  void read_tongue(Panel& p) {
    p.tongue = table_.kind<Tongue>("tongue");
    p.tongue_place = table_.keys().place("tongue");
    const bool there = p.tongue != Tongue::none;
    p.tongue_thickness =
        table_.size_with("tongue_thickness", there, "tongue = \"loose\" or \"real\"")
            .value_or(p.thickness / 3);
    p.tongue_depth = table_.size_with("tongue_depth", there, "tongue = \"loose\" or \"real\"")
                         .value_or(p.tongue_thickness);
    table_.only_with("tongue_species", p.tongue == Tongue::loose, "tongue = \"loose\"");
    p.tongue_species = table_.species("tongue_species", p.species);
    p.room = usual_room(table_.units()) / 2;
  }

  // A tongue a third of the boards' thickness reaches a third of the end's width into it, and is
  // glued for 4 in or 100 mm in its middle: from memory.
  void read_ends(Panel& p) {
    p.ends = table_.kind<Ends>("ends");
    p.ends_place = table_.keys().place("ends");
    const geometry::Length usual = table_.units() == base::Units::inch
                                       ? geometry::Length::in_64ths(3 * 64)
                                       : geometry::Length::whole_mm(80);
    p.end_width =
        table_.size_with("end_width", p.breadboards(), "ends = \"breadboard\"").value_or(usual);
    p.end_tongue = p.breadboards() ? p.end_width / 3 : geometry::Length();
    p.end_glue = table_.units() == base::Units::inch ? geometry::Length::in_64ths(4 * 64)
                                                     : geometry::Length::whole_mm(100);
  }

  // 1/4 in or 6 mm: common practice.
  void read_edging(Panel& p) {
    p.edging = table_.kind<Edging>("edging");
    p.edging_place = table_.keys().place("edging");
    const bool there = p.edging != Edging::none;
    p.edging_thickness =
        table_.size_with("edging_thickness", there, "edging").value_or(usual_sheet(table_.units()));
    table_.only_with("edging_species", there, "edging");
    p.edging_species = table_.species("edging_species", p.species);
  }

  // Solid wood moves past strips across its ends, and one board alone is no glue-up.
  void check_edging(const Panel& p) {
    if (p.edging == Edging::none) {
      if (p.widths.size() < 2) {
        table_.refuse("boards", "one board is no glue-up", "add boards, or edging for a sheet's edges");
      }
      return;
    }
    if (!is_sheet(p.species) && p.edging == Edging::all) {
      table_.refuse("edging", "strips across the ends of solid wood split it as it moves",
                    "take edging = \"front\", or ends = \"breadboard\"");
    }
    if (is_sheet(p.edging_species)) {
      table_.refuse(table_.keys().has("edging_species") ? "edging_species" : "edging",
                    "edging of a sheet good shows its layers again", "name a solid wood in edging_species");
    }
    if (p.breadboards()) {
      table_.refuse("edging", "a panel has breadboard ends or edging, not both", "leave one of them out");
    }
  }

  void check_ends(const Panel& p) {
    if (p.tongue != Tongue::none) {
      table_.refuse("ends", "breadboard ends go on boards with plain edges",
                    "leave tongue out, or the ends");
    }
    if (p.end_tongue <= 2 * p.room) {
      table_.refuse("end_width",
                    "ends " + table_.text(p.end_width) + " wide have no room for a tongue",
                    "make them wider than " + table_.text(6 * p.room));
    }
  }

  void check_tongue(const Panel& p) {
    if (p.tongue_thickness >= p.thickness) {
      table_.refuse("tongue_thickness",
                    "a tongue " + table_.text(p.tongue_thickness) +
                        " thick leaves no groove in boards of " + table_.text(p.thickness),
                    "a third is usual");
    }
    if (p.tongue_depth <= p.room) {
      table_.refuse("tongue_depth",
                    "a tongue " + table_.text(p.tongue_depth) + " deep holds nothing",
                    "make it as deep as it is thick");
    }
    for (const geometry::Length width : p.widths) {
      if (width <= 2 * (p.tongue_depth + p.room)) {
        table_.refuse("tongue_depth",
                      "grooves of " + table_.text(p.tongue_depth) +
                          " from both edges leave nothing of a board " + table_.text(width) +
                          " wide",
                      "make them shallower");
        return;
      }
    }
  }

  StarterTable table_;
};

class PanelMaker {
 public:
  explicit PanelMaker(const Panel& panel) : p_(panel) {}

  Expansion make() {
    geometry::Length low;
    for (std::size_t i = 0; i < p_.widths.size(); ++i) {
      add_board(i, low);
      low += p_.widths[i];
    }
    if (p_.tongue == Tongue::loose) {
      add_loose_tongues();
    }
    if (p_.breadboards()) {
      add_end("end 1", p_.shoulder() - p_.end_width, kRight, low);
      add_end("end 2", p_.shoulder() + p_.length, kLeft, low);
      made_.breadboard = work::Breadboard{low};
    }
    if (p_.edging != Edging::none) {
      add_edging(low);
    }
    return std::move(made_);
  }

 private:
  // Grooves in the high edges take the next board's tongue, or half of a loose one.
  void add_board(std::size_t i, geometry::Length low) {
    const bool first = i == 0, last = i + 1 == p_.widths.size();
    const bool tongued = p_.tongue == Tongue::real && !first;
    const geometry::Length from = tongued ? low - p_.tongue_depth : low;
    work::Part part = board("board " + std::to_string(i + 1), p_.species, p_.place, {0, 2},
                            {{p_.board_low(), from, geometry::Length()},
                             {p_.board_low() + p_.board_length(), low + p_.widths[i],
                              p_.thickness}});
    if (p_.breadboards()) {
      for (const work::Face end : {kLeft, kRight}) {
        part.cuts.push_back({p_.ends_place, work::Tenon{end,
                                                        p_.end_tongue,
                                                        {geometry::Length(), p_.thickness / 3},
                                                        {p_.widths[i], p_.thickness / 3}}});
      }
    }
    if (tongued) {
      part.cuts.push_back({p_.tongue_place, work::Tenon{kFront,
                                                        p_.tongue_depth,
                                                        {geometry::Length(), p_.tongue_low()},
                                                        {p_.length, p_.tongue_thickness}}});
    }
    if (p_.tongue == Tongue::loose && !first) {
      part.cuts.push_back({p_.tongue_place, groove(kFront, p_.tongue_depth)});
    }
    if (p_.tongue != Tongue::none && !last) {
      // A real tongue's groove is deeper, so that the edges close and not its bottom.
      part.cuts.push_back(
          {p_.tongue_place,
           groove(kBack,
                  p_.tongue_depth + (p_.tongue == Tongue::real ? p_.room : geometry::Length()))});
    }
    made_.parts.push_back(std::move(part));
  }

  // Strips along the front, or along front and back and, between them, across the ends.
  void add_edging(geometry::Length across) {
    const geometry::Length zero, thick = p_.edging_thickness, length = p_.length;
    const bool all = p_.edging == Edging::all;
    const geometry::Length out = all ? thick : zero;
    const auto strip = [&](const char* name, int along, geometry::Length x0, geometry::Length y0,
                           geometry::Length x1, geometry::Length y1) {
      made_.parts.push_back(board(name, p_.edging_species, p_.edging_place, {along, 1 - along},
                                  {{x0, y0, zero}, {x1, y1, p_.thickness}}));
    };
    strip("front edging", 0, zero - out, zero - thick, length + out, zero);
    if (all) {
      strip("back edging", 0, zero - out, across, length + out, across + thick);
      strip("left edging", 1, zero - thick, zero, zero, across);
      strip("right edging", 1, length, zero, length + thick, across);
      // Where strips meet, a corner as small as they are thick: left dry.
      keep_dry("front edging", {"left edging", "right edging"}, p_.edging_place, made_);
      keep_dry("back edging", {"left edging", "right edging"}, p_.edging_place, made_);
    }
  }

  work::Channel groove(work::Face edge, geometry::Length depth) const {
    return {false, edge, 0, p_.tongue_low(), p_.tongue_thickness, depth, {}, {}};
  }

  // Its groove is deeper than the tongues, so that the shoulders close. Of the boards it is glued to
  // the one in the middle of the panel alone.
  void add_end(const std::string& name, geometry::Length x, work::Face inner,
               geometry::Length across) {
    const geometry::Length zero;
    work::Part end = board(name, p_.species, p_.ends_place, {1, 2},
                           {{x, zero, zero}, {x + p_.end_width, across, p_.thickness}});
    end.cuts.push_back({p_.ends_place,
                        work::Channel{false, inner, 1, p_.thickness / 3, p_.thickness / 3,
                                      p_.end_tongue + p_.room, {}, {}}});
    made_.parts.push_back(std::move(end));
    geometry::Length low;
    for (std::size_t i = 0; i < p_.widths.size(); ++i) {
      const bool middle = 2 * low <= across && 2 * (low + p_.widths[i]) > across;
      work::JointOverride joint{{"board " + std::to_string(i + 1), name}, {}, {}, {}, {},
                                p_.ends_place};
      if (middle) {
        joint.middle = p_.end_glue;
      } else {
        joint.glued = false;
      }
      made_.overrides.push_back(std::move(joint));
      low += p_.widths[i];
    }
  }

  void add_loose_tongues() {
    geometry::Length seam;
    for (std::size_t i = 0; i + 1 < p_.widths.size(); ++i) {
      seam += p_.widths[i];
      const geometry::Length reach = p_.tongue_depth - p_.room, low = p_.tongue_low();
      made_.parts.push_back(board("tongue " + std::to_string(i + 1), p_.tongue_species,
                                  p_.tongue_place, {0, 2},
                                  {{geometry::Length(), seam - reach, low},
                                   {p_.length, seam + reach, low + p_.tongue_thickness}}));
    }
  }

  const Panel& p_;
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Panel> read = PanelReader(table, notes).read();
  return read ? PanelMaker(*read).make() : Expansion{};
}

constexpr Dimension kWhole[] = {
    {"length", "36", "900"}, {"width", "20", "500"}, {"thickness", "1", "25"}};
constexpr StarterKey kKeys[] = {
    {"length", Holds::length, "of the boards", kRequired},
    {"width", Holds::length, "of the whole panel, where `boards` is a number"},
    {"thickness", Holds::length, "of the boards", kRequired},
    {"boards",
     Holds::lengths,
     "how many alike; or widths: [90, 85, 90]",
     kRequired,
     {"5"},
     {},
     1,
     1000},
    species_key("of the boards"),
    {"tongue",
     Holds::word,
     "between the boards",
     "none",
     {"loose", "", kAsComment},
     {{{"none"}, {"loose", "a strip in two grooves"}, {"real"}}}},
    {"tongue_thickness", Holds::length, "", "a third of the boards' thickness"},
    {"tongue_depth", Holds::length, "into each board", "as deep as thick"},
    {"tongue_species", Holds::wood, "of loose ones", "the boards'"},
    {"ends",
     Holds::word,
     "what the boards' ends get",
     "none",
     {},
     {{{"none"}, {"breadboard", "boards across, glued in the middle only"}}}},
    {"end_width", Holds::length, "of each end, beyond `length`", "3 in or 80 mm"},
    {"edging",
     Holds::word,
     "strips of solid wood on a sheet's edges",
     "none",
     {},
     {{{"none"}, {"front", "along the front edge"}, {"all", "on all four, the front and back ones over the ends"}}}},
    {"edging_thickness", Holds::length, "of the strips, outside `length` and the width", "1/4 in or 6 mm"},
    {"edging_species", Holds::wood, "of the strips", "the boards'; a solid wood"},
};

}  // namespace

constexpr Starter kPanel = {
    .name = "panel",
    .summary = "boards glued edge to edge",
    .about =
        R"(Boards edge to edge: `board 1`, `board 2` ... from the low side of y; with loose tongues `tongue 1` ... after them. A
board with a real tongue is as wide as what shows of it. Breadboard ends are `end 1` and `end 2`: boards across, on a
tongue that is glued in the middle only, so that the panel can move under them. Edging of a sheet good (`boards = 1`) is
`front edging`, and on all sides `back edging`, `left edging` and `right edging`.)",
    .title = "Panel",
    .wood = "hard_maple",
    .dimensions = kWhole,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
