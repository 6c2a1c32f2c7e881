#include "planner/placed/placed_check.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/line_of_action.h"
#include "planner/files/file_notes.h"
#include "planner/tables/clamp.h"

namespace planner::placed {
namespace {

using geometry::Box;
using geometry::Direction;
using geometry::Point;

constexpr double kGapSlack_mm = 0.05;

pressure::Work whole(const work::Job& job, std::span<const geometry::Solid> solids) {
  std::vector<work::PartId> parts;
  for (work::PartId p = 0; p < job.parts.size(); ++p) {
    parts.push_back(p);
  }
  return pressure::work_of(parts, solids);
}

// "at x = 40 mm, z = 9.5 mm": where a line along the axis runs, as the file has it.
std::string place_words(const Point& point, int axis, base::Units units) {
  std::string out = "at";
  for (std::size_t i = 0; i < 3; ++i) {
    if (static_cast<int>(i) != axis) {
      out += std::string(out == "at" ? " " : ", ") + "xyz"[i] + " = " + short_text(point[i], units);
    }
  }
  return out;
}

std::string newtons(double force_N) {
  return std::to_string(std::lround(force_N)) + " N";
}

class PlacedCheck {
 public:
  PlacedCheck(const work::Job& job, std::span<const geometry::Solid> solids,
              std::span<const work::Joint> joints, double max_gap_mm)
      : job_(job),
        joints_(joints),
        work_(whole(job, solids)),
        box_(clamps::axis::bounds_of(work_)),
        max_gap_mm_(std::max(max_gap_mm, geometry::Tolerance{}.max_gap_mm) + kGapSlack_mm) {}

  base::Diagnostics run() {
    for (const work::PlacedClamp& clamp : job_.placed) {
      clamp_ = &clamp;
      axis_ = geometry::kAxis[static_cast<std::size_t>(clamp.axis)];
      check_force();
      check_place();
    }
    return std::move(found_);
  }

 private:
  std::string length(double mm) const { return short_text(mm, job_.units); }
  std::string name(work::PartId part) const {
    return "\"" + base::shown(job_.parts[part].name) + "\"";
  }
  void say(base::Severity severity, const std::string& message, const std::string& remedy) {
    found_.push_back({severity, clamp_->place, message, remedy});
  }

  void check_force() {
    const tables::ClampKind* kind = tables::find_clamp_kind(clamp_->kind);
    if (kind != nullptr && clamp_->force_N && *clamp_->force_N > kind->force_N.hi) {
      say(base::Severity::error,
          "this clamp is asked for " + newtons(*clamp_->force_N) + ", more than " + kind->id +
              " gives",
          "strong hands give " + newtons(kind->force_N.hi) + " with it, most people " +
              newtons(kind->force_typ_N));
    }
  }

  void check_place() {
    const Point p{clamp_->at[0].mm(), clamp_->at[1].mm(), clamp_->at[2].mm()};
    const auto action = clamps::axis::line_of_action(work_, p, axis_);
    if (!action) {
      say(base::Severity::error,
          "this clamp stands off the work: " + place_words(p, clamp_->axis, job_.units) +
              " it meets no part",
          "the work reaches " + reach_of_work());
      return;
    }
    if (const auto i = after_hollow(*action, joints_, max_gap_mm_)) {
      const pressure::Passage &before = action->path[*i - 1], &after = action->path[*i];
      say(base::Severity::error,
          "this clamp presses on a hollow: " + length(after.enter_mm - before.leave_mm) +
              " of air between " + name(before.part) + " and " + name(after.part),
          "move it over a wall, a rail or a shelf");
      return;
    }
    if (!bears(*action)) {
      say(base::Severity::error,
          "this clamp has no flat free face for its jaws on " + name(action->path.front().part) +
              (action->path.size() > 1 ? " and " + name(action->path.back().part) : ""),
          "move it, or glue a block on for the jaw and plane it off later");
      return;
    }
    check_size(*action);
    if (action->path.size() < 2) {
      say(base::Severity::warning,
          "this clamp presses no joint: only " + name(action->path.front().part) +
              " lies between its jaws",
          "");
    }
  }

  std::string reach_of_work() const {
    std::string out;
    for (std::size_t i = 0; i < 3; ++i) {
      if (static_cast<int>(i) != clamp_->axis) {
        out += (out.empty() ? "" : " and ") + std::string(1, "xyz"[i]) + " from " +
               length(box_.lo[i]) + " to " + length(box_.hi[i]);
      }
    }
    return out;
  }

  bool bears(const clamps::axis::LineOfAction& action) const {
    const auto bearing = geometry::find_bearing_faces(work_.solids, axis_, {});
    const Direction along = geometry::kAxis[static_cast<std::size_t>((clamp_->axis + 1) % 3)];
    constexpr double kLeast_mm = 2;
    return pads_bear({work_, bearing, along, cross(axis_, along)}, action,
                     {kLeast_mm, kLeast_mm, 0});
  }

  void check_size(const clamps::axis::LineOfAction& action) {
    const tables::ClampKind* kind = tables::find_clamp_kind(clamp_->kind);
    if (kind == nullptr) {
      return;
    }
    if (!kind->openings_mm.empty() && kind->openings_mm.back() < action.span_mm()) {
      say(base::Severity::error,
          "this clamp is too short: the work is " + length(action.span_mm()) + " wide here",
          "the longest " + kind->id + " opens " + length(kind->openings_mm.back()));
    }
    double edge = 1e300;
    for (std::size_t i = 0; i < 3; ++i) {
      if (static_cast<int>(i) != clamp_->axis) {
        edge = std::min({edge, action.at[i] - box_.lo[i], box_.hi[i] - action.at[i]});
      }
    }
    if (kind->throat_mm && kind->throat_mm->hi < edge) {
      say(base::Severity::error,
          "this clamp doesn't reach so far in: " + length(edge) + " from the nearest edge",
          kind->id + " reaches " + length(kind->throat_mm->hi) + " at most");
    }
  }

  const work::Job& job_;
  std::span<const work::Joint> joints_;
  pressure::Work work_;
  Box box_;
  double max_gap_mm_;
  const work::PlacedClamp* clamp_ = nullptr;
  Direction axis_;
  base::Diagnostics found_;
};

}  // namespace

base::Diagnostics check_placed(const work::Job& job, std::span<const geometry::Solid> solids,
                               std::span<const work::Joint> joints, double max_gap_mm) {
  return job.placed.empty() ? base::Diagnostics{}
                            : PlacedCheck(job, solids, joints, max_gap_mm).run();
}

}  // namespace planner::placed
