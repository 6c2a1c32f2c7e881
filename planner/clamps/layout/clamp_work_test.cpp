#include "planner/clamps/layout/clamp_work_test.h"

#include <cmath>

#include "planner/files/job_file.h"
#include "planner/tables/clamp.h"
#include "planner/work/part_solid.h"

namespace planner::clamps::layout {
namespace {

using geometry::LatticeBox;

geometry::Length at_mm(double mm) {
  return geometry::Length::nm(std::llround(mm * 1e6));
}

LatticeBox box(double unit, std::array<double, 6> c) {
  const auto at = [&](int i) { return at_mm(c[static_cast<std::size_t>(i)] * unit); };
  return {{at(0), at(1), at(2)}, {at(3), at(4), at(5)}};
}

struct Board {
  std::string name;
  LatticeBox whole;
  int along, face;
  std::vector<LatticeBox> cuts;
};

TestWork made_of(const std::vector<Board>& boards) {
  TestWork work;
  for (const Board& b : boards) {
    work::Part part;
    part.name = b.name;
    part.species = "black_cherry";
    part.along = b.along;
    part.face = b.face;
    const auto size = [&](int axis) {
      const auto i = static_cast<std::size_t>(axis);
      return b.whole.hi[i] - b.whole.lo[i];
    };
    part.length = size(part.along);
    part.thickness = size(part.face);
    part.width = size(part.across());
    part.at = b.whole.lo;
    work.job.parts.push_back(part);
    geometry::Solid solid = geometry::board(b.whole);
    for (const LatticeBox& cut : b.cuts) {
      solid = geometry::cut(solid, cut);
    }
    work.solids.push_back(std::move(solid));
  }
  work.joints =
      classify_joints(work.job, geometry::find_contacts(work.solids, geometry::Tolerance{}));
  work.glue = *glue_named("pva_type2", {}, work::Shop{}).glue;
  return work;
}

}  // namespace

ClampProblem TestWork::problem(const work::Shop& shop) const {
  ClampProblem p{job, shop, solids, joints, {}, {}, glue};
  for (work::PartId i = 0; i < job.parts.size(); ++i) {
    p.parts.push_back(i);
  }
  for (work::JointId j = 0; j < joints.size(); ++j) {
    p.stage_joints.push_back(j);
  }
  return p;
}

TestWork hive_tool_chest() {
  constexpr double kIn = 25.4;
  const auto in = [](std::array<double, 6> c) { return box(kIn, c); };
  return made_of({
      {"bottom",
       in({0, 0, 0, 14, 9, .75}),
       0,
       2,
       {in({0, 0, .375, 14, .75, .75}), in({0, 8.25, .375, 14, 9, .75}),
        in({0, .75, .375, .75, 8.25, .75}), in({13.25, .75, .375, 14, 8.25, .75})}},
      {"back",
       in({0, 8.25, .375, 14, 9, 7.625}),
       0,
       1,
       {in({0, 8.25, .375, .75, 8.625, 7.625}), in({13.25, 8.25, .375, 14, 8.625, 7.625})}},
      {"left", in({0, .375, .375, .75, 8.625, 7.625}), 1, 0, {}},
      {"right", in({13.25, .375, .375, 14, 8.625, 7.625}), 1, 0, {}},
      {"front",
       in({0, 0, .375, 14, .75, 7.625}),
       0,
       1,
       {in({0, .375, .375, .75, .75, 7.625}), in({13.25, .375, .375, 14, .75, 7.625})}},
      {"lid",
       in({0, 0, 7.25, 14, 9, 8}),
       0,
       2,
       {in({0, 0, 7.25, 14, .75, 7.625}), in({0, 8.25, 7.25, 14, 9, 7.625}),
        in({0, .75, 7.25, .75, 8.25, 7.625}), in({13.25, .75, 7.25, 14, 8.25, 7.625})}},
  });
}

TestWork bench_panel() {
  std::vector<Board> boards;
  for (int i = 0; i < 6; ++i) {
    boards.push_back({"board " + std::to_string(i + 1),
                      box(25.4, {0, 3.0 * i, 0, 48, 3.0 * (i + 1), .875}),
                      0,
                      2,
                      {}});
  }
  return made_of(boards);
}

TestWork shelf_case(int shelves) {
  std::vector<Board> boards{{"left", box(1, {0, 0, 0, 18, 300, 600}), 2, 0, {}},
                            {"right", box(1, {582, 0, 0, 600, 300, 600}), 2, 0, {}}};
  for (int i = 0; i < shelves; ++i) {
    const double z = 60 + 480.0 * i / std::max(1, shelves - 1);
    boards[0].cuts.push_back(box(1, {9, 0, z, 18, 300, z + 18}));
    boards[1].cuts.push_back(box(1, {582, 0, z, 591, 300, z + 18}));
    boards.push_back(
        {"shelf " + std::to_string(i + 1), box(1, {9, 0, z, 591, 300, z + 18}), 0, 2, {}});
  }
  return made_of(boards);
}

TestWork work_of_text(const std::string& job_text) {
  TestWork work;
  work.job = *files::read_job("job.toml", job_text).job;
  work.solids = work::make_solids(work.job.parts);
  work.joints =
      classify_joints(work.job, geometry::find_contacts(work.solids, geometry::Tolerance{}));
  work.glue = *choose_glue(work.job, work::Shop{}).glue;
  return work;
}

work::OwnedClamp some(const std::string& kind, int count, double opening_mm) {
  const tables::ClampKind& row = *tables::find_clamp_kind(kind);
  work::OwnedClamp owned;
  owned.kind = kind;
  owned.count = count;
  owned.opening = at_mm(opening_mm);
  owned.throat = at_mm(row.throat_mm ? row.throat_mm->lo : 0);
  owned.pad_width = at_mm(row.pad_width_mm);
  owned.pad_height = at_mm(row.pad_height_mm);
  owned.force_N = row.force_typ_N;
  return owned;
}

work::Shop shop_with(std::vector<work::OwnedClamp> clamps) {
  work::Shop shop;
  shop.file = "shop.toml";
  shop.unlimited_rack = false;
  shop.clamps = std::move(clamps);
  return shop;
}

}  // namespace planner::clamps::layout
