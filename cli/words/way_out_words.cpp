#include "cli/words/way_out_words.h"

#include <fmt/format.h>

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"

namespace cli::words {
namespace {

using planner::plan::ClampsToBorrow;

std::string to_spare(double slack_s) {
  return slack_s < 0 ? duration_text(-slack_s) + " over the time"
                     : duration_text(slack_s) + " to spare";
}

// Clamps that stay on for a minute more are nothing to tell.
std::string to_spare(double slack_s, double longer_s, const Wording& wording) {
  constexpr double kWorthTelling_s = 60;
  return to_spare(slack_s) +
         (longer_s > kWorthTelling_s
              ? spoken(wording, ", clamps on {} longer", duration_text(longer_s))
              : "");
}

class WayOutVisitor {
 public:
  explicit WayOutVisitor(const planner::plan::Plan& plan)
      : plan_(plan), wording_{plan.units, plan.uk_words, false} {}

  WayOutWords operator()(const planner::plan::HelpersWay& way) const {
    return {"helpers", way.helpers == 1 ? "a helper" : fmt::format("{} helpers", way.helpers),
            way.slack_s ? to_spare(*way.slack_s) : "every join can be lifted"};
  }

  WayOutWords operator()(const planner::plan::GlueWay& way) const {
    return {"other_glue",
            (way.on_shelf ? "the other glue on the shelf: " : "a slower glue: ") + way.name,
            to_spare(way.slack_s, way.longer_s, wording_)};
  }

  WayOutWords operator()(const planner::plan::CoolerWay& way) const {
    return {
        "cooler_shop",
        "cool the shop, the wood and the glue to " + temperature_text(way.temperature_C, wording_),
        to_spare(way.slack_s, way.longer_s, wording_)};
  }

  WayOutWords operator()(const planner::plan::WarmerWay& way) const {
    const std::string warm = temperature_text(way.temperature_C, wording_);
    return {"warmer_shop", "warm the shop, the wood and the glue to " + warm + " or more",
            "a night for the glue and thin wood, days for thick wood; keep it so for 24 h after"};
  }

  WayOutWords operator()(const planner::plan::ColdGlueWay& way) const {
    return {"cold_glue",
            (way.on_shelf ? "the other glue on the shelf: " : "another glue: ") + way.name,
            "sets from " + temperature_text(way.least_C, wording_) + " up"};
  }

  WayOutWords operator()(const planner::plan::DoubleSpreadWay& way) const {
    return {"double_spread",
            "spread both faces of each joint, a person a face, with half the glue on each",
            to_spare(way.slack_s)};
  }

  WayOutWords operator()(const planner::plan::FasterSpreadWay& way) const {
    return {"faster_spread",
            fmt::format("spread in {} % of the time, with a roller {}; rehearse it", way.percent,
                        way.second_pair ? "and a second pair of hands" : "or a wider brush"),
            "every joint inside its time"};
  }

  WayOutWords operator()(const planner::plan::RollerWay& way) const {
    return {"roller", "spread wide faces with a roller or notched spreader", to_spare(way.slack_s)};
  }

  WayOutWords operator()(const planner::plan::StagesWay& way) const {
    return {"stages", fmt::format("glue it in {} stages", way.stages), to_spare(way.slack_s)};
  }

  WayOutWords operator()(const planner::plan::SmallerJoinWay& way) const {
    return {"smaller_join",
            fmt::format("make the join of {} to {} smaller: all its joints close at once",
                        few_names(way.first), few_names(way.second)),
            fmt::format("it alone is over by {} in any order", duration_text(way.short_by_s))};
  }

  WayOutWords operator()(const planner::plan::GoesWay& way) const {
    return {"glue_in_goes",
            spoken(wording_, "glue in {} goes: first {}, and the rest when their clamps are off",
                        way.goes, part_names(plan_, way.first)),
            fmt::format("holds every joint with {} at a time", count_text(way.clamps, clamp_noun(wording_)))};
  }

  WayOutWords operator()(const planner::plan::BorrowWay& way) const {
    std::string what;
    for (const ClampsToBorrow& lacking : way.lacking) {
      what += (what.empty() ? "borrow " : " and ") + clamps_that_open(lacking);
    }
    const std::string clamps = count_text(way.clamps, clamp_noun(wording_));
    return {"borrow_clamps", what,
            way.full ? fmt::format("presses every joint fully with {}, for {} more", clamps,
                                   duration_text(way.more_s))
                     : "holds every joint with " + clamps};
  }

  WayOutWords operator()(const planner::plan::StrapsWay& way) const {
    const std::string drawn =
        way.owned > 0 ? fmt::format("them round the work with the {} on the rack", way.owned)
                      : fmt::format("{} round the work", way.straps == 1 ? "it" : "them");
    const std::string instead =
        way.clamps ? fmt::format(", with {} in place of {}", count_text(way.straps, "strap"),
                                 count_text(*way.clamps, clamp_noun(wording_)))
                   : ", which bars don't";
    return {"borrow_straps",
            fmt::format("borrow {}, {} of strap or more, and draw {}",
                        count_text(way.straps - way.owned, "band " + clamp_noun(wording_)),
                        least_opening_text(way.strap_mm, wording_), drawn),
            "holds every joint, all corners at once" + instead};
  }

  WayOutWords operator()(const planner::plan::BagWay& way) const {
    return {"borrow_bag", "borrow a vacuum bag with its pump (vacuum = true in the shop file)",
            fmt::format("presses {} all over", way.joints.size() == 1 ? "the veneer" : "the veneers")};
  }

  WayOutWords operator()(const planner::plan::HoldWay& way) const {
    return {"hold_as_planned", "hold instead of full, as planned",
            fmt::format("every joint gets {} or more, even from weak hands; sound where joints fit "
                        "well, with nothing in reserve where one doesn't",
                        pressure_text(way.hold_MPa, wording_))};
  }

 private:
  // "a, b, c and 4 more"
  std::string few_names(const std::vector<planner::work::PartId>& parts) const {
    constexpr std::size_t kMostNamed = 4;
    const std::size_t named = parts.size() > kMostNamed ? kMostNamed - 1 : parts.size();
    std::string text;
    for (std::size_t i = 0; i < named; ++i) {
      text += (i == 0 ? "" : ", ") + part_name(plan_, parts[i]);
    }
    return named < parts.size() ? fmt::format("{} and {} more", text, parts.size() - named) : text;
  }

  std::string clamps_that_open(const ClampsToBorrow& lacking) const {
    return fmt::format(
        "{} that {} {} or more", count_text(lacking.count, clamp_text(lacking.kind, wording_)),
        lacking.count == 1 ? "opens" : "open", least_opening_text(lacking.opening_mm, wording_));
  }

  const planner::plan::Plan& plan_;
  const Wording wording_;
};

}  // namespace

WayOutWords way_out_words(const planner::plan::Plan& plan, const planner::plan::WayOut& way) {
  return std::visit(WayOutVisitor(plan), way.change);
}

}  // namespace cli::words
