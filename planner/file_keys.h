// Every key the job and shop files may hold, table by table. The readers refuse any other; the
// schemas in docs/ are tested against this list.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace planner {

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

}  // namespace planner
