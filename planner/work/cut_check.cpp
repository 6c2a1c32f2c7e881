#include "planner/work/cut_check.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "geometry/elementary.h"
#include "planner/base/spelling.h"
#include "planner/work/cut.h"

namespace planner::work {
namespace {

std::string axis_name(int axis) {
  return std::string(1, static_cast<char>('x' + axis));
}

class CutCheck {
 public:
  CutCheck(const Part& part, const Cut& cut, base::Units units)
      : part_(part), cut_(cut), units_(units), kind_(kind_of(cut)) {}

  void operator()(const Rabbet& r) {
    if (r.on.axis == r.side.axis) {
      wrong("side", "its side " + to_text(r.side) + " is not square to its face " + to_text(r.on),
            "name a side next to the face");
      return;
    }
    sink(r.on, r.depth, Through::no);
    if (r.width >= part_.size(r.side.axis)) {
      wrong("width",
            "its width " + text(r.width) + " takes all " + text(part_.size(r.side.axis)) +
                " of the part",
            "make it narrower");
    }
    run(3 - r.on.axis - r.side.axis, r.from, r.to);
  }

  void operator()(const Channel& c) {
    if (c.runs == c.on.axis) {
      wrong(
          "runs",
          "it cannot run along " + axis_name(c.runs) + ", the way its face " + to_text(c.on) +
              " looks",
          "let it run along " + axis_name(axes_of(c.on)[0]) + " or " + axis_name(axes_of(c.on)[1]));
      return;
    }
    sink(c.on, c.depth, Through::no);
    between("offset", 3 - c.on.axis - c.runs, c.offset, c.width);
    lean(c);
    run(c.runs, c.from, c.to);
  }

  void operator()(const Notch& n) {
    for (int axis = 0; axis < 3; ++axis) {
      const auto i = static_cast<std::size_t>(axis);
      between("from", axis, n.from[i], n.size[i]);
    }
    if (n.size == std::array{part_.size(0), part_.size(1), part_.size(2)}) {
      wrong("size", "it takes the whole part", "make it smaller");
    }
  }

  void operator()(const Mortise& m) {
    sink(m.on, m.depth, Through::yes);
    for (std::size_t i = 0; i < 2; ++i) {
      between("from", axes_of(m.on)[i], m.from[i], m.size[i]);
    }
  }

  void operator()(const Tenon& t) {
    if (t.length >= part_.size(t.on.axis)) {
      wrong("length",
            "its length " + text(t.length) + " is all " + text(part_.size(t.on.axis)) +
                " of the part",
            "make it shorter");
    }
    bool shoulder = false;
    for (std::size_t i = 0; i < 2; ++i) {
      const int axis = axes_of(t.on)[i];
      between("from", axis, t.from[i], t.size[i]);
      shoulder = shoulder || t.size[i] < part_.size(axis);
    }
    if (!shoulder) {
      wrong("size", "it has no shoulder: it is as large as the end it stands on",
            "make it thinner than the part");
    }
  }

  void operator()(const Mitre& m) {
    if (m.side.axis == m.long_face.axis) {
      wrong(
          "long",
          "its long face " + to_text(m.long_face) + " is not square to its side " + to_text(m.side),
          "name a face next to the side");
      return;
    }
    if (!(m.angle_deg > 0 && m.angle_deg < 90)) {
      wrong("angle", "its angle is not between 0 and 90 degrees",
            "measure it from a square cut: 45 for a square corner");
      return;
    }
    if (!(std::abs(m.taper_deg) < 90)) {
      wrong("taper", "its taper is not between -90 and 90 degrees",
            "measure it from a square cut, along the long face");
      return;
    }
    const double blade = m.angle_deg * std::numbers::pi / 180, gauge = m.taper_deg * std::numbers::pi / 180;
    const int third = 3 - m.side.axis - m.long_face.axis;
    const double cut_back =
        part_.size(m.long_face.axis).mm() * geometry::tangent(blade) / geometry::cosine(gauge) +
        part_.size(third).mm() * std::abs(geometry::tangent(gauge));
    if (cut_back > part_.size(m.side.axis).mm() * (1 + 1e-9)) {
      wrong("angle", "it would run out beyond the part's other side",
            "make the angle smaller or the part longer");
    }
  }

  void operator()(const Fingers& f) {
    if (f.side.axis == part_.face) {
      wrong("side", "they cannot stand on the broad face " + to_text(f.side),
            "name an end or an edge");
      return;
    }
    if (f.depth >= part_.size(f.side.axis)) {
      wrong("depth",
            "their depth " + text(f.depth) + " is all " + text(part_.size(f.side.axis)) +
                " of the part",
            "make them shallower");
    }
    if (f.count < 2 || f.count > kMostFingers) {
      wrong("count",
            "their count " + std::to_string(f.count) + " is not between 2 and " +
                std::to_string(kMostFingers),
            {});
    }
  }

  void operator()(const Tails& t) {
    if (t.side.axis == part_.face) {
      wrong("side", "they cannot stand on the broad face " + to_text(t.side),
            "name an end or an edge");
      return;
    }
    if (t.depth >= part_.size(t.side.axis)) {
      wrong("depth",
            "their depth " + text(t.depth) + " is all " + text(part_.size(t.side.axis)) +
                " of the part",
            "make them shorter");
    }
    const int across = t.side.axis == part_.along ? part_.across() : part_.along;
    dovetails(across, t, t.depth);
  }

