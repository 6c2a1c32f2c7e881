// What the starters have in common: their tables, boards by the space they fill, channels by the
// space of what lies in them, and panels that float or are glued.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/files/file_notes.h"
#include "planner/files/starter/starter.h"
#include "planner/files/table_reader.h"
#include "planner/work/part.h"

namespace planner::files::starter {

inline constexpr work::Face kLeft{0, false}, kRight{0, true}, kFront{1, false}, kBack{1, true},
    kDown{2, false}, kUp{2, true};
work::Face opposite(work::Face face);

// A starter's table. Sizes that are left out are their usual ones.
class StarterTable {
 public:
  StarterTable(const Node& node, const Starter& starter, FileNotes& notes);

  TableReader& keys() { return keys_; }
  const TableReader& keys() const { return keys_; }
  geometry::Length size(std::string_view key);  // required
  geometry::Length size(std::string_view key, geometry::Length usual);
  std::array<geometry::Length, 3> outside();  // the key that holds them, in the order of its dimensions
  // Which of its words the key holds, as the enumerator at its place; the first, noted, where it is
  // required and left out.
  template <class Kind>
  Kind kind(std::string_view key) {
    return static_cast<Kind>(word_index(key));
  }
  std::optional<std::string> word(std::string_view key);
  std::optional<int> count(std::string_view key);
  // A size, a number or a word that means nothing unless `sense`, which is what `needs` says; noted
  // where it is given all the same.
  std::optional<geometry::Length> size_with(std::string_view key, bool sense,
                                            const std::string& needs);
  void only_with(std::string_view key, bool sense, const std::string& needs);
  std::string species(std::string_view key, const std::string& usual);
  std::string species();  // required, unless the file has one at its top

  // Sizes listed one by one, or as a number of equal ones that make up `total`, the last taking
  // what the division leaves over. `one` is what a piece is called: "board".
  std::vector<geometry::Length> pieces(std::string_view key, std::string_view total,
                                       const std::string& one);

  // Notes what cannot be made, at the key or, where it is left out, at the table's header.
  void refuse(std::string_view key, const std::string& message, const std::string& remedy);
  std::string text(geometry::Length length) const { return to_text(length, notes_.units); }
  base::Units units() const { return notes_.units; }

  // Whether anything of the table was wrong or could not be read.
  bool failed() const;

 private:
  int word_index(std::string_view key);
  std::vector<geometry::Length> equal_pieces(std::string_view key, std::string_view total,
                                             std::optional<geometry::Length> whole);

  const Starter& starter_;
  FileNotes& notes_;
  std::size_t before_;
  TableReader keys_;
};

// Common practice: the sheet that boxes, doors and drawers are filled
// with, 1/4 in or 6 mm; the room for a solid panel to swell into on each side, 1/16 in or 1.5 mm;
// and the same at the end of a blind tenon, for glue.
geometry::Length usual_sheet(base::Units units);
geometry::Length usual_room(base::Units units);

// What is said of a panel's fit that is left out.
inline constexpr std::string_view kUsualFit =
    "in a groove a sheet is glued, solid wood floats with 1/16 in or 1.5 mm of room on each side; "
    "elsewhere a sheet to 10 mm is pinned";

// How many keys across each mitred corner, let in once the glue has cured; 0 where the key is left
// out.
inline constexpr StarterKey kKeysKey = {
    "keys", Holds::count, "across each mitered corner, let in once the glue has cured", "none", {},
    {},     1,            50};
int read_keys(StarterTable& table, bool mitred, const std::string& needs);

// Dovetails: `tails` and `slope`. How many tails a row has: as asked, else one for each two and a
// half thicknesses of the pins' board (ours), no more than leave pins that stand. Notes more.
inline constexpr StarterKey kTailsKey = {
    "tails", Holds::count, "in each corner", "one for each two and a half thicknesses of the stock",
    {},      {},           1,                work::kMostFingers};
inline constexpr StarterKey kSlopeKey = {"slope", Holds::ratio, "of the tails: \"1:6\" to \"1:8\" is usual",
                                         "1:8"};
inline constexpr const char* kDovetailed = "corners = \"dovetail\"";
struct TailRoom {
  geometry::Length row, reach;  // across the board; how far the tails reach
  int slope;
};
void read_dovetails(StarterTable& table, bool sense, int& slope);
int tails_in(StarterTable& table, const TailRoom& room);

// A sheet good does not move across its grain, and may be glued in.
bool is_sheet(const std::string& species);

struct Grain {
  int along, face;  // axes of the length and of the thickness
};
// The board that fills the box.
work::Part board(const std::string& name, const std::string& species, const base::Place& place,
                 Grain grain, const geometry::LatticeBox& box);

// A groove or dado in the part's face `on`, running along `runs`, for what fills `space` in the
// assembly: as wide and deep as that and no longer than it reaches into the part.
work::Channel channel_for(const work::Part& part, work::Face on, int runs,
                          const geometry::LatticeBox& space);

// The box made smaller by `margin` on both sides along an axis.
geometry::LatticeBox shrunk(geometry::LatticeBox box, std::size_t axis, geometry::Length margin);

// Overrides that leave the joints of `part` with the others dry.
void keep_dry(const std::string& part, const std::vector<std::string>& others,
              const base::Place& place, Expansion& made);

// Overrides for what the words of a thin sheet's fit say: "glue" (clamped), "pins", "screws", "dry".
// Nothing where the word is left out.
void fit_sheet(const std::optional<std::string>& word, const std::string& part,
               const std::vector<std::string>& others, const base::Place& place, Expansion& made);

// What is said of such a fit that is left out.
inline constexpr std::string_view kUsualSheetFit =
    "a sheet to 10 mm is pinned, anything else glued";

}  // namespace planner::files::starter
