#include "cli/json/file_json.h"

#include <array>

#include "cli/json/json_values.h"
#include "planner/files/document.h"

namespace cli::json {
namespace {

using planner::files::Node;
using planner::files::NodeKind;

const char* kind_word(NodeKind kind) {
  constexpr std::array<const char*, 7> kWords = {"table", "list", "text",  "number",
                                                 "truth", "date", "unread"};
  return kWords[static_cast<std::size_t>(kind)];
}

Json node_json(const Node& node) {
  Json json{{"kind", kind_word(node.kind)}, {"line", node.line}};
  if (node.kind == NodeKind::table) {
    Json entries = Json::object();
    for (const planner::files::Entry& entry : node.entries) {
      entries[entry.key] = node_json(entry.value);
    }
    json["entries"] = std::move(entries);
  } else if (node.kind == NodeKind::list) {
    json["items"] = array_of(node.items, node_json);
  } else {
    json["text"] = node.text;
  }
  return json;
}

}  // namespace

std::string json_file(std::string_view text) {
  const planner::files::Document document = planner::files::read_document("", text);
  const Json json{{"root", document.root ? node_json(*document.root) : Json()}};
  return json.dump() + "\n";
}

}  // namespace cli::json
