// Finding a row by the name a person writes.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace planner::tables {

// The name as an id: lower case, words joined with "_", UK spellings made US ("G-cramp" gives
// "g_clamp", "Mitre" "miter", "aluminium" "aluminum", "fibreboard" "fiberboard").
std::string trade_key(std::string_view name);

// The row that `name` means: by id, else by an other name of the table's column `also`, else by its
// printed name ("Cherry, black" and "black cherry" alike). Null where none does.
template <class RowType>
const RowType* find_by_name(const std::vector<RowType>& rows, std::string_view name);

// Words of `key` after the comma of a handbook name go in front: "cherry, black" is "black cherry".
std::string plain_order(std::string_view handbook_name);

template <class RowType>
const RowType* find_by_name(const std::vector<RowType>& rows, std::string_view name) {
  for (const RowType& row : rows)
    if (row.id == name)
      return &row;
  const std::string key = trade_key(name);
  for (const RowType& row : rows)
    if (trade_key(row.id) == key)
      return &row;
  for (const RowType& row : rows)
    for (const std::string& also : row.also)
      if (trade_key(also) == key)
        return &row;
  const std::string plain = trade_key(plain_order(name));
  for (const RowType& row : rows)
    if (trade_key(plain_order(row.name)) == plain)
      return &row;
  return nullptr;
}

template <class RowType>
std::vector<std::string> ids_of(const std::vector<RowType>& rows) {
  std::vector<std::string> ids;
  ids.reserve(rows.size());
  for (const RowType& row : rows)
    ids.push_back(row.id);
  return ids;
}

}  // namespace planner::tables
