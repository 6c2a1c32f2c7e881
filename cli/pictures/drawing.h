// From a situation to lines and fillings: bodies, what hides what, and the canvas they fit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/pictures/canvas.h"
#include "cli/pictures/clamp_solids.h"
#include "cli/pictures/markup.h"
#include "cli/pictures/situation.h"

namespace cli::pictures {

// What a body is filled with; each in three shades, by the side that looks up, ahead or aside.
enum class Fill { still, wood, glue, iron, iron_earlier, pad, weight };

struct Actor {
  std::vector<geometry::Facet> facets;  // as drawn
  Fill fill = Fill::still;
  bool bold = false;  // outlined heavily
  std::optional<planner::work::PartId> part;
};

struct Drawing {
  Stance stance;
  std::vector<Actor> actors;
  std::vector<Actor> wet;            // glue faces, each a facet on its part
  std::vector<ClampSolid> own;       // the step's clamps, for their numbers
  std::vector<geometry::Point> more;  // what else must come onto the sheet
  bool tells_hidden = true;           // what is wholly behind others is dashed through them
};

// Where a part of the situation is drawn: in its place, pulled back or folded open.
std::vector<geometry::Facet> drawn_part(const planner::plan::Plan& plan, const Situation& at,
                                        planner::work::PartId part);
Drawing drawing_of(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                   const planner::plan::Step& step, const Situation& at);

// What the seen parts of a drawing look like. REQUIRES: the drawing outlives it.
class Painted {
 public:
  explicit Painted(const Drawing& drawing);
  const Canvas& canvas() const { return *canvas_; }
  const model::Scene& scene() const { return *scene_; }
  const Area& area() const { return area_; }  // on the sheet, of what is drawn
  void write(Markup& svg) const;

 private:
  // Of which bodies faces had to be cut, so that their edges are still to be drawn.
  std::vector<bool> write_fills(Markup& svg) const;
  void write_lines(Markup& svg, const std::vector<bool>& cut) const;
  void write_unseen_glue(Markup& svg) const;

  const Drawing& drawing_;
  model::View view_;
  std::optional<model::Scene> scene_;
  std::optional<Canvas> canvas_;
  Area area_;
};

// The sheet cut down to what is on it from top to bottom, and grown by what is written beyond it: an SVG element
// of that title and colour class.
std::string framed(const std::string& title, const char* colour, const Area& drawn, const Area& written,
                   const Markup& inside);

}  // namespace cli::pictures
