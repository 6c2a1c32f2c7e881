#include "planner/pressure/pressure_system.h"

#include "planner/pressure/pressure_mesh.h"

namespace planner::pressure {

PressureSystem::PressureSystem(const StackSystem& system)
    : mesh_(std::make_unique<StackMesh>(system)), solver_(mesh_->springs()) {}
PressureSystem::PressureSystem(PressureSystem&&) noexcept = default;
PressureSystem& PressureSystem::operator=(PressureSystem&&) noexcept = default;
PressureSystem::~PressureSystem() = default;

const std::vector<BedSample>& PressureSystem::samples() const {
  return mesh_->samples();
}

const std::vector<double>& PressureSystem::pressure_at_rest_MPa() const {
  return solver_.pressure_at_rest_MPa();
}

std::vector<double> PressureSystem::influence_MPa(std::span<const Push> pushes) const {
  return solver_.influence_MPa(mesh_->loads(pushes));
}

std::vector<std::vector<double>> PressureSystem::influences_MPa(
    std::span<const std::vector<Push>> pushes) const {
  std::vector<NodeLoads> loads;
  for (const std::vector<Push>& together : pushes) {
    loads.push_back(mesh_->loads(together));
  }
  return solver_.influences_MPa(loads);
}

ContactSolution PressureSystem::press(std::span<const Push> pushes) const {
  return solver_.press(mesh_->loads(pushes));
}

}  // namespace planner::pressure