  void operator()(const Pins& p) {
    if (p.side.axis == p.on.axis) {
      wrong("side", "its side " + to_text(p.side) + " is not square to its face " + to_text(p.on),
            "name a side next to the face");
      return;
    }
    if (p.depth >= part_.size(p.side.axis)) {
      wrong("depth",
            "their depth " + text(p.depth) + " is all " + text(part_.size(p.side.axis)) +
                " of the part",
            "make them shorter");
    }
    sink(p.on, p.reach, Through::yes);
    dovetails(3 - p.side.axis - p.on.axis, p, p.reach);
  }

  void operator()(const Kerf& k) {
    (*this)(Mitre{k.side, k.long_face, k.angle_deg});
    if (!found_.empty()) {
      return;
    }
    if (k.flat) {
      between("in", 3 - k.side.axis - k.long_face.axis, k.in - k.width / 2, k.width);
      return;
    }
    // What is left of the wood where the slot comes nearest to its long face, and to the other.
    const double angle = k.angle_deg * std::numbers::pi / 180;
    const double outside = k.in.mm() - k.depth.mm() * geometry::sine(angle) -
                           k.width.mm() / 2 * geometry::cosine(angle);
    const double inside =
        part_.size(k.long_face.axis).mm() - k.in.mm() - k.width.mm() / 2 * geometry::cosine(angle);
    if (outside <= 0) {
      wrong("depth", "its depth " + text(k.depth) + " comes out through the long face",
            "make it shallower");
    } else if (inside <= 0) {
      wrong("in", "it comes out through the short face", "bring it nearer to the long one");
    }
  }

  void operator()(const Chamfer& c) {
    if (c.on.axis == c.side.axis) {
      wrong("side", "its side " + to_text(c.side) + " is not square to its face " + to_text(c.on),
            "name a side next to the face");
    }
  }

  void operator()(const Hole& h) {
    sink(h.on, h.depth, Through::yes);
    for (std::size_t i = 0; i < 2; ++i) {
      const geometry::Length radius = h.diameter / 2;
      between("at", axes_of(h.on)[i], h.at[i] - radius, 2 * radius);
    }
  }

  base::Diagnostics take() { return std::move(found_); }

 private:
  enum class Through { no, yes };

  std::string text(geometry::Length length) const { return to_text(length, units_); }

  // At the key's value where the file has it, else at the cut.
  void wrong(std::string_view key, const std::string& what, const std::string& remedy) {
    const auto value = std::find_if(cut_.values.begin(), cut_.values.end(),
                                    [&](const auto& named) { return named.first == key; });
    const base::Place& place = value == cut_.values.end() ? cut_.place : value->second;
    found_.push_back({base::Severity::error, place,
                      kind_ + " in \"" + base::shown(part_.name) + "\": " + what, remedy});
  }

  void sink(Face on, geometry::Length depth, Through through) {
    const geometry::Length thick = part_.size(on.axis);
    if (depth > thick || (depth == thick && through == Through::no)) {
      wrong("depth",
            "its depth " + text(depth) +
                (depth == thick ? " goes through the " : " is more than the ") + text(thick) +
                " that the part measures there",
            "make it shallower");
    }
  }

  void between(std::string_view key, int axis, geometry::Length from, geometry::Length size) {
    if (from < geometry::Length() || from + size > part_.size(axis)) {
      wrong(key,
            "it lies off the part along " + axis_name(axis) + ": " + text(from) + " to " +
                text(from + size) + " of 0 to " + text(part_.size(axis)),
            "measure from the part's own low side");
    }
  }

  // Where the row leans so much that a pin has no wood left at its narrow end.
  template <class Row>
  void dovetails(int across, const Row& row, geometry::Length reach) {
    run(across, row.from, row.to);
    const geometry::Length span =
        row.to.value_or(part_.size(across)) - row.from.value_or(geometry::Length());
    const int most = most_tails(span, reach, row.slope);
    if (row.count > most) {
      wrong("count",
            std::to_string(row.count) + " leave pins thinner than " + text(kThinnestPin) + " on " +
                text(span),
            most > 0 ? "make it " + std::to_string(most) + " at most" : "make the part wider");
    }
  }

  // Leaning sides must not meet before they reach the face.
  void lean(const Channel& c) {
    if (!(c.lean_deg >= 0 && c.lean_deg < 60)) {
      wrong("lean", "its sides lean by no angle from 0 to 60 degrees", "8 to 14 degrees are usual");
    } else if (2 * c.depth.mm() * geometry::tangent(c.lean_deg * std::numbers::pi / 180) >= c.width.mm()) {
      wrong("lean", "its sides meet before they reach the face",
            "make it wider or its sides steeper");
    }
  }

  void run(int axis, const std::optional<geometry::Length>& from, const std::optional<geometry::Length>& to) {
    const geometry::Length lo = from.value_or(geometry::Length()), hi = to.value_or(part_.size(axis));
    if (hi <= lo) {
      wrong(to ? "to" : "from", "it ends at " + text(hi) + ", not beyond its start at " + text(lo),
            "exchange from and to");
    } else {
      between(from ? "from" : "to", axis, lo, hi - lo);
    }
  }

  const Part& part_;
  const Cut& cut_;
  base::Units units_;
  std::string kind_;
  base::Diagnostics found_;
};

}  // namespace

base::Diagnostics check_cut(const Part& part, const Cut& cut, base::Units units) {
  CutCheck check(part, cut, units);
  std::visit(check, cut.shape);
  return check.take();
}

}  // namespace planner::work
