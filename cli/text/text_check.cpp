#include "cli/text/text_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/model/lists.h"
#include "cli/text/page.h"
#include "cli/words/trade_words.h"
#include "cli/words/verdict_words.h"
#include "planner/advice/drawing_faults.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::work::Joint;
using planner::work::JointId;
using planner::work::PartId;

void parts_table(const Plan& plan, const words::TextStyle& style, Page& page) {
  page.heading("PARTS");
  Table table{{Align::left, Align::left, Align::left, Align::right},
              {{"part", "length x width x thickness", "grain", "mass"}}};
  for (const planner::plan::PlanPart& part : plan.parts) {
    table.rows.push_back(
        {words::printable(part.name),
         size_text({part.size_mm[0], part.size_mm[1], part.size_mm[2]}, style.wording),
         words::axis_word(part.grain), mass_text(part.mass_g, style.wording)});
  }
  lay_out(table, 2, page);
}

double face_area_mm2(const Joint& joint) {
  double area = 0;
  for (const planner::work::GlueFace& face : joint.faces) {
    area += face.contact.area_mm2;
  }
  return area;
}

// Joints that stay dry for the same reason are told together.
void dry_joints(const Plan& plan, Page& page) {
  std::vector<std::pair<std::string, std::vector<std::string>>> told;
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    const std::string& why = plan.joints[id].unglued_reason;
    if (plan.joints[id].glued || why.empty()) {
      continue;
    }
    auto same = std::find_if(told.begin(), told.end(),
                             [&](const auto& entry) { return entry.first == why; });
    if (same == told.end()) {
      same = told.insert(told.end(), {why, {}});
    }
    same->second.push_back(words::joint_text(plan, id));
  }
  for (const auto& [why, joints] : told) {
    page.item("-", words::as_sentence(
                       fmt::format("{}: {}.", words::printable(why), words::list_text(joints))));
  }
}

void joints_table(const Plan& plan, const words::TextStyle& style, Page& page) {
  page.heading("JOINTS FOUND");
  Table table{{Align::left, Align::left, Align::right, Align::right, Align::right, Align::left},
              {{"between", "kind", "faces", "area", "gap", ""}}};
  for (JointId id = 0; id < plan.joints.size(); ++id) {
    const Joint& joint = plan.joints[id];
    const double gap = planner::advice::drawn_gap_mm(joint);
    table.rows.push_back({words::joint_text(plan, id), to_text(joint.kind, style.wording.uk_words),
                          std::to_string(joint.faces.size()),
                          area_text(face_area_mm2(joint), style.wording),
                          gap > 0 ? gap_text(gap, style.wording) : "-", joint.glued ? "" : "dry"});
  }
  lay_out(table, 2, page);
  dry_joints(plan, page);
  page.line("  No two parts overlap.");
}

// Nothing where glue holds the part. A part that touches nothing is only let through where the
// others capture it (planner/work/job_check.h).
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
                           words::part_name(plan, part))
             : fmt::format("{} floats: it lies dry against {}", words::part_name(plan, part),
                           words::part_names(plan, against));
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
      page.item("-", words::as_sentence(text));
    }
  }
}

std::string fix_text(const Plan& plan, const planner::advice::DrawingFault& fault,
                      const words::TextStyle& style) {
  switch (fault.kind) {
    case planner::advice::FaultKind::locked:
      return words::as_sentence(words::reason_text(plan, plan.verdict.reasons.front()));
    case planner::advice::FaultKind::across_grain:
      return fmt::format(
          "Wood glued across its grain cracks as it moves: {}. Glue only the middle (middle = "
          "\"{}\" in its [[joint]]), let it float in a groove, or make it of plywood.",
          words::joint_texts(plan, fault.joints),
          style.wording.units == planner::base::Units::inch ? "4 in" : "100 mm");
    case planner::advice::FaultKind::gap:
      return fmt::format(
          "{} {} drawn {} apart, and glue in a gap is weak. Draw the faces touching, unless they "
          "are cut so loose.",
          words::joint_texts(plan, fault.joints), fault.joints.size() == 1 ? "is" : "are",
          gap_text(fault.gap_mm, style.wording));
  }
  return {};
}

void fix_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  page.heading("FIX FIRST");
  const std::vector<planner::advice::DrawingFault> faults = planner::advice::drawing_faults(plan);
  if (faults.empty()) {
    page.item("-", "Nothing: the parts go together as drawn.");
  }
  int n = 0;
  for (const planner::advice::DrawingFault& fault : faults) {
    page.item(std::to_string(++n) + ".", fix_text(plan, fault, style));
  }
}

}  // namespace

std::string check_sheet(const Plan& plan, const words::TextStyle& style) {
  Page page(style.colour);
  parts_table(plan, style, page);
  joints_table(plan, style, page);
  loose_section(plan, page);
  const std::vector<std::string> across = model::cross_grain_items(plan, style);
  if (!across.empty()) {
    page.heading("ACROSS THE GRAIN");
    for (const std::string& item : across) {
      page.item("-", item);
    }
  }
  fix_section(plan, style, page);
  return page.text();
}

}  // namespace cli::text
