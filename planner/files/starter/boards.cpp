#include "planner/files/starter/boards.h"

#include <algorithm>
#include <utility>

#include "planner/files/part_file.h"
#include "planner/tables/wood.h"
#include "planner/work/cut.h"

namespace planner::files::starter {

work::Face opposite(work::Face face) {
  return {face.axis, !face.positive};
}

StarterTable::StarterTable(const Node& node, const Starter& starter, FileNotes& notes)
    : starter_(starter),
      notes_(notes),
      before_(notes.diagnostics.size()),
      keys_(node, job_keys(starter.name), notes) {
  keys_.table("measured");  // whose keys job_file.cpp has put here already; notes what is no table
}

geometry::Length StarterTable::size(std::string_view key) {
  return keys_.length(key, Sign::above_zero, Needed::yes).value_or(geometry::Length());
}

geometry::Length StarterTable::size(std::string_view key, geometry::Length usual) {
  return keys_.length(key, Sign::above_zero, Needed::no).value_or(usual);
}

std::array<geometry::Length, 3> StarterTable::outside() {
  std::vector<std::string> names;
  for (const Dimension& dimension : starter_.dimensions) {
    names.emplace_back(dimension.name);
  }
  std::array<geometry::Length, 3> sizes{};
  const auto whole = std::find_if(starter_.keys.begin(), starter_.keys.end(), [](const StarterKey& key) {
    return key.holds == Holds::outside;
  });
  if (const auto read = keys_.lengths(whole->name, names.size(), base::all_of(names),
                                      Sign::above_zero, Needed::yes)) {
    std::copy(read->begin(), read->end(), sizes.begin());
  }
  return sizes;
}

std::optional<std::string> StarterTable::word(std::string_view key) {
  const StarterKey& known = key_of(starter_, key);
  return keys_.word(key, words_of(known), known.usual == kRequired ? Needed::yes : Needed::no);
}

std::optional<int> StarterTable::count(std::string_view key) {
  const StarterKey& known = key_of(starter_, key);
  return keys_.whole(key, known.least, known.most,
                     known.usual == kRequired ? Needed::yes : Needed::no);
}

int StarterTable::word_index(std::string_view key) {
  const std::vector<std::string> words = words_of(key_of(starter_, key));
  const std::string word = this->word(key).value_or(words.front());
  return static_cast<int>(std::find(words.begin(), words.end(), word) - words.begin());
}

std::optional<geometry::Length> StarterTable::size_with(std::string_view key, bool sense,
                                                        const std::string& needs) {
  only_with(key, sense, needs);
  return keys_.length(key, Sign::above_zero, Needed::no);
}

void StarterTable::only_with(std::string_view key, bool sense, const std::string& needs) {
  // A word that could not be read may have been the one that is needed.
  if (!sense && keys_.has(key) && !keys_.any_word_refused()) {
    keys_.refuse(key, "it means nothing without " + needs, "leave it out");
  }
}

std::string StarterTable::species(std::string_view key, const std::string& usual) {
  return read_species(keys_, key, Needed::no).value_or(usual);
}

std::string StarterTable::species() {
  const Needed needed = notes_.species.empty() ? Needed::yes : Needed::no;
  return read_species(keys_, "species", needed).value_or(notes_.species);
}

std::vector<geometry::Length> StarterTable::pieces(std::string_view key, std::string_view total,
                                                   const std::string& one) {
  const Node* node = keys_.value(key);
  const auto whole = keys_.length(total, Sign::above_zero, Needed::no);
  if (node != nullptr && node->kind != NodeKind::list) {
    return equal_pieces(key, total, whole);
  }
  const auto sizes =
      keys_.lengths(key, Sign::above_zero, Needed::yes).value_or(std::vector<geometry::Length>());
  if (node != nullptr && node->items.size() < 2) {
    keys_.refuse(key, (node->items.empty() ? "no " : "one ") + one + " is no glue-up",
                 "list each " + one);
  }
  geometry::Length sum;
  for (const geometry::Length size : sizes) {
    sum += size;
  }
  if (whole && !sizes.empty() && sum != *whole) {
    keys_.refuse(total, "the " + std::string(key) + " add up to " + text(sum),
                 "leave " + std::string(total) + " out, or fix the list");
  }
  return sizes;
}

std::vector<geometry::Length> StarterTable::equal_pieces(std::string_view key,
                                                         std::string_view total,
                                                         std::optional<geometry::Length> whole) {
  const auto count = this->count(key);
  if (!keys_.has(total)) {
    notes_.error(
        keys_.place(key),
        "a number of " + std::string(key) + " needs the whole " + std::string(total),
        "add " + std::string(total) + ", or list each one: " + std::string(key) + " = [..., ...]");
  }
  if (!count || !whole) {
    return {};
  }
  std::vector<geometry::Length> sizes(static_cast<std::size_t>(*count), *whole / *count);
  sizes.back() = *whole - (*count - 1) * sizes.front();
  if (sizes.front() <= geometry::Length()) {
    keys_.refuse(total, "it does not go round", "check the unit");
  }
  return sizes;
}

void StarterTable::refuse(std::string_view key, const std::string& message,
                          const std::string& remedy) {
  notes_.error(keys_.place(key), message, remedy);
}

bool StarterTable::failed() const {
  return notes_.diagnostics.size() != before_ || keys_.any_unread();
}

geometry::Length usual_sheet(base::Units units) {
  return units == base::Units::inch ? geometry::Length::in_64ths(16)
                                    : geometry::Length::whole_mm(6);
}

geometry::Length usual_room(base::Units units) {
  return units == base::Units::inch ? geometry::Length::in_64ths(4)
                                    : geometry::Length::nm(1'500'000);
}

int read_keys(StarterTable& table, bool mitred, const std::string& needs) {
  table.only_with("keys", mitred, needs);
  return table.count("keys").value_or(0);
}

void read_dovetails(StarterTable& table, bool sense, int& slope) {
  table.only_with("tails", sense, kDovetailed);
  table.only_with("slope", sense, kDovetailed);
  slope = read_slope(table.keys()).value_or(kUsualSlope);
}

int tails_in(StarterTable& table, const TailRoom& room) {
  const int most = work::most_tails(room.row, room.reach, room.slope);
  const auto usual = static_cast<int>(2 * room.row.nanometres() / (5 * room.reach.nanometres()));
  const int tails = table.count("tails").value_or(std::clamp(usual, 1, std::max(most, 1)));
  if (tails > most) {
    table.refuse("tails",
                 std::to_string(tails) + " leave pins thinner than " +
                     table.text(work::kThinnestPin) + " in walls " + table.text(room.row) + " high",
                 most > 0 ? "make it " + std::to_string(most) + " at most"
                          : "make the walls higher or the slope shallower");
  }
  return tails;
}

bool is_sheet(const std::string& species) {
  const tables::Wood* wood = tables::find_wood(species);
  return wood != nullptr && wood->kind == tables::WoodKind::sheet;
}

work::Part board(const std::string& name, const std::string& species, const base::Place& place,
                 Grain grain, const geometry::LatticeBox& box) {
  const auto extent = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return box.hi[i] - box.lo[i];
  };
  work::Part part;
  part.name = name;
  part.species = species;
  part.place = place;
  part.along = grain.along;
  part.face = grain.face;
  part.length = extent(grain.along);
  part.width = extent(part.across());
  part.thickness = extent(grain.face);
  part.at = box.lo;
  return part;
}

