#include "cli/pictures/canvas.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <utility>

namespace cli::pictures {
namespace {

struct Spot {
  long u = 0, v = 0;
  auto operator<=>(const Spot&) const = default;
};
Spot spot(model::Point2 p) {
  return {std::lround(p.u), std::lround(p.v)};
}

// Path data in the fewest letters: each step from the last point, level and upright ones by one number, and
// pairs behind a move, which are lines without saying so.
class Pen {
 public:
  void move(Spot to) {
    start_ = to;
    add('m', to);
    order_ = 'l';
  }
  void line(Spot to) { add(to.v == at_.v ? 'h' : to.u == at_.u ? 'v' : 'l', to); }
  void close() {
    d_ += 'z';
    order_ = 'z';
    at_ = start_;
  }
  const std::string& path() const { return d_; }

 private:
  void add(char order, Spot to) {
    bool apart = order == order_;
    if (!apart) {
      d_ += order;
    }
    // "12-3": a minus sign parts numbers as well as a blank does.
    const auto number = [&](long n) {
      d_ += (apart && n >= 0 ? " " : "") + std::to_string(n);
      apart = true;
    };
    if (order != 'v') {
      number(to.u - at_.u);
    }
    if (order != 'h') {
      number(to.v - at_.v);
    }
    order_ = order;
    at_ = to;
  }

  std::string d_;
  Spot at_, start_;
  char order_ = 'z';
};

using Ends = std::pair<Spot, Spot>;

// Lines on the sheet, each once, that go on from one another where they can.
std::vector<Ends> chained(std::set<Ends> lines) {
  std::set<Ends> back;  // the same from their other ends
  for (const auto& [a, b] : lines) {
    back.insert({b, a});
  }
  const auto from = [](const std::set<Ends>& some, Spot at) {
    const auto found = some.lower_bound({at, {std::numeric_limits<long>::min(), 0}});
    return found != some.end() && found->first == at ? std::optional(*found) : std::nullopt;
  };
  std::vector<Ends> out;
  while (!lines.empty()) {
    std::optional<Ends> next = *lines.begin();
    while (next) {
      const auto& [a, b] = *next;
      lines.erase({a, b});
      lines.erase({b, a});
      back.erase({a, b});
      back.erase({b, a});
      out.push_back(*next);
      const Spot end = b;
      next = from(lines, end);
      next = next ? next : from(back, end);
    }
  }
  return out;
}

}  // namespace

void Area::take_in(model::Point2 p, double round) {
  u0 = std::min(u0, p.u - round);
  u1 = std::max(u1, p.u + round);
  v0 = std::min(v0, p.v - round);
  v1 = std::max(v1, p.v + round);
}

Canvas::Canvas(const Area& mm, const model::View& view) : view_(view) {
  const double wide = std::max(1.0, mm.u1 - mm.u0), high = std::max(1.0, mm.v1 - mm.v0);
  scale_ = std::min((kWide - 2 * kMargin) / wide, (kHigh - 2 * kMargin) / high);
  u_ = kWide / 2 - scale_ * (mm.u0 + mm.u1) / 2;
  v_ = kHigh / 2 + scale_ * (mm.v0 + mm.v1) / 2;
}

std::string lines_path(const std::vector<model::Segment2>& pieces, const Canvas& canvas) {
  std::set<Ends> lines;
  for (const model::Segment2& piece : pieces) {
    const Spot a = spot(canvas.at(piece.a)), b = spot(canvas.at(piece.b));
    if (a != b) {
      lines.insert(std::minmax(a, b));
    }
  }
  Pen pen;
  std::optional<Spot> last;
  for (const auto& [a, b] : chained(std::move(lines))) {
    if (a != last) {
      pen.move(a);
    }
    pen.line(b);
    last = b;
  }
  return pen.path();
}

std::string closed_path(const std::vector<geometry::Ring>& rings, const Canvas& canvas) {
  Pen pen;
  for (const geometry::Ring& ring : rings) {
    std::vector<Spot> spots;
    for (const geometry::Point& p : ring) {
      const Spot next = spot(canvas.at(p));
      if (spots.empty() || spots.back() != next) {
        spots.push_back(next);
      }
    }
    while (spots.size() > 1 && spots.back() == spots.front()) {
      spots.pop_back();
    }
    if (spots.size() < 3) {
      continue;  // edge-on: nothing to fill
    }
    pen.move(spots.front());
    std::for_each(spots.begin() + 1, spots.end(), [&](Spot to) { pen.line(to); });
    pen.close();
  }
  return pen.path();
}

}  // namespace cli::pictures
