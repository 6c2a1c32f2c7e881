#include "cli/words/note_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"

namespace cli::words {
namespace {

using planner::plan::Plan;

class NoteWords {
 public:
  explicit NoteWords(const Plan& plan) : plan_(plan), wording_{plan.units, plan.uk_words, false} {}

  std::string operator()(const planner::plan::PanelGluedNote& n) const {
    std::string which;
    for (const planner::work::JointId id : n.joints) {
      which += (which.empty() ? "" : " and ") + joint_text(plan_, id);
    }
    return fmt::format(
        "better leave {} dry, to float: it is solid, held on {} sides, and glued across the grain "
        "at {}, where {} of movement over the year would split it or open its frame (glue = false)",
        part_name(plan_, n.panel), n.sides, which, gap_text(n.movement_mm, wording_));
  }

  std::string operator()(const planner::plan::PanelRoomNote& n) const {
    const std::string less = gap_text(n.movement_mm - n.room_mm, wording_);
    return fmt::format(
        "{} may swell by {} across its grain over the year and has {} of room in its grooves: {}",
        part_name(plan_, n.panel), gap_text(n.movement_mm, wording_), gap_text(n.room_mm, wording_),
        n.room_mm < n.movement_mm / 2
            ? fmt::format("make it {} narrower or the grooves deeper", less)
            : fmt::format("enough unless it is glued up at its driest, then make it {} narrower",
                          less));
  }

  std::string operator()(const planner::plan::PanelDepthNote& n) const {
    return fmt::format(
        "{} is only {} deep in its grooves and may shrink by {} over the year: make the grooves "
        "deeper",
        part_name(plan_, n.panel), length_text(n.engaged_mm, wording_),
        gap_text(n.movement_mm, wording_));
  }

  std::string operator()(const planner::plan::ShouldersByHandNote& n) const {
    std::string joints = joint_text(plan_, n.joints.front());
    if (n.joints.size() > 1) {
      joints += fmt::format(" and {} more", n.joints.size() - 1);
    }
    return spoken(wording_, "nothing on the rack closes the shoulders of {} {}: {} clamps that open {} would; without "
        "them drive each home with a mallet and a block, and see that no light shows",
        joints, axis_text(n.axis), n.clamps, length_text(n.opening_mm, wording_));
  }

  std::string operator()(const planner::plan::DrivenNote& n) const {
    const std::string joints = joint_texts(plan_, n.joints);
    return n.loose ? fmt::format(
                         "{}: press loose dovetails on the tails alone, with a block notched clear "
                         "of the pins that stand proud",
                         joints)
                   : spoken(wording_, "{}: drive the dovetails home with a mallet and a block until no light "
                         "shows; they stay there without clamps (fit = \"loose\" asks for some)",
                         joints);
  }

  std::string operator()(const planner::plan::RingTrueNote& n) const {
    return "before the glue grabs, " + ring_true_text(n, wording_);
  }

  std::string operator()(const planner::plan::LeaningSidesNote& n) const {
    return fmt::format("the sides lean: saw their ends with the blade {:.1f} degrees off square and the miter gauge "
                       "{:.1f}, their edges with the blade at {:.1f}; what is told across is at the wide edge; tape "
                       "under a strap keeps it from creeping to the narrow one",
                       n.blade_deg, n.gauge_deg, n.slope_deg);
  }

  std::string operator()(const planner::plan::BreadboardNote& n) const {
    return fmt::format(
        "the {} of boards between the ends may move by {} over the year: glue their tongues in the "
        "middle alone; pins farther out want slots, at the edges {} to either side, toward the "
        "middle less in proportion",
        length_text(n.across_mm, wording_), gap_text(n.movement_mm, wording_),
        gap_text(n.movement_mm / 2, wording_));
  }

  std::string operator()(const planner::plan::BendNote& n) const {
    return spoken(
        wording_,
        "springback: off the form the bend opens from {} inside to about {} (an estimate: try one first); "
        "clamp from the middle out, each clamp tight before the next; at either end {} of the force only bends "
        "the plies; cut them longer and trim the ends; places are told along the curve",
        length_text(n.form_radius_mm, wording_), length_text(n.radius_mm, wording_),
        force_text(n.bending_N, wording_));
  }

  std::string operator()(const planner::plan::CreepNote&) const {
    return spoken(wording_,
                  "this glue creeps: a bend glued with it opens slowly under load; urea resin or epoxy sets "
                  "hard");
  }

  std::string operator()(const planner::plan::KeysNote& n) const {
    return spoken(wording_, "{} keys are let in across the corners, {} at each, once the glue has cured: saw their "
        "slots, glue them in, pare them flush; they want no clamps, and the miters have no help "
        "of theirs before",
        n.each * n.corners, n.each);
  }

  std::string operator()(const planner::plan::HandsNote& n) const {
    const bool every = n.props >= static_cast<int>(n.loose.size());
    const std::string count = n.props == 1 ? "one" : std::to_string(n.props);
    return fmt::format(
        "{} {} hands, you have {}: prop {}{} with {}",
        n.and_later ? fmt::format("from step {} on the joins want", n.step)
                    : fmt::format("step {} wants", n.step),
        n.hands, n.there, every ? "" : count + " of ", part_names(plan_, n.loose),
        n.props == 1 ? "a block" : "blocks");
  }

  std::string operator()(const planner::plan::CapturedNote& n) const {
    return fmt::format("{} is captured: it goes in before the last of {} closes round it",
                       part_name(plan_, n.part), part_names(plan_, n.neighbours));
  }

