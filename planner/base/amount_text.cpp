#include "planner/base/amount_text.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

namespace planner::base {
namespace {

constexpr int kWholeDigits = 12;  // more before the point is no quantity of this trade
constexpr int kPlaces = 18;       // more behind the point only say which way a tie rounds

struct Glyph {
  std::string_view utf8, plain;
};

constexpr std::array<Glyph, 47> kGlyphs = {{
    {"½", " 1/2"},   {"⅓", " 1/3"}, {"⅔", " 2/3"},   {"¼", " 1/4"},   {"¾", " 3/4"},
    {"⅕", " 1/5"},   {"⅖", " 2/5"}, {"⅗", " 3/5"},   {"⅘", " 4/5"},   {"⅙", " 1/6"},
    {"⅚", " 5/6"},   {"⅐", " 1/7"}, {"⅛", " 1/8"},   {"⅜", " 3/8"},   {"⅝", " 5/8"},
    {"⅞", " 7/8"},   {"⅑", " 1/9"}, {"⅒", " 1/10"},  {"“", "\""},     {"”", "\""},
    {"″", "\""},     {"‟", "\""},   {"„", "\""},     {"＂", "\""},    {"’", "'"},
    {"‘", "'"},      {"′", "'"},    {"‛", "'"},      {"´", "'"},      {"''", "\""},
    {"–", "-"},      {"—", "-"},    {"‐", "-"},      {"‑", "-"},      {"−", "-"},
    {"⁄", "/"},      {"∕", "/"},    {"\u00a0", " "}, {"\u2009", " "}, {"\u202f", " "},
    {"\u2007", " "}, {"\t", " "},   {"°", " deg "},  {"º", " deg "},  {"²", "2"},
    {"\n", " "},     {"\r", " "},
}};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return c >= 'a' && c <= 'z';
}

std::string to_digits(Wide n) {
  return std::to_string(static_cast<std::int64_t>(n));
}

}  // namespace

std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const auto glyph = std::find_if(kGlyphs.begin(), kGlyphs.end(), [&](const Glyph& g) {
      return text.substr(0, g.utf8.size()) == g.utf8;
    });
    const std::string_view next = glyph != kGlyphs.end() ? glyph->plain : text.substr(0, 1);
    for (const char c : next) {
      if (c != ' ' || (!out.empty() && out.back() != ' ' && out.back() != '-')) {
        out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      }
    }
    text.remove_prefix(glyph != kGlyphs.end() ? glyph->utf8.size() : 1);
  }
  while (!out.empty() && out.back() == ' ') {
    out.pop_back();
  }
  return out;
}

void AmountScanner::fail(std::string wrong, std::string remedy) {
  if (!failure_) {
    failure_ = Failure{std::move(wrong), std::move(remedy)};
  }
}

Amount AmountScanner::amount() {
  Amount a;
  if (peek() == '-' || peek() == '+') {
    a.negative = take() == '-';
    skip_spaces();
  }
  a.size = number();
  if (!failure_) {
    skip_spaces();
    a.unit = unit();
    skip_spaces();
  }
  return a;
}

char AmountScanner::peek(std::size_t ahead) const {
  return next_ + ahead < text_.size() ? text_[next_ + ahead] : '\0';
}
void AmountScanner::skip_spaces() {
  while (peek() == ' ') {
    ++next_;
  }
}

// A whole number of at most nine digits, as the parts of fractions are.
std::optional<Wide> AmountScanner::small_whole() {
  Wide n = 0;
  int digits = 0;
  for (; is_digit(peek()); ++digits) {
    const int digit = take() - '0';
    n = digits < 9 ? n * 10 + digit : n;
  }
  if (digits > 9) {
    fail("its fraction has too many digits", "write a decimal");
  }
  return digits > 0 && digits <= 9 ? std::optional<Wide>(n) : std::nullopt;
}

// Whether a digit sequence and a slash with a digit behind it start at `ahead`.
bool AmountScanner::fraction_ahead(std::size_t ahead) const {
  if (!is_digit(peek(ahead))) {
    return false;
  }
  while (is_digit(peek(ahead))) {
    ++ahead;
  }
  return peek(ahead) == '/' && is_digit(peek(ahead + 1));
}

Fraction AmountScanner::fraction() {
  const std::optional<Wide> num = small_whole();
  take();  // the slash
  const std::optional<Wide> den = small_whole();
  if (!num || !den) {
    return {};
  }
  if (*den == 0) {
    fail("a fraction over 0 is no number", "write the fraction with another denominator");
    return {};
  }
  return {*num, *den};
}

