#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <unistd.h>

#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/file_text.h"
#include "cli/keyboard.h"
#include "cli/output.h"
#include "cli/questions.h"
#include "cli/rehearsal_run.h"
#include "cli/sentences.h"
#include "cli/sheet/page.h"

namespace cli {
namespace {

using planner::LogLine;
using planner::PaceChange;
using planner::Plan;

ExitStatus refuse(const std::string& why) {
  complain("glueup: " + why + "\n");
  return ExitStatus::bad_input;
}

std::string log_path(const Options& options) {
  if (options.log) {
    return *options.log;
  }
  return std::filesystem::path(options.job).replace_extension(".rehearsal.tsv").string();
}

// One step's time means another step's where the plan is another.
std::string of_another_plan(const std::string& path, const std::string& how) {
  return fmt::format("{} is the log of another plan: {}\n  ", path, how);
}

// The log under the pen: every line is on the disk before the next key is read.
class LogFile {
 public:
  explicit LogFile(const std::string& path) : file_(std::fopen(path.c_str(), "ab")) {}
  ~LogFile() {
    if (file_ != nullptr) {
      std::fclose(file_);
    }
  }
  LogFile(const LogFile&) = delete;
  LogFile& operator=(const LogFile&) = delete;

  bool open() const { return file_ != nullptr; }
  bool empty() const { return std::ftell(file_) == 0; }
  bool put(const std::string& text) {
    return std::fputs(text.c_str(), file_) >= 0 && std::fflush(file_) == 0 &&
           fsync(fileno(file_)) == 0;
  }

 private:
  std::FILE* file_;
};

constexpr const char* kBegan = "# began ";

// When the glue of a live rehearsal was opened, seconds since 1970; of the last such line.
std::optional<double> began_at(const std::string& text) {
  const std::size_t at = text.rfind(kBegan);
  if (at == std::string::npos) {
    return std::nullopt;
  }
  const double seconds = std::atof(text.c_str() + at + std::strlen(kBegan));
  return seconds > 0 ? std::optional(seconds) : std::nullopt;
}

// A line that a kill cut off must not run into the next one: what read_log() leaves out goes, a
// whole line without its end gets one.
bool mend_end(const std::string& path, const std::string& text) {
  if (text.empty() || text.ends_with('\n')) {
    return true;
  }
  const std::size_t start = text.rfind('\n') + 1;  // 0 where there is none
  const bool whole =
      std::count(text.begin() + static_cast<std::ptrdiff_t>(start), text.end(), '\t') >= 5;
  return write_file(path, whole ? text + "\n" : text.substr(0, start)).empty();
}

class Session {
 public:
  Session(const Plan& plan, const Options& options, LogFile& log, RehearsalRun& run,
          std::optional<double> began)
      : plan_(plan), options_(options), log_(log), run_(run), began_(began) {
    wording_ = style_for(options).wording;
    wording_.units = plan.units;
    wording_.uk_words = plan.uk_words;
    moving_ = output_is_terminal();
  }

  ExitStatus go() {
    say(fmt::format("{}, {}. Keys: space next, b back, t note, {}q stop.\n", printable(plan_.title),
                    options_.live ? "live" : "dry", options_.live ? "" : "p pause, "));
    if (run_.done() > 0 && !run_.finished()) {
      say(fmt::format("Going on after step {} of {}.\n", run_.done(), run_.count()));
    }
    if (!run_.finished() && !wait_for_start()) {
      return broken_off();
    }
    while (!run_.finished()) {
      if (!one_step()) {
        return broken_off();
      }
    }
    say(fmt::format("All {} steps done. glueup rehearse {} --learn takes the pace over.\n",
                    run_.count(), options_.job));
    return ExitStatus::works;
  }

 private:
  void say(const std::string& text) { print(text); }

  // A live clock runs on while nobody looks; a dry one is taken up where it stopped.
  double now_s() const {
    if (paused_) {
      return paused_at_;
    }
    return (options_.live ? epoch_seconds() - *began_ : monotonic_seconds() - origin_) *
           options_.speed;
  }
  void set_clock(double seconds) { origin_ = monotonic_seconds() - seconds / options_.speed; }

