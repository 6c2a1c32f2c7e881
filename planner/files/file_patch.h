// One value of a job or shop file changed where it stands: every other byte stays as somebody wrote it,
// comments, order and spelling with it.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace planner::files {

// From the file's top: keys, and of a list the number of its item from 0. {"clamp", "1", "count"}.
using FilePath = std::vector<std::string>;

// A value as it is typed into a field, as TOML has it: a number bare unless `quoted`, else a text.
std::string toml_value(std::string_view typed, bool quoted);

// Puts `value`, written as TOML, where the path leads. A key that isn't there becomes a line behind those of
// its table, a table that isn't there stands at the end. Nothing where the text is too broken to find the place,
// or the value would break it.
std::optional<std::string> with_value(std::string_view text, const FilePath& path, std::string_view value);

// Takes out a key with its line, an item of a list, or a table of several with all its lines.
std::optional<std::string> without(std::string_view text, const FilePath& path);

// A table under its heading with its lines: "[pace]" at the end, "[[clamp]]" behind the last of its kind.
std::optional<std::string> with_table(std::string_view text, std::string_view heading, std::string_view lines);

}  // namespace planner::files
