#include "cli/progress.h"

#include <chrono>
#include <csignal>
#include <string_view>
#include <unistd.h>

#include <fmt/format.h>

#include "cli/exit_status.h"
#include "cli/output.h"
#include "cli/sheet/page.h"
#include "cli/words.h"

namespace cli {
namespace {

// A plan that isn't whole isn't checked either, so none is shown.
void on_interrupt(int) {
  constexpr std::string_view kTold = "\nglueup: stopped; nothing was written\n";
  [[maybe_unused]] const auto told = write(STDERR_FILENO, kTold.data(), kTold.size());
  _exit(static_cast<int>(ExitStatus::interrupted));
}

}  // namespace

Progress::Progress(std::string what, bool quiet) : what_(std::move(what)) {
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

void Progress::show() {
  using namespace std::chrono_literals;
  std::unique_lock lock(mutex_);
  bool shown = false;
  const auto began = std::chrono::steady_clock::now();
  for (auto wait = 500ms; !done_.wait_for(lock, wait, [this] { return finished_; });
       wait = 1000ms) {
    const auto seconds =
        std::chrono::duration_cast<std::chrono::seconds>(std::chrono::steady_clock::now() - began);
    const std::string text = fmt::format("{} {} s; Ctrl-C stops", what_, seconds.count());
    complain("\r" + padded(fullest_that_fits({text}, kPageWidth - 1), kPageWidth - 1));
    shown = true;
  }
  if (shown) {
    complain("\r" + std::string(kPageWidth - 1, ' ') + "\r");
  }
}

}  // namespace cli
