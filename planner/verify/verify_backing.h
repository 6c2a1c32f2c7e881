// What lies between jaws and work: a form, platens.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

void verify_backing(VerifyContext& c);

}  // namespace planner::verify
