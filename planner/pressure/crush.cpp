#include "planner/pressure/crush.h"

#include <algorithm>
#include <cmath>

#include "planner/base/units.h"

namespace planner::pressure {
namespace {

constexpr double kInch_mm = base::kMmPerInch;
constexpr double kSizeRounding = 1e-9;
constexpr double kLongestBlock = 4;  // in jaws; beyond, the block bends more than it spreads

double cut_up(double wanted_mm, double step_mm, double room_mm) {
  return std::min(room_mm, step_mm * std::ceil(wanted_mm / step_mm - kSizeRounding));
}

// The thinnest stock that is thick enough; nothing when none is.
std::optional<double> stock_of(double wanted_mm, const CutSizes& sizes) {
  const auto thick =
      std::lower_bound(sizes.thick_mm.begin(), sizes.thick_mm.end(), wanted_mm - kSizeRounding);
  return thick == sizes.thick_mm.end() ? std::nullopt : std::optional(*thick);
}

}  // namespace

double bearing_limit_MPa(const tables::Wood& wood) {
  return kCrushShare * crush_strength_of(wood).MPa;
}

double pad_area_mm2(double force_N, double limit_MPa) {
  return force_N / limit_MPa;
}

const CutSizes& cut_sizes(base::Units units) {
  static const CutSizes metric{5, {12, 18, 25, 38}};
  static const CutSizes inch{kInch_mm / 4,
                             {kInch_mm / 2, kInch_mm * 3 / 4, kInch_mm, kInch_mm * 3 / 2}};
  return units == base::Units::mm ? metric : inch;
}

double edge_caul_width_mm(double edge_mm, base::Units units) {
  const double step = cut_sizes(units).step_mm;
  return edge_mm >= kLeastPad_mm ? edge_mm : step * std::ceil(kLeastPad_mm / step - kSizeRounding);
}

std::optional<PadAnswer> choose_pad(const PadQuestion& q) {
  const CutSizes& sizes = cut_sizes(q.units);
  PadAnswer answer;
  plan::PadSize& pad = answer.pad;
  pad.across_mm = cut_up(q.jaw_across_mm, sizes.step_mm, q.room_across_mm);
  const double area = pad_area_mm2(q.force_N, q.limit_MPa);
  const double longest_block = std::min(kLongestBlock * q.jaw_along_mm, q.room_along_mm);
  // A wide face takes a square pad before a long one.
  if (area > pad.across_mm * longest_block)
    pad.across_mm = cut_up(std::sqrt(area), sizes.step_mm, q.room_across_mm);
  const double along = std::max(q.jaw_along_mm, area / pad.across_mm);
  pad.along_mm = cut_up(along, sizes.step_mm, q.room_along_mm);
  if (pad.along_mm * pad.across_mm < area * (1 - kSizeRounding))
    return std::nullopt;
  answer.bearing_MPa = q.force_N / (pad.along_mm * pad.across_mm);
  const double reach =
      std::max({(pad.along_mm - q.jaw_along_mm) / 2, (pad.across_mm - q.jaw_across_mm) / 2,
                q.show_face ? kShowPad_mm : 0.0});
  const std::optional<double> stock = stock_of(reach, sizes);
  answer.edge_caul = !stock || pad.along_mm > kLongestBlock * q.jaw_along_mm;
  pad.thick_mm = answer.edge_caul ? sizes.thick_mm.back() : *stock;
  return answer;
}

}  // namespace planner::pressure
