#include "planner/pressure/pressure_plate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "planner/pressure/pressure_plate_element.h"

namespace planner::pressure {
namespace {

// Nodes at even steps on one side of the face.
struct Grid {
  int cells = 1;
  double step_mm = 0;
  Grid(double length_mm, double longest_mm)
      : cells(std::max(1, static_cast<int>(std::ceil(length_mm / longest_mm - 1e-9)))),
        step_mm(length_mm / cells) {}
  int nodes() const { return cells + 1; }
  double length_mm() const { return cells * step_mm; }
  // How much of [from, to] lies nearer to node i than to any other.
  double share_mm(int i, double from, double to) const {
    const double low = std::max((i - 0.5) * step_mm, 0.0);
    const double high = std::min((i + 0.5) * step_mm, length_mm());
    return std::max(0.0, std::min(high, to) - std::max(low, from));
  }
  // A unit force spread evenly around `centre`, as nodal shares; force and moment are kept.
  std::vector<double> spread(double centre, double width) const {
    std::vector<double> shares(at(nodes()), 0);
    const double half = std::max(1e-6, std::min({width / 2, centre, length_mm() - centre}));
    const double from = centre - half, to = centre + half;
    for (int i = 0; i < cells; ++i) {
      const double a = std::max(from, i * step_mm), b = std::min(to, (i + 1) * step_mm);
      const double middle = ((a + b) / 2 - i * step_mm) / step_mm;
      if (b <= a)
        continue;
      shares[at(i)] += (b - a) / (to - from) * (1 - middle);
      shares[at(i) + 1] += (b - a) / (to - from) * middle;
    }
    return shares;
  }
};

}  // namespace

class FaceMesh {
 public:
  explicit FaceMesh(const FacePlate& plate);
  const std::vector<FaceSample>& samples() const { return samples_; }
  const SpringSystem& springs() const { return system_; }  // the samples' first, then the cauls'
  NodeLoads loads(std::span<const FacePush> pushes) const;

 private:
  int deflection(int i, int j) const { return 3 * (j * x_.nodes() + i); }
  const Grid& run_of(const FaceCaul& caul) const {
    return caul.run == CaulRun::lengthwise ? x_ : y_;
  }
  void add_plate();
  void add_bed();
  void add_caul(const FaceCaul& caul);

