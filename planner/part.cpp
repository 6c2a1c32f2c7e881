#include "planner/part.h"

#include <cmath>
#include <numbers>

#include "planner/cut.h"
#include "planner/file_notes.h"

namespace planner {
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
constexpr Length kThinnest = Length::nm(50'000);

void check_size(const Part& part, Length size, const char* wide, Units units, Diagnostics& found) {
  if (size < kThinnest) {
    found.push_back({Severity::error, part.place,
                     "\"" + shown(part.name) + "\" is " + to_text(size, units) + wide +
                         ": no board is as thin as that",
                     "check the unit"});
  }
}

}  // namespace

Diagnostics check_part(const Part& part, Units units) {
  Diagnostics all;
  check_size(part, part.length, " long", units, all);
  check_size(part, part.width, part.round ? " across" : " wide", units, all);
  if (!part.round) {
    check_size(part, part.thickness, " thick", units, all);
  }
  for (const Cut& cut : part.cuts) {
    const Diagnostics found = check_cut(part, cut, units);
    all.insert(all.end(), found.begin(), found.end());
  }
  return all;
}

geometry::Direction grain_of(const Part& part) {
  if (part.grain) {
    return *part.grain;
  }
  const geometry::Direction grain = geometry::kAxis[part.along];
  if (!part.turn || part.turn->axis == part.along) {
    return grain;
  }
  // Right-handed about the axis: the grain leans towards axis x grain.
  const double angle = part.turn->angle_deg * std::numbers::pi / 180;
  const geometry::Direction side = geometry::cross(geometry::kAxis[part.turn->axis], grain);
  return {std::cos(angle) * grain.x + std::sin(angle) * side.x,
          std::cos(angle) * grain.y + std::sin(angle) * side.y,
          std::cos(angle) * grain.z + std::sin(angle) * side.z};
}

}  // namespace planner
