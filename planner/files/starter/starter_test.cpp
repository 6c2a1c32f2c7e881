// Glue areas of every starter in closed form, over random sizes.
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <random>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "planner/work/built_job_test.h"

namespace planner::files::starter {
namespace {

// A job and the area of all its faces, or of one part's, from sums of its own.
struct Case {
  std::string text;
  double area_mm2 = 0;
  std::string part;  // empty: all
};

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  int from_to(int lo, int hi) {
    return lo + static_cast<int>(engine_() % static_cast<unsigned>(hi - lo + 1));
  }
  bool toss() { return engine_() % 2 == 0; }

 private:
  std::mt19937 engine_;
};

std::string head(const std::string& starter) {
  return "units = 'mm'\nspecies = 'beech'\n[" + starter + "]\n";
}

Case random_box(Dice& dice) {
  const int t = dice.from_to(6, 25), l = dice.from_to(3 * t, 900), w = dice.from_to(3 * t, 600);
  const int top_t = dice.from_to(4, 20), bottom_t = dice.from_to(4, 20), h = dice.from_to(60, 500);
  const int rabbet = dice.from_to(1, t - 1);
  const char* corners[] = {"butt", "rabbet", "miter", "finger"};
  const char* lids[] = {"none", "butt", "rabbet", "inset"};
  const int corner = dice.from_to(0, 3), top = dice.from_to(0, 3), bottom = dice.from_to(0, 3);
  const int fingers = dice.from_to(2, 15);
  std::ostringstream text;
  text << head("box") << "outside = [" << l << ", " << w << ", " << h << "]\nstock = " << t
       << "\ncorners = '" << corners[corner] << "'\ntop = '" << lids[top] << "'\nbottom = '"
       << lids[bottom] << "'\n";
  if (corner == 1) {
    text << "rabbet_depth = " << rabbet << "\n";
  }
  if (corner == 3) {
    text << "fingers = " << fingers << "\n";
  }
  const double rim = 1.0 * l * w - (l - 2.0 * t) * (w - 2.0 * t),
               inside = 2 * (l - 2.0 * t) + 2 * (w - 2.0 * t);
  double walls = h, area = 0;
  const auto add_lid = [&](int held, int thick, const char* key) {
    if (held != 0) {
      text << key << " = " << thick << "\n";
    }
    area += held == 1 ? rim : held == 2 ? rim + inside * thick / 2 : held == 3 ? inside * thick : 0;
    walls -= held == 1 ? thick : held == 2 ? thick / 2.0 : 0;
  };
  add_lid(top, top_t, "top_thickness");
  add_lid(bottom, bottom_t, "bottom_thickness");
  const double per_corner[] = {t * walls, (t + rabbet) * walls, std::sqrt(2.0) * t * walls,
                               t * walls + (fingers - 1.0) * t * t};
  return {text.str(), area + 4 * per_corner[corner], {}};
}

// A corner of through dovetails: both boards' ends and the cheeks. Of the tails' shares of the height
// h a third are pins halfway along, which widen by t / slope to their sockets' floors.
Case random_dovetailed_box(Dice& dice) {
  const int t = dice.from_to(6, 25), l = dice.from_to(3 * t, 900), w = dice.from_to(3 * t, 600),
            h = dice.from_to(80, 500), slope = dice.from_to(4, 12);
  const double thinnest = 3 * (25.4 / 8 + 1.0 * t / slope);
  const int n = dice.from_to(1, std::min(6, static_cast<int>(h / thinnest)));
  std::ostringstream text;
  text << head("box") << "outside = [" << l << ", " << w << ", " << h << "]\nstock = " << t
       << "\ncorners = 'dovetail'\ntails = " << n << "\nslope = '1:" << slope
       << "'\ntails_on = '" << (dice.toss() ? "sides" : "front and back") << "'\n";
  const double cheek = 1.0 * t * t * std::sqrt(1 + 1.0 / (slope * slope));
  return {text.str(), 4 * (1.0 * h * t + 1.0 * n * t * t / slope + 2 * n * cheek), {}};
}

// Its strips reach a third of the stock, less 1/64 in, into each wall.
Case random_splined_box(Dice& dice) {
  const int t = dice.from_to(9, 25), h = dice.from_to(60, 400), s = dice.from_to(1, t / 3);
  std::ostringstream text;
  text << head("box") << "outside = [" << dice.from_to(4 * t, 900) << ", "
       << dice.from_to(4 * t, 600) << ", " << h << "]\nstock = " << t
       << "\ncorners = 'miter'\nspline = " << s << "\n";
  return {text.str(),
          4.0 * h * (std::sqrt(2.0) * t - s + 4 * (t / 3.0 - 25.4 / 64)), {}};
}

// Its strips reach a quarter of the member, less 1/64 in, into each, and end as far from the corner.
Case random_splined_frame(Dice& dice) {
  const int s = dice.from_to(40, 100), t = dice.from_to(15, 40), thick = dice.from_to(2, t / 3);
  std::ostringstream text;
  text << head("frame") << "outside = [" << dice.from_to(2 * s + 50, 900) << ", "
       << dice.from_to(2 * s + 50, 900) << "]\nthickness = " << t << "\nmember = " << s
       << "\ncorners = 'miter'\nspline = " << thick << "\n";
  const double root = std::sqrt(2.0), reach = s / 4.0 - 25.4 / 64;
  return {text.str(), 4 * (root * s * (t - thick) + 4 * reach * (root * s - 2 * reach)), {}};
}

// Mitres, and a bottom under the sides, between them or in their grooves.
Case random_ring(Dice& dice) {
  const int n = dice.from_to(3, 36), t = dice.from_to(6, 20), across = dice.from_to(8 * t, 600),
            h = dice.from_to(40, 400), thick = dice.from_to(3, 9), deep = dice.from_to(2, t - 1);
  const char* helds[] = {"none", "butt", "groove", "inset"};
  const int held = dice.from_to(0, 3);
  std::ostringstream text;
  text << head("ring") << "sides = " << n << "\nacross = " << across << "\nheight = " << h
       << "\nthickness = " << t << "\nbottom = '" << helds[held] << "'\n"
       << (held > 0 ? "bottom_thickness = " + std::to_string(thick) + "\n" : "")
       << (held == 2 ? "bottom_fit = 'glue'\nbottom_depth = " + std::to_string(deep) + "\n" : "");
  const double half = std::numbers::pi / n, edge = 2 * n * std::tan(half), r = across / 2.0;
  const auto square = [](double x) { return x * x; };
  const double walls = held == 1 ? h - thick : h;
  double area = n * (t * walls - (held == 2 ? deep * thick : 0)) / std::cos(half);
  area += held == 1   ? edge / 2 * (square(r) - square(r - t))
          : held == 2 ? edge * (r - t + deep) * thick + edge * (square(r - t + deep) - square(r - t))
          : held == 3 ? edge * (r - t) * thick
                      : 0;
  return {text.str(), area, {}};
}

// Sides that lean out or in, with a bottom under them or without: sections of the upright ring of any height, as thick
// as the side's wood is level.
Case random_leaning_ring(Dice& dice) {
  const int n = dice.from_to(3, 36), t = dice.from_to(6, 20), across = dice.from_to(300, 600),
            h = dice.from_to(40, 300), thick = dice.from_to(3, 9), slope = dice.from_to(1, 10);
  const bool under = dice.toss(), out = dice.toss();
  std::ostringstream text;
  text << head("ring") << "sides = " << n << "\nacross = " << across << "\nheight = " << h << "\nthickness = " << t
       << "\nslope = " << (out ? slope : -slope) << "\n"
       << (under ? "bottom = 'butt'\nbottom_thickness = " + std::to_string(thick) + "\n" : "");
  const double half = std::numbers::pi / n, lean = slope * std::numbers::pi / 180, wall = t / std::cos(lean),
               high = under ? h - thick : h, low = across / 2.0 - (out ? high * std::tan(lean) : 0);
  const double bottom = n * std::tan(half) * (low * low - (low - wall) * (low - wall));
  return {text.str(), n * high * wall / std::cos(half) + (under ? bottom : 0), {}};
}

Case random_grooved_box(Dice& dice) {
  const int t = dice.from_to(9, 25), l = dice.from_to(4 * t, 900), w = dice.from_to(4 * t, 600),
            h = dice.from_to(80, 500);
  const int deep = dice.from_to(3, t - 1), thick = dice.from_to(3, 12);
  const char* corners[] = {"butt", "rabbet", "miter", "finger"};
  const bool floats = dice.toss();
  const int corner = dice.from_to(0, 3);
  std::ostringstream text;
  text << head("box") << "outside = [" << l << ", " << w << ", " << h << "]\nstock = " << t
       << "\ncorners = '" << corners[corner] << "'\nbottom = 'groove'\nbottom_depth = " << deep
       << "\nbottom_thickness = " << thick << "\nbottom_offset = " << dice.from_to(3, 12)
       << "\nbottom_fit = '" << (floats ? "float" : "glue") << "'\n";
  // Few fingers, so that none ends beside the groove.
  text << (corner == 3 ? "fingers = 3\n" : "");
  const double into = deep - (floats ? 1.5 : 0), x = l - 2.0 * t, y = w - 2.0 * t;
  const double cheeks = 2 * ((x + 2 * into) * (y + 2 * into) - x * y);
  return {text.str(), cheeks + (floats ? 0 : 2 * (x + y + 4 * into) * thick), "bottom"};
}

Case random_panel(Dice& dice) {
  const int n = dice.from_to(2, 7), l = dice.from_to(200, 2000), t = dice.from_to(12, 45);
  std::ostringstream text;
  text << head("panel") << "length = " << l << "\nthickness = " << t << "\nboards = [";
  for (int i = 0; i < n; ++i) {
    text << (i == 0 ? "" : ", ") << dice.from_to(60, 150);
  }
  const int thick = dice.from_to(3, t - 4), deep = dice.from_to(4, 20);
  const char* tongues[] = {"none", "loose", "real"};
  const int tongue = dice.from_to(0, 2);
  text << "]\ntongue = '" << tongues[tongue] << "'\n";
  if (tongue != 0) {
    text << "tongue_thickness = " << thick << "\ntongue_depth = " << deep << "\n";
  }
  const double shoulders = 1.0 * l * (t - thick);
  const double seam[] = {1.0 * l * t, shoulders + 4.0 * l * (deep - 0.75),
                         shoulders + 2.0 * l * deep};
  return {text.str(), (n - 1) * seam[tongue], {}};
}

// Edges without their tongues' share beside the ends, and the ends: all of a tongue but its end, and
// the shoulders above and below.
Case random_breadboard(Dice& dice) {
  const int n = dice.from_to(2, 5), l = dice.from_to(200, 1200), t = 3 * dice.from_to(5, 15),
            e = 3 * dice.from_to(15, 40);
  std::ostringstream text;
  text << head("panel") << "length = " << l << "\nthickness = " << t << "\nboards = [";
  double across = 0;
  for (int i = 0; i < n; ++i) {
    const int width = dice.from_to(60, 150);
    text << (i == 0 ? "" : ", ") << width;
    across += width;
  }
  text << "]\nends = 'breadboard'\nend_width = " << e << "\n";
  const double deep = e / 3.0, third = t / 3.0;
  const double edges = (n - 1) * (1.0 * l * t + 2 * deep * third);
  return {text.str(), edges + 2 * across * (2 * deep + 2 * third), {}};
}

// Strips along the front, or round all four edges: their length times the thickness, and four corners.
Case random_edging(Dice& dice) {
  const int l = dice.from_to(200, 1200), w = dice.from_to(100, 600), t = dice.from_to(12, 25),
            strip = dice.from_to(3, 20);
  const bool all = dice.toss();
  std::ostringstream text;
  text << "units = 'mm'\n[panel]\nspecies = 'plywood_birch'\nlength = " << l << "\nwidth = " << w
       << "\nthickness = " << t << "\nboards = 1\nedging = '" << (all ? "all" : "front")
       << "'\nedging_thickness = " << strip << "\nedging_species = 'hard_maple'\n";
  return {text.str(), t * (all ? 2.0 * l + 2.0 * w + 4.0 * strip : 1.0 * l), {}};
}

Case random_frame(Dice& dice) {
  const int t = dice.from_to(15, 40), s = dice.from_to(40, 100), corner = dice.from_to(0, 3);
  const int r = corner == 0 ? s : dice.from_to(40, 100);
  const int w = dice.from_to(2 * s + 50, 900), h = dice.from_to(2 * r + 50, 1200);
  const char* corners[] = {"miter", "half-lap", "bridle", "mortise"};
  const int tt = dice.from_to(4, t - 4), tl = dice.from_to(10, s - 5), tw = dice.from_to(10, r - 2);
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t
       << "\nmember = " << s << "\nrail = " << r << "\ncorners = '" << corners[corner] << "'\n";
  if (corner >= 2) {
    text << "tenon_thickness = " << tt << "\n";
  }
  if (corner == 3) {
    text << "tenon_length = " << tl << "\ntenon_width = " << tw << "\n";
  }
  const double per_corner[] = {std::sqrt(2.0) * s * t, s * r + (r + s) * t / 2.0,
                               2.0 * s * r + r * (t - tt) + 1.0 * s * tt,
                               2.0 * tl * (tw + tt) + 1.0 * r * t - tw * tt};
  return {text.str(), 4 * per_corner[corner], {}};
}

// One more rail or several, each with a tenon at both ends, the outer ones' or three quarters of it.
Case random_railed_frame(Dice& dice) {
  const int t = dice.from_to(15, 40), s = dice.from_to(40, 100), r = dice.from_to(40, 100);
  const int tt = dice.from_to(4, t - 4), tl = dice.from_to(10, s - 5), tw = dice.from_to(10, r - 2);
  const int more = dice.from_to(1, 3), w = dice.from_to(2 * s + 50, 900);
  const bool pockets = dice.toss();
  std::ostringstream rails;
  const auto corner = [&](double rail, double tenon) {
    return pockets ? rail * t : 2 * tl * (tenon + tt) + rail * t - tenon * tt;
  };
  double area = 4 * corner(r, tw);
  int high = 2 * r + 40 * (more + 1);
  for (int n = 0; n < more; ++n) {
    const int rail = 4 * dice.from_to((r + 3) / 4, 30);
    rails << (n == 0 ? "" : ", ") << rail;
    area += 2 * corner(rail, std::min<double>(tw, 0.75 * rail));
    high += rail;
  }
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << high << "]\nthickness = " << t << "\nmember = " << s
       << "\nrail = " << r << "\nrails_between = [" << rails.str() << "]\n";
  if (pockets) {
    text << "corners = 'pocket-screw'\n";
  } else {
    text << "corners = 'mortise'\ntenon_thickness = " << tt << "\ntenon_length = " << tl << "\ntenon_width = " << tw
         << "\n";
  }
  return {text.str(), area, {}};
}

// Bars on stubs a third as thick as the frame, halved where they cross, in one opening or more.
Case random_barred_frame(Dice& dice) {
  const int t = 6 * dice.from_to(3, 6), s = dice.from_to(40, 80), more = dice.from_to(0, 2);
  const int up = dice.from_to(0, 3), level = dice.from_to(up == 0 ? 1 : 0, 3), openings = more + 1;
  const int w = 2 * s + 150 + (up + 1) * dice.from_to(20, 200), b = dice.from_to(12, 30);
  const int h = (more + 2) * s + openings * (level + 1) * dice.from_to(60, 200);
  std::ostringstream text;
  const auto bars = [&](const char* key, int count) {
    text << (count > 0 ? std::string(key) + " = [" : "");
    for (int n = 0; n < count; ++n) {
      text << (n > 0 ? ", " : "") << b << (n + 1 == count ? "]\n" : "");
    }
  };
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t << "\nmember = " << s
       << "\ncorners = 'pocket-screw'\n" << (more > 0 ? "rails_between = " + std::to_string(more) + "\n" : "");
  bars("muntins", up);
  bars("muntins_across", level);
  const double third = t / 3.0, end = 20.0 * (b + third) + b * (t - third), crossing = b * b + 2.0 * b * t;
  return {text.str(), 2.0 * (more + 2) * s * t + openings * (2 * (up + level) * end + up * level * crossing), {}};
}

// Dowels five diameters long, half in each member, prisms of twelve sides with the circle's girth.
Case random_dowelled_frame(Dice& dice) {
  const int t = dice.from_to(16, 40), s = dice.from_to(45, 100), r = dice.from_to(45, 100);
  const int w = dice.from_to(2 * s + 200, 900), h = dice.from_to(2 * r + 50, 1200);
  const int d = dice.from_to(6, std::min(t / 2, 2 * (s - 2) / 5)), n = dice.from_to(1, r / (2 * d));
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t
       << "\nmember = " << s << "\nrail = " << r << "\ncorners = 'dowel'\ndowels = " << n
       << "\ndowel = " << d << "\n";
  const double pi = std::numbers::pi, flat = pi * d / (24 * std::tan(pi / 12));
  const double hole = 12 * flat * flat * std::tan(pi / 12);
  return {text.str(), 4 * (1.0 * r * t - n * hole + n * 5.0 * pi * d * d), {}};
}

Case random_loose_tenons(Dice& dice) {
  const int t = dice.from_to(15, 40), s = dice.from_to(40, 100), r = dice.from_to(40, 100);
  const int w = dice.from_to(4 * s + 50, 900), h = dice.from_to(2 * r + 50, 1200);
  const int tt = dice.from_to(4, t - 4), tl = dice.from_to(10, s - 5), tw = dice.from_to(10, r - 2);
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t
       << "\nmember = " << s << "\nrail = " << r << "\ncorners = 'loose-tenon'\ntenon_thickness = "
       << tt << "\ntenon_length = " << tl << "\ntenon_width = " << tw << "\n";
  return {text.str(), 4 * (1.0 * r * t - tw * tt + 4.0 * tl * (tw + tt)), {}};
}

// The haunch is as long as the tenon is thick, its slot 1.5 mm deeper.
Case random_haunched_frame(Dice& dice) {
  const int t = dice.from_to(15, 30), s = dice.from_to(45, 100), r = dice.from_to(45, 100);
  const int w = dice.from_to(2 * s + 50, 900), h = dice.from_to(2 * r + 50, 1200);
  const int tt = dice.from_to(4, t - 6), tl = dice.from_to(tt + 2, s - 5),
            tw = dice.from_to(10, r - 2);
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t
       << "\nmember = " << s << "\nrail = " << r
       << "\ncorners = 'mortise'\nhaunch = true\ntenon_thickness = " << tt
       << "\ntenon_length = " << tl << "\ntenon_width = " << tw << "\n";
  return {text.str(),
          4 * (2.0 * tw * tl + 2.0 * (r - tw) * tt + 1.0 * tl * tt + (tl - tt - 1.5) * tt +
               1.0 * r * (t - tt)),
          {}};
}

Case random_door(Dice& dice) {
  const int t = dice.from_to(18, 30), s = dice.from_to(45, 90);
  const int w = dice.from_to(2 * s + 60, 700), h = dice.from_to(2 * s + 60, 1200);
  const char* corners[] = {"miter", "half-lap", "bridle", "mortise"};
  const bool floats = dice.toss();
  const int thick = dice.from_to(4, 12), deep = dice.from_to(4, 20);
  std::ostringstream text;
  text << head("frame") << "outside = [" << w << ", " << h << "]\nthickness = " << t
       << "\nmember = " << s << "\ncorners = '" << corners[dice.from_to(0, 3)] << "'\npanel = '"
       << (floats ? "float" : "glue") << "'\npanel_thickness = " << thick
       << "\npanel_depth = " << deep << "\n";
  const double into = deep - (floats ? 1.5 : 0), x = w - 2.0 * s, y = h - 2.0 * s;
  const double cheeks = 2 * ((x + 2 * into) * (y + 2 * into) - x * y);
  return {text.str(), cheeks + (floats ? 0 : 2 * (x + y + 4 * into) * thick), "panel"};
}

Case random_carcass(Dice& dice) {
  const int t = dice.from_to(12, 25), w = dice.from_to(400, 1200), d = dice.from_to(150, 500),
            h = dice.from_to(500, 2000);
  const int shelves = dice.from_to(0, 5), dividers = dice.from_to(0, 2),
            deep = dice.from_to(2, (t - 1) / 2);
  const bool back = dice.toss(), stopped = dice.toss();
  const int back_t = dice.from_to(4, 12), back_deep = dice.from_to(2, t - 1),
            stop = stopped ? dice.from_to(5, 40) : 0;
  const char* tops[] = {"rabbet", "butt"};
  const char* bottoms[] = {"rabbet", "butt", "dado"};
  const int top = dice.from_to(0, 1), bottom = dice.from_to(0, 2), raised = dice.from_to(10, 90);
  std::ostringstream text;
  text << head("carcass") << "outside = [" << w << ", " << d << ", " << h << "]\nstock = " << t
       << "\ndado_depth = " << deep << "\ntop = '" << tops[top] << "'\nbottom = '"
       << bottoms[bottom] << "'\n";
  text << (bottom == 2 ? "bottom_height = " + std::to_string(raised) + "\n" : "");
  text << (stopped ? "stop = " + std::to_string(stop) + "\n" : "");
  text << (shelves > 0 ? "shelves = " + std::to_string(shelves) + "\n" : "");
  text << (dividers > 0 ? "dividers = " + std::to_string(dividers) + "\n" : "");
  if (back) {
    text << "back = 'rabbet'\nback_thickness = " << back_t << "\nback_depth = " << back_deep
         << "\n";
  }
  const double inner = d - (back ? back_t : 0), low = bottom == 2 ? raised + t : t, high = h - t;
  const double housed =
      (t + 2.0 * deep) * (inner - stop) + (stopped ? 1.0 * t * stop + deep * t : 0);
  const double in_rabbet = (t + 1.0 * deep) * inner, butted = t * inner;
  double area = 2 * (top == 0 ? in_rabbet : butted) +
                2 * (bottom == 0   ? in_rabbet
                     : bottom == 1 ? butted
                                   : housed) +
                2.0 * housed * shelves * (dividers + 1) + 2.0 * housed * dividers;
  if (back) {
    // Dadoes deeper than the back's rabbet end beside it, against the side's wood.
    const int housed_levels = shelves + (top == 0 ? 1 : 0) + (bottom != 1 ? 1 : 0);
    area += 2.0 * housed_levels * std::max(0, deep - back_deep) * t;
    area += 2.0 * h * (back_t + back_deep) + 2.0 * (w - 2 * t) * t +
            1.0 * shelves * (w - 2 * t - dividers * t) * t + dividers * t * (high - low);
  }
  return {text.str(), area, {}};
}

Case random_table_base(Dice& dice) {
  const int leg = dice.from_to(35, 80), rt = dice.from_to(15, leg - 10), rw = dice.from_to(50, 120);
  const int setback = dice.from_to(1, leg - rt), tt = dice.from_to(4, rt - 2),
            tw = dice.from_to(20, rw - 5);
  const int h = dice.from_to(2 * rw + 200, 900);
  const bool lower = dice.toss();
  // The tenons from both sides must pass each other, with 1.5 mm for glue.
  const double longest = leg - setback - (rt + tt) / 2.0 - 1.5;
  if (longest < 2) {
    return random_table_base(dice);
  }
  const int tl = dice.from_to(1, static_cast<int>(longest));
  std::ostringstream text;
  text << head("table_base") << "outside = [" << dice.from_to(400, 2000) << ", "
       << dice.from_to(300, 900) << ", " << h << "]\nleg = " << leg << "\nrail_width = " << rw
       << "\nrail_thickness = " << rt << "\nsetback = " << setback << "\ntenon_thickness = " << tt
       << "\ntenon_width = " << tw << "\ntenon_length = " << tl << "\n";
  text << (lower ? "stretcher = 60\n" : "");
  const double tenon = 2.0 * tl * (tw + tt) + 1.0 * rw * rt - tw * tt;
  return {text.str(), (lower ? 16 : 8) * tenon, {}};
}

Case random_lamination(Dice& dice) {
  const int n = dice.from_to(2, 12), l = dice.from_to(100, 1500), w = dice.from_to(30, 400);
  std::ostringstream text;
  text << head("lamination") << "length = " << l << "\nwidth = " << w << "\nlayers = " << n
       << "\nthickness = " << dice.from_to(2 * n, 20 * n)
       << "\ncrossed = " << (dice.toss() ? "true" : "false") << "\n";
  return {text.str(), (n - 1.0) * l * w, {}};
}

Case random_veneer(Dice& dice) {
  const int l = dice.from_to(100, 1500), w = dice.from_to(100, 900), faces = dice.from_to(1, 2);
  std::ostringstream text;
  text << head("veneer") << "size = [" << l << ", " << w << "]\ncore = " << dice.from_to(6, 25)
       << "\nface = 0." << dice.from_to(5, 9) << "\nfaces = " << faces << "\n";
  return {text.str(), 1.0 * faces * l * w, {}};
}

Case random_bent(Dice& dice) {
  const int plies = dice.from_to(2, 12), ply = dice.from_to(1, 4), radius = 50 * ply + dice.from_to(0, 500),
            arc = dice.from_to(20, 180), w = dice.from_to(20, 120);
  std::ostringstream text;
  text << head("bent") << "radius = " << radius << "\narc = " << arc << "\nplies = " << plies
       << "\nply = " << ply << "\nwidth = " << w << "\n";
  // Line by line, each at its own radius.
  double run = 0;
  for (int k = 1; k < plies; ++k) {
    run += (radius + k * ply) * arc * std::numbers::pi / 180;
  }
  return {text.str(), run * w, {}};
}

Case random_drawer(Dice& dice) {
  const int t = dice.from_to(9, 18), front = dice.from_to(t, 25), w = dice.from_to(200, 900),
            d = dice.from_to(200, 600);
  const int h = dice.from_to(60, 250), deep = dice.from_to(3, t - 1), thick = dice.from_to(3, 9);
  const char* corners[] = {"rabbet", "dado", "finger"};
  const int corner = dice.from_to(0, 2);
  std::ostringstream text;
  text << head("drawer") << "outside = [" << w << ", " << d << ", " << h << "]\nstock = " << t
       << "\nfront_thickness = " << front << "\ncorners = '" << corners[corner]
       << "'\nbottom = 'captured'\nbottom_depth = " << deep << "\nbottom_thickness = " << thick
       << "\nbottom_fit = 'glue'\n";
  text << (corner == 2 ? "fingers = 3\n" : "");
  // Between the walls, plus the grooves all round.
  const double low = corner == 1 ? t + front : front, high = corner == 2 ? d - t : d - 2.0 * t;
  const double x = w - 2.0 * t, y = high - low;
  const double cheeks = 2 * ((x + 2.0 * deep) * (y + 2.0 * deep) - x * y);
  return {text.str(), cheeks + 2 * (x + y + 4.0 * deep) * thick, "bottom"};
}

// But for mitres, and fingers and boards that divide a length into parts of whole nanometres, every
// area is rational: only the sum of the faces is rounded, in the last places. Dovetails, splines,
// dowels and rings have many places that are rounded to nanometres.
double share_off(const std::string& text) {
  const auto has = [&](const char* word) { return text.find(word) != std::string::npos; };
  return has("dovetail") || has("spline") || has("dowel") || has("[ring]") || has("[bent]") ? 1e-6
         : has("miter") || has("finger") ? 1e-9
                                         : 8 * std::numeric_limits<double>::epsilon();
}

void check_many(const std::function<Case(Dice&)>& random_case, int count) {
  Dice dice(20'26);
  for (int i = 0; i < count; ++i) {
    const Case one = random_case(dice);
    CAPTURE(one.text);
    const work::BuiltJob built(one.text);
    REQUIRE(built.mistakes == "");
    const double area = one.part.empty() ? built.total_mm2() : built.area_mm2(one.part);
    REQUIRE(std::abs(area - one.area_mm2) <= share_off(one.text) * one.area_mm2);
  }
}

constexpr int kMany = 500;

TEST_SUITE("planner/starter") {
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("boxes of every corner and lid have the areas of their sums") {
    check_many(random_box, kMany);
  }
  // Outside, closed form: trapezia that widen over the board
  TEST_CASE("dovetailed corners have the areas of their sums") {
    check_many(random_dovetailed_box, kMany / 4);
  }
  // Outside, closed form: triangles across the corner
  TEST_CASE("splines in mitres have the areas of their sums") {
    check_many(random_splined_box, kMany / 4);
    check_many(random_splined_frame, kMany / 4);
  }
  // Outside, closed form: regular polygons: mitres thickness / cos(180 degrees / n) wide
  TEST_CASE("rings of 3 to 36 sides have the areas of their sums") {
    check_many(random_ring, kMany / 8);
  }
  // Outside, closed form: frusta of regular polygons
  TEST_CASE("rings whose sides lean have the areas of their sums") {
    check_many(random_leaning_ring, kMany / 16);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("bars in a frame have the areas of their stubs and crossings") {
    check_many(random_barred_frame, kMany / 4);
  }
  // Outside, closed form: twelve-sided prisms, and sums of rectangles
  TEST_CASE("frames with dowels, loose or haunched tenons have the areas of their sums") {
    check_many(random_dowelled_frame, kMany / 25);
    check_many(random_loose_tenons, kMany / 4);
    check_many(random_haunched_frame, kMany / 4);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("a box's bottom fills its grooves, or floats in them") {
    check_many(random_grooved_box, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("panels with and without tongues have the areas of their sums") {
    check_many(random_panel, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("breadboard ends have the areas of their sums") { check_many(random_breadboard, kMany / 4); }
  TEST_CASE("frames of every corner have the areas of their sums") {
    check_many(random_frame, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("a door's panel fills its grooves, or floats in them") {
    check_many(random_door, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("carcasses of every kind have the areas of their sums") {
    check_many(random_carcass, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("table bases have the areas of their sums") {
    check_many(random_table_base, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("laminations have the areas of their sums") {
    check_many(random_lamination, kMany);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("veneers have the areas of their sums") { check_many(random_veneer, kMany / 10); }
  TEST_CASE("rails between two openings have the areas of their sums") {
    check_many(random_railed_frame, kMany / 2);
  }
  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("edging has the areas of its edges and corners") { check_many(random_edging, kMany / 5); }
  TEST_CASE("bent plies have the areas of their arcs") { check_many(random_bent, kMany / 10); }
  TEST_CASE("a drawer's bottom fills its grooves") {
    check_many(random_drawer, kMany);
  }
}

}  // namespace
}  // namespace planner::files::starter
