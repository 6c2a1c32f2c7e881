#include "planner/tables/trade_name.h"

#include <array>
#include <utility>

namespace planner::tables {

std::string trade_key(std::string_view name) {
  std::string key;
  for (const char c : name) {
    if (c >= 'A' && c <= 'Z')
      key += static_cast<char>(c - 'A' + 'a');
    else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
             static_cast<unsigned char>(c) > 127)
      key += c;
    else if (!key.empty() && key.back() != '_')
      key += '_';
  }
  if (key.ends_with('_'))
    key.pop_back();
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kUkToUs{
      {{"cramp", "clamp"},
       {"mitre", "miter"},
       {"aluminium", "aluminum"},
       {"fibre", "fiber"},
       {"mould", "mold"}}};
  for (const auto& [uk, us] : kUkToUs)
    for (std::size_t at = key.find(uk); at != std::string::npos; at = key.find(uk, at + us.size()))
      key.replace(at, uk.size(), us);
  return key;
}

std::string plain_order(std::string_view handbook_name) {
  const std::size_t comma = handbook_name.find(',');
  if (comma == std::string_view::npos)
    return std::string(handbook_name);
  return std::string(handbook_name.substr(comma + 1)) + " " +
         std::string(handbook_name.substr(0, comma));
}

}  // namespace planner::tables
