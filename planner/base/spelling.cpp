#include "planner/base/spelling.h"

#include <algorithm>
#include <array>

#include "planner/base/diagnostic.h"

namespace planner::base {
namespace {

struct Spelling {
  std::string_view uk, canonical;
  bool marks_uk;  // "miter" is only another spelling, "rebate" another country
};
constexpr std::array<Spelling, 5> kSpellings = {{{"rebate", "rabbet", true},
                                                 {"housing", "dado", true},
                                                 {"mortice", "mortise", true},
                                                 {"cramp", "clamp", true},
                                                 {"miter", "mitre", false}}};

std::string with_canonical_spelling(std::string text, bool& uk_words) {
  for (const Spelling& s : kSpellings) {
    for (std::size_t at = text.find(s.uk); at != std::string::npos; at = text.find(s.uk)) {
      text.replace(at, s.uk.size(), s.canonical);
      uk_words = uk_words || s.marks_uk;
    }
  }
  return text;
}

std::string join(const std::vector<std::string>& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? "" : i + 1 == words.size() ? std::string(last) : ", ";
    text += words[i];
  }
  return text;
}

}  // namespace

std::string shown(std::string_view text) {
  constexpr std::size_t kMostLetters = 40;
  std::string out;
  std::size_t letters = 0;
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if ((u & 0xC0u) != 0x80u && ++letters > kMostLetters) {
      return out + "...";
    }
    out += u < 0x20 || u == 0x7F ? ' ' : c;
  }
  return out;
}

std::string canonical_word(std::string_view word, bool& uk_words) {
  std::string text(word.substr(0, 64));
  for (char& c : text) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == '_' || c == ' ' ? '-' : c;
  }
  return with_canonical_spelling(text, uk_words);
}

std::string canonical_key(std::string_view key) {
  bool ignored = false;
  return key.size() > 64 ? std::string(key) : with_canonical_spelling(std::string(key), ignored);
}

std::string nearest_word(const std::string& word, std::vector<std::string> words) {
  const std::vector<std::string> canonical = words;
  for (const Spelling& s : kSpellings) {
    if (std::find(canonical.begin(), canonical.end(), s.canonical) != canonical.end()) {
      words.emplace_back(s.uk);
    }
  }
  return nearest(word, words);
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& ids,
                         const std::string& otherwise) {
  constexpr std::size_t kMostMeant = 6;
  std::vector<std::string> meant;
  if (const std::string slip = nearest(std::string(name), ids); !slip.empty()) {
    meant.push_back(slip);
  } else {
    bool ignored = false;
    std::string word = canonical_word(name, ignored);
    std::replace(word.begin(), word.end(), '-', '_');
    for (const std::string& id : ids) {
      if (("_" + id + "_").find("_" + word + "_") != std::string::npos) {
        meant.push_back(id);
      }
    }
  }
  if (meant.empty() || meant.size() > kMostMeant) {
    return otherwise;
  }
  for (std::string& id : meant) {
    id = "\"" + id + "\"";
  }
  return "did you mean " + one_of(meant) + "?";
}

std::string one_of(const std::vector<std::string>& words) {
  return join(words, " or ");
}

std::string all_of(const std::vector<std::string>& words) {
  return join(words, " and ");
}

}  // namespace planner::base