Fraction AmountScanner::number() {
  if (fraction_ahead(0)) {
    return fraction();
  }
  const std::size_t start = next_;
  const Fraction whole = decimal();
  if (failure_ || whole.den != 1 ||
      text_.substr(start, next_ - start).find('e') != std::string::npos) {
    return whole;
  }
  if ((peek() == ' ' || peek() == '-') && fraction_ahead(1)) {
    take();
    return mixed(whole);
  }
  return whole;
}

Fraction AmountScanner::mixed(Fraction whole) {
  const Fraction part = fraction();
  if (!failure_ && part.num >= part.den) {
    const Wide carried = whole.num + part.num / part.den;
    const Wide rest = part.num % part.den;
    fail(to_digits(part.num) + "/" + to_digits(part.den) +
             " beside a whole number is not less than one",
         "write " + to_digits(carried) +
             (rest == 0 ? "" : " " + to_digits(rest) + "/" + to_digits(part.den)));
  }
  return {whole.num * part.den + part.num, part.den};
}

// 12, 12.5, .5, 12e-1. Digits behind kPlaces only decide a tie.
Fraction AmountScanner::decimal() {
  std::string all;
  int point = -1;
  while (is_digit(peek()) || (peek() == '.' && point < 0) || (peek() == '_' && is_digit(peek(1)))) {
    const char c = take();
    if (c == '.') {
      point = static_cast<int>(all.size());
    } else if (c != '_') {
      all += c;
    }
  }
  if (all.empty()) {
    fail(at_end() ? "there is no number in it" : "\"" + rest() + "\" is not a number", "");
    return {};
  }
  if (peek() == ',' || (peek() == '.' && is_digit(peek(1)))) {
    fail_on_comma();
    return {};
  }
  const int places = (point < 0 ? 0 : static_cast<int>(all.size()) - point) - exponent();
  return scaled(all, places);
}

int AmountScanner::exponent() {
  const bool sign = peek(1) == '-' || peek(1) == '+';
  if (peek() != 'e' || !is_digit(peek(sign ? 2 : 1))) {
    return 0;
  }
  take();
  const bool negative = sign && take() == '-';
  int e = 0;
  while (is_digit(peek())) {
    e = std::min(e * 10 + (take() - '0'), 100'000);
  }
  return negative ? -e : e;
}

// The digits with the point `places` from their end.
Fraction AmountScanner::scaled(std::string all, int places) {
  all.erase(0, std::min(all.find_first_not_of('0'), all.size()));
  if (all.empty()) {
    return {};
  }
  if (static_cast<long>(all.size()) - places > kWholeDigits) {
    fail("it is far too large", "check the digits");
    return {};
  }
  bool more = false;  // digits dropped that are not all zero
  for (; places > kPlaces && !all.empty(); --places) {
    more = more || all.back() != '0';
    all.pop_back();
  }
  Fraction f;
  for (const char c : all) {
    f.num = f.num * 10 + (c - '0');
  }
  for (int i = 0; i < std::min(places, kPlaces); ++i) {
    f.den *= 10;
  }
  for (int i = places; i < 0; ++i) {
    f.num *= 10;
  }
  return more ? Fraction{f.num * 10 + 1, f.den * 10} : f;
}

void AmountScanner::fail_on_comma() {
  if (peek() == '.') {
    fail("it has two decimal points", "");
    return;
  }
  std::string with_point = text_;
  with_point[next_] = '.';
  std::size_t behind = 1;
  while (is_digit(peek(behind))) {
    ++behind;
  }
  std::string without = text_;
  without.erase(next_, 1);
  fail("a comma is not a decimal point here",
       "write \"" + with_point + "\"" + (behind == 4 ? " or \"" + without + "\"" : ""));
}

// Letters and single spaces between words, or one inch or foot mark.
std::string AmountScanner::unit() {
  if (peek() == '"' || peek() == '\'') {
    return std::string(1, take());
  }
  std::string unit;
  while (is_letter(peek()) || (peek() == ' ' && is_letter(peek(1)))) {
    unit += take();
  }
  if (unit.empty() ? peek() == '%' : peek() == '2') {
    unit += take();
  }
  if (!unit.empty() && peek() == '.') {
    take();
  }
  if (!at_end() && peek() != ' ' && peek() != '-' && !is_digit(peek())) {
    fail("\"" + rest() + "\" is not understood", "");
  }
  return unit;
}

}  // namespace planner::base
