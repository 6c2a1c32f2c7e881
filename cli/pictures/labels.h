// Where things are written on a picture: on the part, along its grain, where it is in full view and
// nothing else is written; beside it with a leader where it is too slender.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/pictures/canvas.h"
#include "cli/pictures/markup.h"

namespace cli::pictures {

// FRONT and TOP: 2 mm high on a thumbnail of 27 mm, the smallest that is printed.
inline constexpr double kSideTall = 57;

class Labels {
 public:
  Labels(const Canvas& canvas, const model::Scene& scene) : canvas_(canvas), scene_(scene) {}

  // Room that something else takes.
  void keep_clear(const Area& area) { taken_.push_back(area); }
  // What is written or kept clear so far.
  Area used() const;
  // A face that is dark with glue: what is written there gets a light rim.
  void note_dark(const geometry::Facet& facet) { dark_.push_back(&facet); }
  // A part's letter and name on its facets, which lie as drawn; its body's number in the scene.
  void write_part(const std::vector<geometry::Facet>& facets, std::size_t body,
                  const geometry::Direction& grain, const std::string& letter, const std::string& name,
                  Markup& svg);
  // A clamp's number in a ring beside its handle; a dark one where it is its turn. The middle of the ring.
  model::Point2 write_clamp(const geometry::Point& handle, int n, bool its_turn, Markup& svg);
  // Words beside the drawing where a direction of the work points, with room for letters so tall; beyond the
  // sheet where it has none left.
  void write_side(const geometry::Point& middle, const geometry::Direction& way, const Area& drawing,
                  const std::string& word, Markup& svg, double tall = kSideTall);

 private:
  struct Spot {
    geometry::Point at;                // the left end of the line that it stands on
    geometry::Direction along, upward;  // of its letters, in the face
    geometry::Direction normal;
    double long_mm = 0, high_mm = 0;
    Area area;
  };
  std::optional<Spot> spot_on(const std::vector<geometry::Facet>& facets, std::size_t body,
                              const geometry::Direction& grain, double long_units, double high_units) const;
  bool in_view(const Spot& spot, std::size_t body) const;
  bool on_dark(const Spot& spot) const;
  bool is_free(const Area& area) const;  // and on the sheet
  bool is_untaken(const Area& area) const;
  bool is_blank(const Area& area) const;
  void write_beside(const std::vector<geometry::Facet>& facets, const std::string& letter, Markup& svg);

  const Canvas& canvas_;
  const model::Scene& scene_;
  std::vector<Area> taken_;
  std::vector<const geometry::Facet*> dark_;
};

}  // namespace cli::pictures
