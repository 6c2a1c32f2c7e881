#include "planner/files/job_file.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "geometry/mesh/mesh_file.h"
#include "planner/files/dry_fit_file.h"
#include "planner/files/old_names.h"
#include "planner/files/part_file.h"
#include "planner/files/starter/starter.h"
#include "planner/tables/clamp.h"
#include "planner/work/job_check.h"

namespace planner::files {
namespace {

constexpr std::size_t kMostCutsInAll = 1000;

// A starter's table with what was measured in place of what was drawn.
Node with_measured(const Node& table) {
  Node merged = table;
  const auto named = [](std::vector<Entry>& entries, const std::string& key) {
    return std::find_if(entries.begin(), entries.end(),
                        [&](const Entry& e) { return e.key == key; });
  };
  const auto measured = named(merged.entries, "measured");
  if (measured == merged.entries.end() || measured->value.kind != NodeKind::table) {
    return merged;
  }
  const Node sizes = measured->value;
  merged.entries.erase(measured);
  for (const Entry& size : sizes.entries) {
    const auto drawn = named(merged.entries, size.key);
    if (drawn != merged.entries.end()) {
      drawn->value = size.value;
    } else {
      merged.entries.push_back(size);
    }
  }
  return merged;
}

class JobReader {
 public:
  JobReader(const std::string& file, const Node& root, FileNotes& notes)
      : notes_(notes), root_(root, job_keys(""), notes) {
    job_.file = file;
  }

  work::Job read() {
    job_.title = root_.text("title", Needed::no).value_or(stem_of(job_.file));
    root_.units();
    job_.units = notes_.units;
    notes_.species = read_species(root_, "species", Needed::no).value_or("");
    read_starters();
    read_mesh();
    read_parts();
    read_glue();
    read_joints();
    read_saw_later();
    read_stages();
    read_placed();
    read_dry_fit();
    root_.finish();
    if (job_.parts.size() == 1 && !job_.mesh && !has_errors(notes_.diagnostics)) {
      notes_.error(job_.parts[0].place, "one part alone has nothing to be glued to",
                   "add the others");
    }
    check_amount();
    question_units();
    append(notes_.diagnostics, check_parts(job_.parts, job_.units));
    job_.uk_words = notes_.uk_words;
    job_.own_woods = notes_.own_woods;
    take_own_woods(job_.parts, job_.own_woods);
    return std::move(job_);
  }

 private:
  void check_amount() {
    append(notes_.diagnostics, check_part_count(job_));
    std::size_t cuts = 0;
    for (const work::Part& part : job_.parts) {
      cuts += part.cuts.size();
    }
    if (cuts > kMostCutsInAll) {
      notes_.error({notes_.file, 0, 0}, "the job has " + std::to_string(cuts) + " cuts",
                   std::to_string(kMostCutsInAll) + " at most: plan it in several jobs");
    }
  }

  // Bare numbers in the other unit give work that is tiny or enormous.
  void question_units() {
    constexpr double kTiny_mm = 20, kEnormous_mm = 3000;  // ours
    double longest_mm = 0;
    for (const work::Part& part : job_.parts) {
      longest_mm = std::max(longest_mm, part.length.mm());
    }
    const bool inches = job_.units == base::Units::inch;
    const bool odd = inches ? longest_mm > kEnormous_mm : longest_mm < kTiny_mm;
    if (odd && longest_mm > 0 && !job_.mesh && !has_errors(notes_.diagnostics)) {
      notes_.warn(root_.place("units"),
                  "the longest part is " + base::short_text(longest_mm, job_.units) +
                      (inches ? ": are these millimeters, units = \"mm\"?"
                              : ": are these inches, units = \"in\"?"));
    }
  }

