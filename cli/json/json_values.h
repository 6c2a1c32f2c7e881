// Numbers, names and vectors as the JSON writes them: rounded here, once.
#pragma once
#include <vector>

#include <nlohmann/json.hpp>

#include "planner/plan/plan.h"

namespace cli::json {

using Json = nlohmann::ordered_json;

double rounded(double value, int decimals);  // never "-0"
double mm(double v);
double mm2(double v);
double newton(double v);
double mpa(double v);
double second(double v);
double ml(double v);
double gram(double v);
double share(double v);  // of one, to a hundredth of a percent

Json vector_of(const geometry::Direction& d);
Json vector_of(const geometry::Point& p);
Json names(const planner::plan::Plan& plan, const std::vector<planner::work::PartId>& ids);

template <class Item, class Write>
Json array_of(const std::vector<Item>& items, Write write) {
  Json all = Json::array();
  for (const Item& item : items) {
    all.push_back(write(item));
  }
  return all;
}

}  // namespace cli::json
