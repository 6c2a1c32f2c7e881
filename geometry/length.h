// Exact length: a whole number of nanometres, so that every 1/64 in (396 875 nm) and every decimal
// of a millimetre to six places is exact, sums are exact and comparison is equality.
#pragma once
#include <compare>
#include <cstdint>

namespace geometry {

class Length {
 public:
  constexpr Length() = default;
  static constexpr Length nm(std::int64_t n) { return Length(n); }
  static constexpr Length whole_mm(std::int64_t n) { return Length(n * 1'000'000); }
  static constexpr Length in_64ths(std::int64_t n) { return Length(n * 396'875); }

  constexpr std::int64_t nanometres() const { return nm_; }
  // For mechanics and drawing, where floating point begins.
  constexpr double mm() const { return static_cast<double>(nm_) / 1e6; }
  constexpr double inches() const { return static_cast<double>(nm_) / 25.4e6; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return Length(a.nm_ + b.nm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.nm_ - b.nm_); }
  friend constexpr Length operator-(Length a) { return Length(-a.nm_); }
  friend constexpr Length operator*(std::int64_t k, Length a) { return Length(k * a.nm_); }
  friend constexpr Length operator*(Length a, std::int64_t k) { return Length(k * a.nm_); }
  // Truncates to the nanometre: a caller that divides gives the remainder to the last piece.
  friend constexpr Length operator/(Length a, std::int64_t k) { return Length(a.nm_ / k); }
  constexpr Length& operator+=(Length b) { return *this = *this + b; }
  constexpr Length& operator-=(Length b) { return *this = *this - b; }

 private:
  explicit constexpr Length(std::int64_t n) : nm_(n) {}
  std::int64_t nm_ = 0;
};

}  // namespace geometry