  void read_starters() {
    for (const starter::Starter* starter : starter::kStarters) {
      const Node* table = root_.table(starter->name);
      if (table == nullptr) {
        described_ = described_ || root_.has(starter->name);
        continue;
      }
      described_ = true;
      if (!job_.starter.empty()) {
        root_.refuse(starter->name, "the job has a [" + job_.starter + "] already",
                     "one starter a job: describe the rest as [[part]]");
      }
      const Node as_built = with_measured(*table);
      starter::Expansion made = starter->expand(as_built, notes_);
      job_.starter = starter->name;
      std::move(made.parts.begin(), made.parts.end(), std::back_inserter(job_.parts));
      std::move(made.overrides.begin(), made.overrides.end(), std::back_inserter(job_.overrides));
      job_.keys = made.keys;
      job_.even_ring = made.even_ring;
      job_.breadboard = made.breadboard;
      job_.bend = made.bend;
    }
    from_starter_ = job_.parts.size();
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      by_name_[job_.parts[i].name] = i;
    }
  }

  void read_mesh() {
    const Node* node = root_.table("mesh");
    described_ = described_ || root_.has("mesh");
    if (node == nullptr) {
      return;
    }
    TableReader table(*node, job_keys("mesh"), notes_);
    work::MeshSource mesh;
    mesh.place = notes_.place(*node);
    mesh.species = notes_.species;
    if (const auto file = table.has("file") ? table.text("file", Needed::no) : std::nullopt) {
      mesh.files = {*file};
    }
    if (const auto files = table.texts("files", "the names of mesh files", Needed::no)) {
      mesh.files.insert(mesh.files.end(), files->begin(), files->end());
    }
    if (!table.has("file") && !table.has("files")) {
      notes_.error(mesh.place, "[mesh] names no file", "add file = \"rack.obj\", or files = [...]");
    }
    const auto unit = table.word("units", {"mm", "cm", "m", "in", "ft"}, Needed::no);
    mesh.unit = unit ? *length_from("1 " + *unit, base::Units::mm).value : geometry::Length();
    table.finish();
    for (const std::string& file : mesh.files) {
      if (!geometry::mesh_format(file)) {
        const bool formulas = geometry::is_formula_model(file);
        table.refuse(table.has("file") ? "file" : "files",
                     (table.has("file") ? "" : "\"" + shown(file) + "\" is ") +
                         std::string(formulas ? "no mesh but surfaces as formulas, which aren't read"
                                              : "no mesh file by its ending"),
                     formulas ? "open it in CAD and export .obj with one object a part; .off, .ply and "
                                ".stl are read too"
                              : "write one as .obj, .off, .ply or .stl");
      }
    }
    job_.mesh = std::move(mesh);
  }

  void read_parts() {
    for (const Node* table : root_.tables("part")) {
      read_one_part(*table);
    }
    if (!described_ && !root_.has("part") && !root_.any_unknown()) {
      notes_.error({notes_.file, 0, 0}, "the job has no parts",
                   "add a [box], another starter or a [[part]]");
    }
  }

  void read_one_part(const Node& table) {
    const auto entry = std::find_if(table.entries.begin(), table.entries.end(),
                                    [](const Entry& e) { return e.key == "name"; });
    const bool named = entry != table.entries.end() && entry->value.kind == NodeKind::text;
    const auto known = named ? by_name_.find(entry->value.text) : by_name_.end();
    if (known != by_name_.end() && known->second < from_starter_) {
      amend_part(job_.parts[known->second], table, notes_);
      return;
    }
    if (known != by_name_.end()) {
      notes_.error(notes_.place(entry->value), "two parts are named " + shown(entry->value),
                   "the first one stands at line " + std::to_string(lines_[entry->value.text]) +
                       ": give one of them another name");
    } else if (named) {
      by_name_[entry->value.text] = kUnread;
      lines_[entry->value.text] = table.line;
    }
    const bool sized = std::any_of(table.entries.begin(), table.entries.end(),
                                   [](const Entry& e) { return e.key == "length"; });
    if (job_.mesh && !sized) {
      job_.mesh->notes.push_back(read_mesh_note(table, notes_));
      return;
    }
    if (auto part = read_part(table, notes_)) {
      job_.parts.push_back(std::move(*part));
    }
  }

