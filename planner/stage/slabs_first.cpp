#include "planner/stage/slabs_first.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace planner::stage {
namespace {

constexpr std::size_t kLeastBoards = 4;
constexpr double kEdgesAlone_mm = 8000, kEdgesWithHelp_mm = 12000;
constexpr double kFlush_mm = 0.01;

// The axis that all glued edges look along; nothing where they look along several, or anything but
// edges is glued.
std::optional<std::size_t> across(std::span<const work::Joint> joints) {
  std::optional<std::size_t> axis;
  for (const work::Joint& joint : joints) {
    if (!joint.glued) {
      continue;
    }
    const geometry::Direction& normal = joint.faces.front().contact.normal;
    std::size_t along = 0;
    for (std::size_t k = 1; k < 3; ++k) {
      along = std::abs(normal[k]) > std::abs(normal[along]) ? k : along;
    }
    if (joint.kind != work::JointKind::edge || (axis && *axis != along)) {
      return std::nullopt;
    }
    axis = along;
  }
  return axis;
}

}  // namespace

double BoardRow::whole_mm() const {
  return std::accumulate(width_mm.begin(), width_mm.end(), 0.0);
}

std::optional<BoardRow> board_row(std::span<const work::Joint> joints,
                                  std::span<const geometry::Box> bounds) {
  const std::optional<std::size_t> axis = across(joints);
  if (!axis || bounds.size() < kLeastBoards) {
    return std::nullopt;
  }
  BoardRow row;
  row.boards.resize(bounds.size());
  std::iota(row.boards.begin(), row.boards.end(), work::PartId{0});
  std::ranges::stable_sort(row.boards, {}, [&](work::PartId part) { return bounds[part].lo[*axis]; });
  for (std::size_t i = 0; i < row.boards.size(); ++i) {
    const geometry::Box& box = bounds[row.boards[i]];
    if (i > 0 && std::abs(box.lo[*axis] - bounds[row.boards[i - 1]].hi[*axis]) > kFlush_mm) {
      return std::nullopt;  // two beside one another, or apart
    }
    row.width_mm.push_back(box.hi[*axis] - box.lo[*axis]);
  }
  for (const work::Joint& joint : joints) {
    row.wet_mm += joint.glued ? joint.faces.front().contact.length_mm : 0;
  }
  return row;
}

bool too_many_edges(const BoardRow& row, int people) {
  return row.wet_mm > (people > 1 ? kEdgesWithHelp_mm : kEdgesAlone_mm);
}

std::optional<std::vector<std::vector<work::PartId>>> slabs_of(const BoardRow& row, std::size_t slabs,
                                                               double planer_mm) {
  const double each_mm = row.whole_mm() / static_cast<double>(slabs);
  std::vector<std::vector<work::PartId>> out(1);
  std::vector<double> wide_mm(1, 0.0);
  double reached_mm = 0;
  for (std::size_t i = 0; i < row.boards.size(); ++i) {
    // The next slab begins at the edge that is nearest to an equal share; two boards each there must be.
    const double due_mm = each_mm * static_cast<double>(out.size());
    const bool last_chance = row.boards.size() - i <= 2 * (slabs - out.size());
    if (out.size() < slabs && out.back().size() > 1 &&
        (last_chance || reached_mm + row.width_mm[i] / 2 > due_mm)) {
      out.emplace_back();
      wide_mm.push_back(0);
    }
    out.back().push_back(row.boards[i]);
    wide_mm.back() += row.width_mm[i];
    reached_mm += row.width_mm[i];
  }
  const bool fits = out.size() == slabs && std::ranges::all_of(out, [](const auto& slab) { return slab.size() > 1; }) &&
                    std::ranges::all_of(wide_mm, [&](double wide) { return wide <= planer_mm + kFlush_mm; });
  for (std::vector<work::PartId>& slab : out) {
    std::ranges::sort(slab);
  }
  return fits ? std::optional(out) : std::nullopt;
}

}  // namespace planner::stage
