// Where the schemas of the job and the shop file lie, for editors.
#pragma once
#include <optional>
#include <string>

namespace cli::terminal {

// The whole path of the schema of that name ("job.schema.json") that belongs to this program:
// ../share/glueup beside an installed one, ../docs or ../../docs beside one in its build folder or
// a folder of that. Nothing where there is none.
std::optional<std::string> schema_path(const std::string& name);

}  // namespace cli::terminal
