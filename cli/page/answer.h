// What the page asks of the planner: texts in, texts out, no files. The same words, sheet and JSON as the
// command line's for the same job and shop.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "cli/calendar/calendar.h"
#include "cli/html/embedded.h"
#include "planner/files/mesh_parts.h"

namespace cli::page {

struct Question {
  std::string job, shop;  // the files' texts; without a shop an unlimited rack
  std::vector<planner::files::MeshBytes> meshes = {};  // whatever lies beside the job
  html::Paper paper = html::Paper::a4;                 // of the sheet
};

struct Answer {
  std::string text, sheet, json, picture;  // empty where there is no plan; then the JSON says why
  std::string told;               // mistakes and warnings, each with its line
  int status = 0;                 // as the command line ends
  bool stopped = false;           // a longer search may do better
};
Answer answer(const Question& question);

// Soon: searches that take long end early, after the same work on every machine. Where none did, `answer`'s.
Answer first_answer(const Question& question);

// The work as drawn, one SVG element, before any of it is planned; empty where its file has mistakes.
std::string picture(const Question& question);

// One of the sheets beside the plan, as text: "clamps", "glue" with the glues side by side, "check", "fit".
// Where there is none, what is wrong.
std::string view(const std::string& name, const Question& question);

// Several jobs with one shop: which of them work, and which clamp to buy next. Jobs that have mistakes are
// told first and left out.
struct NamedJob {
  std::string name, text;
};
std::string rack(const std::string& shop, const std::vector<NamedJob>& jobs);

// The plan's calendar file, begun at that moment; empty where there is no plan.
std::string calendar_file(const Question& question, calendar::Moment start);

// What is wrong with both files, before planning: JSON as of a plan that failed.
std::string mistakes(const Question& question);

}  // namespace cli::page
