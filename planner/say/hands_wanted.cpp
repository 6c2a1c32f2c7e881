#include "planner/say/hands_wanted.h"

#include <algorithm>

namespace planner::say {
namespace {

// Put where they belong, and held there by a hand.
struct Loose {
  std::vector<work::PartId> parts;
  std::vector<work::JointId> joints;  // that keep them there once they are all pressed
};

template <class T>
bool has(const std::vector<T>& all, const T& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

template <class T>
bool within(const std::vector<T>& some, const std::vector<T>& all) {
  return std::all_of(some.begin(), some.end(), [&all](const T& one) { return has(all, one); });
}

}  // namespace

std::vector<HandsWanted> joins_short_of_hands(const plan::Stage& stage, int people) {
  std::vector<HandsWanted> out;
  std::vector<Loose> loose;
  std::vector<work::JointId> pressed;
  for (const plan::Step& step : stage.steps) {
    if (step.kind == plan::StepKind::snug) {
      pressed.insert(pressed.end(), step.joints.begin(), step.joints.end());
      std::erase_if(loose, [&](const Loose& l) { return within(l.joints, pressed); });
    }
    if (step.kind != plan::StepKind::join) {
      continue;
    }
    const int hands = 1 + static_cast<int>(loose.size());
    if (hands > 2 * people) {
      out.push_back({step.n, hands, hands - 2 * people, {}});
      for (const Loose& l : loose) {
        out.back().loose.insert(out.back().loose.end(), l.parts.begin(), l.parts.end());
      }
    }
    if (step.wants_hand) {
      loose.push_back({step.motion ? step.motion->moving : step.parts, step.joints});
    } else {
      std::erase_if(loose, [&](const Loose& l) { return within(l.parts, step.parts); });
    }
  }
  return out;
}

}  // namespace planner::say
