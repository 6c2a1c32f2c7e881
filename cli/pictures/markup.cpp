#include "cli/pictures/markup.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/words/words.h"

namespace cli::pictures {

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : words::printable(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string coordinate(double value) {
  return fmt::format("{:.6g}", std::round(value * 100) / 100 + 0.0);
}

void Markup::start(const char* tag, Attributes attributes, const char* end) {
  out_ += "<";
  out_ += tag;
  for (const auto& [name, value] : attributes) {
    out_ += fmt::format(" {}=\"{}\"", name, escaped(value));
  }
  out_ += end;
}

Markup& Markup::open(const char* tag, Attributes attributes) {
  start(tag, attributes, ">");
  open_.push_back(tag);
  return *this;
}

Markup& Markup::close() {
  // A line break inside a sentence would show as a blank.
  const std::string tag = open_.back();
  const bool in_text = tag == "strong" || tag == "span" || tag == "time" || tag == "tspan";
  out_ += "</" + tag + (in_text ? ">" : ">\n");
  open_.pop_back();
  return *this;
}

Markup& Markup::lone(const char* tag, Attributes attributes) {
  start(tag, attributes, "/>");
  return *this;
}

Markup& Markup::text(const std::string& text) {
  out_ += escaped(text);
  return *this;
}

Markup& Markup::element(const char* tag, Attributes attributes, const std::string& content) {
  return open(tag, attributes).text(content).close();
}

Markup& Markup::raw(const std::string& markup) {
  out_ += markup;
  return *this;
}

}  // namespace cli::pictures
