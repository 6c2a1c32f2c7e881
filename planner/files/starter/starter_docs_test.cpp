// What docs/ says of the starters follows from their descriptions. With GLUEUP_UPDATE set, these
// tests write it there; read the diff.
#include <cctype>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "planner/files/starter/starter.h"
#include "tests/source_dir.h"

namespace planner::files::starter {
namespace {

using Json = nlohmann::ordered_json;

std::string path_of(const std::string& name) {
  return source_dir() + "/docs/" + name;
}

std::string text_of(const std::string& name) {
  std::ifstream file(path_of(name));
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void expect(const std::string& name, const std::string& wanted) {
  if (std::getenv("GLUEUP_UPDATE") != nullptr) {
    std::ofstream(path_of(name)) << wanted;
  }
  CHECK_MESSAGE(text_of(name) == wanted, name,
                " is not what the starters' descriptions make of it: see above");
}

std::string as_sentence(std::string text) {
  if (!text.empty()) {
    text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  }
  return text;
}

std::string joined(const std::vector<std::string>& texts, const std::string& between) {
  std::string all;
  for (const std::string& text : texts) {
    all += (all.empty() ? "" : between) + text;
  }
  return all;
}

std::string dimensions_of(const Starter& starter) {
  std::vector<std::string> names;
  for (const Dimension& dimension : starter.dimensions) {
    names.emplace_back(dimension.name);
  }
  return joined(names, ", ");
}

// "miter, half-lap, mortise (and tenon)", each word between `quotes`.
std::string words_told(const StarterKey& key, const std::string& quote) {
  std::vector<std::string> told;
  for (const StarterWord& w : key.words) {
    if (!w.word.empty()) {
      told.push_back(quote + std::string(w.word) + quote +
                     (w.meaning.empty() ? "" : " (" + std::string(w.meaning) + ")"));
    }
  }
  return joined(told, ", ");
}

std::string help_of(const Starter& starter, const StarterKey& key) {
  return key.holds == Holds::outside ? dimensions_of(starter) : std::string(key.help);
}

// Of the schema
// ------------------------------------------------------------------------------------

Json size() {
  return {{"$ref", "#/definitions/length"}};
}

// A file's own spellings: "rabbet", and "rebate" beside it.
Json spellings(const StarterKey& key) {
  Json all = Json::array();
  for (const std::string& word : words_of(key)) {
    all.push_back(word);
    for (const char* uk : {"rebate", "housing", "mortice", "mitre"}) {
      bool is_uk = false;
      if (base::canonical_word(uk, is_uk) == word) {
        all.push_back(uk);
      }
    }
  }
  return all;
}

Json held(const Starter& starter, const StarterKey& key) {
  const auto sizes = [](std::size_t least) {
    Json list = {{"type", "array"}, {"items", size()}};
    if (least > 1) {
      list["minItems"] = least;
    }
    return list;
  };
  const Json count = {{"type", "integer"}, {"minimum", key.least}, {"maximum", key.most}};
  switch (key.holds) {
    case Holds::length:
      return {{"allOf", Json::array({size()})}};
    case Holds::outside: {
      Json list = sizes(starter.dimensions.size());
      list["maxItems"] = starter.dimensions.size();
      return list;
    }
    case Holds::lengths:
      return {{"oneOf", Json::array({count, sizes(static_cast<std::size_t>(key.least))})}};
    case Holds::count:
      return count;
    case Holds::word:
      return {{"enum", spellings(key)}};
    case Holds::wood:
      return {{"type", "string"}, {"minLength", 1}};
    case Holds::ratio:
      return {{"type", "string"}, {"pattern", "^1:[0-9]+$"}};
    case Holds::angle:
      return {{"allOf", Json::array({{{"$ref", "#/definitions/angle"}}})}};
    case Holds::truth:
      return {{"type", "boolean"}};
  }
  return {};
}

// "Of the corners' rabbets. Left out: half the stock"
std::string description(const Starter& starter, const StarterKey& key) {
  std::vector<std::string> sentences;
  const std::string help = help_of(starter, key), words = words_told(key, "");
  const bool explained = words.find('(') != std::string::npos;
  if (!help.empty() || explained) {
    sentences.push_back(as_sentence(!explained     ? help
                                    : help.empty() ? words
                                                   : help + ": " + words));
  }
  if (key.holds == Holds::wood) {
    sentences.emplace_back(
        "Id of the wood in the table (`glueup tables woods`), such as black_cherry; its usual "
        "names "
        "are understood");
  }
  if (!key.usual.empty() && !key.usual.starts_with(kRequired)) {
    sentences.push_back("Left out: " + std::string(key.usual));
  }
  return joined(sentences, ". ");
}

Json schema_of(const Starter& starter) {
  Json keys = Json::object(), required = Json::array();
  for (const StarterKey& key : starter.keys) {
    const std::string name(key.name);
    keys[name] = held(starter, key);
    keys[name]["description"] = description(starter, key);
    if (key.usual == kRequired) {
      required.push_back(name);
    }
  }
  const Json measured = {{"type", "object"},
                         {"description", "What sizes came out as, in place of those drawn"},
                         {"additionalProperties", false},
                         {"properties", keys}};
  keys["measured"] = measured;
  return {{"type", "object"},
          {"description", as_sentence(std::string(starter.summary))},
          {"properties", keys},
          {"required", required},
          {"additionalProperties", false}};
}

// The whole schema, with the starters' own parts made new.
Json with_starters(const Json& schema) {
  Json out = schema;
  Json ways = Json::array(), keys = Json::object();
  for (const Starter* starter : kStarters) {
    ways.push_back({{"required", {starter->name}}});
  }
  for (const char* way : {"mesh", "part"}) {
    ways.push_back({{"required", {way}}});
  }
  out["anyOf"] = ways;
  for (const auto& [key, value] : schema.at("properties").items()) {
    const bool starters = value.contains("properties") &&
                          value.at("properties").contains("measured");  // [[part]] is a list
    if (key == "mesh") {
      for (const Starter* starter : kStarters) {
        keys[std::string(starter->name)] = schema_of(*starter);
      }
    }
    if (!starters) {
      keys[key] = value;
    }
  }
  out["properties"] = keys;
  return out;
}

// Of the page
// --------------------------------------------------------------------------------------

std::string told_on_page(const Starter& starter, const StarterKey& key) {
  const std::string help = help_of(starter, key), words = words_told(key, "`");
  return help + (help.empty() || words.empty() ? "" : ": ") + words;
}

// A table of keys. Those of which the same is to be said share a row, where the first would stand.
std::string section_of(const Starter& starter) {
  struct Row {
    std::string keys, told, usual;
  };
  std::vector<Row> rows;
  for (const StarterKey& key : starter.keys) {
    Row row{"`" + std::string(key.name) + "`", told_on_page(starter, key), std::string(key.usual)};
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& other) {
      return other.told == row.told && other.usual == row.usual;
    });
    if (same == rows.end()) {
      rows.push_back(std::move(row));
    } else {
      same->keys += ", " + row.keys;
    }
  }
  std::string text = "### `[" + std::string(starter.name) + "]`\n\n" + std::string(starter.about) +
                     "\n\n| key | | where left out |\n| --- | --- | --- |\n";
  for (const Row& row : rows) {
    text += "| " + row.keys + " | " + row.told + (row.told.empty() ? "| " : " | ") + row.usual +
            (row.usual.empty() ? "|\n" : " |\n");
  }
  return text + "\n";
}

TEST_SUITE("planner/starter_docs") {
  TEST_CASE("the schema that editors use says of the starters what their descriptions say") {
    expect("job.schema.json",
           with_starters(Json::parse(text_of("job.schema.json"))).dump(2) + "\n");
  }

  TEST_CASE("docs/job_file.md says of the starters what their descriptions say") {
    const std::string page = text_of("job_file.md");
    const std::size_t begin = page.find("### `["), end = page.find("## Parts\n");
    REQUIRE(end != std::string::npos);
    REQUIRE(begin < end);
    std::string sections;
    for (const Starter* starter : kStarters) {
      sections += section_of(*starter);
    }
    expect("job_file.md", page.substr(0, begin) + sections + page.substr(end));
  }

  TEST_CASE("every key of a starter is described by what it is, or by what stands in its place") {
    for (const Starter* starter : kStarters) {
      for (const StarterKey& key : starter->keys) {
        CAPTURE(starter->name);
        CAPTURE(key.name);
        CHECK(&key_of(*starter, key.name) == &key);  // no other has its name
        CHECK_FALSE(description(*starter, key).empty());
        CHECK((key.holds == Holds::word) == !words_of(key).empty());
        CHECK((key.most > 0) == (key.holds == Holds::count || key.holds == Holds::lengths));
      }
    }
  }
}

}  // namespace
}  // namespace planner::files::starter
