// What clamps at given sites do to the glue lines of one axis: the pressure model set up for them,
// each site's influence worked out once.
#pragma once
#include <memory>
#include <span>
#include <vector>

#include "planner/clamps/axis/coupled_lines.h"
#include "planner/clamps/axis/known_systems.h"
#include "planner/clamps/count/max_min_forces.h"
#include "planner/pressure/pressure_profile.h"

namespace planner::clamps::axis {

// A share of what is asked from which on it is given: the difference is rounding of pressures.
inline constexpr double kNearlyOne = 1 - 1e-3;

// How hard each line is to be pressed. The model's least pressure is trusted to a tenth of the mean
// (docs/clamping.md: "Error against finite elements"), and a person may give less than
// planned.
inline constexpr double kModelMargin = 0.1;  // of min/mean
struct PressNeed {
  std::vector<double> line_MPa;  // a line each, > 0
  double hand = 1;               // share of the planned force that weak hands give
  double margin = kModelMargin;  // of the mean, that a table takes off the pressure
  friend bool operator==(const PressNeed&, const PressNeed&) = default;
};

// What the model is sure of: its least pressure less its margin of the mean.
constexpr double sure_MPa(double least_MPa, double mean_MPa) {
  return least_MPa - kModelMargin * mean_MPa;
}

// Between people, measured: Fine Woodworking, 'The right number of clamps', 11 May 2010.
inline constexpr double kWeakHand = 0.6;

// A table and, for each of its places, the line it lies on (the lowest of those it stands for).
struct LineTable {
  count::PressTable table;
  std::vector<std::size_t> line;
};

struct LineResult {
  pressure::LineProfile profile;
  std::vector<std::array<double, 2>> samples;  // mm along the line, MPa
};

class PressModel {
 public:
  // Systems that are known are taken as they are; others are built and known from then on.
  PressModel(const PressSetUp& set_up, KnownSystems& known);

  // Lines that run behind one another and fare alike are one entry here. With `apart_mm` > 0 places
  // are that far apart (ends always in), for the search; with 0 every sample is a place.
  LineTable table(const PressNeed& need, double apart_mm) const;

  // Whether a site presses a line, through its own strip or through the corner of a rim: more than
  // a fiftieth of its force arrives there.
  bool presses(std::size_t site, std::size_t line) const;

  // With joints that can open. A result a line. `forces` go with `chosen`, indices of sites.
  std::vector<LineResult> press(std::span<const std::size_t> chosen,
                                std::span<const double> force_N) const;

 private:
  struct Bed {  // samples of one bed, and the lines it stands for
    std::vector<std::size_t> lines;
    std::size_t system = 0, group = 0;
    int stack_line = 0, bed = 0;
    std::size_t first = 0, count = 0;  // among all samples
    std::size_t first_in_system = 0;
  };
  void add_systems(KnownSystems& known);
  void add_beds();
  void add_influences();
  bool pressed_alike(const CoupledLines& a, const CoupledLines& b) const;
  double mean_over(const Bed& bed, const double* pressure) const;

  std::vector<AskedLine> lines_;  // as they were set up: a plan may be copied and change
  std::vector<ClampSite> sites_;
  std::vector<CoupledLines> groups_;
  std::vector<std::shared_ptr<KnownSystem>> systems_;
  std::vector<Bed> beds_;
  std::vector<std::size_t> bed_of_line_;
  std::vector<double> x_mm_, length_mm_;  // a sample each: where it is, what it stands for
  std::vector<double> at_rest_MPa_;
  std::vector<double> influence_;  // [site * samples + sample], MPa a newton
  std::vector<double> mean_;       // [site * beds + bed], likewise; 0 where none of it is felt
};

}  // namespace planner::clamps::axis
