// A TOML file as a tree in which every key and value knows its place. The job and shop readers work
// on this; only document.cpp sees the parser.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/base/diagnostic.h"

namespace planner::files {

enum class NodeKind {
  table,
  list,
  text,
  number,
  truth,
  date,
  unread  // its line could not be read, which is already reported
};

struct Entry;

// "chest" of "shop/chest.toml": what a job without a title is called, and a mesh without names.
std::string stem_of(const std::string& file);

struct Node {
  NodeKind kind = NodeKind::table;
  int line = 0, column = 0;    // of the value; of a table: its header or brace
  int end_line = 0, end_column = 0;  // where it ends, its last letter before; of a table with a header: the header
  std::string text;            // what a text says; a number or truth as written in the file
  std::vector<Node> items;     // of a list
  std::vector<Entry> entries;  // of a table, in the file's order
};

struct Entry {
  std::string key;
  int line = 0, column = 0;
  Node value;
};

struct Document {
  std::optional<Node> root;  // missing where the text is too broken to say what is in it
  base::Diagnostics diagnostics;
};

// All lines that cannot be read are reported, up to 20, not the first alone. Never throws or
// crashes, whatever the bytes.
Document read_document(const std::string& file, std::string_view text);

}  // namespace planner::files
