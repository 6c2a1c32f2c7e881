// Runs a command many times and says what a user waits for and what the machine gives: wall time
// from start to exit, and peak memory.
//   whole_process RUNS COMMAND [ARGUMENTS...]
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

struct Run {
  double ms = 0;
  double peak_MB = 0;
  int exit_status = 0;
};

// The command with its output thrown away.
Run run(char** command) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point start = Clock::now();
  const pid_t child = fork();
  if (child == 0) {
    if (std::freopen("/dev/null", "w", stdout) && std::freopen("/dev/null", "w", stderr)) {
      execvp(command[0], command);
    }
    _exit(127);
  }
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  const std::chrono::duration<double, std::milli> took = Clock::now() - start;
  return {took.count(), static_cast<double>(used.ru_maxrss) / 1024,
          WIFEXITED(status) ? WEXITSTATUS(status) : 128};
}

}  // namespace

int main(int argc, char** argv) {
  const int runs = argc > 2 ? std::atoi(argv[1]) : 0;
  if (runs < 1) {
    std::fputs("usage: whole_process RUNS COMMAND [ARGUMENTS...]\n", stderr);
    return 2;
  }
  std::vector<double> ms;
  double peak_MB = 0;
  for (int i = 0; i < runs; ++i) {
    const Run one = run(argv + 2);
    if (one.exit_status > 1) {  // 1 is a plan that does not work with what the shop has
      std::fprintf(stderr, "%s ended with exit status %d\n", argv[2], one.exit_status);
      return 1;
    }
    ms.push_back(one.ms);
    peak_MB = std::max(peak_MB, one.peak_MB);
  }
  std::sort(ms.begin(), ms.end());
  std::printf("%d runs: least %.1f ms, median %.1f ms, most %.1f ms; peak memory %.1f MB\n", runs,
              ms.front(), ms[ms.size() / 2], ms.back(), peak_MB);
  return 0;
}
