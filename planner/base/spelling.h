// What people write, as messages repeat it: UK spellings, slips of the pen, lists of words.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace planner::base {

// A text as its writer would know it again, no longer than a line has room for.
std::string shown(std::string_view text);

// "rabbet" for "rebate", "dado" for "housing", "mortise", "mitre" and "clamp" likewise, in lower
// case with dashes for spaces. `uk_words` becomes true where the word was a UK one.
std::string canonical_word(std::string_view word, bool& uk_words);

// A key as the list of keys has it: UK spellings made the canonical ones, case kept.
std::string canonical_key(std::string_view key);

// The one of `words`, or a UK spelling of one, that `word` is meant to be; empty where none is
// near.
std::string nearest_word(const std::string& word, std::vector<std::string> words);

// What to write instead of a name that no row of a table has: `did you mean "red_oak"?`, the one of
// `ids` that it is a slip of, or those that it is one word of ("oak"), up to six; else `otherwise`.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& ids,
                         const std::string& otherwise);

// "a, b or c", "a, b and c"
std::string one_of(const std::vector<std::string>& words);
std::string all_of(const std::vector<std::string>& words);

}  // namespace planner::base
