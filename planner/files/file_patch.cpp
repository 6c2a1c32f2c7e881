#include "planner/files/file_patch.h"

#include <algorithm>
#include <charconv>

#include "planner/files/document.h"

namespace planner::files {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// A text by lines, as the parser counts: from 1, columns in letters.
class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text) {
    starts_.push_back(text.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\n') {
        starts_.push_back(i + 1);
      }
    }
  }

  std::size_t start(int line) const {
    const auto n = static_cast<std::size_t>(std::max(line, 1)) - 1;
    return n < starts_.size() ? starts_[n] : text_.size();
  }
  std::size_t at(int line, int column) const {
    std::size_t byte = start(line);
    for (int passed = 1; passed < column && byte < text_.size(); ++passed) {
      ++byte;
      while (byte < text_.size() && (static_cast<unsigned char>(text_[byte]) & 0xC0u) == 0x80u) {
        ++byte;
      }
    }
    return byte;
  }
  // Where the line that holds the byte begins, and where the next one does.
  std::size_t begin_of(std::size_t byte) const {
    return *std::prev(std::upper_bound(starts_.begin() + 1, starts_.end(), byte));
  }
  std::size_t after(std::size_t byte) const {
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), byte);
    return next == starts_.end() ? text_.size() : *next;
  }

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

std::optional<std::size_t> number_in(const std::string& step, std::size_t below) {
  std::size_t n = 0;
  const auto [end, error] = std::from_chars(step.data(), step.data() + step.size(), n);
  return error == std::errc() && end == step.data() + step.size() && n < below ? std::optional(n)
                                                                             : std::nullopt;
}

class Patcher {
 public:
  Patcher(std::string_view text, const Node& root)
      : text_(text), lines_(text), eol_(text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n") {
    ways_.push_back({&root, nullptr});
  }

  // How far the path leads; true where to its end.
  bool follow(const FilePath& path) {
    for (; depth_ < path.size(); ++depth_) {
      const Node& node = *ways_.back().node;
      if (node.kind == NodeKind::table) {
        const auto entry = std::find_if(node.entries.begin(), node.entries.end(),
                                        [&](const Entry& e) { return e.key == path[depth_]; });
        if (entry == node.entries.end()) {
          return false;
        }
        ways_.push_back({&entry->value, &*entry});
      } else if (const auto n = number_in(path[depth_], node.items.size());
                 n && node.kind == NodeKind::list) {
        ways_.push_back({&node.items[*n], nullptr});
      } else {
        return false;
      }
    }
    return true;
  }

  std::string replaced(std::string_view value) const {
    const Node& node = *ways_.back().node;
    return spliced(begin_of(node), end_of(node), value);
  }

  std::optional<std::string> inserted(const FilePath& path, std::string_view value) const {
    const Node& table = *ways_.back().node;
    if (table.kind != NodeKind::table) {
      return std::nullopt;
    }
    std::string key = path[depth_];
    for (std::size_t i = depth_ + 1; i < path.size(); ++i) {
      key += "." + path[i];
    }
    const bool whole = ways_.size() == 1;
    if (whole && depth_ + 1 < path.size()) {
      const std::size_t last = key.rfind('.');
      return section("[" + key.substr(0, last) + "]", key.substr(last + 1) + " = " + std::string(value));
    }
    if (!whole && byte_at(table) == '{') {
      return in_braces(table, key + " = " + std::string(value));
    }
    return as_line(table, key, value);
  }

  std::optional<std::string> taken_out() const {
    const auto& [node, entry] = ways_.back();
    if (ways_.size() < 2) {
      return std::nullopt;
    }
    const Node& parent = *ways_[ways_.size() - 2].node;
    if (has_header(*node)) {
      return lines_taken_out(lines_.begin_of(begin_of(*node)), lines_.after(last_byte(*node)));
    }
    if (node->kind == NodeKind::list && !node->items.empty() && has_header(node->items[0])) {
      return std::nullopt;  // one by one
    }
    const std::size_t from = entry == nullptr ? begin_of(*node) : lines_.at(entry->line, entry->column);
    if (entry != nullptr && (ways_.size() == 2 || byte_at(parent) != '{')) {
      return lines_taken_out(lines_.begin_of(from), lines_.after(end_of(*node) - 1));
    }
    return out_of_list(from, end_of(*node));
  }

