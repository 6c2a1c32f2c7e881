#include <filesystem>

#include "cli/commands/commands.h"
#include "cli/terminal/file_text.h"
#include "cli/terminal/output.h"

namespace cli::commands {
namespace {

// Where the page lies as seen from the program: installed, or as built.
std::optional<std::filesystem::path> page_file() {
  std::error_code error;
  const std::filesystem::path beside =
      std::filesystem::read_symlink("/proc/self/exe", error).parent_path();
  for (const char* way : {"../share/glueup/glueup.html", "glueup.html"}) {
    if (std::filesystem::is_regular_file(beside / way, error)) {
      return beside / way;
    }
  }
  return std::nullopt;
}

}  // namespace

terminal::ExitStatus run_page(const terminal::Options& options) {
  const std::optional<std::filesystem::path> path = page_file();
  if (!path) {
    terminal::complain(
        "glueup: the page isn't installed with this program; `sh cli/page/build.sh` makes it\n");
    return terminal::ExitStatus::bad_input;
  }
  const terminal::FileText page = terminal::read_file(path->string());
  if (!page.error.empty()) {
    terminal::complain("glueup: " + path->string() + ": " + page.error + "\n");
    return terminal::ExitStatus::bad_input;
  }
  const bool written =
      options.out ? terminal::put_html(*options.out, page.text) : terminal::print(page.text);
  return written ? terminal::ExitStatus::works : terminal::ExitStatus::bad_input;
}

}  // namespace cli::commands
