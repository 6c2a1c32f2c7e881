// A set of units (parts, or subassemblies already glued) as bits.
#pragma once
#include <array>
#include <bit>
#include <cstdint>

namespace planner::base {

class UnitSet {
 public:
  static constexpr int kCapacity = 256;  // more pieces than one glue-up has

  static UnitSet first(int count) {
    UnitSet s;
    for (int u = 0; u < count; ++u) {
      s.insert(u);
    }
    return s;
  }
  static UnitSet of(int unit) {
    UnitSet s;
    s.insert(unit);
    return s;
  }

  void insert(int u) { words_[word(u)] |= bit(u); }
  void erase(int u) { words_[word(u)] &= ~bit(u); }
  bool contains(int u) const { return (words_[word(u)] & bit(u)) != 0; }
  bool empty() const { return *this == UnitSet{}; }
  int count() const {
    int n = 0;
    for (std::uint64_t w : words_) {
      n += std::popcount(w);
    }
    return n;
  }
  // Lowest unit, or the lowest above `u`; -1 where there is none. To walk through the set in order:
  // for (int u = s.lowest(); u >= 0; u = s.next(u)).
  int lowest() const { return next(-1); }
  int next(int u) const {
    for (int from = u + 1; from < kCapacity; from = (from / 64 + 1) * 64) {
      const std::uint64_t rest = words_[word(from)] >> (from % 64);
      if (rest != 0) {
        return from + std::countr_zero(rest);
      }
    }
    return -1;
  }

  bool intersects(const UnitSet& o) const { return !(*this & o).empty(); }
  bool covers(const UnitSet& o) const { return (o - *this).empty(); }

  friend UnitSet operator|(UnitSet a, const UnitSet& b) {
    for (std::size_t i = 0; i < kWords; ++i) {
      a.words_[i] |= b.words_[i];
    }
    return a;
  }
  friend UnitSet operator&(UnitSet a, const UnitSet& b) {
    for (std::size_t i = 0; i < kWords; ++i) {
      a.words_[i] &= b.words_[i];
    }
    return a;
  }
  friend UnitSet operator-(UnitSet a, const UnitSet& b) {
    for (std::size_t i = 0; i < kWords; ++i) {
      a.words_[i] &= ~b.words_[i];
    }
    return a;
  }
  friend bool operator==(const UnitSet&, const UnitSet&) = default;
  friend auto operator<=>(const UnitSet&, const UnitSet&) = default;

  std::size_t hash() const {
    std::uint64_t h = 0;
    for (std::uint64_t w : words_) {
      h = (h ^ w) * 0x9E3779B97F4A7C15ULL;
      h ^= h >> 29;
    }
    return static_cast<std::size_t>(h);
  }

 private:
  static constexpr std::size_t kWords = kCapacity / 64;
  static constexpr std::size_t word(int u) { return static_cast<std::size_t>(u) / 64; }
  static constexpr std::uint64_t bit(int u) { return std::uint64_t{1} << (u % 64); }

  std::array<std::uint64_t, kWords> words_{};
};

}  // namespace planner::base