  bool wait_for_start() {
    const bool resumed = !run_.stage_begins();
    if (options_.live && resumed && began_) {
      return true;
    }
    say(resumed ? "Press space to go on.\n" : "Press space at the first stroke of glue.\n");
    for (;;) {
      const Keyboard::Press press = keyboard_.wait(1000);
      if (press.kind == Keyboard::Kind::end || is_stop(press.key)) {
        return false;
      }
      if (press.kind == Keyboard::Kind::key && is_next(press.key)) {
        break;
      }
    }
    set_clock(run_.started_s());
    if (options_.live && !(resumed && began_)) {
      began_ = epoch_seconds();
      return put(fmt::format("{}{:.0f}\n", kBegan, *began_));
    }
    return true;
  }

  static bool is_next(char key) { return key == ' ' || key == '\n' || key == '\r' || key == 'n'; }
  static bool is_stop(char key) { return key == 'q' || key == 3 || key == 4; }  // Ctrl-C, Ctrl-D

  bool put(const std::string& text) {
    const bool written = log_.put(text);
    complain(written ? ""
                     : fmt::format("glueup: the log can't be written: {}\n", std::strerror(errno)));
    return written;
  }

  void show_step() {
    const planner::Step& step = run_.step();
    Page page(false);
    page.blank();
    page.item(fmt::format("{}/{}", run_.done() + 1, run_.count()),
              fmt::format("{}-{}  {}", clock_text(step.start_s), clock_text(step.end_s),
                          step_sentence(plan_, run_.stage(), step, wording_)));
    say(page.text());
  }

  // On a terminal the line under the step is written over, a second at a time.
  void show_clock() {
    const double now = now_s();
    const double late = now - run_.step().end_s;
    const double left = run_.stage().pull_apart_by_s - now;
    const std::string text = fmt::format(
        "  {}  {} {}, {}", clock_text(now), duration_text(std::abs(late)),
        late > 0 ? "late" : "left for it",
        left > 0 ? duration_text(left) + " to pull it apart" : "TOO LATE TO PULL APART");
    if (moving_ && text != shown_) {
      say("\r" + padded(text, kPageWidth - 1));
      shown_ = text;
    }
    if (left <= 0 && !rung_ && run_.stage().pull_apart_by_s > 0) {
      rung_ = true;
      say(moving_ ? "\a" : text + "\n");
    }
  }

  bool one_step() {
    show_step();
    for (;;) {
      show_clock();
      const Keyboard::Press press = keyboard_.wait(moving_ ? 200 : 1000);
      if (press.kind == Keyboard::Kind::none) {
        continue;
      }
      if (press.kind == Keyboard::Kind::end || is_stop(press.key)) {
        return false;
      }
      if (is_next(press.key) && !paused_) {
        return end_step();
      }
      if (press.key == 'b') {
        say(run_.back() ? "\n  back\n" : "\n  this is the first step of the go\n");
        return true;
      }
      if (press.key == 't') {
        say("\n  note: ");
        run_.note(keyboard_.line());
      } else if (press.key == 'p' && !options_.live) {
        pause();
      }
    }
  }

  void pause() {
    if (paused_) {
      paused_ = false;
      set_clock(paused_at_);
    } else {
      paused_at_ = now_s();
      paused_ = true;
    }
    say(paused_ ? "\n  paused: p goes on\n" : "\n  going on\n");
  }

  bool end_step() {
    const double now = now_s();
    const bool new_stage = run_.stage_ends();
    const LogLine line = run_.next(now);
    say(fmt::format("{}  done at {}, {} {}\n", moving_ ? "\r" : "", clock_text(now),
                    duration_text(std::abs(now - line.planned_end_s)),
                    now > line.planned_end_s ? "behind the plan" : "ahead of the plan"));
    if (!put(to_text(line))) {
      return false;
    }
    if (new_stage && !run_.finished()) {
      say("\nThe next go has a clock of its own.\n");
      began_.reset();
      rung_ = false;
      return wait_for_start();
    }
    return true;
  }

  ExitStatus broken_off() {
    if (!run_.finished()) {
      put(to_text(run_.running()));
      say(fmt::format("\nStopped in step {} of {}; the same command goes on from there.\n",
                      run_.done() + 1, run_.count()));
    }
    return ExitStatus::works;
  }

