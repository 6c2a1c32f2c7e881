#include "cli/html/svg_edge_strips.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/pictures/markup.h"
#include "planner/base/units.h"

namespace cli::html {
namespace {

using pictures::Markup;
using pictures::coordinate;

constexpr double kPaper = 180;  // A4 and Letter less their margins, mm
constexpr double kPiece = 170;  // of the edge on one piece
constexpr double kHeight = 26.5, kTop = 0.5, kWide = 16;
constexpr double kMiddle = kTop + kWide / 2;

void open_strip(Markup& svg, double height, const std::string& title) {
  svg.open("svg", {{"class", "strip"},
                   {"viewBox", fmt::format("0 0 {} {}", coordinate(kPaper), coordinate(height))},
                   {"role", "img"}});
  svg.element("title", title);
}

void text(Markup& svg, double x, double y, const char* anchor, const std::string& words,
          const char* kind = "") {
  svg.element(
      "text",
      {{"class", kind}, {"x", coordinate(x)}, {"y", coordinate(y)}, {"text-anchor", anchor}},
      words);
}

void line(Markup& svg, const char* kind, double x0, double y0, double x1, double y1) {
  svg.lone("path", {{"class", kind},
                    {"d", fmt::format("M{} {}L{} {}", coordinate(x0), coordinate(y0),
                                      coordinate(x1), coordinate(y1))}});
}

void rectangle(Markup& svg, const char* kind, double x0, double x1, double y0, double y1) {
  svg.lone("rect", {{"class", kind},
                    {"x", coordinate(x0)},
                    {"y", coordinate(y0)},
                    {"width", coordinate(x1 - x0)},
                    {"height", coordinate(y1 - y0)}});
}

std::string mark_numbers(const model::StripMark& mark) {
  std::string numbers;
  for (const int n : mark.clamps) {
    numbers += (numbers.empty() ? "" : " / ") + std::to_string(n);
  }
  return numbers;
}

double reach_of(const model::StripMark& mark) {
  return mark.pad.thick_mm > 0 ? mark.pad.along_mm / 2 : 0;
}

// What of a pad or caul lies on a piece of such a length and on the strip's width.
void outline(Markup& svg, const char* kind, const planner::plan::PadSize& block, double middle,
             double length) {
  const double half = std::min(block.across_mm / 2, kWide / 2);
  const double from = std::max(0.0, middle - block.along_mm / 2);
  const double to = std::min(length, middle + block.along_mm / 2);
  if (from < to) {
    rectangle(svg, kind, from, to, kMiddle - half, kMiddle + half);
  }
}

void draw_mark(const model::StripMark& mark, double start, double end,
               const words::Wording& wording, Markup& svg) {
  const double x = mark.at_mm - start;
  if (mark.pad.thick_mm > 0) {
    outline(svg, "pad", mark.pad, x, end - start);
  }
  if (x < -1e-9 || mark.at_mm > end + 1e-9) {
    return;  // only its pad reaches onto this piece
  }
  svg.open("g", {{"class", "at"}, {"data-at", coordinate(x)}});
  line(svg, "arrow", x, kTop, x, kTop + kWide + 2);
  const std::string numbers = "no. " + mark_numbers(mark);
  constexpr std::size_t kLong = 20;  // letters; more are written smaller
  const bool small = numbers.size() > kLong;
  const double half = (small ? 0.9 : 1.3) * static_cast<double>(numbers.size());
  text(svg, std::clamp(x, half, kPaper - half), kTop + kWide + 6, "middle", numbers,
       small ? "" : "big");
  text(svg, std::max(x, 9.0), kTop + kWide + 9.5, "middle", length_text(mark.at_mm, wording));
  svg.close();
}

std::string piece(const model::EdgeStrip& strip, double start, double end,
                  const words::Wording& wording) {
  Markup svg;
  open_strip(
      svg, kHeight,
      fmt::format("Ruler from {} to {}", length_text(start, wording), length_text(end, wording)));
  rectangle(svg, "frame", 0, end - start, kTop, kTop + kWide);
  line(svg, "measure", 0, kMiddle, end - start, kMiddle);
  // Clamps on one caul have it in common.
  double drawn_at = -1e300;
  for (const model::StripMark& mark : strip.marks) {
    if (mark.caul.thick_mm > 0 && std::abs(mark.caul_at_mm - drawn_at) > 1) {
      outline(svg, "caul", mark.caul, mark.caul_at_mm - start, end - start);
      drawn_at = mark.caul_at_mm;
    }
  }
  for (const model::StripMark& mark : strip.marks) {
    if (mark.at_mm + reach_of(mark) >= start && mark.at_mm - reach_of(mark) <= end) {
      draw_mark(mark, start, end, wording, svg);
    }
  }
  text(svg, 1, kTop + 3.6, "start", length_text(start, wording));
  text(svg, end - start - 1, kTop + 3.6, "end",
       end < strip.length_mm - 1e-9 ? "goes on" : "end, " + length_text(end, wording));
  svg.close();
  return svg.str();
}

}  // namespace

std::vector<std::string> strip_pieces_svg(const model::EdgeStrip& strip,
                                          const words::Wording& wording) {
  std::vector<std::string> pieces;
  for (double start = 0; start < strip.length_mm; start += kPiece) {
    const double end = std::min(start + kPiece, strip.length_mm);
    const bool marked =
        std::any_of(strip.marks.begin(), strip.marks.end(), [&](const model::StripMark& mark) {
          return mark.at_mm >= start - 1e-9 && mark.at_mm <= end + 1e-9;
        });
    if (marked) {
      pieces.push_back(piece(strip, start, end, wording));
    }
  }
  return pieces;
}

std::string check_rule_svg() {
  constexpr double kRule = 26, kInch = planner::base::kMmPerInch;
  Markup svg;
  open_strip(svg, kRule, "Check rule: 100 mm and 4 in");
  line(svg, "frame", 0.5, 8, 100.5, 8);
  for (int mm = 0; mm <= 100; mm += 5) {
    const double x = 0.5 + mm;
    line(svg, "frame", x, mm % 10 == 0 ? 4 : 6, x, 8);
  }
  text(svg, 103, 8, "start", "100 mm");
  line(svg, "frame", 0.5, 18, 0.5 + 4 * kInch, 18);
  for (int quarter = 0; quarter <= 16; ++quarter) {
    const double x = 0.5 + quarter * kInch / 4;
    line(svg, "frame", x, quarter % 4 == 0 ? 22 : 20, x, 18);
  }
  text(svg, 104, 21, "start", "4 in");
  svg.close();
  return svg.str();
}

}  // namespace cli::html
