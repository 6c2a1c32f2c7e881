#include "planner/files/old_names.h"

#include <array>
#include <string_view>

namespace planner::files {
namespace {

struct OldName {
  std::string_view table;  // whose key it is, a list of tables; "" for the top of the file
  std::string_view before, now;
};
constexpr std::array<OldName, 3> kOldNames = {
    {{"", "trestle", "table_base"}, {"", "placed", "my_clamp"}, {"joint", "surfaces", "faces"}}};

// The key by its old name, renamed; null where the table has none.
const Entry* rename_in(Node& table, const OldName& name) {
  for (Entry& entry : table.entries) {
    if (entry.key == name.before) {
      entry.key = name.now;
      return &entry;
    }
  }
  return nullptr;
}

// The first of those renamed in a list of tables; null where none was.
const Entry* rename_in_list(Node& job, const OldName& name) {
  const Entry* first = nullptr;
  for (Entry& list : job.entries) {
    if (list.key != name.table) {
      continue;
    }
    for (Node& table : list.value.items) {
      const Entry* renamed = rename_in(table, name);
      first = first == nullptr ? renamed : first;
    }
  }
  return first;
}

}  // namespace

void rename_old_keys(Node& job, FileNotes& notes) {
  for (const OldName& name : kOldNames) {
    const Entry* first = name.table.empty() ? rename_in(job, name) : rename_in_list(job, name);
    if (first != nullptr) {
      notes.warn(notes.place(*first), "\"" + std::string(name.before) + "\" is called \"" +
                                          std::string(name.now) + "\" now");
    }
  }
}

}  // namespace planner::files
