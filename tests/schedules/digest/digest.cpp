// Prints what the scheduler answers for random glue-ups, one a line: the same whatever the compiler
// made of it. tests/schedules/digest/expected.txt is its output.
#include <cstdint>
#include <cstdio>

#include "planner/order/stages.h"
#include "tests/schedules/random_jobs.h"

using namespace planner;

namespace {

class Digest {
 public:
  void add(int v) {
    for (int shift = 0; shift < 32; shift += 8) {
      hash_ = (hash_ ^ (static_cast<std::uint32_t>(v) >> shift & 0xffu)) * 1099511628211ULL;
    }
  }
  void add(const base::UnitSet& s) {
    for (int u = s.lowest(); u >= 0; u = s.next(u)) {
      add(u);
    }
    add(-1);
  }
  void add(const order::Schedule& s) {
    for (const order::PlannedJoin& join : s.joins) {
      add(join.moving);
      add(join.staying);
      add(join.removal);
    }
    for (const order::PlannedStep& step : s.steps) {
      for (const int v : {static_cast<int>(step.kind), step.start_s, step.end_s, step.joint,
                          step.join, step.group, step.ring, step.people.front()}) {
        add(v);
      }
    }
  }
  unsigned long long value() const { return hash_; }

 private:
  std::uint64_t hash_ = 14695981039346656037ULL;
};

void print(unsigned number, int people, const order::Schedule& s) {
  Digest digest;
  digest.add(s);
  std::printf("%u %d %d %d %d %lld %016llx\n", number, people, static_cast<int>(s.status),
              s.slack_s, s.makespan_s, static_cast<long long>(s.nodes), digest.value());
}

}  // namespace

int main() {
  for (unsigned number = 1; number <= 60; ++number) {
    order::ScheduleProblem problem =
        tests::random_job(number, {.units = 8, .joints = 12, .people = 3});
    print(number, problem.people, solve_schedule(problem, order::Effort{3000}));
    problem.step_s = 15;
    problem.ties = order::Ties::file_order_then_length;
    print(number, problem.people, solve_schedule(problem, order::Effort{3000}));
  }
  return 0;
}
