#include "cli/text/sample_plan.h"

#include <cmath>
#include <string>

#include "planner/plan/stage_starts.h"

namespace cli::text::sample {
namespace {

using namespace planner;
using namespace planner::base;
using namespace planner::plan;
using namespace planner::work;
using geometry::Direction;

constexpr double kIn = 25.4;
enum Part : PartId { front, back, left, right, bottom, top };

PlanPart part(const char* name, std::array<double, 3> lo, std::array<double, 3> hi,
              std::array<double, 3> size, Direction grain) {
  PlanPart p;
  p.name = name;
  p.species = "black_cherry";
  p.size_mm = {size[0] * kIn, size[1] * kIn, size[2] * kIn};
  p.grain = grain;
  p.volume_mm3 = p.size_mm[0] * p.size_mm[1] * p.size_mm[2];
  p.mass_g = p.volume_mm3 * 0.56e-3;
  p.bounds = {{lo[0] * kIn, lo[1] * kIn, lo[2] * kIn}, {hi[0] * kIn, hi[1] * kIn, hi[2] * kIn}};
  return p;
}

geometry::LatticeBox lattice(const geometry::Box& box) {
  const auto at = [](double mm) { return geometry::Length::nm(std::llround(mm * 1e6)); };
  return {{at(box.lo.x), at(box.lo.y), at(box.lo.z)}, {at(box.hi.x), at(box.hi.y), at(box.hi.z)}};
}

// A part with rabbets where the others' boxes reach into it.
void cut_facets(PlanPart& part, const std::vector<PlanPart>& all, const std::vector<PartId>& into) {
  geometry::Solid solid = geometry::board(lattice(part.bounds));
  for (const PartId id : into) {
    solid = geometry::cut(solid, lattice(all[id].bounds));
  }
  part.facets = geometry::facets(solid);
}

GlueFace face(double area_in2, Direction normal, GrainClass a, GrainClass b) {
  GlueFace f;
  f.contact.area_mm2 = area_in2 * kIn * kIn;
  f.contact.normal = normal;
  f.contact.along = normal.z != 0 ? Direction{1, 0, 0} : Direction{0, 0, 1};
  f.contact.length_mm = 8 * kIn;
  f.contact.width_mm = 0.75 * kIn;
  f.contact.regions = {{{{0, 0, 0}, {10, 0, 0}, {10, 10, 0}, {0, 10, 0}}, {}}};
  f.grain = {a, b};
  return f;
}

Joint rabbet(PartId a, PartId b, std::size_t cut_side, Direction cheek, Direction shoulder) {
  Joint j;
  j.parts = {a, b};
  j.kind = JointKind::rabbet;
  j.faces = {face(5.4, cheek, GrainClass::long_grain, GrainClass::end_grain),
             face(2.7, shoulder, GrainClass::end_grain, GrainClass::long_grain)};
  j.spread[cut_side] = true;
  j.host = cut_side;
  j.depth_mm = 0.375 * kIn;
  return j;
}

Step step(int n, StepKind kind, double start, double end, std::vector<PartId> parts,
          std::vector<JointId> joints) {
  Step s;
  s.n = n;
  s.kind = kind;
  s.start_s = start;
  s.end_s = end;
  s.people = {1};
  s.parts = std::move(parts);
  s.joints = std::move(joints);
  s.why = planner::plan::OpenFor{60.0 * n, 3600};
  return s;
}

Step join(int n, double start, double end, std::vector<PartId> parts, std::vector<JointId> joints,
          std::vector<PartId> moving, Direction d) {
  Step s = step(n, StepKind::join, start, end, std::move(parts), std::move(joints));
  s.motion = Motion{std::move(moving), d};
  return s;
}

Step clamping(int n, StepKind kind, double start, double end, std::vector<int> clamps) {
  Step s = step(n, kind, start, end, {}, {});
  s.clamps = std::move(clamps);
  return s;
}

PlannedClamp clamp(int n, Direction axis, geometry::Point at, double opening_in, Level level) {
  PlannedClamp c;
  c.n = n;
  c.axis = axis;
  c.at = {at.x * kIn, at.y * kIn, at.z * kIn};
  c.kind = "f_heavy";
  c.owned = 0;
  c.span_mm = (opening_in - 2) * kIn;
  c.opening_mm = opening_in * kIn;
  c.size_mm = 24 * kIn;
  c.force_N = level == Level::seat ? 300 : 4000;
  c.level = level;
  c.pad = {2 * kIn, 1.25 * kIn, 0.75 * kIn};
  c.pad_along = axis.x != 0   ? Direction{0, 1, 0}
                : axis.y != 0 ? Direction{0, 0, 1}
                              : Direction{1, 0, 0};
  c.bar_side = axis.z != 0 ? Direction{0, -1, 0} : Direction{0, 0, 1};
  c.bearing_MPa = 2.1;
  c.bearing_limit_MPa = 2.4;
  c.barrier = n <= 2;
  c.joints = {0};
  return c;
}

std::vector<PlannedClamp> clamps() {
  std::vector<PlannedClamp> all;
  for (int i = 0; i < 4; ++i) {
    all.push_back(
        clamp(i + 1, {0, 1, 0}, {i % 2 ? 13.625 : 0.375, 0, i < 2 ? 2.0 : 6.0}, 11, Level::hold));
  }
  for (int i = 0; i < 4; ++i) {
    all.push_back(clamp(i + 5, {0, 0, 1}, {i % 2 ? 10.5 : 3.5, i < 2 ? 0.375 : 8.625, 0}, 10,
                        i == 3 ? Level::full : Level::hold));
  }
  for (int i = 0; i < 2; ++i) {
    all.push_back(clamp(i + 9, {1, 0, 0}, {0, 4.5, i == 1 ? 6.0 : 2.0}, 16, Level::seat));
  }
  return all;
}

// Corners 0-3, bottom to walls 4-7, top to walls 8-11.
std::vector<Joint> joints() {
  const Direction x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
  return {
      rabbet(front, left, 0, y, x),  rabbet(front, right, 0, y, x),  rabbet(back, left, 0, y, x),
      rabbet(back, right, 0, y, x),  rabbet(front, bottom, 1, z, y), rabbet(back, bottom, 1, z, y),
      rabbet(left, bottom, 1, z, x), rabbet(right, bottom, 1, z, x), rabbet(front, top, 1, z, y),
      rabbet(back, top, 1, z, y),    rabbet(left, top, 1, z, x),     rabbet(right, top, 1, z, x)};
}

Stage stage() {
  Stage s;
  s.parts = {front, back, left, right, bottom, top};
  s.joints = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
  s.steps = {step(1, StepKind::spread, 0, 96, {bottom}, {4, 5, 6, 7}),
             join(2, 96, 121, {back, bottom}, {5}, {back}, {0, 0, -1}),
             step(3, StepKind::spread, 121, 145, {back}, {2, 3}),
             join(4, 145, 170, {back, left, bottom}, {2, 6}, {left}, {0, 1, 0}),
             join(5, 170, 195, {back, left, right, bottom}, {3, 7}, {right}, {0, 1, 0}),
             step(6, StepKind::spread, 195, 219, {front}, {0, 1}),
             join(7, 219, 244, {front, back, left, right, bottom}, {0, 1, 4}, {front}, {0, 1, 0}),
             clamping(8, StepKind::snug, 244, 364, {1, 2, 3, 4}),
             step(9, StepKind::check, 364, 409, {}, {}),
             step(10, StepKind::spread, 409, 489, {top}, {8, 9, 10, 11}),
             join(11, 489, 534, {front, back, left, right, bottom, top}, {8, 9, 10, 11}, {top},
                  {0, 0, -1}),
             clamping(12, StepKind::snug, 534, 654, {5, 6, 7, 8, 9, 10}),
             step(13, StepKind::wait, 654, 714, {}, {}),
             step(14, StepKind::check, 714, 759, {}, {}),
             clamping(15, StepKind::tighten, 759, 859, {1, 3, 2, 4, 5, 6, 7, 8, 9, 10})};
  s.steps[8].check = planner::plan::Check::inside_diagonals;
  s.steps[13].check = planner::plan::Check::outside_diagonals;
  s.clamps = clamps();
  s.slack_s = 60;
  s.makespan_s = 859;
  s.pull_apart_by_s = 300;
  s.clamp_time_s = 3600;
  s.status = Proof::bounded;
  s.bound_s = 90;
  s.limits = {{5, 0, 300, 25, 600, 364}, {8, 0, 300, 45, 600, 165}};
  return s;
}

}  // namespace

Plan chest() {
  Plan p;
  p.title = "Hive-tool chest";
  p.glue.glue.hold_MPa = 0.172;
  p.units = Units::inch;
  p.verdict.ok = true;
  p.verdict.time = TimeVerdict::one_go;
  p.verdict.comfort = Comfort::comfortable;
  p.verdict.pressure = Level::hold;
  p.verdict.risk = planner::plan::SquareRisk{};
  const Direction x{1, 0, 0}, y{0, 1, 0};
  p.parts = {part("front", {0, 0, .375}, {14, .75, 7.625}, {14, 7.25, .75}, x),
             part("back", {0, 8.25, .375}, {14, 9, 7.625}, {14, 7.25, .75}, x),
             part("left", {0, .375, .375}, {.75, 8.625, 7.625}, {8.25, 7.25, .75}, y),
             part("right", {13.25, .375, .375}, {14, 8.625, 7.625}, {8.25, 7.25, .75}, y),
             part("bottom", {0, 0, 0}, {14, 9, .75}, {14, 9, .75}, x),
             part("top", {0, 0, 7.25}, {14, 9, 8}, {14, 9, .75}, x)};
  for (const PartId id : {left, right}) {
    cut_facets(p.parts[id], p.parts, {});
  }
  for (const PartId id : {front, back}) {
    cut_facets(p.parts[id], p.parts, {left, right});
  }
  for (const PartId id : {bottom, top}) {
    cut_facets(p.parts[id], p.parts, {front, back, left, right});
  }
  p.joints = joints();
  p.glue.glue.name = "shop bottle";
  p.glue.glue.family = "pva_type2";
  p.glue.glue.open_s = 300;
  p.glue.glue.total_s = 600;
  p.glue.glue.clamp_s = 3600;
  p.glue.glue.cure_s = 24 * 3600;
  p.glue.glue.left_ml = 236.588;
  p.glue.area_mm2 = 127.19 * kIn * kIn;
  p.glue.net_g = 20.9;
  p.glue.net_ml = 19;
  p.glue.size_coat_g = 4.5;
  p.glue.waste_ml = 10;
  p.glue.ready_ml = 30;
  p.glue.ready_g = 33;
  for (JointId id = 0; id < p.joints.size(); ++id) {
    p.glue.faces.push_back({id, 0, 5.4 * kIn * kIn, 1.1, 0.3});
  }
  p.stages = {stage()};
  LinePressure line;
  line.joint = 4;
  line.axis = {0, 0, 1};
  line.level = Level::hold;
  line.min_MPa = 0.21;
  line.mean_MPa = 0.4;
  line.max_MPa = 1.0;
  line.hold_MPa = 0.172;
  line.full_MPa = 0.862;
  line.samples = {{{0, 0.21}, {90, 0.9}, {177, 0.3}, {266, 0.9}, {355, 0.21}}};
  p.pressure = {line};
  p.inventory = {{"f_heavy", 24 * kIn, 12, 10, 0}};
  p.cross_grain = {{6, bottom, 190.5, 2.3, true}};
  p.notes = {planner::plan::EndGrainNote{0.35}};
  p.cautions = {{planner::plan::CautionKind::label_wins}, {planner::plan::CautionKind::fingers}};
  p.long_mm2 = 58.5 * kIn * kIn;
  p.cross_mm2 = 24.75 * kIn * kIn;
  p.end_mm2 = 43.9 * kIn * kIn;
  p.needs_square = true;
  p.inside_mm = {12.5 * kIn, 7.5 * kIn};
  p.outside_mm = {14 * kIn, 9 * kIn};
  return p;
}

Plan short_chest() {
  Plan p = chest();
  p.verdict.ok = false;
  p.verdict.pressure = Level::short_of_hold;
  p.verdict.reasons = {planner::plan::NotHeld{{4, 5}}, planner::plan::TooLittleGlue{30, 20}};
  p.verdict.ways_out = {
      {planner::plan::BorrowWay{{{"f_heavy", 4, 10 * kIn}}, 10, false, 0}, 3, true},
      {planner::plan::GoesWay{2, {0, 1}, 6}, 5, true}};
  p.inventory = {{"f_heavy", 24 * kIn, 6, 6, 4}};
  p.pressure[0].level = Level::short_of_hold;
  p.glue.enough_left = false;
  return p;
}

Plan staged_chest() {
  Plan p = chest();
  p.units = Units::mm;
  p.uk_words = true;
  p.people = 2;
  p.no_shop_file = true;
  p.verdict.time = TimeVerdict::stages;
  p.verdict.comfort = Comfort::tight;
  Stage walls = p.stages[0];
  walls.parts = {front, back, left, right, bottom};
  walls.joints = {0, 1, 2, 3, 4, 5, 6, 7};
  walls.steps.resize(9);
  walls.clamps.resize(4);
  walls.makespan_s = 409;
  walls.slack_s = 12;
  Stage rest = p.stages[0];
  rest.steps.erase(rest.steps.begin(), rest.steps.begin() + 9);
  rest.clamps.erase(rest.clamps.begin(), rest.clamps.begin() + 4);
  p.stages = {walls, rest};
  set_starts(p);
  for (Stage& each : p.stages) {
    for (Step& s : each.steps) {
      s.people = s.kind == StepKind::spread ? std::vector<int>{2} : std::vector<int>{1, 2};
    }
  }
  return p;
}

}  // namespace cli::text::sample
