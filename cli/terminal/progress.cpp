#include "cli/terminal/progress.h"

#include <atomic>
#include <chrono>
#include <csignal>
#include <string_view>
#include <unistd.h>

#include <fmt/format.h>

#include "cli/terminal/exit_status.h"
#include "cli/terminal/output.h"
#include "cli/text/page.h"
#include "cli/words/words.h"

namespace cli::terminal {
namespace {

std::atomic<bool> interrupted{false};  // set by a signal, which reaches nothing else
static_assert(std::atomic<bool>::is_always_lock_free);

void tell(std::string_view text) {
  [[maybe_unused]] const auto told = write(STDERR_FILENO, text.data(), text.size());
}

// Whoever asks twice doesn't want to wait for the rest of the plan.
void on_interrupt(int) {
  if (interrupted.exchange(true)) {
    tell("\nglueup: stopped; nothing was written\n");
    _exit(static_cast<int>(ExitStatus::interrupted));
  }
  tell("\nglueup: stopping; Ctrl-C again stops at once, with nothing written\n");
}

}  // namespace

Progress::Progress(std::string what, bool quiet) : wordings_{std::move(what)} {
  std::signal(SIGINT, on_interrupt);
  if (!quiet && isatty(STDERR_FILENO) != 0) {
    thread_ = std::thread([this] { show(); });
  }
}

Progress::~Progress() {
  if (thread_.joinable()) {
    {
      const std::lock_guard lock(mutex_);
      finished_ = true;
    }
    done_.notify_one();
    thread_.join();
  }
  std::signal(SIGINT, SIG_DFL);
}

void Progress::say(std::vector<std::string> wordings) {
  {
    const std::lock_guard lock(mutex_);
    wordings_ = std::move(wordings);
    news_ = true;
  }
  done_.notify_one();
}

bool Progress::stop_asked() {
  return interrupted;
}

void Progress::show() {
  using namespace std::chrono_literals;
  std::unique_lock lock(mutex_);
  const auto began = std::chrono::steady_clock::now();
  if (done_.wait_for(lock, 300ms, [this] { return finished_; })) {
    return;
  }
  while (!finished_) {
    news_ = false;
    if (!interrupted) {  // its own line says enough
      const auto passed = std::chrono::steady_clock::now() - began;
      const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(passed).count();
      std::vector<std::string> lines;
      for (const std::string& wording : wordings_) {
        lines.push_back(fmt::format("{} {} s; Ctrl-C stops", wording, seconds));
      }
      const int width = moving_line_width();
      complain("\r" + words::padded(words::fullest_that_fits(lines, width), width));
    }
    done_.wait_for(lock, 1000ms, [this] { return finished_ || news_; });
  }
  complain("\r" + words::padded("", moving_line_width()) + "\r");
}

}  // namespace cli::terminal