work::Channel channel_for(const work::Part& part, work::Face on, int runs,
                          const geometry::LatticeBox& space) {
  const auto low = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return space.lo[i] - part.at[i];
  };
  const auto high = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return space.hi[i] - part.at[i];
  };
  const int across = 3 - on.axis - runs;
  work::Channel channel{};
  channel.across_grain = runs != part.along;
  channel.on = on;
  channel.runs = runs;
  channel.offset = low(across);
  channel.width = high(across) - low(across);
  channel.depth = on.positive ? part.size(on.axis) - low(on.axis) : high(on.axis);
  if (low(runs) > geometry::Length()) {
    channel.from = low(runs);
  }
  if (high(runs) < part.size(runs)) {
    channel.to = high(runs);
  }
  return channel;
}

geometry::LatticeBox shrunk(geometry::LatticeBox box, std::size_t axis, geometry::Length margin) {
  box.lo[axis] += margin;
  box.hi[axis] -= margin;
  return box;
}

void keep_dry(const std::string& part, const std::vector<std::string>& others,
              const base::Place& place, Expansion& made) {
  for (const std::string& other : others) {
    made.overrides.push_back({{part, other}, false, {}, {}, {}, place});
  }
}

void fit_sheet(const std::optional<std::string>& word, const std::string& part,
               const std::vector<std::string>& others, const base::Place& place, Expansion& made) {
  if (!word) {
    return;
  }
  if (*word == "dry") {
    keep_dry(part, others, place, made);
    return;
  }
  const work::HeldBy by = *word == "pins"     ? work::HeldBy::pins
                          : *word == "screws" ? work::HeldBy::screws
                                              : work::HeldBy::clamps;
  for (const std::string& other : others) {
    made.overrides.push_back({{part, other}, {}, {}, {}, {}, place, by});
  }
}

}  // namespace planner::files::starter
