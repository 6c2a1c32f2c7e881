#include "cli/rehearse/rehearsal_session.h"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstring>

#include <fmt/format.h>

#include "cli/terminal/keyboard.h"
#include "cli/terminal/output.h"
#include "cli/text/page.h"
#include "cli/words/sentences.h"

namespace cli::rehearse {
namespace {

using planner::plan::Plan;
using planner::rehearsal::LogLine;

class Session {
 public:
  Session(const Plan& plan, const terminal::Options& options, RehearsalLog& log, RehearsalRun& run,
          std::optional<double> began)
      : plan_(plan), options_(options), log_(log), run_(run), began_(began) {
    wording_ = style_for(options).wording;
    wording_.units = plan.units;
    wording_.uk_words = plan.uk_words;
    moving_ = terminal::output_is_terminal();
  }

  terminal::ExitStatus go() {
    say(fmt::format("{}, {}. Keys: {}.\n", words::printable(plan_.title),
                    options_.live ? "live" : "dry", keys_text()));
    if (plan_.people > 1) {
      say("The number after the time says who: 1+2 is persons 1 and 2.\n");
    }
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
    say(fmt::format("All {} steps done. To plan with this pace:\n  {} --learn\n", run_.count(),
                    same_command(options_)));
    return terminal::ExitStatus::works;
  }

 private:
  std::string keys_text() const {
    return fmt::format("space next, b back, t note, {}q stop", options_.live ? "" : "p pause, ");
  }
  void say(const std::string& text) { terminal::print(text); }

  // A live clock runs on while nobody looks; a dry one is taken up where it stopped. Never before
  // the running step began: the clock of the wall may be put back.
  double now_s() const {
    if (paused_) {
      return paused_at_;
    }
    const double gone = options_.live ? terminal::epoch_seconds() - *began_
                                      : terminal::monotonic_seconds() - origin_;
    return std::max(run_.started_s(), gone * options_.speed);
  }
  void set_clock(double seconds) {
    origin_ = terminal::monotonic_seconds() - seconds / options_.speed;
  }

  bool wait_for_start() {
    const bool resumed = !run_.stage_begins();
    if (options_.live && began_) {
      return true;
    }
    say(resumed         ? "Press space to go on.\n"
        : options_.live ? "Press space at the first stroke of glue.\n"
                        : "Press space to start the clock.\n");
    for (;;) {
      const terminal::Keyboard::Press press = keyboard_.wait(1000);
      if (press.kind == terminal::Keyboard::Kind::end || is_stop(press.key)) {
        return false;
      }
      if (press.kind == terminal::Keyboard::Kind::key && is_next(press.key)) {
        break;
      }
    }
    set_clock(run_.started_s());
    if (options_.live) {
      began_ = terminal::epoch_seconds() - run_.started_s() / options_.speed;
      return put(began_line(*began_));
    }
    return true;
  }

  static bool is_next(char key) { return key == ' ' || key == '\n' || key == '\r' || key == 'n'; }
  static bool is_stop(char key) { return key == 'q' || key == 3 || key == 4; }  // Ctrl-C, Ctrl-D

  bool put(const std::string& text) {
    const bool written = log_.put(text);
    terminal::complain(
        written ? "" : fmt::format("glueup: the log can't be written: {}\n", std::strerror(errno)));
    return written;
  }

  void show_step() {
    const planner::plan::Step& step = run_.step();
    text::Page page(false);
    page.blank();
    page.item(
        fmt::format("{}/{}", run_.done() + 1, run_.count()),
        fmt::format("{}-{}  {}{}", words::clock_text(step.start_s), words::clock_text(step.end_s),
                    plan_.people > 1 ? words::who_text(plan_, step) + "  " : "",
                    step_sentence(plan_, run_.stage(), step, wording_)));
    say(page.text());
  }

  static std::string over_the_clock(const std::string& text) {
    const int width = terminal::moving_line_width();
    return "\r" + words::padded(words::fullest_that_fits({text}, width), width);
  }

  // On a terminal the line under the step is written over, a second at a time.
  void show_clock() {
    const double now = now_s();
    const double late = now - run_.step().end_s;
    const double left = run_.stage().pull_apart_by_s - now;
    const std::string text = fmt::format(
        "  {}  {} {}, {}", words::clock_text(now), words::duration_text(std::abs(late)),
        late > 0 ? "late" : "left for it",
        left > 0 ? words::duration_text(left) + " to pull it apart" : "TOO LATE TO PULL APART");
    if (moving_ && text != shown_) {
      say(over_the_clock(text));
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
      const terminal::Keyboard::Press press = keyboard_.wait(moving_ ? 200 : 1000);
      if (press.kind == terminal::Keyboard::Kind::none) {
        continue;
      }
      if (press.kind == terminal::Keyboard::Kind::end || is_stop(press.key)) {
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
      } else {
        say(paused_ ? "\n  paused: p goes on\n" : "\n  keys: " + keys_text() + "\n");
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
    const std::string done =
        fmt::format("  done at {}, {} {}", words::clock_text(now),
                    words::duration_text(std::abs(now - line.planned_end_s)),
                    now > line.planned_end_s ? "behind the plan" : "ahead of the plan");
    say((moving_ ? over_the_clock(done) : done) + "\n");
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

  terminal::ExitStatus broken_off() {
    if (!run_.finished()) {
      put(to_text(run_.running()));
      say(fmt::format("\nStopped in step {} of {}; the same command goes on from there.\n",
                      run_.done() + 1, run_.count()));
    }
    return terminal::ExitStatus::works;
  }

  const Plan& plan_;
  const terminal::Options& options_;
  RehearsalLog& log_;
  RehearsalRun& run_;
  std::optional<double> began_;
  words::Wording wording_;
  terminal::Keyboard keyboard_;
  bool moving_ = false, rung_ = false, paused_ = false;
  double origin_ = 0, paused_at_ = 0;
  std::string shown_;
};

}  // namespace

terminal::ExitStatus run_session(const Plan& plan, const terminal::Options& options,
                                 RehearsalLog& log, RehearsalRun& run,
                                 std::optional<double> began) {
  return Session(plan, options, log, run, began).go();
}

std::string same_command(const terminal::Options& options) {
  return "glueup rehearse " + options.job + (options.shop ? " --shop " + *options.shop : "") +
         (options.people ? " --people " + std::to_string(*options.people) : "") +
         (options.log ? " --log " + *options.log : "");
}

}  // namespace cli::rehearse
