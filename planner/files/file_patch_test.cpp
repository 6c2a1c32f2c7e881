#include "planner/files/file_patch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include <doctest/doctest.h>

#include "planner/files/document.h"
#include "tests/source_dir.h"

namespace planner::files {
namespace {

constexpr const char* kJob =
    "title = \"Chest\"   # mine\n"
    "units = 'in'\n"
    "\n"
    "[box]  # é\n"
    "outside = [14, \"9 1/2\", 8]  # length, width, height\n"
    "stock   = \"3/4\"\n"
    "\n"
    "[glue]\n"
    "use = \"pva_type2\"";

std::string read(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

// Everything a file says but for one place, so that nothing else can have changed.
void flatten(const Node& node, const FilePath& path, const FilePath& but, std::string& out) {
  if (path == but) {
    return;
  }
  for (const std::string& step : path) {
    out += step + "/";
  }
  out += std::to_string(static_cast<int>(node.kind)) + " " + node.text + "\n";
  const auto below = [&](const std::string& step, const Node& child) {
    FilePath longer = path;
    longer.push_back(step);
    flatten(child, longer, but, out);
  };
  for (const Entry& entry : node.entries) {
    below(entry.key, entry.value);
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    below(std::to_string(i), node.items[i]);
  }
}
std::string all_but(const std::string& text, const FilePath& but) {
  std::string out;
  flatten(*read_document("", text).root, {}, but, out);
  return out;
}

std::vector<FilePath> leaves(const Node& node, const FilePath& path = {}) {
  std::vector<FilePath> out;
  const auto below = [&](const std::string& step, const Node& child) {
    FilePath longer = path;
    longer.push_back(step);
    const std::vector<FilePath> more = leaves(child, longer);
    out.insert(out.end(), more.begin(), more.end());
  };
  for (const Entry& entry : node.entries) {
    below(entry.key, entry.value);
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    below(std::to_string(i), node.items[i]);
  }
  return node.entries.empty() && node.items.empty() ? std::vector<FilePath>{path} : out;
}

// The comment at the end of each line, as far as a mark in a text doesn't look like one.
std::string comments(const std::string& text) {
  std::string out;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t mark = line.rfind(" #");
    out += (mark == std::string::npos ? "" : line.substr(mark)) + "\n";
  }
  return out;
}

std::string at_path(const std::string& text, const FilePath& path) {
  const Document document = read_document("", text);
  const Node* node = &*document.root;
  for (const std::string& step : path) {
    if (node->kind == NodeKind::list) {
      node = &node->items.at(std::stoul(step));
      continue;
    }
    for (const Entry& entry : node->entries) {
      if (entry.key == step) {
        node = &entry.value;
        break;
      }
    }
  }
  return node->text;
}

std::vector<std::string> fixture_files() {
  std::vector<std::string> texts;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(std::string(source_dir()) + "/fixtures")) {
    if (entry.path().extension() == ".toml") {
      texts.push_back(read(entry.path()));
    }
  }
  return texts;
}

TEST_SUITE("planner/file_patch") {
  TEST_CASE("a value is changed where it stands") {
    CHECK(with_value(kJob, {"box", "stock"}, "\"1/2\"") ==
          std::string(kJob).replace(std::string(kJob).find("\"3/4\""), 5, "\"1/2\""));
    CHECK(with_value(kJob, {"box", "outside", "1"}, "10") ==
          std::string(kJob).replace(std::string(kJob).find("\"9 1/2\""), 7, "10"));
    CHECK(with_value(kJob, {"units"}, "\"mm\"") ==
          std::string(kJob).replace(std::string(kJob).find("'in'"), 4, "\"mm\""));
  }

  TEST_CASE("a new key stands behind its table's, written as they are") {
    CHECK(with_value(kJob, {"box", "top"}, "\"butt\"").value().find(
              "stock   = \"3/4\"\ntop     = \"butt\"\n\n[glue]") != std::string::npos);
    CHECK(with_value(kJob, {"species"}, "\"red_oak\"").value().find(
              "units = 'in'\nspecies = \"red_oak\"\n\n[box]") != std::string::npos);
    CHECK(with_value("a = { b = 1 }\n", {"a", "c"}, "2") == "a = { b = 1, c = 2 }\n");
    CHECK(with_value("[pace]\nsnug.sash = \"9 s\"\n", {"pace", "snug", "f_heavy"}, "\"5 s\"") ==
          "[pace]\nsnug.sash = \"9 s\"\nsnug.f_heavy = \"5 s\"\n");
    CHECK(with_value("[glue]\n", {"glue", "use"}, "\"x\"") == "[glue]\nuse = \"x\"\n");
  }

  TEST_CASE("a new table stands at the end, or behind its like") {
    CHECK(with_value("a = 1\n", {"glue", "use"}, "\"x\"") == "a = 1\n\n[glue]\nuse = \"x\"\n");
    CHECK(with_table("[[clamp]]\ncount = 1\n\n[pace]\njoin = \"5 s\"\n", "[[clamp]]", "count = 2") ==
          "[[clamp]]\ncount = 1\n\n[[clamp]]\ncount = 2\n\n[pace]\njoin = \"5 s\"\n");
  }

  TEST_CASE("a table of one kind is put in once") {
    CHECK(with_table("a = 1", "[pace]", "") == "a = 1\n\n[pace]\n");
    CHECK_FALSE(with_table("a = 1\n\n[pace]\n", "[pace]", ""));
  }

  TEST_CASE("what is taken out goes with its line, its comma or its table") {
    CHECK(without("a = 1 # one\nb = 2\n", {"a"}) == "b = 2\n");
    CHECK(without("a = [1, 2, 3]\n", {"a", "1"}) == "a = [1, 3]\n");
    CHECK(without("a = [1, 2]\n", {"a", "1"}) == "a = [1]\n");
    CHECK(without("a = { b = 1, c = 2 }\n", {"a", "b"}) == "a = { c = 2 }\n");
    CHECK(without("x = 1\n\n[[c]]\nn = 1\n\n[[c]]\nn = 2 # two\n", {"c", "0"}) ==
          "x = 1\n\n[[c]]\nn = 2 # two\n");
    CHECK_FALSE(without("a = 1\n", {"b"}));
  }

  TEST_CASE("what would break the file is refused") {
    CHECK_FALSE(with_value("a = 1\n", {"a"}, "\"open"));
    CHECK_FALSE(with_value("a = 1\n", {"a", "b"}, "2"));
    CHECK_FALSE(with_value("a = = 1\n[b\n[[\n", {"c"}, "2"));
  }

  TEST_CASE("typed values are numbers where they look so, else texts") {
    CHECK(toml_value("12.5", false) == "12.5");
    CHECK(toml_value("12.5", true) == "\"12.5\"");
    CHECK(toml_value("3/4", false) == "\"3/4\"");
    CHECK(toml_value("007", false) == "\"007\"");
    CHECK(toml_value("5' 3\"\n\\", false) == "\"5' 3\\\"\\u000a\\\\\"");
  }

  TEST_CASE("a thousand random changes change nothing else") {
    const std::vector<std::string> texts = fixture_files();
    REQUIRE(texts.size() > 20);
    std::mt19937 dice(25);
    const auto roll = [&](std::size_t n) { return dice() % n; };
    const std::vector<std::string> typed = {"1", "12.5", "3/4", "\xC3\xA9t\xC3\xA9", "a \"b\" \\", "x # y"};
    for (int i = 0; i < 1000; ++i) {
      std::string text = texts[roll(texts.size())];
      if (roll(2) == 0) {  // as another system writes lines
        std::string crlf;
        for (const char c : text) {
          crlf += c == '\n' ? "\r\n" : std::string(1, c);
        }
        text = crlf;
      }
      const std::vector<FilePath> all = leaves(*read_document("", text).root);
      const FilePath path = all[roll(all.size())];
      const std::string value = typed[roll(typed.size())];
      const auto changed = with_value(text, path, toml_value(value, false));
      REQUIRE(changed);
      CHECK(at_path(*changed, path) == value);
      CHECK(all_but(*changed, path) == all_but(text, path));
      if (value.find('#') == std::string::npos) {
        CHECK(comments(*changed) == comments(text));
      }
      CHECK(std::count(changed->begin(), changed->end(), '\n') == std::count(text.begin(), text.end(), '\n'));
    }
  }
}

}  // namespace
}  // namespace planner::files
