#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fcntl.h>
#include <malloc.h>
#include <string>
#include <sys/mman.h>
#include <unistd.h>
#include <vector>

#include "cli/commands/commands.h"
#include "cli/terminal/options.h"
#include "cli/terminal/output.h"

namespace {

using cli::terminal::ExitStatus;

// A closed standard stream would lend its number to the first file opened, and what we print would
// land in it.
void hold_standard_streams() {
  for (const int fd : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(fd, F_GETFD) == -1) {
      // Read-only, so that printing to it fails and is told.
      [[maybe_unused]] const int held = open("/dev/null", O_RDONLY);
    }
  }
}

// A plan takes and gives back the same few megabytes over and over: kept, they needn't be mapped in
// anew each time, which is a fifth of a short run. The first of them come in large pages where the
// kernel has some: a thousand small ones take another tenth.
void keep_memory() {
#ifdef __GLIBC__
  constexpr int kKept = 64 << 20, kFirst = 12 << 20, kLargePage = 2 << 20;
  mallopt(M_TRIM_THRESHOLD, kKept);
  mallopt(M_MMAP_THRESHOLD, kKept / 2);
  mallopt(M_TOP_PAD, kFirst);
  void* volatile grown = std::malloc(kLargePage);  // the heap, by as much and by kFirst
  std::free(grown);
  const auto end = reinterpret_cast<std::uintptr_t>(sbrk(0)) / kLargePage * kLargePage;
  madvise(reinterpret_cast<void*>(end - kFirst), kFirst, MADV_HUGEPAGE);
#endif
}

ExitStatus run(const std::vector<std::string>& arguments) {
  const cli::terminal::CommandLine line = cli::terminal::parse_command_line(arguments);
  cli::terminal::complain(line.notice);
  if (!line.options) {
    cli::terminal::complain(line.err);
    return line.err.empty() && cli::terminal::print(line.out) ? ExitStatus::works
                                                              : ExitStatus::bad_input;
  }
  return cli::commands::run_command(*line.options);
}

}  // namespace

int main(int argc, char** argv) {
  hold_standard_streams();
  keep_memory();
  // A closed pipe and a file grown beyond its limit are told by the write that fails.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return static_cast<int>(run(std::vector<std::string>(argv + 1, argv + argc)));
  } catch (const std::exception& error) {
    cli::terminal::complain(std::string("glueup: program fault: ") + error.what() +
                            "\n  Please send us the job file and the shop file.\n");
    return static_cast<int>(ExitStatus::program_fault);
  }
}
