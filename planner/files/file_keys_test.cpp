// The keys that the readers know, the schemas in docs/ and the fuzzer's words are the same.
#include "planner/files/file_keys.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "tests/source_dir.h"

namespace planner::files {
namespace {

using Json = nlohmann::json;
using Keys = std::set<std::string>;

Json schema(const std::string& name) {
  std::ifstream file(source_dir() + "/docs/" + name);
  return Json::parse(file);
}

Keys keys_of(const Json& object) {
  Keys keys;
  for (const auto& [key, value] : object.at("properties").items()) {
    keys.insert(key);
  }
  return keys;
}

Keys known(const TableKeys& table) {
  return {table.keys.begin(), table.keys.end()};
}

// The object that a table's id stands for.
const Json& object_of(const Json& root, const std::string& id) {
  const Json& top = root.at("properties");
  const Json& part = top.contains("part") ? top.at("part").at("items").at("properties") : top;
  if (id.empty()) {
    return root;
  }
  if (id.rfind("cut ", 0) == 0) {
    for (const Json& cut : root.at("definitions").at("cut").at("oneOf")) {
      if (cut.at("properties").at("kind").at("enum").at(0) == id.substr(4)) {
        return cut;
      }
    }
    FAIL("the schema has no ", id);
  }
  if (id == "dry_fit cut") {
    return top.at("dry_fit").at("properties").at("cut").at("items");
  }
  if (id == "pace snug") {
    return top.at("pace").at("properties").at("snug");
  }
  const Json& value = top.contains(id) ? top.at(id) : part.at(id);
  // One table, or a list of such.
  const Json& one = value.contains("oneOf") ? value.at("oneOf").at(0) : value;
  return one.contains("items") ? one.at("items") : one;
}

void check_alike(const std::vector<TableKeys>& tables, const Json& root) {
  for (const TableKeys& table : tables) {
    // These name a part of another's keys: a cut before its kind is known, a starter's or a mesh's
    // part, a dowel.
    const std::set<std::string> partial = {"cut", "part of a starter", "part of a mesh",
                                           "part dowel"};
    if (partial.count(table.id) == 1) {
      continue;
    }
    CAPTURE(table.id);
    Keys keys = known(table);
    if (table.id == "part") {
      keys.merge(known(job_keys("part dowel")));
    }
    CHECK(keys_of(object_of(root, table.id)) == keys);
    CHECK(object_of(root, table.id).at("additionalProperties") == false);
  }
}

TEST_SUITE("planner/file_keys") {
  TEST_CASE("the schemas that editors use know every key that the readers know, and no other") {
    check_alike(job_file_keys(), schema("job.schema.json"));
    check_alike(shop_file_keys(), schema("shop.schema.json"));
  }

  TEST_CASE("a part of a starter or a mesh may only be given keys that parts have") {
    const Keys part = known(job_keys("part"));
    for (const char* id : {"part of a starter", "part of a mesh"}) {
      for (const std::string& key : job_keys(id).keys) {
        CHECK(part.count(key) == 1);
      }
    }
  }

  TEST_CASE("the fuzzer puts files together of every key and table; GLUEUP_UPDATE writes them") {
    Keys keys, tables;
    for (const std::vector<TableKeys>* file : {&job_file_keys(), &shop_file_keys()}) {
      for (const TableKeys& table : *file) {
        keys.merge(known(table));
        if (table.heading.ends_with("]")) {
          tables.insert(table.heading);
        }
      }
    }
    std::string wanted = "# Words of the job and shop files, for the fuzzer to put together.\n";
    for (const std::string& key : keys) {
      wanted += "\"" + key + " = \"\n";
    }
    for (const std::string& table : tables) {
      wanted += "\"" + table + "\\x0a\"\n";
    }
    const std::string path = source_dir() + "/tests/fuzz/toml.dict";
    const auto text = [&] {
      std::ifstream file(path);
      return std::string(std::istreambuf_iterator<char>(file), {});
    };
    const std::string before = text();
    wanted += before.substr(before.find("\"\\\"mm"));  // the values, which stand behind
    if (std::getenv("GLUEUP_UPDATE") != nullptr) {
      std::ofstream(path) << wanted;
    }
    CHECK(text() == wanted);
  }
}

}  // namespace
}  // namespace planner::files
