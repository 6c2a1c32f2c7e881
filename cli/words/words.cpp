#include "cli/words/words.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "planner/base/units.h"

namespace cli::words {
namespace {

using planner::base::Units;

using planner::base::kGramPerOunce;
using planner::base::kGramPerPound;
using planner::base::kMlPerFluidOunce;
using planner::base::kMmPerInch;
using planner::base::kMPaPerPsi;
using planner::base::kNewtonPerLbf;
using planner::base::kNmmPerFootPound;

long to_step(double value, long step) {
  return std::lround(value / static_cast<double>(step)) * step;
}

// "2 3/4" for 44 sixteenths.
std::string fraction_text(long parts, long denominator) {
  const std::string sign = parts < 0 ? "-" : "";
  parts = std::labs(parts);
  const long whole = parts / denominator;
  long numerator = parts % denominator;
  while (numerator != 0 && numerator % 2 == 0) {
    numerator /= 2;
    denominator /= 2;
  }
  if (numerator == 0) {
    return sign + std::to_string(whole);
  }
  return whole == 0 ? fmt::format("{}{}/{}", sign, numerator, denominator)
                    : fmt::format("{}{} {}/{}", sign, whole, numerator, denominator);
}

const char* length_unit(const Wording& wording) {
  return wording.units == Units::inch ? "in" : "mm";
}

// One code point from `i` on; a byte that is no UTF-8 counts as one column and is `broken`.
struct Glyph {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
  bool broken = false;
};
Glyph glyph_at(const std::string& text, std::size_t i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
  const unsigned lead = byte(i);
  if (lead < 0x80) {
    return {lead, 1, false};
  }
  const std::size_t n = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  std::uint32_t code = lead & (0x7Fu >> n);
  bool broken = lead < 0xC2 || lead > 0xF4 || i + n > text.size();
  for (std::size_t k = 1; k < n && !broken; ++k) {
    broken = (byte(i + k) & 0xC0u) != 0x80u;
    code = (code << 6) | (byte(i + k) & 0x3Fu);
  }
  return broken ? Glyph{lead, 1, true} : Glyph{code, n, false};
}

// Two for East Asian wide and emoji, none for combining marks (Unicode TR11, the blocks people
// use).
int glyph_columns(std::uint32_t code) {
  if ((code >= 0x300 && code <= 0x36F) || (code >= 0x200B && code <= 0x200F) || code == 0xFEFF) {
    return 0;
  }
  const bool wide = (code >= 0x1100 && code <= 0x115F) || (code >= 0x2E80 && code <= 0xA4CF) ||
                    (code >= 0xAC00 && code <= 0xD7A3) || (code >= 0xF900 && code <= 0xFAFF) ||
                    (code >= 0xFE30 && code <= 0xFE6F) || (code >= 0xFF00 && code <= 0xFF60) ||
                    (code >= 0x1F300 && code <= 0x1FAFF) || (code >= 0x20000 && code <= 0x3FFFD);
  return wide ? 2 : 1;
}

// As many whole glyphs from there on as fit.
std::string front_columns(const std::string& text, int width, std::size_t from = 0) {
  std::size_t i = from;
  int used = 0;
  while (i < text.size()) {
    const Glyph glyph = glyph_at(text, i);
    used += glyph_columns(glyph.code);
    if (used > width) {
      break;
    }
    i += glyph.bytes;
  }
  return text.substr(from, i - from);
}

// "11" before " 1/2": no line ends between them.
bool mixed_number(const std::string& text, std::size_t from, std::size_t end) {
  const auto digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  std::size_t i = end + 1;
  while (digit(i)) {
    ++i;
  }
  return end > from && digit(end - 1) && digit(from) && i > end + 1 && i < text.size() &&
         text[i] == '/' && digit(i + 1);
}

void drop_trailing_blanks(std::string& text) {
  text.erase(text.find_last_not_of(' ') + 1);
}

}  // namespace

std::string length_number(double mm, const Wording& wording) {
  if (wording.units == Units::inch) {
    return fraction_text(std::lround(mm / kMmPerInch * 16), 16);
  }
  return std::to_string(std::lround(mm));
}

std::string length_text(double mm, const Wording& wording) {
  return length_number(mm, wording) + " " + length_unit(wording);
}

std::string size_text(const std::vector<double>& mm, const Wording& wording) {
  std::string text;
  for (const double side : mm) {
    text += (text.empty() ? "" : " x ") + length_number(side, wording);
  }
  return text + " " + length_unit(wording);
}

std::string gap_text(double mm, const Wording& wording) {
  return wording.units == Units::inch ? fmt::format("{:.3f} in", mm / kMmPerInch)
                                      : fmt::format("{:.2f} mm", mm);
}

std::string force_text(double newton, const Wording& wording) {
  if (wording.units == Units::inch) {
    return fmt::format("{} lbf", to_step(newton / kNewtonPerLbf, 5));
  }
  const long whole = to_step(newton, newton < 1000 ? 10 : 50);
  return whole < 10000 ? fmt::format("{} N", whole) : fmt::format("{:.1f} kN", newton / 1000);
}

std::string pressure_text(double MPa, const Wording& wording) {
  return wording.units == Units::inch ? fmt::format("{} psi", std::lround(MPa / kMPaPerPsi))
                                      : fmt::format("{:.2f} MPa", MPa);
}

std::string moment_text(double Nmm, const Wording& wording) {
  return wording.units == Units::inch
             ? fmt::format("{} lbf ft", std::lround(Nmm / kNmmPerFootPound))
             : fmt::format("{} N m", std::lround(Nmm / 1000));
}

std::string temperature_text(double C, const Wording& wording) {
  return wording.units == Units::inch
             ? fmt::format("{} F", std::lround(planner::base::fahrenheit_of(C)))
             : fmt::format("{} C", std::lround(C));
}

std::string volume_text(double ml, const Wording& wording) {
  if (wording.units == Units::inch) {
    // A quarter ounce is what a kitchen measure shows; 3 % over (ours) isn't worth the next mark.
    const double quarters = ml / kMlPerFluidOunce * 4;
    const double below = std::floor(quarters + 0.01);
    const double mark = quarters - below <= 0.03 * quarters ? below : below + 1;
    return fraction_text(std::lround(mark), 4) + " fl oz";
  }
  return fmt::format("{} ml", std::lround(std::ceil(ml - 0.01)));
}

std::string mass_text(double g, const Wording& wording) {
  if (wording.units == Units::inch) {
    return g >= kGramPerPound ? fmt::format("{:.1f} lb", g / kGramPerPound)
                              : fmt::format("{:.1f} oz", g / kGramPerOunce);
  }
  return g >= 1000 ? fmt::format("{:.1f} kg", g / 1000) : fmt::format("{} g", std::lround(g));
}

std::string glue_text(double ml, double g, const Wording& wording) {
  const std::string metric = volume_text(ml, Wording{});
  const std::string mass = mass_text(g, Wording{});
  return wording.units == Units::inch
             ? fmt::format("{} ({}, {})", volume_text(ml, wording), metric, mass)
             : fmt::format("{} ({})", metric, mass);
}

std::string gram_text(double g) {
  return fmt::format("{:.1f} g", g);
}

std::string area_text(double mm2, const Wording& wording) {
  return wording.units == Units::inch ? fmt::format("{:.1f} sq in", mm2 / (kMmPerInch * kMmPerInch))
                                      : fmt::format("{:.1f} cm2", mm2 / 100);
}

std::string clock_text(double seconds) {
  const long s = std::lround(seconds);
  const long part = std::labs(s);
  const char* sign = s < 0 ? "-" : "";
  return part >= 3600
             ? fmt::format("{}{}:{:02}:{:02}", sign, part / 3600, part / 60 % 60, part % 60)
             : fmt::format("{}{}:{:02}", sign, part / 60, part % 60);
}

std::string duration_text(double seconds) {
  const long s = std::lround(seconds);
  if (s < 60) {
    return fmt::format("{} s", s);
  }
  if (s < 3600) {
    return s % 60 == 0 ? fmt::format("{} min", s / 60) : fmt::format("{} min {} s", s / 60, s % 60);
  }
  const long minutes = std::lround(seconds / 60);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string time_of_day_text(int start_minute, double seconds) {
  const long minute = start_minute + std::lround(std::floor(seconds / 60));
  const long days = minute / (24 * 60);
  const std::string when = fmt::format("{}:{:02}", minute / 60 % 24, minute % 60);
  return days == 0   ? when
         : days == 1 ? when + " next day"
                     : fmt::format("{}, {} days on", when, days);
}

std::string list_text(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    text += i == 0 ? "" : i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

std::vector<std::string> runs_of_names(const std::vector<std::string>& names) {
  struct Numbered {
    std::string stem;
    long n = 0;
  };
  const auto numbered = [](const std::string& name) {
    const std::size_t at = name.find_last_not_of("0123456789") + 1;
    const bool is = at > 1 && name[at - 1] == ' ' && name.size() - at >= 1 && name.size() - at <= 4;
    return is ? Numbered{name.substr(0, at), std::stol(name.substr(at))} : Numbered{};
  };
  constexpr std::size_t kWorthJoining = 3;
  std::vector<std::string> out;
  for (std::size_t i = 0; i < names.size();) {
    const Numbered first = numbered(names[i]);
    std::size_t j = i + 1;
    for (long step = 0; !first.stem.empty() && j < names.size(); ++j) {
      const Numbered next = numbered(names[j]);
      const long on = next.n - first.n - step * static_cast<long>(j - 1 - i);
      step = j == i + 1 ? on : step;
      if (next.stem != first.stem || std::labs(on) != 1 || on != step) {
        break;
      }
    }
    const bool run = j - i >= kWorthJoining;
    out.push_back(run ? fmt::format("{}-{}", names[i], numbered(names[j - 1]).n) : names[i]);
    i = run ? j : i + 1;
  }
  return out;
}

std::string numbers_text(const std::vector<int>& numbers) {
  std::vector<std::string> runs;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t j = i;
    while (j + 1 < numbers.size() && numbers[j + 1] == numbers[j] + 1) {
      ++j;
    }
    if (j >= i + 2) {
      runs.push_back(fmt::format("{}-{}", numbers[i], numbers[j]));
      i = j + 1;
    } else {
      runs.push_back(std::to_string(numbers[i]));
      ++i;
    }
  }
  return list_text(runs);
}

std::string plural(const std::string& noun) {
  // "pipe clamp (3/4 in)"
  if (const std::size_t bracket = noun.find(" ("); bracket != std::string::npos) {
    return plural(noun.substr(0, bracket)) + noun.substr(bracket);
  }
  const auto ends = [&](const char* tail) { return noun.ends_with(tail); };
  if (ends("s") || ends("x") || ends("ch") || ends("sh") || ends("dado")) {
    return noun + "es";
  }
  return noun + "s";
}

std::string count_text(int n, const std::string& noun) {
  return n == 1   ? "1 " + noun
         : n == 0 ? "no " + plural(noun)
                  : std::to_string(n) + " " + plural(noun);
}

std::string as_sentence(const std::string& text) {
  std::string sentence = text;
  if (!sentence.empty() && sentence.front() >= 'a' && sentence.front() <= 'z') {
    sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
  }
  const bool ended = sentence.empty() || sentence.ends_with('.') || sentence.ends_with('!') ||
                     sentence.ends_with('?');
  return ended ? sentence : sentence + ".";
}

std::string printable(const std::string& text) {
  std::string result;
  for (std::size_t i = 0; i < text.size();) {
    const Glyph glyph = glyph_at(text, i);
    const bool control = glyph.code < 0x20 || (glyph.code >= 0x7F && glyph.code < 0xA0) ||
                         (glyph.code >= 0x202A && glyph.code <= 0x202E) ||
                         (glyph.code >= 0x2066 && glyph.code <= 0x2069);
    result += control || glyph.broken ? "?" : text.substr(i, glyph.bytes);
    i += glyph.bytes;
  }
  return result;
}

int columns(const std::string& text) {
  int n = 0;
  for (std::size_t i = 0; i < text.size();) {
    const Glyph glyph = glyph_at(text, i);
    n += glyph_columns(glyph.code);
    i += glyph.bytes;
  }
  return n;
}

std::string padded(const std::string& text, int width) {
  const int blanks = std::max(0, width - columns(text));
  return text + std::string(static_cast<std::size_t>(blanks), ' ');
}

std::string right_aligned(const std::string& text, int width) {
  const int blanks = std::max(0, width - columns(text));
  return std::string(static_cast<std::size_t>(blanks), ' ') + text;
}

std::vector<std::string> wrapped(const std::string& text, int width) {
  std::vector<std::string> lines;
  std::string line;
  const auto flush = [&] {
    drop_trailing_blanks(line);
    lines.push_back(line);
    line.clear();
  };
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = std::min(text.find(' ', i), text.size());
    if (mixed_number(text, i, end)) {
      end = std::min(text.find(' ', end + 1), text.size());
    }
    const std::string word = text.substr(i, end - i);
    i = end + 1;
    const int wide = columns(word);
    if (!line.empty() && columns(line) + 1 + wide > width) {
      flush();
    }
    std::size_t from = 0;
    for (int left = wide; left > width; left -= columns(lines.back())) {
      lines.push_back(front_columns(word, width, from));
      from += lines.back().size();
    }
    line += (line.empty() ? "" : " ") + word.substr(from);
  }
  if (!line.empty() || lines.empty()) {
    flush();
  }
  return lines;
}

std::string fullest_that_fits(const std::vector<std::string>& wordings, int width) {
  for (const std::string& wording : wordings) {
    if (columns(wording) <= width) {
      return wording;
    }
  }
  std::string cut = front_columns(wordings.back(), width - 3);
  drop_trailing_blanks(cut);
  return cut + "...";
}

}  // namespace cli::words
