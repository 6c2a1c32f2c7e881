#include "planner/files/document.h"

#include <string>

#include <doctest/doctest.h>

namespace planner::files {
namespace {

std::string said(const std::string& text) {
  std::string all;
  for (const base::Diagnostic& d : read_document("f", text).diagnostics) {
    all += to_text(d) + "\n";
  }
  return all;
}

TEST_SUITE("planner/document") {
  TEST_CASE("keys keep the file's order and every value its place") {
    const Document d =
        read_document("f", "b = 1.50\r\na = \"é\" # c\r\n[[part]]\r\nz = [1, 2]\r\n");
    CHECK(d.diagnostics.empty());
    REQUIRE(d.root);
    REQUIRE(d.root->entries.size() == 3);
    CHECK(d.root->entries[0].key == "b");
    CHECK(d.root->entries[0].value.text == "1.50");
    CHECK(d.root->entries[0].value.column == 5);
    CHECK(d.root->entries[1].key == "a");
    CHECK(d.root->entries[1].line == 2);
    const Node& parts = d.root->entries[2].value;
    CHECK(parts.kind == NodeKind::list);
    REQUIRE(parts.items.size() == 1);
    CHECK(parts.items[0].line == 3);
    CHECK(parts.items[0].entries[0].value.items[1].column == 9);
  }

  TEST_CASE("a number keeps its digits behind letters of more than one byte") {
    const Document d = read_document("f", "a = { \"é\" = \"ü\", b = 0.1000000000000000000001 }\n");
    REQUIRE(d.root);
    CHECK(d.root->entries[0].value.entries[1].value.text == "0.1000000000000000000001");
  }

  TEST_CASE("a byte order mark and Windows line ends do no harm") {
    const Document d = read_document("f",
                                     "\xEF\xBB\xBF"
                                     "a = 1\r\n\r\nb = 2\r\n");
    REQUIRE(d.root);
    CHECK(d.root->entries[0].column == 1);
    CHECK(d.root->entries[1].line == 3);
  }

  TEST_CASE("every unquoted quantity of a file is reported, with the quotes to put") {
    CHECK(said("length = 23 13/16 in\nwidth = 604.8 mm\nheight = 5\"\n") ==
          "f:1:13: 23 13/16 in stands without quotes\n  write \"23 13/16 in\"\n"
          "f:2:15: 604.8 mm stands without quotes\n  write \"604.8 mm\"\n"
          "f:3:11: 5\" stands without quotes\n  write '5\"'\n");
  }

  TEST_CASE("what was left unread is known to have been there") {
    const Document d = read_document("f", "length = 23 13/16 in\nwidth = 3\n");
    REQUIRE(d.root);
    CHECK(d.root->entries[0].value.kind == NodeKind::unread);
    CHECK(d.root->entries[1].value.text == "3");
    CHECK_FALSE(read_document("f", "[[part]\nlength = 3\n").root);
  }

  TEST_CASE("quotes, keys and tables given twice or left open are named") {
    CHECK(said("a = 'x\nb = 1\n").find("f:1:") == 0);
    CHECK(said("a = \"23 13/16\"\"\n").find("a quote mark inside quotes") != std::string::npos);
    CHECK(said("a = 1\na = 2\n").find("\"a\" is given twice") != std::string::npos);
    CHECK(said("[part]\n[part]\n").find("[part] stands here for the second time") !=
          std::string::npos);
    CHECK(said("a =\n").find("a key without a value") != std::string::npos);
    CHECK(said("a = [1, 2\n").find("a list that is not closed") != std::string::npos);
    CHECK(said("a = “3”\n").find("\"“\" cannot stand outside quotes") != std::string::npos);
  }

  TEST_CASE("what is no text is refused in one line") {
    const std::string no_text = "the file is not plain UTF-8 text";
    CHECK(said("\xFF\xFE"
               "a")
              .find(no_text) != std::string::npos);
    CHECK(said(std::string("a = 1\0", 6)).find(no_text) != std::string::npos);
    CHECK(said("a = \"\xC0\x80\"").find(no_text) != std::string::npos);
    CHECK(said("a = \"\xED\xA0\x80\"").find(no_text) != std::string::npos);
  }

  // The parser asserts on the first, is undefined on the second, and recurses on the rest.
  TEST_CASE("bytes that trip the parser are refused, not followed") {
    CHECK_FALSE(said("a = [:").empty());
    CHECK_FALSE(said("a = \xCC\xBF\n\xCC\xBF = 1\n").empty());
    CHECK_FALSE(said("a = " + std::string(100'000, '[')).empty());
    std::string deep = "a";
    for (int i = 0; i < 100'000; ++i) {
      deep += ".a";
    }
    CHECK(said(deep + " = 1").find("nested this deep") != std::string::npos);
    CHECK(said("[" + deep + "]").find("nested this deep") != std::string::npos);
    std::string inlined;
    for (int i = 0; i < 10'000; ++i) {
      inlined += "{a=";
    }
    CHECK_FALSE(said("a = " + inlined).empty());
    CHECK(read_document("f", "").root);
    // Line 1 opens a text that line 2 is in, until line 1 is taken out.
    CHECK(said("[a'''b\nc = \xE2\x88\x95"
               "3\n")
              .find("f:2:5: \"\xE2\x88\x95\" cannot stand") != std::string::npos);
    CHECK(said("a = \"\"\"b\"\"\"\"\nc = \xE2\x88\x95"
               "3\n")
              .find("f:2:5:") == 0);
  }
}

}  // namespace
}  // namespace planner::files
