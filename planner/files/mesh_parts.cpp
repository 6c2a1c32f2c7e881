#include "planner/files/mesh_parts.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>
#include <vector>

#include "geometry/mesh/mesh_file.h"
#include "planner/files/file_notes.h"
#include "planner/files/mesh_units.h"
#include "planner/work/job_check.h"

namespace planner::files {
namespace {

geometry::Length to_length(double mm) {
  return geometry::Length::nm(std::llround(mm * 1e6));
}

// The axis a direction runs along most.
int main_axis(const geometry::Direction& d) {
  int axis = 0;
  for (int i = 1; i < 3; ++i) {
    axis = std::abs(d[static_cast<std::size_t>(i)]) >
                   std::abs(d[static_cast<std::size_t>(axis)]) + 1e-9
               ? i
               : axis;
  }
  return axis;
}

class MeshReader {
 public:
  explicit MeshReader(work::Job& job) : job_(job), source_(*job.mesh) {}

  base::Diagnostics read(std::span<const MeshBytes> files) {
    if (source_.unit == geometry::Length()) {
      guess_unit(files);
    }
    for (const MeshBytes& file : files) {
      read_file(file);
    }
    const base::Diagnostics wrong = check_parts(parts_, job_.units);
    found_.insert(found_.end(), wrong.begin(), wrong.end());
    std::move(job_.parts.begin(), job_.parts.end(), std::back_inserter(parts_));
    job_.parts = std::move(parts_);
    if (!has_errors(found_)) {
      if (job_.parts.size() == 1) {
        error(source_.place, "one part alone has nothing to be glued to",
              "export the others too, each as an object of its own");
      }
      take_own_woods(job_.parts, job_.own_woods);
      check_names();
      const base::Diagnostics too_many = check_part_count(job_);
      found_.insert(found_.end(), too_many.begin(), too_many.end());
    }
    sort_by_place(found_);
    limit(found_, job_.file);
    return std::move(found_);
  }

 private:
  void error(const base::Place& place, std::string message, std::string remedy) {
    found_.push_back({base::Severity::error, place, std::move(message), std::move(remedy)});
  }

  // Where nothing can be read, reading says why in whatever unit.
  void guess_unit(std::span<const MeshBytes> files) {
    std::vector<geometry::Direction> sizes;
    for (const MeshBytes& file : files) {
      if (const auto format = geometry::mesh_format(file.file)) {
        const auto drawn = geometry::drawn_sizes(file.bytes, *format);
        sizes.insert(sizes.end(), drawn.begin(), drawn.end());
      }
    }
    job_.mesh->unit = geometry::Length::whole_mm(1);
    if (sizes.empty()) {
      return;
    }
    const UnitGuess guess = guessed_unit(sizes);
    const auto long_in = [&](const DrawnUnit& unit) {
      return short_text(guess.longest * unit.length.mm(), job_.units);
    };
    const std::string likely = guess.likely->name, other = guess.other->name;
    if (!guess.is_clear) {
      error(source_.place,
            std::string("[mesh] has no units: in ") + guess.likely->plural +
                " its longest part is " + long_in(*guess.likely) + " long, in " +
                guess.other->plural + " " + long_in(*guess.other),
            "add units = \"" + likely + "\" or units = \"" + other + "\"");
      return;
    }
    job_.mesh->unit = guess.likely->length;
    found_.push_back({base::Severity::warning, source_.place,
                      std::string("[mesh] has no units: taken as ") + guess.likely->plural +
                          ", its longest part is " + long_in(*guess.likely) + " long",
                      "if that is so, add units = \"" + likely + "\""});
  }

  void read_file(const MeshBytes& file) {
    const auto format = geometry::mesh_format(file.file);
    if (!format) {
      return;  // noted when the job was read
    }
    geometry::MeshParts read =
        geometry::read_mesh(file.bytes, *format, stem_of(file.file), source_.unit, most_curved_);
    most_curved_ -= std::min(most_curved_, read.curved_triangles);
    for (const geometry::MeshDefect& defect : read.defects) {
      report(file.file, defect);
    }
    for (geometry::MeshPart& part : read.parts) {
      parts_.push_back(part_of(part));
    }
  }