  void read_glue() {
    if (const Node* node = root_.table("glue")) {
      TableReader table(*node, job_keys("glue"), notes_);
      job_.glue = table.text("use", Needed::yes).value_or("");
      job_.glue_place = table.place("use");
      table.finish();
    }
  }

  // Notes a name that no part has.
  void check_part_name(const Node& name) {
    const bool starter_failed = described_ && from_starter_ == 0;  // its names are not known
    // A mesh's names are not known before its files are read.
    if (by_name_.count(name.text) != 0 || starter_failed || job_.mesh) {
      return;
    }
    std::vector<std::string> names;
    for (const auto& [known, index] : by_name_) {
      names.push_back(known);
    }
    const std::string meant = base::nearest(name.text, names);
    notes_.error(notes_.place(name), "no part is named " + shown(name),
                 meant.empty() ? "write a part's name as its [[part]] has it"
                               : "did you mean \"" + meant + "\"?");
  }

  void read_joints() {
    for (const Node* node : root_.tables("joint")) {
      TableReader table(*node, job_keys("joint"), notes_);
      work::JointOverride joint;
      joint.place = notes_.place(*node);
      const auto between = table.texts("between", 2, "the names of two parts", Needed::yes);
      if (between) {
        joint.between = {(*between)[0], (*between)[1]};
        for (const Node& name : table.value("between")->items) {
          check_part_name(name);
        }
        if (joint.between[0] == joint.between[1]) {
          table.refuse("between", "a part has no joint with itself", "name two parts");
        }
      }
      const Node* glue = table.value("glue");
      if (glue != nullptr && glue->kind == NodeKind::text) {
        joint.glue = table.text("glue", Needed::no);
      } else if (glue != nullptr && glue->kind != NodeKind::truth) {
        table.refuse("glue", "neither a glue nor true or false",
                     "write glue = false, or a glue's name in quotes");
      } else {
        joint.glued = table.truth("glue");
      }
      joint.faces = table.whole("faces", 1, 2, Needed::no);
      joint.middle = table.length("middle", Sign::above_zero, Needed::no);
      read_held_by(table, joint);
      joint.loose = table.word("fit", {"tight", "loose"}, Needed::no) == "loose";
      table.finish();
      job_.overrides.push_back(std::move(joint));
    }
  }

  static void read_held_by(TableReader& table, work::JointOverride& joint) {
    std::vector<std::string> words;
    for (const work::HeldByWord& row : work::kHeldByWords) {
      if (row.by != work::HeldBy::fit) {  // which nobody asks for
        words.emplace_back(row.word);
      }
    }
    words.emplace_back(work::kPocketScrews);
    const auto word = table.word("held_by", words, Needed::no);
    joint.pocket = word == work::kPocketScrews;
    const auto row = word ? std::ranges::find(work::kHeldByWords, *word, &work::HeldByWord::word)
                           : work::kHeldByWords.end();
    if (joint.pocket) {
      joint.held_by = work::HeldBy::screws;
    } else if (row != work::kHeldByWords.end()) {
      joint.held_by = row->by;
    }
  }

  void read_saw_later() {
    for (const Node* node : root_.tables("saw_later")) {
      TableReader table(*node, job_keys("saw_later"), notes_);
      work::SawLater saw;
      saw.place = notes_.place(*node);
      saw.axis = table.axis("axis", Needed::yes).value_or(2);
      saw.at = table.length("at", Sign::any, Needed::yes).value_or(geometry::Length());
      // The kerf of a full table-saw blade, 1/8 in: common practice.
      saw.kerf = table.length("kerf", Sign::above_zero, Needed::no).value_or(geometry::Length::in_64ths(8));
      table.finish();
      job_.saw_later.push_back(std::move(saw));
    }
  }