  std::string with_section(const std::string& heading, std::string_view body) const {
    const std::size_t mark = heading.find_first_not_of('[');
    const std::string_view name = std::string_view(heading).substr(mark, heading.find(']') - mark);
    const Node& root = *ways_.front().node;
    const auto same = std::find_if(root.entries.begin(), root.entries.end(),
                                   [&](const Entry& e) { return e.key == name; });
    if (same == root.entries.end() || same->value.items.empty() || !has_header(same->value.items[0])) {
      return section(heading, body);
    }
    const std::size_t end = lines_.after(last_byte(same->value.items.back()));
    return spliced(end, end, line_end_before(end) + eol_ + heading + eol_ + lines_of(body));
  }

 private:
  struct Way {
    const Node* node;
    const Entry* entry;  // that holds it
  };

  std::size_t begin_of(const Node& node) const { return lines_.at(node.line, node.column); }
  std::size_t end_of(const Node& node) const { return lines_.at(node.end_line, node.end_column); }
  char byte_at(const Node& node) const {
    const std::size_t at = begin_of(node);
    return at < text_.size() ? text_[at] : '\0';
  }
  bool has_header(const Node& node) const {
    return node.kind == NodeKind::table && byte_at(node) == '[';
  }
  // Whether the value stands on lines of its table, not under a header of its own.
  bool direct(const Node& value) const {
    return !has_header(value) && (value.items.empty() || !has_header(value.items[0]));
  }

  // The last byte that belongs to a value or to anything below it.
  std::size_t last_byte(const Node& node) const {
    std::size_t last = std::max<std::size_t>(end_of(node), 1) - 1;
    for (const Entry& entry : node.entries) {
      last = std::max(last, last_byte(entry.value));
    }
    for (const Node& item : node.items) {
      last = std::max(last, last_byte(item));
    }
    return last;
  }

  std::string spliced(std::size_t from, std::size_t to, std::string_view put) const {
    return std::string(text_.substr(0, from)) + std::string(put) + std::string(text_.substr(to));
  }
  std::string line_end_before(std::size_t at) const {
    return at == 0 || text_[at - 1] == '\n' ? "" : eol_;
  }
  std::string lines_of(std::string_view body) const {
    std::string out;
    for (const char c : body) {
      out += c == '\n' ? eol_ : std::string(1, c);
    }
    return out.empty() || out.ends_with(eol_) ? out : out + eol_;
  }
  std::string section(const std::string& heading, std::string_view body) const {
    const std::size_t end = text_.size();
    return spliced(end, end, line_end_before(end) + eol_ + heading + eol_ + lines_of(body));
  }

  std::string in_braces(const Node& table, const std::string& pair) const {
    if (table.entries.empty()) {
      const std::size_t inside = begin_of(table) + 1;
      return spliced(inside, inside, " " + pair + " ");
    }
    const std::size_t last = last_byte(table.entries.back().value) + 1;
    return spliced(last, last, ", " + pair);
  }

  // Behind the table's last line, as that one is written: its indent, and its equals sign in one column.
  std::string as_line(const Node& table, std::string key, std::string_view value) const {
    const Entry* last = nullptr;
    for (const Entry& entry : table.entries) {
      last = direct(entry.value) ? &entry : last;
    }
    if (last == nullptr) {
      const std::size_t at = ways_.size() == 1 ? first_header() : lines_.after(end_of(table) - 1);
      return spliced(at, at, line_end_before(at) + key + " = " + std::string(value) + eol_);
    }
    const std::size_t key_at = lines_.at(last->line, last->column), line = lines_.begin_of(key_at);
    const std::size_t equals = text_.find('=', key_at);
    key.resize(std::max(key.size(), std::max(equals, key_at + 1) - key_at - 1), ' ');
    const std::size_t at = lines_.after(last_byte(last->value));
    return spliced(at, at, line_end_before(at) + std::string(text_.substr(line, key_at - line)) + key +
                               " = " + std::string(value) + eol_);
  }

