// [[part]] and [[part.cut]] of a job file.
#pragma once
#include <optional>
#include <string>

#include "planner/files/file_notes.h"
#include "planner/files/table_reader.h"
#include "planner/work/job.h"
#include "planner/work/part.h"

namespace planner::files {

// The part that the table describes; nothing where it is too incomplete to make one. What is wrong
// is in `notes`.
std::optional<work::Part> read_part(const Node& table, FileNotes& notes);

// A [[part]] that names one which a starter has made may say of what wood and how it turned out:
// species, show, bow, cup, hollow, measured.
void amend_part(work::Part& part, const Node& table, FileNotes& notes);

// A [[part]] that names one of a mesh: of what wood, and which way its grain runs.
work::MeshNote read_mesh_note(const Node& table, FileNotes& notes);

// Of dovetails, "1:8" under `slope`: 8. Nothing where it is left out or no such slope, which is
// noted. Common practice: 1:6 in softwood to 1:8 in hardwood.
inline constexpr int kUsualSlope = 8;
std::optional<int> read_slope(TableReader& table);

// The wood a key names, by its id in the table. Nothing where the key is missing or names none.
std::optional<std::string> read_species(TableReader& table, std::string_view key, Needed needed);

}  // namespace planner::files
