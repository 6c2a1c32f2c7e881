// Which tables an answer rests on, so that two answers can be told apart.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace planner::tables {

struct TableVersion {
  std::string name;         // "woods"
  std::size_t rows = 0;     // without the header
  std::uint32_t crc32 = 0;  // of the table's text
};
std::vector<TableVersion> table_versions();

// CRC-32 of ISO 3309, as zip and PNG use it.
std::uint32_t crc32_of(std::string_view text);

}  // namespace planner::tables