  void report(const std::string& file, const geometry::MeshDefect& defect) {
    std::string message =
        shown(file) + (defect.line > 0 ? ", line " + std::to_string(defect.line) : "") + ": ";
    message += defect.part.empty() ? defect.what : "\"" + shown(defect.part) + "\" " + defect.what;
    if (defect.at) {
      message += " at " + short_text(defect.at->x, job_.units) + ", " +
                 short_text(defect.at->y, job_.units) + ", " + short_text(defect.at->z, job_.units);
    }
    error(
        source_.place, message,
        defect.remedy.empty() ? "fix it where it was drawn, and export it again" : defect.remedy);
  }

  // What the job says of the part of this name.
  const work::MeshNote* note_of(const std::string& name) const {
    const auto note = std::find_if(source_.notes.begin(), source_.notes.end(),
                                   [&](const work::MeshNote& n) { return n.said.name == name; });
    return note == source_.notes.end() ? nullptr : &*note;
  }

  work::Part part_of(geometry::MeshPart& from) {
    const work::MeshNote* note = note_of(from.name);
    work::Part part = note != nullptr ? note->said : work::Part();
    part.name = from.name;
    part.place = note != nullptr ? note->said.place : source_.place;
    part.species = part.species.empty() ? source_.species : part.species;
    lay(part, geometry::bounds(from.solid), note != nullptr ? note->along : std::nullopt,
        from.longest_edge);
    part.mesh = std::move(from.solid);
    return part;
  }

  // Length along the grain; thickness along the shorter of the other two, ties to the later axis.
  static void lay(work::Part& part, const geometry::Box& box, std::optional<int> along,
                  const geometry::Direction& longest) {
    part.along = along.value_or(main_axis(longest));
    if (!along && std::abs(longest[static_cast<std::size_t>(part.along)]) < 1 - 1e-9) {
      part.grain = longest;
    }
    const auto extent = [&](int axis) {
      const auto i = static_cast<std::size_t>(axis);
      return box.hi[i] - box.lo[i];
    };
    const int first = part.along == 0 ? 1 : 0, second = part.along == 2 ? 1 : 2;
    part.face = extent(first) < extent(second) - 1e-6 ? first : second;
    part.length = to_length(extent(part.along));
    part.width = to_length(extent(part.across()));
    part.thickness = to_length(extent(part.face));
    part.at = {to_length(box.lo.x), to_length(box.lo.y), to_length(box.lo.z)};
  }

  void check_names() {
    std::vector<std::string> names;
    std::set<std::string> seen;
    std::vector<std::string> woodless;
    for (const work::Part& part : job_.parts) {
      if (!seen.insert(part.name).second) {
        error(part.place, "two parts are named \"" + shown(part.name) + "\"",
              "give one of them another name");
      }
      names.push_back(part.name);
      if (part.species.empty()) {
        woodless.push_back("\"" + shown(part.name) + "\"");
      }
    }
    if (!woodless.empty()) {
      constexpr std::size_t kMostNamed = 6;
      const std::size_t more = woodless.size() > kMostNamed ? woodless.size() - kMostNamed : 0;
      woodless.resize(woodless.size() - more);
      error(source_.place,
            "the mesh does not say of what wood " + base::all_of(woodless) +
                (more > 0 ? " (and " + std::to_string(more) + " more)" : "") +
                (woodless.size() == 1 ? " is" : " are"),
            "add species = \"black_cherry\" above all tables, or a [[part]] with name and species");
    }
    for (const work::MeshNote& note : source_.notes) {
      check_known(note.said.name, note.said.place, names);
    }
    for (const work::JointOverride& joint : job_.overrides) {
      check_known(joint.between[0], joint.place, names);
      check_known(joint.between[1], joint.place, names);
    }
  }

  void check_known(const std::string& name, const base::Place& place,
                   const std::vector<std::string>& names) {
    if (name.empty() || std::find(names.begin(), names.end(), name) != names.end()) {
      return;
    }
    const std::string meant = base::nearest(name, names);
    error(place, "the mesh has no part named \"" + shown(name) + "\"",
          meant.empty() ? "write the name as the mesh file has it"
                        : "did you mean \"" + meant + "\"?");
  }

  work::Job& job_;
  const work::MeshSource& source_;
  std::vector<work::Part> parts_;
  std::size_t most_curved_ = geometry::kMostCurved;  // that the files to come may have
  base::Diagnostics found_;
};

}  // namespace

base::Diagnostics add_mesh_parts(work::Job& job, std::span<const MeshBytes> files) {
  return MeshReader(job).read(files);
}

}  // namespace planner::files
