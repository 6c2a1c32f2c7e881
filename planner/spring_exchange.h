// Which springs of a contact hold, found by exchange: those on the wrong side change it.
#pragma once
#include <cstddef>
#include <vector>

namespace planner {

// Exchange of all wrong springs at once while that helps, else of one at a time, which always ends:
// Judice and Pires, Computers and Operations Research 21 (1994), from memory.
class SpringExchange {
 public:
  explicit SpringExchange(std::size_t springs) : fewest_(springs + 1) {}

  // Changes `holding`, a spring each, by how far each is closed (mm, or any other unit) where those
  // hold. False, and nothing changed, where none is on the wrong side: closed and pulling, or open
  // and overlapping.
  bool next(const std::vector<double>& closing, std::vector<char>& holding);

 private:
  static constexpr int kPatience = 3;

  std::size_t fewest_;
  int patience_ = kPatience;
  bool first_ = true;
};

}  // namespace planner
