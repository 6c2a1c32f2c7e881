// The sheet that a step's picture is drawn on: whole units, 720 by 540, fitted to what it shows.
#pragma once
#include <string>
#include <vector>

#include "cli/model/line_drawing.h"

namespace cli::pictures {

inline constexpr double kWide = 720, kHigh = 540;
inline constexpr double kMargin = 46;  // round the drawing, for what is written beside it

// A box on the sheet, v downwards.
struct Area {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
  void take_in(model::Point2 p, double round = 0);
  bool meets(const Area& other) const {
    return u0 < other.u1 && other.u0 < u1 && v0 < other.v1 && other.v0 < v1;
  }
  bool within(const Area& other) const {
    return u0 >= other.u0 && u1 <= other.u1 && v0 >= other.v0 && v1 <= other.v1;
  }
};

class Canvas {
 public:
  // Fits what lies in the area (mm in the view, v upwards) into the sheet.
  Canvas(const Area& mm, const model::View& view);
  double scale() const { return scale_; }  // units a mm
  model::Point2 at(model::Point2 mm) const {
    return {u_ + mm.u * scale_, v_ - mm.v * scale_};
  }
  model::Point2 at(const geometry::Point& p) const { return at(view_.at(p)); }
  const model::View& view() const { return view_; }
  // Where that direction of space points on the sheet, units a mm.
  model::Point2 way(const geometry::Direction& d) const {
    return {scale_ * dot(d, view_.right), -scale_ * dot(d, view_.up)};
  }

 private:
  model::View view_;
  double scale_ = 1, u_ = 0, v_ = 0;
};

// Path data, whole units, each step from the last point: lines that go on from one another are joined, each drawn
// once. A ring that has no width on the sheet is left out.
std::string lines_path(const std::vector<model::Segment2>& pieces, const Canvas& canvas);
std::string closed_path(const std::vector<geometry::Ring>& rings, const Canvas& canvas);

}  // namespace cli::pictures
