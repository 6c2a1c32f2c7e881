#include "planner/tables/version.h"

#include "planner/tables/csv.h"

namespace planner::tables {

std::uint32_t crc32_of(std::string_view text) {
  constexpr std::uint32_t kReversedPolynomial = 0xEDB88320;
  std::uint32_t crc = 0xFFFFFFFF;
  for (const char c : text) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) {
      crc = (crc & 1) != 0 ? (crc >> 1) ^ kReversedPolynomial : crc >> 1;
    }
  }
  return ~crc;
}

std::vector<TableVersion> table_versions() {
  std::vector<TableVersion> out;
  for (const char* name :
       {"woods", "wood_classes", "glues", "glue_temperature", "clamps", "pressures"}) {
    const std::string_view text = embedded(name);
    out.push_back({name, read_csv(text).size(), crc32_of(text)});
  }
  return out;
}

}  // namespace planner::tables
