// Numbers with units, out of text: the part that lengths, times and all other quantities share.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace planner::base {

// 24 digits of text times the nanometres of a metre need 110 bits.
__extension__ typedef __int128 Wide;

struct Fraction {
  Wide num = 0, den = 1;
  // In long double, so that a number written with 17 digits is the double it was written from.
  double value() const {
    return static_cast<double>(static_cast<long double>(num) / static_cast<long double>(den));
  }
};

// A number and what stands behind it, in lower case: "fl oz", "\"", "" where nothing does.
struct Amount {
  bool negative = false;
  Fraction size;
  std::string unit;
};

// The text in lower case and single spaces, the trade's glyphs (fractions, inch and foot marks,
// dashes, degree signs) in ASCII.
std::string plain(std::string_view text);

// Reads amounts from left to right; after a failure nothing more is read.
class AmountScanner {
 public:
  struct Failure {
    std::string wrong, remedy;  // the remedy may be empty
  };

  // REQUIRES: text is plain().
  explicit AmountScanner(std::string text) : text_(std::move(text)) {}

  // The next one: 12, 12.5, .5, 3/4, 23 13/16, 23-13/16, each with the unit behind it. Exact but
  // for digits after the 18th decimal place, which only say which way a tie rounds.
  Amount amount();
  bool at_end() const { return next_ >= text_.size(); }
  const std::optional<Failure>& failure() const { return failure_; }

 private:
  char peek(std::size_t ahead = 0) const;
  char take() { return text_[next_++]; }
  std::string rest() const { return text_.substr(next_); }
  void skip_spaces();
  void fail(std::string wrong, std::string remedy);
  void fail_on_comma();
  bool fraction_ahead(std::size_t ahead) const;

  std::optional<Wide> small_whole();
  Fraction number();
  Fraction fraction();
  Fraction mixed(Fraction whole);
  Fraction decimal();
  int exponent();
  Fraction scaled(std::string digits, int places);
  std::string unit();

  std::string text_;
  std::size_t next_ = 0;
  std::optional<Failure> failure_;
};

}  // namespace planner::base