  // Where the first table of the file begins, or its end.
  std::size_t first_header() const {
    std::size_t first = text_.size();
    for (const Entry& entry : ways_.front().node->entries) {
      const Node& value = entry.value.items.empty() ? entry.value : entry.value.items[0];
      first = std::min(first, lines_.begin_of(begin_of(value)));
    }
    return first;
  }

  // With the empty line before them, where one follows too or the text ends.
  std::string lines_taken_out(std::size_t from, std::size_t to) const {
    const bool blank_after = to >= text_.size() || text_.substr(to, eol_.size()) == eol_;
    const std::size_t before = from - std::min(from, eol_.size());
    const bool blank_before = from > 0 && text_.substr(before, eol_.size()) == eol_ &&
                              (before == 0 || text_[before - 1] == '\n');
    return spliced(blank_after && blank_before ? before : from, to, "");
  }

  // With its comma: the one behind it, or of a last one the one before.
  std::string out_of_list(std::size_t from, std::size_t to) const {
    const std::size_t next = text_.find_first_not_of(" \t\r\n", to);
    if (next != std::string_view::npos && text_[next] == ',') {
      const std::size_t rest = text_.find_first_not_of(" \t", next + 1);
      return spliced(from, std::min(rest, text_.size()), "");
    }
    const std::size_t before = from == 0 ? 0 : text_.find_last_not_of(" \t\r\n", from - 1);
    return spliced(before != std::string_view::npos && text_[before] == ',' ? before : from, to, "");
  }

  std::string_view text_;
  Lines lines_;
  std::string eol_;
  std::vector<Way> ways_;  // from the top
  std::size_t depth_ = 0;
};

// The text, unless the change made it worse to read.
std::optional<std::string> if_sound(std::optional<std::string> changed, std::size_t mistakes) {
  if (!changed) {
    return std::nullopt;
  }
  const Document again = read_document("", *changed);
  return again.root && again.diagnostics.size() <= mistakes ? changed : std::nullopt;
}

// What `change` makes of the text, where it can be read.
template <class Change>
std::optional<std::string> patched(std::string_view text, Change change) {
  const Document document = read_document("", text);
  if (!document.root) {
    return std::nullopt;
  }
  Patcher patcher(text, *document.root);
  return if_sound(change(patcher), document.diagnostics.size());
}

bool is_number(std::string_view text) {
  const std::string_view digits = text.starts_with('-') ? text.substr(1) : text;
  const std::size_t dot = digits.find('.');
  const std::string_view whole = digits.substr(0, dot);
  const auto all_digits = [](std::string_view s) {
    return !s.empty() && s.find_first_not_of("0123456789") == std::string_view::npos;
  };
  return all_digits(whole) && (whole.size() == 1 || whole[0] != '0') &&
         (dot == std::string_view::npos || all_digits(digits.substr(dot + 1)));
}

}  // namespace

std::string toml_value(std::string_view typed, bool quoted) {
  if (!quoted && is_number(typed)) {
    return std::string(typed);
  }
  constexpr std::string_view kHex = "0123456789abcdef";
  std::string out = "\"";
  for (const char c : typed) {
    const auto u = static_cast<unsigned char>(c);
    if (u < 0x20 || u == 0x7F) {
      out += std::string("\\u00") + kHex[u >> 4u] + kHex[u & 15u];
    } else {
      out += c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c);
    }
  }
  return out + "\"";
}

std::optional<std::string> with_value(std::string_view text, const FilePath& path, std::string_view value) {
  return patched(text, [&](Patcher& patcher) -> std::optional<std::string> {
    return patcher.follow(path) ? patcher.replaced(value) : patcher.inserted(path, value);
  });
}

std::optional<std::string> without(std::string_view text, const FilePath& path) {
  return patched(text, [&](Patcher& patcher) {
    return patcher.follow(path) ? patcher.taken_out() : std::nullopt;
  });
}

std::optional<std::string> with_table(std::string_view text, std::string_view heading, std::string_view lines) {
  return patched(text, [&](Patcher& patcher) -> std::optional<std::string> {
    return patcher.with_section(std::string(heading), lines);
  });
}

}  // namespace planner::files