  void read_stages() {
    std::set<std::string> used;
    for (const Node* node : root_.tables("stage")) {
      TableReader table(*node, job_keys("stage"), notes_);
      work::AskedStage stage;
      stage.place = notes_.place(*node);
      stage.name = table.text("name", Needed::yes).value_or("");
      const bool named = std::ranges::count(job_.stages, stage.name, &work::AskedStage::name) > 0;
      if (named || by_name_.contains(stage.name)) {
        table.refuse("name", named ? "two stages of one name" : "a part has that name",
                     "give the stage a name of its own");
      }
      if (const auto parts = table.texts("parts", "the names of what goes together", Needed::yes)) {
        stage.parts = *parts;
        for (const Node& item : table.value("parts")->items) {
          check_stage_part(item, used);
        }
        if (stage.parts.size() < 2) {
          table.refuse("parts", "there is nothing to glue it to", "name two parts or more");
        }
      }
      table.finish();
      job_.stages.push_back(std::move(stage));
    }
  }

  // A part, or an earlier stage, that no stage has yet.
  void check_stage_part(const Node& item, std::set<std::string>& used) {
    if (std::ranges::count(job_.stages, item.text, &work::AskedStage::name) == 0) {
      check_part_name(item);
    }
    if (!used.insert(item.text).second) {
      notes_.error(notes_.place(item), shown(item.text) + " goes together with others twice",
                   "name the stage that has it");
    }
  }

  void read_placed() {
    for (const Node* node : root_.tables("my_clamp")) {
      TableReader table(*node, job_keys("my_clamp"), notes_);
      work::PlacedClamp clamp;
      clamp.place = notes_.place(*node);
      clamp.axis = table.axis("axis", Needed::yes).value_or(0);
      if (const auto at = table.lengths("at", 3, "x, y and z", Sign::any, Needed::yes)) {
        std::copy_n(at->begin(), 3, clamp.at.begin());
      }
      if (const auto kind = table.text("kind", Needed::no)) {
        clamp.kind = clamp_id(table, *kind);
      }
      clamp.force_N = table.newtons("force");
      if (const auto pad =
              table.lengths("pad", 2, "length and width", Sign::above_zero, Needed::no)) {
        clamp.pad = {(*pad)[0], (*pad)[1]};
      }
      if (!table.has("kind") && !table.has("force")) {
        notes_.error(table.place(), "[[my_clamp]] has neither kind nor force",
                     "add kind = \"f_heavy\" or force = \"1000 N\"");
      }
      table.finish();
      job_.placed.push_back(std::move(clamp));
    }
  }

  std::string clamp_id(TableReader& table, const std::string& name) {
    if (const tables::ClampKind* kind = tables::find_clamp_kind(name)) {
      return kind->id;
    }
    table.refuse("kind", "no such kind of clamp in the table",
                 base::did_you_mean(name, tables::clamp_ids(), "`glueup tables clamps` lists them"));
    return {};
  }

  void read_dry_fit() {
    if (const Node* node = root_.table("dry_fit")) {
      job_.dry_fit = planner::files::read_dry_fit(*node, job_.parts, notes_);
    }
  }

  static constexpr std::size_t kUnread = static_cast<std::size_t>(-1);

  FileNotes& notes_;
  TableReader root_;
  work::Job job_;
  bool described_ = false;  // by a starter, be it a broken one
  std::size_t from_starter_ = 0;
  std::map<std::string, std::size_t> by_name_;  // a starter's part by its index; kUnread for others
  std::map<std::string, int> lines_;
};

}  // namespace

JobReading read_job(const std::string& file, std::string_view text, const work::OwnWoods& own_woods) {
  auto [job, diagnostics] =
      read_noted<work::Job>(file, text, [&](Node& root, FileNotes& notes) {
        notes.own_woods = own_woods;
        rename_old_job_keys(root, notes);
        if (const Entry* shops = of_other_file(root, job_keys(""), shop_keys(""))) {
          notes.error(notes.place(*shops), "this is a shop file, not a job",
                      "give it with --shop, and a job file in its place");
          return work::Job();
        }
        return JobReader(file, root, notes).read();
      });
  return {std::move(job), std::move(diagnostics)};
}

}  // namespace planner::files