  std::string operator()(const planner::plan::CapturedTogetherNote& n) const {
    return fmt::format(
        "{} parts hold one another captive ({}): none goes in once the parts round it are together, so "
        "keep to the order",
        n.parts.size(), part_names(plan_, n.parts));
  }

  std::string operator()(const planner::plan::DryJointsNote& n) const {
    return "no glue in " + joint_texts(plan_, n.joints);
  }

  std::string operator()(const planner::plan::BowNote& n) const {
    const std::string name = joint_text(plan_, n.joint), bow = gap_text(n.bow_mm, wording_);
    return n.open_gap_mm > 0
               ? spoken(wording_, "{}: the clamps can't close its {} of bow, {} stay open: joint it straight, "
                     "or turn the board round",
                     name, bow, gap_text(n.open_gap_mm, wording_))
               : spoken(wording_, "{}: its {} of bow takes {} of the clamps' force to close, before any presses "
                     "the glue; draw the clamps at the gap first",
                     name, bow, force_text(n.closing_N, wording_));
  }

  std::string operator()(const planner::plan::LightlyHeldNote& n) const {
    const std::size_t others = n.joints.size() - 1;
    const std::string more =
        others == 0 ? "" : fmt::format(", as {}", others == 1 ? "is 1 more" : fmt::format("are {} more", others));
    return fmt::format(
        "{} is lightly held{}: {} gets {} of the {} that hold; sound where the faces are flat and "
        "fit, so look at the dry fit there, and see what would bring the rest",
        joint_text(plan_, n.weakest), more, n.at_an_end ? "its end" : "a place along it",
        pressure_text(n.least_MPa, wording_), pressure_text(n.hold_MPa, wording_));
  }

  std::string operator()(const planner::plan::OffsetNote& n) const {
    return spoken(wording_, "{}: the clamps' force lies {} beside the middle, {} the joint: shift them so far back, or "
        "set one more at the other side",
        joint_text(plan_, n.joint), length_text(n.off_mm, wording_), n.along ? "along" : "across");
  }

  std::string operator()(const planner::plan::RackingNote& n) const {
    return fmt::format(
        "keep jaws opposite one another: heads {} aside pull it out of square, up to {}; then shift "
        "heads to lean along the longer diagonal",
        length_text(n.off_mm, wording_), moment_text(n.moment_Nmm, wording_));
  }

  std::string operator()(const planner::plan::CamberNote& n) const {
    std::vector<std::string> told;
    for (const planner::plan::CamberNote::Caul& caul : n.cauls) {
      const std::string text = fmt::format(
          "{} ones {}", size_text({caul.along_mm, caul.thick_mm}, wording_),
          gap_text(caul.camber_mm, wording_));
      if (std::find(told.begin(), told.end(), text) == told.end()) {
        told.push_back(text);
      }
    }
    const std::string cork =
        n.lining_mm > 0 ? fmt::format("; line them with {} of cork", length_text(n.lining_mm, wording_))
                        : "";
    return fmt::format("plane a camber into the cauls, so that they press evenly: {}{}",
                       list_text(told), cork);
  }

  std::string operator()(const planner::plan::StrapNote&) const {
    return "wax the pads under the strap, so that it slips round the corners: those far from the "
           "buckle get least";
  }

  std::string operator()(const planner::plan::EndGrainNote& n) const {
    return fmt::format(
        "{} % of the glued area has end grain on one side: {}don't count on it for strength",
        std::lround(100 * n.share), plan_.glue.size_coat_g > 0 ? "size it first, and " : "");
  }

  std::string operator()(const planner::plan::ShortTimesNote& n) const {
    const std::string hot =
        n.temperature_C ? "hot, " + temperature_text(*n.temperature_C, wording_) : "";
    const std::string dry =
        n.humidity ? fmt::format("air of {} % humidity", std::lround(100 * *n.humidity)) : "";
    const std::string air = hot + (!hot.empty() && !dry.empty() ? " and " : "") + dry;
    if (n.share >= 1) {
      return air +
             ": this glue has shorter times, nobody publishes by how much: work in the cool";
    }
    return fmt::format(
        "{}: the glue has shorter times; {} % of them is counted, a figure of our own, since none "
        "is published: keep wood and glue cool, glue in the morning, or take a slower glue",
        air, std::lround(100 * n.share));
  }

  std::string operator()(const planner::plan::KeepWarmNote& n) const {
    return fmt::format("{} is hardly warmer than the {} this glue needs: keep it so for 24 h",
                       temperature_text(n.temperature_C, wording_),
                       temperature_text(n.least_C, wording_));
  }

  std::string operator()(const planner::plan::ClassValuesNote& n) const {
    return fmt::format("{}: no {}{}{} published for it; its class's stand in", n.wood,
                       n.elastic ? "elastic ratios" : "", n.elastic && n.crush ? " or " : "",
                       n.crush ? "crushing strength across the grain" : "");
  }

 private:
  const Plan& plan_;
  Wording wording_;
};

}  // namespace

std::string ring_true_text(const planner::plan::RingTrueNote& n, const Wording& wording) {
  const bool even = n.sides % 2 == 0;
  return fmt::format("compare the {} ways from {}: each {} outside; press the longest together until all are",
                     even ? n.sides / 2 : n.sides,
                     even ? "corner to corner" : "a corner to the middle of the side opposite",
                     length_text(n.across_mm, wording));
}

std::string note_text(const Plan& plan, const planner::plan::Note& note) {
  return std::visit(NoteWords(plan), note);
}

}  // namespace cli::words
