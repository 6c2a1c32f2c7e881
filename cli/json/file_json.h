// A job or shop file as it stands, for a form over it.
#pragma once
#include <string>
#include <string_view>

namespace cli::json {

// {"root": ...}, or {"root": null} where the text is too broken. A node has its kind ("table", "list", "text",
// "number", "truth", "date", "unread"), its line, and `entries` by key, `items`, or its `text`.
std::string json_file(std::string_view text);

}  // namespace cli::json
