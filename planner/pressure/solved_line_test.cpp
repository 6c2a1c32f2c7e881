#include "planner/pressure/solved_line_test.h"

#include <algorithm>

#include "planner/pressure/pressure_line.h"

namespace planner::pressure {

const SolvedLine kShort{400, 19, 60,    .4, .8,    1.4, {{300, 1500, 25}, {400, 1650, 38}},
                        20,  10, 160e3, 3,  0.3461};
const SolvedLine kMiddle{
    1200, 25, 100,   .4, .8,    1.4, {{800, 4670, 42}, {800, 4096, 32}, {400, 1650, 38}},
    40,   20, 480e3, 5,  0.3932};
const SolvedLine kLong{1800, 22, 100,   .4, .8,    1.5, {{800, 4670, 42}, {400, 1650, 38}},
                       60,   20, 720e3, 8,  0.3256};

clamps::count::PlacementQuestion question_of(const SolvedLine& line, double least_MPa,
                                             double most_MPa) {
  EdgeBoard board{line.width_mm, line.thick_mm, {}};
  board.moduli.E_x_MPa = 13750;
  board.moduli.E_z_MPa = 0.082 * 13750;
  board.moduli.G_xz_MPa = 0.081 * 13750;
  EdgePanel panel = edge_panel(line.length_mm, std::vector{board, board});
  panel.line.step_mm = line.node_mm;
  StackSystem stack;
  stack.lines.push_back(panel.line);
  const PressureSystem system(stack);
  const std::size_t nodes = system.samples().size();
  clamps::count::PlacementQuestion q;
  q.table.places = 2 * nodes + 2;
  q.table.at_rest.assign(nodes, 0.0);
  q.table.at_rest.resize(2 * nodes, 1 + most_MPa / least_MPa);
  q.table.at_rest.resize(2 * nodes + 2, 2.0);
  std::vector<std::pair<double, double>> spots;  // x, half a pad
  const double first = std::max(line.grid_mm, 20.0);
  for (double x = first; x <= line.length_mm - first + 1e-9; x += line.grid_mm) {
    for (const SolvedLine::Kind& kind : line.kinds) {
      const std::vector<double> p = system.influence_MPa(edge_clamp(panel, 0, x, kind.pad_mm, 1));
      for (const double sign : {1.0, -1.0}) {
        for (const double v : p) {
          q.table.per_N.push_back(sign * v / least_MPa);
        }
      }
      const double moment = (x - line.length_mm / 2) / line.moment_Nmm;
      q.table.per_N.push_back(moment);
      q.table.per_N.push_back(-moment);
      q.snug_N.push_back(kind.least_N);
      q.limit_N.push_back(kind.most_N);
      spots.emplace_back(x, kind.pad_mm / 2);
    }
  }
  q.table.spots = spots.size();
  for (std::size_t i = 0; i < spots.size(); ++i) {
    for (std::size_t j = i + 1; j < spots.size(); ++j) {
      if (spots[j].first - spots[i].first < spots[i].second + spots[j].second + 2 - 1e-9) {
        q.exclusive.emplace_back(i, j);
      }
    }
  }
  return q;
}

}  // namespace planner::pressure
