#include "planner/starter/boards.h"

#include <algorithm>
#include <utility>

#include "planner/part_file.h"
#include "planner/tables/wood.h"

namespace planner::starter {

Face opposite(Face face) {
  return {face.axis, !face.positive};
}

StarterTable::StarterTable(const Node& node, std::string_view id, FileNotes& notes)
    : notes_(notes), before_(notes.diagnostics.size()), keys_(node, job_keys(id), notes) {}

Length StarterTable::size(std::string_view key) {
  return keys_.length(key, Sign::above_zero, Needed::yes).value_or(Length());
}

Length StarterTable::size(std::string_view key, Length usual) {
  return keys_.length(key, Sign::above_zero, Needed::no).value_or(usual);
}

std::optional<Length> StarterTable::size_with(std::string_view key, bool sense,
                                              const std::string& needs) {
  only_with(key, sense, needs);
  return keys_.length(key, Sign::above_zero, Needed::no);
}

void StarterTable::only_with(std::string_view key, bool sense, const std::string& needs) {
  if (!sense && keys_.has(key)) {
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

void StarterTable::refuse(std::string_view key, const std::string& message,
                          const std::string& remedy) {
  notes_.error(keys_.place(key), message, remedy);
}

bool StarterTable::failed() const {
  return notes_.diagnostics.size() != before_ || keys_.any_unread();
}

Length usual_sheet(Units units) {
  return units == Units::inch ? Length::in_64ths(16) : Length::whole_mm(6);
}

Length usual_room(Units units) {
  return units == Units::inch ? Length::in_64ths(4) : Length::nm(1'500'000);
}

bool is_sheet(const std::string& species) {
  const Wood* wood = find_wood(species);
  return wood != nullptr && wood->kind == WoodKind::sheet;
}

Part board(const std::string& name, const std::string& species, const Place& place, Grain grain,
           const geometry::LatticeBox& box) {
  const auto extent = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return box.hi[i] - box.lo[i];
  };
  Part part;
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

Channel channel_for(const Part& part, Face on, int runs, const geometry::LatticeBox& space) {
  const auto low = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return space.lo[i] - part.at[i];
  };
  const auto high = [&](int axis) {
    const auto i = static_cast<std::size_t>(axis);
    return space.hi[i] - part.at[i];
  };
  const int across = 3 - on.axis - runs;
  Channel channel{};
  channel.across_grain = runs != part.along;
  channel.on = on;
  channel.runs = runs;
  channel.offset = low(across);
  channel.width = high(across) - low(across);
  channel.depth = on.positive ? part.size(on.axis) - low(on.axis) : high(on.axis);
  if (low(runs) > Length()) {
    channel.from = low(runs);
  }
  if (high(runs) < part.size(runs)) {
    channel.to = high(runs);
  }
  return channel;
}

geometry::LatticeBox shrunk(geometry::LatticeBox box, std::size_t axis, Length margin) {
  box.lo[axis] += margin;
  box.hi[axis] -= margin;
  return box;
}

void keep_dry(const std::string& part, const std::vector<std::string>& others, const Place& place,
              Expansion& made) {
  for (const std::string& other : others) {
    made.overrides.push_back({{part, other}, false, {}, {}, {}, place});
  }
}

}  // namespace planner::starter
