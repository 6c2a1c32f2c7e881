#include "planner/clamps/layout/clamp_assignment.h"

#include <algorithm>
#include <map>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/successive_shortest_path_nonnegative_weights.hpp>

#include "planner/tables/clamp.h"

namespace planner::clamps::layout {
namespace {

// Costs are whole numbers held as doubles: the search adds up the distances of vertices it can't
// reach, which overflows a whole number.
using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
using Graph = boost::adjacency_list<
    boost::vecS, boost::vecS, boost::directedS, boost::no_property,
    boost::property<
        boost::edge_capacity_t, int,
        boost::property<boost::edge_residual_capacity_t, int,
                        boost::property<boost::edge_reverse_t, Traits::edge_descriptor,
                                        boost::property<boost::edge_weight_t, double>>>>>;
using Edge = Traits::edge_descriptor;

// Dearer than any clamp that serves.
constexpr int kMissing = 10'000'000, kMissingSeat = 1'000'000;
constexpr double kJawSlack_mm = 1;
constexpr double kOtherKind_mm = 1000;  // what another kind counts for, as if it opened too far

class Network {
 public:
  explicit Network(std::size_t nodes) : graph_(nodes) {}

  Edge join(std::size_t from, std::size_t to, int capacity, int cost) {
    const Edge there = boost::add_edge(from, to, graph_).first;
    const Edge back = boost::add_edge(to, from, graph_).first;
    boost::put(boost::edge_capacity, graph_, there, capacity);
    boost::put(boost::edge_capacity, graph_, back, 0);
    boost::put(boost::edge_weight, graph_, there, cost);
    boost::put(boost::edge_weight, graph_, back, -cost);
    boost::put(boost::edge_reverse, graph_, there, back);
    boost::put(boost::edge_reverse, graph_, back, there);
    return there;
  }
  void flow(std::size_t source, std::size_t sink) {
    boost::successive_shortest_path_nonnegative_weights(graph_, source, sink);
  }
  bool used(const Edge& e) const {
    return boost::get(boost::edge_residual_capacity, graph_, e) == 0;
  }

 private:
  Graph graph_;
};

using Owned = std::vector<std::optional<std::size_t>>;

struct Assignment {
  Owned rows;
  // Of the places left without a clamp; of what the others open too far, or are of another kind.
  double without_cost = 0, spare_cost = 0;
};

// `only`: where a place is given a row, no other comes into question.
Assignment assign(std::span<const ClampWanted> wanted, std::span<const work::OwnedClamp> rack,
                  const Owned& only) {
  const std::size_t rows = wanted.size(), missing = rows + rack.size();
  const std::size_t source = missing + 1, sink = missing + 2;
  Network network(sink + 1);
  struct Choice {
    std::size_t place, row;
    int cost;
    Edge edge;
  };
  const auto without = [&](std::size_t place) {
    return wanted[place].only_seats ? kMissingSeat : kMissing;
  };
  std::vector<Choice> choices;
  for (std::size_t w = 0; w < rows; ++w) {
    network.join(source, w, 1, 0);
    network.join(w, missing, 1, without(w));
    for (std::size_t r = 0; r < rack.size(); ++r) {
      if (only[w].value_or(r) == r && serves(rack[r], wanted[w])) {
        // In tenths of a millimetre.
        const double spare = rack[r].opening.mm() - wanted[w].opening_mm +
                             (rack[r].kind == wanted[w].kind ? 0 : kOtherKind_mm);
        const int cost = static_cast<int>(spare * 10);
        choices.push_back({w, r, cost, network.join(w, rows + r, 1, cost)});
      }
    }
  }
  for (std::size_t r = 0; r < rack.size(); ++r) {
    network.join(rows + r, sink, rack[r].count, 0);
  }
  network.join(missing, sink, static_cast<int>(rows), 0);
  network.flow(source, sink);

  Assignment out{Owned(rows)};
  for (const Choice& c : choices) {
    if (network.used(c.edge)) {
      out.rows[c.place] = c.row;
      out.spare_cost += c.cost;
    }
  }
  for (std::size_t w = 0; w < rows; ++w) {
    out.without_cost += out.rows[w] ? 0 : without(w);
  }
  return out;
}

// The places of each line with more than one, by its number.
std::vector<std::vector<std::size_t>> lines_of(std::span<const ClampWanted> wanted) {
  std::map<int, std::vector<std::size_t>> by_line;
  for (std::size_t w = 0; w < wanted.size(); ++w) {
    by_line[wanted[w].line].push_back(w);
  }
  by_line.erase(-1);
  std::vector<std::vector<std::size_t>> out;
  for (auto& [line, places] : by_line) {
    if (places.size() > 1) {
      out.push_back(std::move(places));
    }
  }
  return out;
}

bool alike(std::span<const std::size_t> line, const Owned& rows) {
  return std::all_of(line.begin(), line.end(),
                     [&](std::size_t place) { return rows[place] == rows[line.front()]; });
}

void give(std::span<const std::size_t> line, std::optional<std::size_t> row, Owned& rows) {
  for (const std::size_t place : line) {
    rows[place] = row;
  }
}

bool serves_all(const work::OwnedClamp& row, std::span<const std::size_t> line,
                std::span<const ClampWanted> wanted) {
  return std::all_of(line.begin(), line.end(),
                     [&](std::size_t place) { return serves(row, wanted[place]); });
}

}  // namespace

bool serves(const work::OwnedClamp& owned, const ClampWanted& wanted) {
  const tables::ClampKind* kind = tables::find_clamp_kind(owned.kind);
  return kind != nullptr && presses(*kind) && (kind->wooden_jaws || !wanted.bare_jaws) &&
         owned.opening.mm() >= wanted.opening_mm - 1e-6 &&
         owned.throat.mm() >= wanted.reach_mm - 1e-6 &&
         wanted.drawn * owned.force_N >= wanted.force_N * (1 - 1e-9) &&
         owned.pad_width.mm() >= wanted.jaw_mm - kJawSlack_mm;
}

Owned assign_clamps(std::span<const ClampWanted> wanted, std::span<const work::OwnedClamp> rack) {
  return assign(wanted, rack, Owned(wanted.size())).rows;
}

Owned assign_matched(std::span<const ClampWanted> wanted, std::span<const work::OwnedClamp> rack) {
  Owned only(wanted.size());
  Assignment best = assign(wanted, rack, only);
  const std::vector<std::vector<std::size_t>> lines = lines_of(wanted);
  for (const std::vector<std::size_t>& line : lines) {
    if (alike(line, best.rows)) {
      give(line, best.rows[line.front()], only);
    }
  }
  for (const std::vector<std::size_t>& line : lines) {
    if (alike(line, best.rows)) {
      continue;
    }
    std::optional<Assignment> matched;
    for (std::size_t r = 0; r < rack.size(); ++r) {
      if (rack[r].count < static_cast<int>(line.size()) || !serves_all(rack[r], line, wanted)) {
        continue;
      }
      give(line, r, only);
      Assignment now = assign(wanted, rack, only);
      if (now.without_cost == best.without_cost &&
          (!matched || now.spare_cost < matched->spare_cost)) {
        matched = std::move(now);
      }
    }
    give(line, matched ? matched->rows[line.front()] : std::nullopt, only);
    if (matched) {
      best = std::move(*matched);
    }
  }
  return best.rows;
}

}  // namespace planner::clamps::layout
