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

Json vector_of(const geometry::Direction& d);
Json vector_of(const geometry::Point& p);
Json names(const planner::plan::Plan& plan, const std::vector<planner::work::PartId>& ids);

}  // namespace cli::json