  FacePlate plate_;
  Grid x_, y_;
  std::vector<int> first_of_caul_;  // degree of freedom of each caul's first node
  std::vector<FaceSample> samples_;
  SpringSystem system_;
};

FaceMesh::FaceMesh(const FacePlate& plate)
    : plate_(plate), x_(plate.length_mm, plate.step_mm), y_(plate.width_mm, plate.step_mm) {
  system_.freedoms = 3 * x_.nodes() * y_.nodes();
  add_plate();
  add_bed();
  for (const FaceCaul& caul : plate_.cauls)
    add_caul(caul);
  system_.fixed_load_N.assign(at(system_.freedoms), 0);
}

void FaceMesh::add_plate() {
  const PlateMatrix k =
      plate_stiffness(plate_section(plate_.thickness_mm, plate_.moduli), x_.step_mm, y_.step_mm);
  for (int j = 0; j < y_.cells; ++j)
    for (int i = 0; i < x_.cells; ++i) {
      const std::array<int, 4> corner{deflection(i, j), deflection(i + 1, j),
                                      deflection(i + 1, j + 1), deflection(i, j + 1)};
      for (std::size_t r = 0; r < 12; ++r)
        for (std::size_t c = 0; c < 12; ++c) {
          const int row = corner[r / 3] + static_cast<int>(r % 3);
          const int column = corner[c / 3] + static_cast<int>(c % 3);
          if (row >= column)
            system_.fixed.push_back({row, column, k[r][c]});
        }
    }
}

// Half the board yields towards its twin: 2 E_z / t an area.
void FaceMesh::add_bed() {
  const double stiffness = 2 * plate_.moduli.E_z_MPa / plate_.thickness_mm;
  for (int j = 0; j < y_.nodes(); ++j)
    for (int i = 0; i < x_.nodes(); ++i) {
      const double area = x_.share_mm(i, 0, plate_.length_mm) * y_.share_mm(j, 0, plate_.width_mm);
      samples_.push_back({i * x_.step_mm, j * y_.step_mm, area});
      system_.springs.push_back({deflection(i, j), kBase, stiffness * area, 0, area});
    }
}

// A beam over the nodes under it; its underside stays level across its width. A cambered one is
// lined, and stands off towards its ends.
void FaceMesh::add_caul(const FaceCaul& caul) {
  const bool lengthwise = caul.run == CaulRun::lengthwise;
  const Grid& run = run_of(caul);
  const Grid& across = lengthwise ? y_ : x_;
  const BeamLayer layer =
      rectangle(caul.section.width_mm, caul.section.height_mm, caul.section.moduli);
  const double camber = caul.section.camber_mm;
  const double lining = camber != 0 ? kLining_mm / kLining_MPa : 0;
  const double stiffness = 1 / (caul.section.height_mm / (2 * caul.section.moduli.E_z_MPa) +
                                plate_.thickness_mm / (2 * plate_.moduli.E_z_MPa) + lining);
  const BowGap gap{-camber, run.length_mm()};
  const int first = system_.freedoms;
  first_of_caul_.push_back(first);
  system_.freedoms += 2 * run.nodes();
  for (int n = 0; n < run.nodes(); ++n) {
    const int w = first + 2 * n;
    if (n < run.cells)
      system_.beams.push_back({{w, w + 1, w + 2, w + 3}, layer, run.step_mm});
    for (int m = 0; m < across.nodes(); ++m) {
      const double area = run.share_mm(n, 0, run.length_mm()) *
                          across.share_mm(m, caul.centre_mm - caul.section.width_mm / 2,
                                          caul.centre_mm + caul.section.width_mm / 2);
      if (area > 0)
        system_.springs.push_back({w, lengthwise ? deflection(n, m) : deflection(m, n),
                                   stiffness * area, gap.at_mm(n * run.step_mm), area});
    }
  }
}

NodeLoads FaceMesh::loads(std::span<const FacePush> pushes) const {
  NodeLoads f;
  for (const FacePush& push : pushes) {
    if (push.caul == kOnTheBoard) {
      const std::vector<double> along = x_.spread(push.x_mm, push.pad_x_mm);
      const std::vector<double> over = y_.spread(push.y_mm, push.pad_y_mm);
      for (int j = 0; j < y_.nodes(); ++j)
        for (int i = 0; i < x_.nodes(); ++i)
          if (along[at(i)] > 0 && over[at(j)] > 0)
            f.push_back({deflection(i, j), push.force_N * along[at(i)] * over[at(j)]});
      continue;
    }
    const FaceCaul& caul = plate_.cauls[at(push.caul)];
    const bool lengthwise = caul.run == CaulRun::lengthwise;
    const std::vector<double> along = run_of(caul).spread(
        lengthwise ? push.x_mm : push.y_mm, lengthwise ? push.pad_x_mm : push.pad_y_mm);
    for (int n = 0; n < run_of(caul).nodes(); ++n)
      f.push_back({first_of_caul_[at(push.caul)] + 2 * n, push.force_N * along[at(n)]});
  }
  return f;
}

FaceSystem::FaceSystem(const FacePlate& plate)
    : mesh_(std::make_unique<FaceMesh>(plate)), solver_(mesh_->springs()) {}
FaceSystem::FaceSystem(FaceSystem&&) noexcept = default;
FaceSystem& FaceSystem::operator=(FaceSystem&&) noexcept = default;
FaceSystem::~FaceSystem() = default;

const std::vector<FaceSample>& FaceSystem::samples() const {
  return mesh_->samples();
}

std::vector<double> FaceSystem::influence_MPa(std::span<const FacePush> pushes) const {
  std::vector<double> p = solver_.influence_MPa(mesh_->loads(pushes));
  p.resize(samples().size());
  return p;
}

ContactSolution FaceSystem::press(std::span<const FacePush> pushes) const {
  ContactSolution pressed = solver_.press(mesh_->loads(pushes));
  pressed.pressure_MPa.resize(samples().size());
  pressed.gap_mm.resize(samples().size());
  return pressed;
}

FaceProfile profile_of(std::span<const FaceSample> samples, const ContactSolution& pressed) {
  FaceProfile out;
  double area = 0, starved = 0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    area += samples[i].area_mm2;
    out.force_N += pressed.pressure_MPa[i] * samples[i].area_mm2;
  }
  const auto [least, most] =
      std::minmax_element(pressed.pressure_MPa.begin(), pressed.pressure_MPa.end());
  out.min_MPa = *least;
  out.max_MPa = *most;
  out.mean_MPa = out.force_N / area;
  out.open_gap_mm = *std::max_element(pressed.gap_mm.begin(), pressed.gap_mm.end());
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (pressed.pressure_MPa[i] < out.mean_MPa / 2)
      starved += samples[i].area_mm2;
  out.starved_share = starved / area;
  return out;
}

}  // namespace planner::pressure
