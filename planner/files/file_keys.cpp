#include "planner/files/file_keys.h"

#include <algorithm>
#include <stdexcept>

#include "planner/files/starter/starter.h"
#include "planner/tables/clamp.h"
#include "planner/work/pace.h"

namespace planner::files {
namespace {

const TableKeys& keys_in(const std::vector<TableKeys>& tables, std::string_view id) {
  const auto table =
      std::find_if(tables.begin(), tables.end(), [&](const TableKeys& t) { return t.id == id; });
  if (table == tables.end()) {
    throw std::logic_error("no table of keys: " + std::string(id));
  }
  return *table;
}

// Of the job file but its starters.
std::vector<TableKeys> plain_job_keys() {
  return {
      {"",
       "the job file",
       {"title", "units", "species", "mesh", "part", "joint", "glue", "saw_later", "stage",
        "my_clamp", "dry_fit"}},
      {"part",
       "[[part]]",
       {"name", "kind", "species", "length", "width", "thickness", "along", "face", "at", "turn",
        "cut", "show", "bow", "cup", "hollow", "measured"}},
      {"part dowel",
       "a dowel",
       {"name", "kind", "species", "length", "diameter", "along", "at", "turn"}},
      {"part of a starter",
       "[[part]] of a part that the starter makes",
       {"name", "species", "show", "bow", "cup", "hollow", "measured"}},
      {"part of a mesh",
       "[[part]] of a part that the mesh holds",
       {"name", "species", "along", "show", "bow", "cup", "hollow"}},
      {"mesh", "[mesh]", {"file", "files", "units"}},
      {"turn", "turn", {"axis", "angle", "about"}},
      {"measured", "measured", {"length", "width", "thickness"}},
      {"cut", "[[part.cut]]", {"kind"}},
      {"cut rabbet", "a rabbet", {"kind", "on", "side", "width", "depth", "from", "to"}},
      {"cut groove",
       "a groove",
       {"kind", "on", "runs", "offset", "width", "depth", "from", "to", "lean"}},
      {"cut dado",
       "a dado",
       {"kind", "on", "runs", "offset", "width", "depth", "from", "to", "lean"}},
      {"cut notch", "a notch", {"kind", "from", "size"}},
      {"cut mortise", "a mortise", {"kind", "on", "from", "size", "depth"}},
      {"cut tenon", "a tenon", {"kind", "on", "length", "from", "size"}},
      {"cut miter", "a miter", {"kind", "side", "long", "angle", "taper"}},
      {"cut fingers", "fingers", {"kind", "side", "depth", "count", "first"}},
      {"cut tails", "tails", {"kind", "side", "depth", "count", "slope", "from", "to"}},
      {"cut pins", "pins", {"kind", "side", "on", "depth", "reach", "count", "slope", "from", "to"}},
      {"cut kerf", "a kerf", {"kind", "side", "long", "angle", "in", "width", "depth", "flat"}},
      {"cut chamfer", "a chamfer", {"kind", "on", "side", "width", "depth"}},
      {"cut hole", "a hole", {"kind", "on", "at", "diameter", "depth"}},
      {"joint", "[[joint]]", {"between", "glue", "faces", "middle", "held_by", "fit"}},
      {"glue", "[glue]", {"use"}},
      {"saw_later", "[[saw_later]]", {"axis", "at", "kerf"}},
      {"stage", "[[stage]]", {"name", "parts"}},
      {"my_clamp", "[[my_clamp]]", {"axis", "at", "kind", "force", "pad"}},
      {"dry_fit",
       "[dry_fit]",
       {"diagonals", "around", "openings", "closes", "wind", "sticks", "high", "cut"}},
      {"dry_fit cut", "[[dry_fit.cut]]", {"between", "depth", "width"}},
  };
}

TableKeys keys_of(const starter::Starter& starter) {
  const std::string name(starter.name);
  TableKeys table{name, "[" + name + "]", {}};
  for (const starter::StarterKey& key : starter.keys) {
    table.keys.emplace_back(key.name);
  }
  table.keys.emplace_back("measured");
  return table;
}

TableKeys pace_table() {
  TableKeys table{"pace", "[pace]", {}};
  for (const work::PaceKey& key : work::kPaceKeys) {
    table.keys.emplace_back(key.key);
  }
  table.keys.emplace_back("wide");
  table.keys.emplace_back("snug");
  return table;
}

}  // namespace

const std::vector<TableKeys>& job_file_keys() {
  static const std::vector<TableKeys> kTables = [] {
    std::vector<TableKeys> tables = plain_job_keys();
    std::vector<std::string> names;
    for (const starter::Starter* starter : starter::kStarters) {
      names.emplace_back(starter->name);
      tables.push_back(keys_of(*starter));
    }
    std::vector<std::string>& top = tables.front().keys;
    top.insert(std::find(top.begin(), top.end(), "mesh"), names.begin(), names.end());
    return tables;
  }();
  return kTables;
}

const std::vector<TableKeys>& shop_file_keys() {
  static const std::vector<TableKeys> kTables = {
      {"",
       "the shop file",
       {"units", "people", "temperature", "humidity", "clamp", "weight", "vacuum", "planer", "tape", "wood",
        "glue", "pace"}},
      {"clamp", "[[clamp]]", {"kind", "count", "opening", "throat", "pad", "force", "snug_force"}},
      {"weight", "[[weight]]", {"mass", "count"}},
      {"wood",
       "[[wood]]",
       {"name", "softwood", "density", "stiffness", "shrinkage_radial", "shrinkage_tangential", "oily"}},
      {"glue", "[[glue]]", {"name", "family", "open", "total", "clamp", "left"}},
      pace_table(),
      {"pace snug", "[pace.snug]", tables::clamp_ids()},
  };
  return kTables;
}

const TableKeys& job_keys(std::string_view id) {
  return keys_in(job_file_keys(), id);
}
const TableKeys& shop_keys(std::string_view id) {
  return keys_in(shop_file_keys(), id);
}

const Entry* of_other_file(const Node& root, const TableKeys& own, const TableKeys& other) {
  const auto has = [](const TableKeys& keys, const Entry& entry) {
    return std::find(keys.keys.begin(), keys.keys.end(), entry.key) != keys.keys.end();
  };
  const Entry* found = nullptr;
  for (const Entry& entry : root.entries) {
    if (has(own, entry) && !has(other, entry)) {
      return nullptr;
    }
    found = found == nullptr && has(other, entry) && !has(own, entry) ? &entry : found;
  }
  return found;
}

}  // namespace planner::files
