// What the pictures of the bench sheet have in common: a frame from work to paper, lines, badges,
// arrows. Each picture is one SVG element, drawn for a width of kPictureWidth units, about a
// phone's pixels; black lines on nothing, so that dark and light, screen and paper all work.
// Readable without colour: by shape, hatching and label.
#pragma once
#include <string>
#include <vector>

#include "cli/pictures/markup.h"
#include "cli/model/line_drawing.h"

namespace cli::html {

using pictures::Markup;
using pictures::coordinate;

inline constexpr double kPictureWidth = 360;
inline constexpr double kBadge = 9.5;     // radius of a numbered disc
inline constexpr double kSmallText = 12;  // height of labels

// From mm of a view to units of a picture, v turned down.
class Frame {
 public:
  // Fits the lines into `width` with margins, `left`, `below` and `above` more for labels.
  static Frame around(const std::vector<model::Segment2>& lines, double width, double margin,
                      double left = 0, double below = 0, double above = 0);
  model::Point2 at(model::Point2 mm) const {
    return {left_ + (mm.u - u0_) * scale_, top_ + (v1_ - mm.v) * scale_};
  }
  double scale() const { return scale_; }  // units a mm
  double width() const { return width_; }
  double height() const { return height_; }
  double floor() const { return top_ + (v1_ - v0_) * scale_; }  // of the work, in the picture
  double wall() const { return left_; }                         // its left side

 private:
  double u0_ = 0, v0_ = 0, v1_ = 0, scale_ = 1, left_ = 0, top_ = 0, width_ = 0, height_ = 0;
};

// <svg> with its title for a screen reader. The caller closes it.
void open_picture(Markup& svg, const Frame& frame, const std::string& title);
void open_picture(Markup& svg, double width, double height, const std::string& title);

std::string path_of(const std::vector<model::Segment2>& lines, const Frame& frame);
void badge(Markup& svg, model::Point2 at, const std::string& text, const char* kind,
           double radius = kBadge);
void arrow(Markup& svg, model::Point2 from, model::Point2 to);
void label(Markup& svg, model::Point2 at, const char* anchor, const std::string& text);

}  // namespace cli::html
