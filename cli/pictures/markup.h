// HTML and SVG text, every piece of it escaped on its way in.
#pragma once
#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

namespace cli::pictures {

// Names and text with & < > " ' as entities, and control characters as '?'.
std::string escaped(const std::string& text);
// A number for a drawing: at most two decimals, no "-0".
std::string coordinate(double value);

class Markup {
 public:
  using Attributes = std::initializer_list<std::pair<const char*, std::string>>;

  Markup& open(const char* tag, Attributes attributes = {});
  Markup& close();                                            // the tag opened last
  Markup& lone(const char* tag, Attributes attributes = {});  // without content: <path/>
  Markup& text(const std::string& text);
  // <tag attributes>text</tag>
  Markup& element(const char* tag, Attributes attributes, const std::string& text);
  Markup& element(const char* tag, const std::string& text) { return element(tag, {}, text); }
  // Text that is markup itself: another Markup's, or one of our own files.
  Markup& raw(const std::string& markup);

  const std::string& str() const { return out_; }

 private:
  void start(const char* tag, Attributes attributes, const char* end);
  std::string out_;
  std::vector<const char*> open_;
};

}  // namespace cli::pictures