  const Plan& plan_;
  const Options& options_;
  LogFile& log_;
  RehearsalRun& run_;
  std::optional<double> began_;
  Wording wording_;
  Keyboard keyboard_;
  bool moving_ = false, rung_ = false, paused_ = false;
  double origin_ = 0, paused_at_ = 0;
  std::string shown_;
};

ExitStatus rehearse(const Plan& plan, const Options& options, const std::string& path) {
  std::error_code ignored;
  std::string text;
  if (std::filesystem::exists(path, ignored)) {
    FileText file = read_file(path);
    if (!file.error.empty()) {
      return refuse(path + ": " + file.error);
    }
    text = std::move(file.text);
  }
  const planner::LogReading log = planner::read_log(path, text);
  if (has_errors(log.diagnostics)) {
    return refuse(path + " is there and is no log of a rehearsal; give another name with --log");
  }
  if (const std::string other = RehearsalRun::misfit(plan, log.lines); !other.empty()) {
    return refuse(of_another_plan(path, other) + "give another name with --log, or remove it");
  }
  RehearsalRun run(plan, log.lines);
  if (run.finished()) {
    return refuse(fmt::format(
        "{} is complete: --learn takes its pace over; --log FILE starts another", path));
  }
  if (!mend_end(path, text)) {
    return refuse(path + ": can't be written");
  }
  LogFile file(path);
  if (!file.open()) {
    return refuse(path + ": can't be written: " + std::strerror(errno));
  }
  if (text.empty()) {
    file.put("# step\tplanned start\tplanned end\tstart\tend\tnote\n");
  }
  return Session(plan, options, file, run, began_at(text)).go();
}

std::string pace_table(const std::vector<PaceChange>& changes) {
  Page page(false);
  Table table{{Align::left, Align::right, Align::right, Align::left},
              {{"pace", "now", "learned", "from"}}};
  for (const PaceChange& change : changes) {
    table.rows.push_back(
        {change.key, change.old_text, change.new_text,
         count_text(change.seen, "step") +
             (change.ignored == 0 ? "" : fmt::format(" ({} far off left out)", change.ignored))});
  }
  lay_out(table, 2, page);
  return page.text();
}

ExitStatus learn(const PlannedJob& planned, const Options& options, const std::string& path) {
  const FileText file = read_file(path);
  if (!file.error.empty()) {
    return refuse(path + ": " + file.error + "; rehearse first: glueup rehearse " + options.job);
  }
  const planner::LogReading log = planner::read_log(path, file.text);
  if (has_errors(log.diagnostics)) {
    return refuse(to_text(log.diagnostics.front()));
  }
  if (const std::string other = RehearsalRun::misfit(*planned.plan, log.lines); !other.empty()) {
    return refuse(of_another_plan(path, other) +
                  "give the job, shop and people it was written with, or rehearse anew: glueup "
                  "rehearse " +
                  options.job + " --log NEW.tsv");
  }
  const auto changes = planner::learn_pace(*planned.plan, log.lines, planned.inputs.shop->pace);
  if (changes.empty()) {
    return refuse(path + " has no finished step to learn from");
  }
  if (!print(pace_table(changes))) {
    return ExitStatus::bad_input;
  }
  const std::optional<std::string> shop = shop_file(options);
  if (!shop) {
    return refuse("no shop file to keep the pace in; glueup new shop writes one");
  }
  if (!agrees(fmt::format("Write the learned pace to {}?", *shop))) {
    complain("nothing written\n");
    return ExitStatus::works;
  }
  const auto text = planner::with_pace(*shop, planned.inputs.shop_text, changes);
  if (!text) {
    return refuse(*shop + ": its [pace] can't be changed safely; write the values in by hand");
  }
  const std::string wrong = write_file(*shop, *text);
  complain(wrong.empty() ? *shop + " written\n" : "glueup: " + wrong + "\n");
  return wrong.empty() ? ExitStatus::works : ExitStatus::bad_input;
}

}  // namespace

ExitStatus run_rehearse(const Options& options) {
  if (options.job == "-" && !options.log) {
    return refuse("a job on standard input leaves no keys to press; give its file");
  }
  const PlannedJob planned = plan_job(options);
  if (!planned.plan) {
    return planned.status;
  }
  if (planned.plan->verdict.stopped) {
    // Another run would find another plan, and the log is of one.
    complain("glueup: stopped before the plan was done; nothing was written\n");
    return ExitStatus::interrupted;
  }
  const std::string path = log_path(options);
  return options.learn ? learn(planned, options, path) : rehearse(*planned.plan, options, path);
}

}  // namespace cli
