// Which part can be taken away from which along which line, or folded open about which corner, wet
// faces considered.
#pragma once
#include <span>
#include <vector>

#include "geometry/solid.h"
#include "planner/work/folds.h"
#include "planner/work/joint.h"

namespace planner::work {

// Taking apart read backwards is putting together: what may leave along d comes in along -d.
class Motions {
 public:
  Motions(std::vector<geometry::Direction> directions, std::vector<Fold> folds, std::size_t parts)
      : directions_(std::move(directions)),
        folds_(std::move(folds)),
        parts_(parts),
        unfolds_(folds_.size() * parts * parts, false),
        free_(directions_.size() * parts * parts, false),
        clear_(directions_.size() * parts * parts, false),
        overwipe_mm_(directions_.size() * parts * parts, 0) {}

  const std::vector<geometry::Direction>& directions() const { return directions_; }
  const std::vector<Fold>& folds() const { return folds_; }
  std::size_t parts() const { return parts_; }

  // Part i, turned with folds()[f].turns while part j stays with folds()[f].stays, surely runs into
  // nothing and wipes no more than the trade allows. False too where i and j are the hinge's boards
  // the other way round: then it is no hinge between them.
  bool unfolds(std::size_t f, PartId i, PartId j) const { return unfolds_[index(f, i, j)]; }
  void set_unfolds(std::size_t f, PartId i, PartId j) { unfolds_[index(f, i, j)] = true; }

  // Part i, taken away along direction d to any distance, neither runs into part j nor drags a wet
  // face farther than the trade allows.
  bool leaves(std::size_t d, PartId i, PartId j) const { return free_[index(d, i, j)]; }
  // The same, whatever it wipes: nothing stands in the way.
  bool clear(std::size_t d, PartId i, PartId j) const { return clear_[index(d, i, j)]; }
  // How much farther than the joint's own depth a wet face is wiped: 0, or up to 25 mm at a cost in
  // rank.
  double overwipe_mm(std::size_t d, PartId i, PartId j) const {
    return overwipe_mm_[index(d, i, j)];
  }
  void set_clear(std::size_t d, PartId i, PartId j) { clear_[index(d, i, j)] = true; }
  void allow(std::size_t d, PartId i, PartId j, double overwipe_mm) {
    free_[index(d, i, j)] = true;
    overwipe_mm_[index(d, i, j)] = overwipe_mm;
  }

 private:
  std::size_t index(std::size_t d, PartId i, PartId j) const {
    return (d * parts_ + i) * parts_ + j;
  }
  std::vector<geometry::Direction> directions_;  // unit vectors
  std::vector<Fold> folds_;
  std::size_t parts_;
  std::vector<bool> unfolds_, free_, clear_;
  std::vector<double> overwipe_mm_;
};

// Directions tried: both ways along x, y, z, along every face's normal, and along the common line
// of two faces of a joint. Wiping is judged as docs/order.md "Wiping" says.
Motions find_motions(std::span<const geometry::Solid> solids, std::span<const Joint> joints);

}  // namespace planner::work
