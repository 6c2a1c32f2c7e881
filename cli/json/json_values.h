// Numbers of the plan as JSON carries them: rounded once, to what a reader can use, never "-0".
#pragma once
#include <cmath>
#include <vector>

#include <nlohmann/json.hpp>

#include "planner/plan/plan.h"

namespace cli::json {

using Json = nlohmann::ordered_json;

inline double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}
inline double mm(double v) {
  return rounded(v, 3);
}
inline double mm2(double v) {
  return rounded(v, 2);
}
inline double newton(double v) {
  return rounded(v, 1);
}
inline double mpa(double v) {
  return rounded(v, 4);
}
inline double second(double v) {
  return rounded(v, 1);
}
inline double ml(double v) {
  return rounded(v, 2);
}
inline double gram(double v) {
  return rounded(v, 2);
}
inline double share(double v) {
  return rounded(v, 4);
}

inline Json vector_of(const geometry::Direction& d) {
  return {rounded(d.x, 6), rounded(d.y, 6), rounded(d.z, 6)};
}
inline Json vector_of(const geometry::Point& p) {
  return {mm(p.x), mm(p.y), mm(p.z)};
}

inline Json names(const planner::plan::Plan& plan, const std::vector<planner::work::PartId>& ids) {
  Json all = Json::array();
  for (const planner::work::PartId id : ids) {
    all.push_back(plan.parts[id].name);
  }
  return all;
}

template <class Item, class Write>
Json array_of(const std::vector<Item>& items, Write write) {
  Json all = Json::array();
  for (const Item& item : items) {
    all.push_back(write(item));
  }
  return all;
}

}  // namespace cli::json
