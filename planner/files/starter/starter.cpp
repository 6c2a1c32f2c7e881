#include "planner/files/starter/starter.h"

#include <algorithm>
#include <stdexcept>

namespace planner::files::starter {

const StarterKey& key_of(const Starter& starter, std::string_view name) {
  const auto key = std::find_if(starter.keys.begin(), starter.keys.end(),
                                [&](const StarterKey& k) { return k.name == name; });
  if (key == starter.keys.end()) {
    throw std::logic_error("the starter describes no key " + std::string(name));
  }
  return *key;
}

std::vector<std::string> words_of(const StarterKey& key) {
  std::vector<std::string> words;
  for (const StarterWord& w : key.words) {
    if (!w.word.empty()) {
      words.emplace_back(w.word);
    }
  }
  return words;
}

}  // namespace planner::files::starter
