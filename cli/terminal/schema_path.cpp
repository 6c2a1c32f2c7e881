#include "cli/terminal/schema_path.h"

#include <algorithm>
#include <filesystem>

namespace cli::terminal {

namespace fs = std::filesystem;

std::optional<std::string> schema_path(const std::string& name) {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  if (error) {
    return std::nullopt;
  }
  const fs::path above = program.parent_path().parent_path();
  for (const fs::path& folder :
       {above / "share/glueup", above / "docs", above.parent_path() / "docs"}) {
    const std::string path = (folder / name).string();
    const bool one_line =
        std::none_of(path.begin(), path.end(), [](char c) { return c >= 0 && c < ' '; });
    if (one_line && fs::is_regular_file(path, error)) {
      return path;
    }
  }
  return std::nullopt;
}

}  // namespace cli::terminal
