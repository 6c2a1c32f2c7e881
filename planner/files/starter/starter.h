// Starters: one table of a job file that stands for all its parts. What is known of one stands in
// its own file, once: its keys, what they hold, what stands where they are left out, and the parts
// they make. The readers' list of keys, what `glueup new` writes, the schema, docs/job_file.md and
// every list of kinds follow from these descriptions.
#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planner/files/file_notes.h"
#include "planner/work/job.h"

namespace planner::files::starter {

// What a table stands for; without parts where something is wrong, which is then in the notes. The
// assembly has its lowest corner at 0, 0, 0: x along the length, y along the width with the front
// at its low side, z up.
struct Expansion {
  std::vector<work::Part> parts;
  std::vector<work::JointOverride> overrides;
  std::optional<work::Keys> keys = {};
  std::optional<work::EvenRing> even_ring = {};
  std::optional<work::Breadboard> breadboard = {};
  std::optional<work::Bend> bend = {};
};

// What a key holds.
enum class Holds {
  length,   // a size above zero
  outside,  // a list of sizes, the starter's dimensions
  lengths,  // sizes one by one, or how many alike: from `least` to `most`
  count,    // a whole number from `least` to `most`
  word,     // one of `words`
  wood,     // an id of the table of woods
  ratio,    // "1:8"
  angle,    // degrees
  truth     // true or false
};

struct StarterWord {
  std::string_view word;
  std::string_view meaning = {};  // of it, where the word alone is not enough
};

// What a new file has of a key: a value in each unit, the same in both where `mm` is empty.
struct Sample {
  std::string_view inches = {}, mm = {};
  bool as_comment = false;  // to be taken up
};
inline constexpr bool kAsComment = true;

inline constexpr std::string_view kRequired = "required";

struct StarterKey {
  std::string_view name;
  Holds holds;
  std::string_view help = {};   // beside its name: "thickness of the walls"
  std::string_view usual = {};  // what stands where it is left out: "half the stock"; or kRequired
  Sample sample = {};
  std::array<StarterWord, 7> words = {};
  int least = 0, most = 0;
};

// A size of the whole, in the order of `--size`, and what it is where nobody says otherwise.
struct Dimension {
  std::string_view name, inches, mm;
};

struct Starter {
  std::string_view name;     // of its table: "box"
  std::string_view summary;  // "a box: front, back, left, right, bottom and top"
  std::string_view about;    // in docs/job_file.md: which parts it makes, and how they lie
  std::string_view title;    // of the file that `glueup new` writes
  std::string_view wood;     // of that file
  std::span<const Dimension> dimensions;
  std::span<const StarterKey> keys;  // all but `measured`, in the order a new file has them
  // From the table to its parts. Refuses what cannot be made, with the reason.
  Expansion (*expand)(const Node& table, FileNotes& notes);
};

// The wood of all parts that no other key names: required, unless the file has one at its top.
constexpr StarterKey species_key(std::string_view help) {
  return {"species", Holds::wood, help, "required, unless the file has one at its top"};
}

extern const Starter kBox, kPanel, kFrame, kCarcass, kDrawer, kTableBase, kLamination, kRing, kVeneer, kBent;

// All there are, in the order of every list of them.
inline constexpr std::array kStarters = {&kBox,       &kPanel, &kFrame,   &kCarcass, &kDrawer, &kTableBase,
                                         &kLamination, &kRing,  &kVeneer, &kBent};

// REQUIRES: the starter has such a key.
const StarterKey& key_of(const Starter& starter, std::string_view name);

// "butt", "rabbet" ... of a key that holds a word.
std::vector<std::string> words_of(const StarterKey& key);

}  // namespace planner::files::starter
