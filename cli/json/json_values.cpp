#include "cli/json/json_values.h"

#include <cmath>

namespace cli::json {

using geometry::Direction;
using geometry::Point;
using planner::plan::Plan;

double rounded(double value, int decimals) {
  double scale = 1;
  for (int i = 0; i < decimals; ++i) {
    scale *= 10;
  }
  return std::round(value * scale) / scale + 0.0;
}
double mm(double v) {
  return rounded(v, 3);
}
double mm2(double v) {
  return rounded(v, 2);
}
double newton(double v) {
  return rounded(v, 1);
}
double mpa(double v) {
  return rounded(v, 4);
}
double second(double v) {
  return rounded(v, 1);
}
double ml(double v) {
  return rounded(v, 2);
}
double gram(double v) {
  return rounded(v, 2);
}
double share(double v) {
  return rounded(v, 4);
}

Json vector_of(const Direction& d) {
  return {rounded(d.x, 6), rounded(d.y, 6), rounded(d.z, 6)};
}
Json vector_of(const Point& p) {
  return {mm(p.x), mm(p.y), mm(p.z)};
}
Json names(const Plan& plan, const std::vector<planner::work::PartId>& ids) {
  Json all = Json::array();
  for (const planner::work::PartId id : ids) {
    all.push_back(plan.parts[id].name);
  }
  return all;
}

}  // namespace cli::json
