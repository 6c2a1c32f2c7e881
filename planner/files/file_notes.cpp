#include "planner/files/file_notes.h"

#include <utility>

namespace planner::files {

void FileNotes::error(const base::Place& place, std::string message, std::string remedy) {
  diagnostics.push_back({base::Severity::error, place, std::move(message), std::move(remedy)});
}

void FileNotes::warn(const base::Place& place, std::string message) {
  diagnostics.push_back({base::Severity::warning, place, std::move(message), ""});
}

void limit(base::Diagnostics& diagnostics, const std::string& file) {
  constexpr std::size_t kMostTold = 1000;
  if (diagnostics.size() <= kMostTold) {
    return;
  }
  const std::size_t more = diagnostics.size() - kMostTold;
  const bool errors = has_errors(diagnostics);
  diagnostics.resize(kMostTold);
  diagnostics.push_back({errors ? base::Severity::error : base::Severity::warning,
                         {file, 0, 0},
                         "and " + std::to_string(more) + " more mistakes",
                         "fix these first"});
}

std::string shown(const Node& node) {
  switch (node.kind) {
    case NodeKind::text:
      return "\"" + shown(node.text) + "\"";
    case NodeKind::number:
    case NodeKind::truth:
    case NodeKind::date:
      return shown(node.text);
    default:
      return std::string(kind_name(node.kind));
  }
}

std::string_view kind_name(NodeKind kind) {
  switch (kind) {
    case NodeKind::table:
      return "a table";
    case NodeKind::list:
      return "a list";
    case NodeKind::text:
      return "a text";
    case NodeKind::number:
      return "a number";
    case NodeKind::truth:
      return "true or false";
    case NodeKind::date:
      return "a date or time of day";
    case NodeKind::unread:
      break;
  }
  return "unreadable";
}

}  // namespace planner::files
