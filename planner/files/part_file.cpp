#include "planner/files/part_file.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "planner/tables/wood.h"

namespace planner::files {
namespace {

template <std::size_t N>
std::array<geometry::Length, N> to_array(const std::optional<std::vector<geometry::Length>>& lengths) {
  std::array<geometry::Length, N> out{};
  if (lengths) {
    std::copy_n(lengths->begin(), N, out.begin());
  }
  return out;
}

constexpr std::string_view kCorner = "x, y and z";
constexpr std::string_view kTwo = "the face's two axes in x y z order";

// Reads the keys of one cut. A missing value stays at its default: the job is refused anyway.
class CutReader {
 public:
  CutReader(const Node& node, const std::string& kind, FileNotes& notes)
      : table_(node, job_keys("cut " + kind), notes) {}

  work::Rabbet rabbet() {
    return {face("on"), face("side"), size("width"), size("depth"), at("from"), at("to")};
  }
  work::Channel channel(bool across_grain) {
    return {across_grain,
            face("on"),
            table_.axis("runs", Needed::yes).value_or(0),
            table_.length("offset", Sign::any, Needed::yes).value_or(geometry::Length()),
            size("width"),
            size("depth"),
            at("from"),
            at("to"),
            table_.degrees("lean", Needed::no).value_or(0)};
  }
  work::Hole hole() {
    return {face("on"), list<2>("at", kTwo, Sign::any), size("diameter"), size("depth")};
  }
  work::Notch notch() {
    return {list<3>("from", kCorner, Sign::any), list<3>("size", kCorner, Sign::above_zero)};
  }
  work::Mortise mortise() {
    return {face("on"), list<2>("from", kTwo, Sign::any), list<2>("size", kTwo, Sign::above_zero),
            size("depth")};
  }
  work::Tenon tenon() {
    return {face("on"), size("length"), list<2>("from", kTwo, Sign::any),
            list<2>("size", kTwo, Sign::above_zero)};
  }
  work::Mitre mitre() {
    return {face("side"), face("long"), table_.degrees("angle", Needed::no).value_or(45),
            table_.degrees("taper", Needed::no).value_or(0)};
  }
  work::Fingers fingers() {
    return {face("side"), size("depth"),
            table_.whole("count", 2, work::kMostFingers, Needed::yes).value_or(2),
            table_.word("first", {"keep", "cut"}, Needed::no).value_or("keep") == "keep"};
  }
  work::Tails tails() {
    return {face("side"), size("depth"), count(), slope(), at("from"), at("to")};
  }
  work::Pins pins(const work::Part& part) {
    const work::Face on = face("on");
    return {face("side"),
            on,
            size("depth"),
            table_.length("reach", Sign::above_zero, Needed::no).value_or(part.size(on.axis)),
            count(),
            slope(),
            at("from"),
            at("to")};
  }
  work::Kerf kerf() {
    return {face("side"), face("long"), table_.degrees("angle", Needed::no).value_or(45),
            size("in"),   size("width"), size("depth"), table_.truth("flat").value_or(false)};
  }
  work::Chamfer chamfer() { return {face("on"), face("side"), size("width"), size("depth")}; }
  void finish() { table_.finish(); }

 private:
  work::Face face(std::string_view key) {
    return table_.face(key, Needed::yes).value_or(work::Face{});
  }
  geometry::Length size(std::string_view key) {
    return table_.length(key, Sign::above_zero, Needed::yes).value_or(geometry::Length());
  }
  int count() { return table_.whole("count", 1, work::kMostFingers, Needed::yes).value_or(1); }
  int slope() { return read_slope(table_).value_or(kUsualSlope); }
  std::optional<geometry::Length> at(std::string_view key) {
    return table_.length(key, Sign::any, Needed::no);
  }
  template <std::size_t N>
  std::array<geometry::Length, N> list(std::string_view key, std::string_view what, Sign sign) {
    return to_array<N>(table_.lengths(key, N, what, sign, Needed::yes));
  }

