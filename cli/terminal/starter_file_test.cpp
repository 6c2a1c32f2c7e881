// The files that list the kinds of `glueup new` list all of them. With GLUEUP_UPDATE set, this test
// writes them there; read the diff.
#include "cli/terminal/starter_file.h"

#include <cstdlib>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/source_dir.h"

namespace cli::terminal {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST_SUITE("cli/starter_file") {
  TEST_CASE("completions, manual and commands.md list every kind of job file") {
    struct Listing {
      const char *path, *between;
    };
    std::vector<std::string> kinds = starter_kinds();
    REQUIRE(kinds.back() == "shop");  // which stands apart in prose
    kinds.pop_back();
    for (const Listing& listing :
         {Listing{"cli/packaging/glueup.bash", " "}, Listing{"cli/packaging/glueup.fish", " "},
          Listing{"cli/packaging/glueup.zsh", " "}, Listing{"cli/packaging/glueup.1", ", "},
          Listing{"docs/commands.md", ", "}}) {
      CAPTURE(listing.path);
      const std::string path = fmt::format("{}/{}", source_dir(), listing.path);
      const std::string text = text_of(path);
      const std::size_t begin = text.find(
                            fmt::format("{}{}{}", kinds.front(), listing.between, kinds.at(1))),
                        end = text.find(kinds.back(), begin);
      REQUIRE(end != std::string::npos);
      const std::string wanted =
          fmt::format("{}{}{}", text.substr(0, begin), fmt::join(kinds, listing.between),
                      text.substr(end + kinds.back().size()));
      if (std::getenv("GLUEUP_UPDATE") != nullptr) {
        std::ofstream(path) << wanted;
      }
      CHECK(text_of(path) == wanted);
    }
  }
}

}  // namespace
}  // namespace cli::terminal
