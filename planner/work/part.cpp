#include "planner/work/part.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string_view>

#include "geometry/elementary.h"
#include "planner/base/spelling.h"
#include "planner/work/cut_check.h"

namespace planner::work {
std::string to_text(Face face) {
  return std::string(face.positive ? "+" : "-") + static_cast<char>('x' + face.axis);
}

std::optional<Face> face_from(const std::string& text) {
  const bool known =
      text.size() == 2 && (text[0] == '-' || text[0] == '+') && text[1] >= 'x' && text[1] <= 'z';
  return known ? std::optional(Face{text[1] - 'x', text[0] == '+'}) : std::nullopt;
}

geometry::LatticeBox Part::blank() const {
  return {at, {at[0] + size(0), at[1] + size(1), at[2] + size(2)}};
}

namespace {

// Half a sheet of paper; the thinnest veneer is several times as thick.
constexpr geometry::Length kThinnest = geometry::Length::nm(50'000);

// Sizes that are below what a board can be, of all parts of one place in the file.
struct TooThin {
  std::string first;
  int more = 0;
  geometry::Length least, most;
};
// By place and by " long", " wide" ...
using TooThins = std::map<std::pair<base::Place, std::string_view>, TooThin>;

void add_size(const Part& part, geometry::Length size, std::string_view wide, TooThins& all) {
  if (size >= kThinnest) {
    return;
  }
  const auto [found, is_new] =
      all.try_emplace({part.place, wide}, TooThin{part.name, 0, size, size});
  TooThin& thin = found->second;
  thin.more += is_new ? 0 : 1;
  thin.least = std::min(thin.least, size);
  thin.most = std::max(thin.most, size);
}

std::string to_text(const TooThin& thin, base::Units units) {
  return "\"" + base::shown(thin.first) + "\" " +
         (thin.more == 0 ? "is " : "and " + std::to_string(thin.more) + " more are ") +
         to_text(thin.least, units) +
         (thin.least == thin.most ? "" : " to " + to_text(thin.most, units));
}

}  // namespace

base::Diagnostics check_parts(std::span<const Part> parts, base::Units units) {
  TooThins thin;
  base::Diagnostics all;
  for (const Part& part : parts) {
    add_size(part, part.length, " long", thin);
    add_size(part, part.width, part.round ? " across" : " wide", thin);
    if (!part.round) {
      add_size(part, part.thickness, " thick", thin);
    }
    for (const Cut& cut : part.cuts) {
      const base::Diagnostics found = check_cut(part, cut, units);
      all.insert(all.end(), found.begin(), found.end());
    }
  }
  for (const auto& [where, sizes] : thin) {
    all.push_back(
        {base::Severity::error, where.first,
         to_text(sizes, units) + std::string(where.second) + ": no board is as thin as that",
         "check the unit"});
  }
  return all;
}

const tables::Wood* wood_of(const Part& part) {
  return part.own_wood ? part.own_wood.get() : tables::find_wood(part.species);
}

void take_own_woods(std::span<Part> parts, const OwnWoods& woods) {
  for (Part& part : parts) {
    for (const auto& wood : woods) {
      if (wood->id == part.species) {
        part.own_wood = wood;
      }
    }
  }
}

geometry::Direction turned(const Part& part, geometry::Direction d) {
  for (const geometry::Turn& turn : part.turns) {
    // Right-handed about the axis: what is square to it leans towards axis x direction.
    const double angle = turn.angle_deg * std::numbers::pi / 180;
    const geometry::Direction axis = geometry::kAxis[turn.axis];
    const geometry::Direction along = dot(axis, d) * axis, off = d - along;
    d = along + geometry::cosine(angle) * off + geometry::sine(angle) * cross(axis, off);
  }
  return d;
}

geometry::Direction grain_of(const Part& part) {
  return part.grain ? *part.grain : turned(part, geometry::kAxis[part.along]);
}

}  // namespace planner::work