  TableReader table_;
};

const std::vector<std::string>& cut_kinds() {
  static const std::vector<std::string> kKinds = {"rabbet",  "groove", "dado",  "notch",
                                                  "mortise", "tenon",  "miter", "fingers",
                                                  "tails",   "pins",   "kerf",  "chamfer",
                                                  "hole"};
  return kKinds;
}

std::optional<work::Cut> read_cut(const Node& node, const work::Part& part, FileNotes& notes) {
  TableReader table(node, job_keys("cut"), notes);
  const std::optional<std::string> kind = table.word("kind", cut_kinds(), Needed::yes);
  table.note_missing();
  if (!kind) {
    return std::nullopt;
  }
  CutReader read(node, *kind, notes);
  work::Cut cut{notes.place(node), {}};
  for (const Entry& entry : node.entries) {
    cut.values.emplace_back(base::canonical_key(entry.key), notes.place(entry.value));
  }
  if (*kind == "rabbet") {
    cut.shape = read.rabbet();
  } else if (*kind == "groove" || *kind == "dado") {
    cut.shape = read.channel(*kind == "dado");
  } else if (*kind == "notch") {
    cut.shape = read.notch();
  } else if (*kind == "mortise") {
    cut.shape = read.mortise();
  } else if (*kind == "tenon") {
    cut.shape = read.tenon();
  } else if (*kind == "miter") {
    cut.shape = read.mitre();
  } else if (*kind == "fingers") {
    cut.shape = read.fingers();
  } else if (*kind == "tails") {
    cut.shape = read.tails();
  } else if (*kind == "pins") {
    cut.shape = read.pins(part);
  } else if (*kind == "kerf") {
    cut.shape = read.kerf();
  } else if (*kind == "chamfer") {
    cut.shape = read.chamfer();
  } else {
    cut.shape = read.hole();
  }
  read.finish();
  return cut;
}

geometry::Turn read_turn(const Node& node, FileNotes& notes) {
  TableReader table(node, job_keys("turn"), notes);
  const std::optional<int> axis = table.axis("axis", Needed::yes);
  const std::optional<double> angle = table.degrees("angle", Needed::yes);
  const auto about = table.lengths("about", 3, kCorner, Sign::any, Needed::no);
  table.finish();
  return {axis.value_or(0), angle.value_or(0), to_array<3>(about)};
}

// One, or several in the order in which they are made.
std::vector<geometry::Turn> read_turns(TableReader& part, FileNotes& notes) {
  constexpr std::size_t kMostTurns = 3;
  std::vector<geometry::Turn> turns;
  const Node* value = part.value("turn");
  if (value != nullptr && value->kind == NodeKind::list) {
    for (const Node* one : part.tables("turn")) {
      turns.push_back(read_turn(*one, notes));
    }
    if (turns.size() > kMostTurns) {
      part.refuse("turn", "three turns reach any attitude", "write three at most");
    }
  } else if (const Node* one = part.table("turn")) {
    turns.push_back(read_turn(*one, notes));
  }
  return turns;
}

// What was measured on the finished part replaces what was drawn.
void read_measured(work::Part& part, TableReader& table, FileNotes& notes) {
  const Node* node = table.table("measured");
  if (node == nullptr) {
    return;
  }
  TableReader measured(*node, job_keys("measured"), notes);
  const auto replace = [&](std::string_view key, geometry::Length& drawn) {
    drawn = measured.length(key, Sign::above_zero, Needed::no).value_or(drawn);
  };
  replace("length", part.length);
  replace("width", part.width);
  replace("thickness", part.thickness);
  measured.finish();
}

void read_as_built(work::Part& part, TableReader& table, FileNotes& notes) {
  if (auto show = table.faces("show")) {
    part.show = std::move(show);
  }
  part.bow = table.length("bow", Sign::above_zero, Needed::no);
  part.cup = table.length("cup", Sign::above_zero, Needed::no);
  part.hollow = table.has("hollow") ? table.face("hollow", Needed::no) : std::nullopt;
  if ((part.bow || part.cup) && !table.has("hollow")) {
    notes.error(table.place(part.bow ? "bow" : "cup"),
                "a bowed or cupped part needs its hollow side",
                "add hollow = \"-y\", the face that is hollow");
  }
  if (part.hollow && part.hollow->axis == part.along) {
    table.refuse("hollow", "a board cannot be hollow on its end", "name a face or an edge");
  }
}

}  // namespace

std::optional<int> read_slope(TableReader& table) {
  const std::optional<std::string> text = table.text("slope", Needed::no);
  if (!text) {
    return std::nullopt;
  }
  int slope = 0;
  const bool ratio = text->starts_with("1:");
  const char* end = text->data() + text->size();
  const auto read = std::from_chars(text->data() + (ratio ? 2 : 0), end, slope);
  const bool whole = ratio && read.ec == std::errc() && read.ptr == end;
  if (!whole || slope < work::kSteepestTail || slope > work::kShallowestTail) {
    table.refuse("slope",
                 !whole                        ? "no slope in whole numbers"
                 : slope < work::kSteepestTail ? "tails so steep break off at their corners"
                                               : "tails so shallow slip apart",
                 "write slope = \"1:8\"; from \"1:4\" to \"1:12\", 1:6 in softwood, 1:8 in "
                 "hardwood are usual");
    return std::nullopt;
  }
  return slope;
}

std::optional<std::string> read_species(TableReader& table, std::string_view key, Needed needed) {
  const std::optional<std::string> name = table.text(key, needed);
  if (!name) {
    return std::nullopt;
  }
  if (std::ranges::any_of(table.own_woods(), [&](const auto& own) { return own->id == *name; })) {
    return *name;
  }
  const tables::Wood* wood = tables::find_wood(*name);
  if (wood == nullptr) {
    table.refuse(key, "this wood is not in the table",
                 base::did_you_mean(*name, tables::wood_ids(),
                                    "`glueup tables woods` lists them; [[wood]] of the shop file describes others"));
    return std::nullopt;
  }
  return wood->id;
}

namespace {

// Where a board lies and how large it is. Whether all of it was there.
bool read_board(work::Part& part, TableReader& table) {
  const auto length = table.length("length", Sign::above_zero, Needed::yes);
  const auto width = table.length("width", Sign::above_zero, Needed::yes);
  const auto thickness = table.length("thickness", Sign::above_zero, Needed::yes);
  const auto along = table.axis("along", Needed::yes);
  const auto face = table.axis("face", Needed::yes);
  const auto at = table.lengths("at", 3, kCorner, Sign::any, Needed::yes);
  const bool same_axis = along && face && *along == *face;
  if (same_axis) {
    table.refuse("face", "the thickness cannot run along the same axis as the length",
                 "name another axis in face or in along");
  }
  part.length = length.value_or(geometry::Length());
  part.width = width.value_or(geometry::Length());
  part.thickness = thickness.value_or(geometry::Length());
  part.along = along.value_or(0);
  part.face = same_axis || !face ? (part.along + 2) % 3 : *face;
  part.at = to_array<3>(at);
  return length && width && thickness && along && face && at && !same_axis;
}

// A dowel is given by its axis.
bool read_dowel(work::Part& part, TableReader& table) {
  const auto length = table.length("length", Sign::above_zero, Needed::yes);
  const auto diameter = table.length("diameter", Sign::above_zero, Needed::yes);
  const auto along = table.axis("along", Needed::yes);
  const auto at = table.lengths("at", 3, kCorner, Sign::any, Needed::yes);
  part.round = true;
  part.length = length.value_or(geometry::Length());
  part.width = part.thickness = diameter.value_or(geometry::Length());
  part.along = along.value_or(0);
  part.face = (part.along + 2) % 3;
  part.at = to_array<3>(at);
  for (const int axis : {part.face, part.across()}) {
    part.at[static_cast<std::size_t>(axis)] -= part.width / 2;
  }
  return length && diameter && along && at;
}

}  // namespace

std::optional<work::Part> read_part(const Node& node, FileNotes& notes) {
  TableReader kind_table(node, job_keys("part"), notes);
  const bool dowel = kind_table.word("kind", {"board", "dowel"}, Needed::no) == "dowel";
  TableReader table(node, job_keys(dowel ? "part dowel" : "part"), notes);
  work::Part part;
  part.place = notes.place(node);
  const auto name = table.text("name", Needed::yes);
  part.name = name.value_or("");
  const Needed species = notes.species.empty() ? Needed::yes : Needed::no;
  part.species = read_species(table, "species", species).value_or(notes.species);
  const bool placed = dowel ? read_dowel(part, table) : read_board(part, table);
  part.turns = read_turns(table, notes);
  bool cuts_read = true;
  if (!dowel) {
    read_as_built(part, table, notes);
    read_measured(part, table, notes);
    const std::vector<const Node*> cuts = table.tables("cut");
    if (cuts.size() > work::kMostCuts) {
      notes.error(
          part.place, "\"" + shown(part.name) + "\" has " + std::to_string(cuts.size()) + " cuts",
          "at most " + std::to_string(work::kMostCuts) + " a part: describe it as several parts");
      return std::nullopt;
    }
    for (const Node* cut : cuts) {
      const std::size_t before = notes.diagnostics.size();
      if (auto read = read_cut(*cut, part, notes)) {
        part.cuts.push_back(std::move(*read));
      }
      cuts_read = cuts_read && notes.diagnostics.size() == before;
    }
  }
  table.finish();
  return name && placed && cuts_read ? std::optional(std::move(part)) : std::nullopt;
}

void amend_part(work::Part& part, const Node& node, FileNotes& notes) {
  TableReader table(node, job_keys("part of a starter"), notes);
  table.text("name", Needed::yes);
  part.species = read_species(table, "species", Needed::no).value_or(part.species);
  part.place = notes.place(node);
  read_as_built(part, table, notes);
  read_measured(part, table, notes);
  table.finish();
}

work::MeshNote read_mesh_note(const Node& node, FileNotes& notes) {
  TableReader table(node, job_keys("part of a mesh"), notes);
  work::MeshNote note;
  note.said.place = notes.place(node);
  note.said.name = table.text("name", Needed::yes).value_or("");
  note.said.species = read_species(table, "species", Needed::no).value_or("");
  note.along = table.axis("along", Needed::no);
  note.said.along = note.along.value_or(-1);
  read_as_built(note.said, table, notes);
  table.finish();
  return note;
}

}  // namespace planner::files
