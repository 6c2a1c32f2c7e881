// A page of plain text: never wider than 80 columns, no blanks at the end of a line.
#pragma once
#include <string>
#include <vector>

namespace cli::text {

inline constexpr int kPageWidth = 80;

enum class Ink { plain, bold, green, yellow, red };

class Page {
 public:
  // With colour, headings and inked lines carry terminal escapes, which take no columns.
  explicit Page(bool colour) : colour_(colour) {}

  // One line, wrapped onto more if it must; the rest hangs under `hang` blanks. `ink` for the
  // first `inked` bytes.
  void line(const std::string& text, int hang = 0);
  void inked_line(Ink ink, const std::string& inked, const std::string& rest);
  void blank();  // never two together, none at the top
  void heading(const std::string& text);
  // "  mark text", wrapped under the text.
  void item(const std::string& mark, const std::string& text);

  const std::string& text() const { return text_; }

 private:
  void put(const std::string& one_line);
  bool colour_;
  std::string text_;
};

// Rows of cells laid out in columns as wide as their widest cell, two blanks apart, or one where the
// page has no room for two.
enum class Align { left, right };
struct Table {
  std::vector<Align> columns;
  std::vector<std::vector<std::string>> rows;  // the first row is the head
};
void lay_out(const Table& table, int indent, Page& page);

}  // namespace cli::text
