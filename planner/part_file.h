// [[part]] and [[part.cut]] of a job file.
#pragma once
#include <optional>
#include <string>

#include "planner/file_notes.h"
#include "planner/job.h"
#include "planner/part.h"
#include "planner/table_reader.h"

namespace planner {

// The part that the table describes; nothing where it is too incomplete to make one. What is wrong
// is in `notes`.
std::optional<Part> read_part(const Node& table, FileNotes& notes);

// A [[part]] that names one which a starter has made may say of what wood and how it turned out:
// species, show, bow, cup, hollow, measured.
void amend_part(Part& part, const Node& table, FileNotes& notes);

// A [[part]] that names one of a mesh: of what wood, and which way its grain runs.
MeshNote read_mesh_note(const Node& table, FileNotes& notes);

// The wood a key names, by its id in the table. Nothing where the key is missing or names none.
std::optional<std::string> read_species(TableReader& table, std::string_view key, Needed needed);

}  // namespace planner
