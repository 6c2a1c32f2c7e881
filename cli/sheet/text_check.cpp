// What the drawing was understood to say, and what in it wants mending.
#include <algorithm>

#include <fmt/format.h>

#include "cli/sheet/lists.h"
#include "cli/sheet/page.h"
#include "cli/sheet/text.h"
#include "cli/trade_words.h"

namespace cli {
namespace {

using planner::Joint;
using planner::JointId;
using planner::PartId;
using planner::Plan;

void parts_table(const Plan& plan, const TextStyle& style, Page& page) {
  page.heading("PARTS");
  Table table{{Align::left, Align::left, Align::left, Align::right},
              {{"part", "length x width x thickness", "grain", "mass"}}};
  for (const planner::PlanPart& part : plan.parts) {
    table.rows.push_back(
        {printable(part.name),
         size_text({part.size_mm[0], part.size_mm[1], part.size_mm[2]}, style.wording),
         axis_word(part.grain), mass_text(part.mass_g, style.wording)});
  }
  lay_out(table, 2, page);
  page.line("  Grain: along is left to right, across front to back, down top to bottom.");
}

// Less is what rounding to whole nanometres leaves between faces drawn at an angle (ours), and
// would be printed as 0.00 mm.
constexpr double kDrawnGap_mm = 0.005;

// The widest gap that the drawing leaves between two faces of the joint; 0 where they touch.
double gap_mm(const Joint& joint) {
  double widest = 0;
  for (const planner::GlueFace& face : joint.faces) {
    widest = std::max(widest, face.contact.gap_mm);
  }
  return widest < kDrawnGap_mm ? 0 : widest;
}

double face_area_mm2(const Joint& joint) {
  double area = 0;
  for (const planner::GlueFace& face : joint.faces) {
    area += face.contact.area_mm2;
  }
  return area;
}

void joints_table(const Plan& plan, const TextStyle& style, Page& page) {
  page.heading("JOINTS FOUND");
  Table table{{Align::left, Align::left, Align::right, Align::right, Align::right, Align::left},
              {{"between", "kind", "faces", "area", "gap", ""}}};
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    const Joint& joint = plan.joints[id];
    const double gap = gap_mm(joint);
    table.rows.push_back({joint_text(plan, id), to_text(joint.kind, style.wording.uk_words),
                          std::to_string(joint.faces.size()),
                          area_text(face_area_mm2(joint), style.wording),
                          gap > 0 ? gap_text(gap, style.wording) : "-", joint.glued ? "" : "dry"});
  }
  lay_out(table, 2, page);
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    if (!plan.joints[id].glued && !plan.joints[id].unglued_reason.empty()) {
      page.item("-", fmt::format("{} stays dry: {}.", joint_text(plan, id),
                                 printable(plan.joints[id].unglued_reason)));
    }
  }
  page.line("  No two parts overlap.");
}

// Nothing where glue holds the part. A part that touches nothing is only let through where the
// others capture it (planner/job_check.h).
std::string loose_text(const Plan& plan, PartId part) {
  std::vector<PartId> against;
  for (const Joint& joint : plan.joints) {
    if (joint.parts[0] != part && joint.parts[1] != part) {
      continue;
    }
    if (joint.glued) {
      return {};
    }
    against.push_back(joint.parts[joint.parts[0] == part ? 1 : 0]);
  }
  return against.empty()
             ? fmt::format("{} touches nothing: the others capture it with room to move",
                           part_name(plan, part))
             : fmt::format("{} floats: it lies dry against {}", part_name(plan, part),
                           part_names(plan, against));
}

void loose_section(const Plan& plan, Page& page) {
  std::vector<std::string> told;
  for (PartId part = 0; part < plan.parts.size(); ++part) {
    std::string text = loose_text(plan, part);
    if (!text.empty()) {
      told.push_back(std::move(text));
    }
  }
  if (!told.empty()) {
    page.heading("HELD BY NO GLUE");
    for (const std::string& text : told) {
      page.item("-", as_sentence(text));
    }
  }
}

// What keeps it from working first, worst first; then wood that will crack; then thick glue lines.
std::vector<std::string> mends(const Plan& plan, const TextStyle& style) {
  std::vector<std::string> out;
  if (!plan.verdict.ok) {
    for (const std::string& reason : plan.verdict.reasons) {
      out.push_back(as_sentence(printable(reason)));
    }
  }
  std::vector<std::string> across;
  for (const planner::CrossGrainNote& note : plan.cross_grain) {
    if (note.warning) {
      across.push_back(joint_text(plan, note.joint));
    }
  }
  if (!across.empty()) {
    out.push_back(
        fmt::format("Wood held across its grain will crack: {}. Glue the middle only "
                    "(middle of its [[joint]]), let the panel float, or take plywood.",
                    list_text(across)));
  }
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    const double gap = gap_mm(plan.joints[id]);
    if (plan.joints[id].glued && gap > 0) {
      out.push_back(
          fmt::format("{}: the drawing leaves {} open for glue to fill. Draw the parts "
                      "touching, or check that the cut is meant to be so loose.",
                      joint_text(plan, id), gap_text(gap, style.wording)));
    }
  }
  return out;
}

void mend_section(const Plan& plan, const TextStyle& style, Page& page) {
  page.heading("MEND FIRST");
  const std::vector<std::string> all = mends(plan, style);
  if (all.empty()) {
    page.item("-", "Nothing: the parts go together as drawn.");
  }
  int n = 0;
  for (const std::string& mend : all) {
    page.item(std::to_string(++n) + ".", mend);
  }
}

}  // namespace

std::string check_sheet(const Plan& plan, const TextStyle& style) {
  Page page(style.colour);
  parts_table(plan, style, page);
  joints_table(plan, style, page);
  loose_section(plan, page);
  const std::vector<std::string> across = cross_grain_items(plan, style);
  if (!across.empty()) {
    page.heading("ACROSS THE GRAIN");
    for (const std::string& item : across) {
      page.item("-", item);
    }
  }
  mend_section(plan, style, page);
  return page.text();
}

}  // namespace cli
