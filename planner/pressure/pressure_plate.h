// Pressure over a wide glue face: a board pressed flat on another, with cauls along or across it.
// The board is an orthotropic plate that shears (Mindlin) on a bed that cannot pull;
// docs/clamping.md.
#pragma once
#include <limits>
#include <memory>
#include <span>
#include <vector>

#include "planner/pressure/pressure_line.h"

namespace planner::pressure {

enum class CaulRun { lengthwise, crosswise };

// A caul over the whole length or width of the face, straight or with its own camber.
struct FaceCaul {
  CaulRun run = CaulRun::crosswise;
  double centre_mm = 0;  // of its axis: y of a lengthwise one, x of a crosswise one
  Caul section;
  friend bool operator==(const FaceCaul&, const FaceCaul&) = default;
};

// The outermost board of a lamination: the clamps press on it, and the line under it is the one
// that fares worst. The board below is taken as its twin. x along the length, y across, z pressing.
struct FacePlate {
  double length_mm = 0, width_mm = 0, thickness_mm = 0;
  LineModuli moduli;
  double step_mm = 10;  // longest side of an element
  std::vector<FaceCaul> cauls;
  friend bool operator==(const FacePlate&, const FacePlate&) = default;
};

inline constexpr int kOnTheBoard = -1;

// A clamp's pad centred on (x, y), on the board or on one of the cauls (there the place across the
// caul is its axis). Pressed as it is: a plate spreads it by itself. Near the board's edge it is
// taken narrower, so that the resultant stays where it is.
struct FacePush {
  int caul = kOnTheBoard;  // or an index into FacePlate::cauls
  double x_mm = 0, y_mm = 0;
  double pad_x_mm = 0, pad_y_mm = 0;
  double force_N = 0;
};

// A node of the face and the area it stands for.
struct FaceSample {
  double x_mm = 0, y_mm = 0, area_mm2 = 0;
};

class FaceMesh;

class FaceSystem {
 public:
  // REQUIRES: sizes and moduli > 0; cauls' axes and pushes on the board.
  explicit FaceSystem(const FacePlate& plate);
  FaceSystem(FaceSystem&&) noexcept;
  FaceSystem& operator=(FaceSystem&&) noexcept;
  ~FaceSystem();

  const std::vector<FaceSample>& samples() const;  // by y, x
  // As of PressureSystem: a value a sample.
  std::vector<double> influence_MPa(std::span<const FacePush> pushes) const;
  ContactSolution press(std::span<const FacePush> pushes) const;

 private:
  std::unique_ptr<const FaceMesh> mesh_;
  ContactSolver solver_;
};

// A plate and its system, kept as long as only the forces on it change.
struct PressedPlate {
  FacePlate plate;
  FaceSystem system;
};

struct FaceProfile {
  double min_MPa = 0, mean_MPa = 0, max_MPa = 0;
  double starved_share = 0;  // of the area under half the mean
  double open_gap_mm = 0;
  double force_N = 0;
};
FaceProfile profile_of(std::span<const FaceSample> samples, const ContactSolution& pressed);

}  // namespace planner::pressure
