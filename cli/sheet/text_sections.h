// The sections that the text sheets are made of, in the order of use.
#pragma once
#include "cli/sheet/page.h"
#include "cli/sheet/text.h"

namespace cli {

void verdict_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void ways_out_section(const planner::Plan& plan, Page& page);  // nothing where there are none

void fetch_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void dry_fit_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void glue_up_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void clamps_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void pressure_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void wait_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void rescue_section(const planner::Plan& plan, const TextStyle& style, Page& page);
void watch_out_section(const planner::Plan& plan, const TextStyle& style, Page& page);

// "6 heavy F clamps 24 in (have 12)": a line a kind and opening, for the verdict and Fetch.
std::string inventory_text(const planner::Plan& plan, const planner::InventoryRow& row,
                           const TextStyle& style);

// Equal pads get one letter, in the order of the clamps that use them: "A", "B" ...
struct PadLetter {
  planner::PadSize size;
  std::string letter;
  int count = 0;  // one under each jaw
};
std::vector<PadLetter> pad_letters(const planner::Plan& plan, const Wording& wording);

}  // namespace cli
