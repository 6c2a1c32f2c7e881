// Every key the job and shop files may hold, table by table; a starter's are in its description.
// The readers refuse any other; the schemas in docs/ are tested against this list.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "planner/files/document.h"

namespace planner::files {

struct TableKeys {
  std::string id;       // "part", "cut rabbet"; "" for the top of the file
  std::string heading;  // as the user writes it: "[[part]]"
  std::vector<std::string> keys;
};

const std::vector<TableKeys>& job_file_keys();
const std::vector<TableKeys>& shop_file_keys();

// REQUIRES: there is such a table.
const TableKeys& job_keys(std::string_view id);
const TableKeys& shop_keys(std::string_view id);

// The first entry that only the other kind of file has, where none is only this kind's: somebody
// gave the one for the other. nullptr in every other case.
const Entry* of_other_file(const Node& root, const TableKeys& own, const TableKeys& other);

}  // namespace planner::files
