#include "planner/files/file_keys.h"

#include <algorithm>
#include <stdexcept>

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

}  // namespace

const std::vector<TableKeys>& job_file_keys() {
  static const std::vector<TableKeys> kTables = {
      {"",
       "the job file",
       {"title", "units", "species", "box", "panel", "frame", "carcass", "drawer", "table_base",
        "lamination", "mesh", "part", "joint", "glue", "saw_later", "my_clamp", "dry_fit"}},
      {"box", "[box]", {"outside",       "stock",         "corners",          "top",
                        "bottom",        "species",       "rabbet_depth",     "fingers",
                        "finger_width",  "top_thickness", "top_depth",        "top_offset",
                        "top_fit",       "top_species",   "bottom_thickness", "bottom_depth",
                        "bottom_offset", "bottom_fit",    "bottom_species",   "measured"}},
      {"panel",
       "[panel]",
       {"length", "thickness", "boards", "width", "species", "tongue", "tongue_thickness",
        "tongue_depth", "tongue_species", "measured"}},
      {"frame",
       "[frame]",
       {"outside", "thickness", "member", "rail", "corners", "species", "tenon_length",
        "tenon_thickness", "tenon_width", "panel", "panel_thickness", "panel_depth",
        "panel_species", "measured"}},
      {"carcass",
       "[carcass]",
       {"outside", "stock", "species", "dado_depth", "top", "bottom", "bottom_height", "shelves",
        "dividers", "stop", "back", "back_thickness", "back_depth", "back_species", "measured"}},
      {"drawer",
       "[drawer]",
       {"outside", "stock", "front_thickness", "corners", "rabbet_depth", "dado_depth", "inset",
        "fingers", "bottom", "bottom_thickness", "bottom_depth", "bottom_offset", "bottom_fit",
        "bottom_species", "species", "front_species", "measured"}},
      {"table_base",
       "[table_base]",
       {"outside", "leg", "rail_width", "rail_thickness", "setback", "stretcher", "tenon_length",
        "tenon_thickness", "tenon_width", "species", "measured"}},
      {"lamination",
       "[lamination]",
       {"length", "width", "layers", "thickness", "crossed", "species", "measured"}},
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
      {"cut miter", "a miter", {"kind", "side", "long", "angle"}},
      {"cut fingers", "fingers", {"kind", "side", "depth", "count", "first"}},
      {"cut hole", "a hole", {"kind", "on", "at", "diameter", "depth"}},
      {"joint", "[[joint]]", {"between", "glue", "faces", "middle"}},
      {"glue", "[glue]", {"use"}},
      {"saw_later", "[[saw_later]]", {"axis", "at", "kerf"}},
      {"my_clamp", "[[my_clamp]]", {"axis", "at", "kind", "force", "pad"}},
      {"dry_fit",
       "[dry_fit]",
       {"diagonals", "around", "openings", "closes", "wind", "sticks", "high", "cut"}},
      {"dry_fit cut", "[[dry_fit.cut]]", {"between", "depth", "width"}},
  };
  return kTables;
}

const std::vector<TableKeys>& shop_file_keys() {
  static const std::vector<TableKeys> kTables = {
      {"",
       "the shop file",
       {"units", "people", "temperature", "humidity", "clamp", "glue", "pace"}},
      {"clamp", "[[clamp]]", {"kind", "count", "opening", "throat", "pad", "force"}},
      {"glue", "[[glue]]", {"name", "family", "open", "total", "clamp", "left"}},
      {"pace",
       "[pace]",
       {"narrow", "joint", "wide", "place", "close", "snug", "tighten", "check", "check_small",
        "flush"}},
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
