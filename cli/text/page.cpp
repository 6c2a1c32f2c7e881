#include "cli/text/page.h"

#include <algorithm>
#include <numeric>

#include "cli/words/words.h"

namespace cli::text {
namespace {

const char* escape(Ink ink) {
  switch (ink) {
    case Ink::plain:
      return "";
    case Ink::bold:
      return "\x1b[1m";
    case Ink::green:
      return "\x1b[1;32m";
    case Ink::yellow:
      return "\x1b[1;33m";
    case Ink::red:
      return "\x1b[1;31m";
  }
  return "";
}

std::string blanks(int n) {
  return std::string(static_cast<std::size_t>(std::max(0, n)), ' ');
}

}  // namespace

void Page::put(const std::string& one_line) {
  const std::size_t end = one_line.find_last_not_of(' ') + 1;
  text_ += one_line.substr(0, end) + "\n";
}

void Page::line(const std::string& text, int hang) {
  // Blanks in front, and runs of them in tables, are kept where the line fits as it is.
  if (words::columns(text) <= kPageWidth) {
    put(text);
    return;
  }
  const std::size_t indent = std::min(text.find_first_not_of(' '), text.size());
  const std::vector<std::string> first =
      words::wrapped(text.substr(indent), kPageWidth - static_cast<int>(indent));
  put(text.substr(0, indent) + first.front());
  std::string rest;
  for (std::size_t i = 1; i < first.size(); ++i) {
    rest += (i == 1 ? "" : " ") + first[i];
  }
  for (const std::string& next : words::wrapped(rest, kPageWidth - hang)) {
    put(blanks(hang) + next);
  }
}

void Page::inked_line(Ink ink, const std::string& inked, const std::string& rest) {
  const std::vector<std::string> lines = words::wrapped(inked + rest, kPageWidth);
  if (!colour_ || lines.front().size() < inked.size()) {
    line(inked + rest);
    return;
  }
  put(escape(ink) + inked + "\x1b[0m" + lines.front().substr(inked.size()));
  for (std::size_t i = 1; i < lines.size(); ++i) {
    put(lines[i]);
  }
}

void Page::blank() {
  if (!text_.empty() && !text_.ends_with("\n\n")) {
    text_ += "\n";
  }
}

void Page::heading(const std::string& text) {
  blank();
  if (!colour_) {
    line(text);
    return;
  }
  inked_line(Ink::bold, text, "");
}

void Page::item(const std::string& mark, const std::string& text) {
  const std::string lead = "  " + mark + " ";
  const int hang = words::columns(lead);
  bool first = true;
  for (const std::string& each : words::wrapped(text, kPageWidth - hang)) {
    put((first ? lead : blanks(hang)) + each);
    first = false;
  }
}

void lay_out(const Table& table, int indent, Page& page) {
  std::vector<int> widths(table.columns.size(), 0);
  for (const auto& row : table.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], words::columns(row[i]));
    }
  }
  const int all = std::accumulate(widths.begin(), widths.end(), indent);
  const int gaps = static_cast<int>(widths.size()) - 1;
  const int gap = all + 2 * gaps > kPageWidth ? 1 : 2;
  for (const auto& row : table.rows) {
    std::string text = blanks(indent);
    for (std::size_t i = 0; i < row.size(); ++i) {
      text += i == 0 ? "" : blanks(gap);
      text += table.columns[i] == Align::left ? words::padded(row[i], widths[i])
                                              : words::right_aligned(row[i], widths[i]);
    }
    page.line(text.substr(0, text.find_last_not_of(' ') + 1), indent + 4);
  }
}

}  // namespace cli::text
