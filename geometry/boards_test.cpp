#include "geometry/boards_test.h"

namespace geometry {
namespace {

// Rabbets all round a 14 x 9 in board that begins at z0, sunk from z0 + from to z0 + to.
Solid rabbeted_all_round(double z0, double from, double to) {
  Solid b = board(inch_box(0, 0, z0, 14, 9, z0 + 0.75));
  b = cut(b, inch_box(0, 0, z0 + from, 0.75, 9, z0 + to));
  b = cut(b, inch_box(13.25, 0, z0 + from, 14, 9, z0 + to));
  b = cut(b, inch_box(0, 0, z0 + from, 14, 0.75, z0 + to));
  return cut(b, inch_box(0, 8.25, z0 + from, 14, 9, z0 + to));
}

// A wall of 14 in between y0 and y1 with its end rabbets between from and to.
Solid wall(double y0, double y1, double from, double to) {
  Solid b = board(inch_box(0, y0, 0.375, 14, y1, 7.625));
  b = cut(b, inch_box(0, from, 0.375, 0.75, to, 7.625));
  return cut(b, inch_box(13.25, from, 0.375, 14, to, 7.625));
}

}  // namespace

std::vector<Solid> chest_boards() {
  return {rabbeted_all_round(0, 0.375, 0.75),
          wall(8.25, 9, 8.25, 8.625),
          board(inch_box(0, 0.375, 0.375, 0.75, 8.625, 7.625)),
          board(inch_box(13.25, 0.375, 0.375, 14, 8.625, 7.625)),
          wall(0, 0.75, 0.375, 0.75),
          rabbeted_all_round(7.25, 0, 0.375)};
}

}  // namespace geometry
