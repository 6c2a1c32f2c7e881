// All clamps of one stage, on every axis: held by the fewest, from a rack with enough of two kinds.
#include "bench/table.h"
#include "planner/clamps/layout/clamp_work_test.h"

namespace {

using namespace planner;

std::string carcass(int high_mm, int shelves) {
  return "units = \"mm\"\n[carcass]\noutside = [500, 260, " + std::to_string(high_mm) +
         "]\nstock = 18\ndado_depth = 6\ntop = \"rabbet\"\nbottom = \"rabbet\"\nshelves = " +
         std::to_string(shelves) +
         "\nspecies = \"eastern_white_pine\"\n[glue]\nuse = \"pva_type1\"\n";
}

void show(const std::string& what, const char* reach, const TestWork& work, const Shop& shop) {
  ClampLayout layout;
  const double ours =
      bench::median_ms([&] { layout = lay_out_clamps(work.problem(shop), Level::hold); });
  std::size_t clamps = 0;
  for (const PressingAxis& round : layout.rounds) {
    clamps += round.clamps.size();
  }
  bench::row("all clamps of " + what + ": " + std::to_string(clamps), reach, bench::ms(ours));
}

}  // namespace

int main() {
  const Shop shop = shop_with({some("f_heavy", 80, 700), some("sash", 80, 1800)});
  show("the hive-tool chest", "20 ms", hive_tool_chest(), shop);
  show("a carcass of 10 parts", "150 ms", work_of_text(carcass(1100, 6)), shop);
  show("a carcass of 40 parts", "1 s", work_of_text(carcass(4400, 36)), shop);
  show("a panel of 12 boards", "100 ms",
       work_of_text("units = \"mm\"\nspecies = \"black_cherry\"\n[panel]\nlength = 1200\n"
                    "thickness = 22\nboards = [75, 75, 75, 75, 75, 75, 75, 75, 75, 75, 75, 75]\n"
                    "[glue]\nuse = \"pva_type1\"\n"),
       shop);
}
