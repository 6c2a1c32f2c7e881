// The fewest clamps on the solved lines of tests/reference/placements.json, beside GLPK's
// mixed-integer solver on the same question where it is installed.
#include "bench/table.h"
#include "placements/lp_file.h"
#include "planner/pressure/solved_line_test.h"

namespace {

using namespace planner;

constexpr int kPatience_s = 120;

void show(const SolvedLine& line, const char* reach) {
  const PlacementQuestion question = question_of(line, line.least_MPa, line.most_MPa);
  FewestClamps fewest;
  const auto solve = [&] { fewest = fewest_clamps(question, std::nullopt, {1e12}); };
  const double ours = bench::median_ms(solve);
  const std::string what = "clamps on a line of " + std::to_string(int(line.length_mm)) + " mm";
  const std::string answer = std::to_string(fewest.bound) + (fewest.proven() ? "" : "+");
  std::optional<GlpkAnswer> glpk;
  const double theirs = bench::once_ms([&] { glpk = ask_glpk(question, kPatience_s); });
  if (!glpk) {
    bench::row(what + ": " + answer, reach, bench::ms(ours), "GLPK: no glpsol here");
    return;
  }
  bench::row_beside(what + ": " + answer, reach, ours, glpk->optimal ? "GLPK" : "GLPK, given up",
                    theirs);
}

}  // namespace

int main() {
  show(kShort, "0.2 ms");
  show(kMiddle, "100 ms");
  show(kLong, "300 ms");
}
