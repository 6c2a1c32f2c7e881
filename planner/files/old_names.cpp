#include "planner/files/old_names.h"

#include <span>
#include <string_view>

namespace planner::files {
namespace {

struct OldName {
  std::string_view table;  // whose key it is, one or a list of them; "" for the top of the file
  std::string_view before, now;
  std::string_view instead = {};  // where nothing takes its place: why not
};
constexpr OldName kInJob[] = {
    {"", "trestle", "table_base"}, {"", "placed", "my_clamp"}, {"joint", "surfaces", "faces"}};
constexpr OldName kInShop[] = {
    {"pace", "narrow", "channel"},
    {"pace", "joint", "channel_joint"},
    {"pace", "place", "join"},
    {"pace", "close", "", "the last part takes \"join\", and \"next\" for each further joint"}};

// The key by its old name, renamed if it has a new one; null where the table has none.
Entry* rename_in(Node& table, const OldName& name) {
  for (Entry& entry : table.entries) {
    if (entry.key == name.before) {
      entry.key = name.now.empty() ? entry.key : name.now;
      return &entry;
    }
  }
  return nullptr;
}

// The first of those renamed in a table or a list of tables; null where none was.
const Entry* rename_in_table(Node& file, const OldName& name) {
  const Entry* first = nullptr;
  for (Entry& entry : file.entries) {
    if (entry.key != name.table) {
      continue;
    }
    first = first == nullptr ? rename_in(entry.value, name) : first;
    for (Node& table : entry.value.items) {
      const Entry* renamed = rename_in(table, name);
      first = first == nullptr ? renamed : first;
    }
  }
  return first;
}

void rename_keys(std::span<const OldName> names, Node& file, FileNotes& notes) {
  for (const OldName& name : names) {
    const Entry* first = name.table.empty() ? rename_in(file, name) : rename_in_table(file, name);
    if (first == nullptr) {
      continue;
    }
    const std::string before = "\"" + std::string(name.before) + "\"";
    notes.warn(notes.place(*first),
               name.now.empty() ? before + " is not asked for any more: " + std::string(name.instead)
                                : before + " is called \"" + std::string(name.now) + "\" now");
  }
}

// What nothing takes the place of.
void take_out(std::span<const OldName> names, Node& file) {
  for (const OldName& name : names) {
    for (Entry& entry : file.entries) {
      if (name.now.empty() && entry.key == name.table) {
        std::erase_if(entry.value.entries, [&](const Entry& e) { return e.key == name.before; });
      }
    }
  }
}

}  // namespace

void rename_old_job_keys(Node& job, FileNotes& notes) {
  rename_keys(kInJob, job, notes);
}

void rename_old_shop_keys(Node& shop, FileNotes& notes) {
  rename_keys(kInShop, shop, notes);
  take_out(kInShop, shop);
}

}  // namespace planner::files
