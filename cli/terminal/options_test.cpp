#include "cli/terminal/options.h"

#include <sstream>

#include <doctest/doctest.h>

#include "cli/words/words.h"

using namespace cli;
using namespace cli::terminal;

namespace {

terminal::Options options_of(const std::vector<std::string>& arguments) {
  const terminal::CommandLine line = terminal::parse_command_line(arguments);
  REQUIRE_MESSAGE(line.options.has_value(), line.err);
  return *line.options;
}

std::string mistake_in(const std::vector<std::string>& arguments) {
  const terminal::CommandLine line = terminal::parse_command_line(arguments);
  CHECK_FALSE(line.options.has_value());
  CHECK(line.out.empty());
  return line.err.substr(0, line.err.find('\n'));
}

}  // namespace

TEST_SUITE("cli/options") {
  TEST_CASE("the whole line is understood") {
    const terminal::Options o = options_of(
        {"plan",    "chest.toml", "--shop",    "s.toml",     "--people", "2",       "--temperature",
         "64 F",    "--glue",     "hide_hot",  "--units",    "mm",       "--start", "14:30",
         "--color", "never",      "--explain", "--full",   "--no-limit",
         "--quiet", "--ascii"});
    CHECK(o.command == words::Command::plan);
    CHECK(o.job == "chest.toml");
    CHECK(o.shop == "s.toml");
    CHECK(o.people == 2);
    CHECK(*o.temperature_C == doctest::Approx(17.777777));  // (64 - 32) / 1.8
    CHECK(o.glue == "hide_hot");
    CHECK(o.units == planner::base::Units::mm);
    CHECK(o.start_minute == 870);
    CHECK(o.colour == terminal::Colour::never);
    CHECK((o.explain && o.full && o.no_limit && o.quiet && o.ascii));
    CHECK_FALSE(o.json.has_value());
  }

  TEST_CASE("JSON goes to a file, or to standard output without one") {
    CHECK(options_of({"plan", "chest.toml", "--json"}).json == "-");
    CHECK(options_of({"plan", "chest.toml", "--json", "-"}).json == "-");
    CHECK(options_of({"plan", "chest.toml", "--json", "out.json"}).json == "out.json");
    CHECK(options_of({"plan", "chest.toml", "--json=out.json"}).json == "out.json");
    // The job's name after --json is still the job.
    const terminal::Options o = options_of({"plan", "--json", "chest.toml"});
    CHECK(o.job == "chest.toml");
    CHECK(o.json == "-");
    CHECK(options_of({"tables", "--json", "woods"}).table == "woods");
  }

  TEST_CASE("a table or a job may be called like a command") {
    CHECK(options_of({"tables", "clamps"}).table == "clamps");
    CHECK(options_of({"plan", "glue"}).job == "glue");
  }

  TEST_CASE("a job on standard input is a dash") {
    CHECK(options_of({"plan", "-"}).job == "-");
  }

  TEST_CASE("a misspelt word is answered with the nearest one") {
    CHECK(mistake_in({"plam", "x"}) == "glueup: no command \"plam\"; did you mean plan?");
    CHECK(mistake_in({"plan", "--peple", "2", "x"}) ==
          "glueup: no option --peple; did you mean --people?");
    CHECK(mistake_in({"tables", "wood"}) == "glueup: no table \"wood\"; did you mean woods?");
    CHECK(mistake_in({"--vresion"}) == "glueup: no option --vresion; did you mean --version?");
  }

  TEST_CASE("old words are understood, and told of unless --quiet") {
    const terminal::CommandLine fit = terminal::parse_command_line({"fit", "a.toml"});
    REQUIRE(fit.options);
    CHECK(fit.options->command == words::Command::dry_fit);
    CHECK(fit.notice == "glueup: fit is called dry-fit now\n");
    CHECK(terminal::parse_command_line({"fit", "a.toml", "--quiet"}).notice.empty());
    const terminal::CommandLine prove = terminal::parse_command_line({"plan", "fit", "--prove"});
    REQUIRE(prove.options);
    CHECK(prove.options->job == "fit");
    CHECK(prove.options->no_limit);
    CHECK(prove.notice == "glueup: --prove is called --no-limit now\n");
  }

  TEST_CASE("a value that can't be is refused with what can") {
    CHECK(terminal::parse_command_line({"plan", "x", "--people", "4"}).options->people == 4);
    CHECK(mistake_in({"plan", "x", "--people", "5"}) == "glueup: --people takes 1 to 4, not \"5\"");
    CHECK(terminal::parse_command_line({"plan", "x"}).options->stages == 0);
    CHECK(terminal::parse_command_line({"plan", "x", "--stages", "12"}).options->stages == 12);
    CHECK(terminal::parse_command_line({"plan", "x"}).options->from_stage == 1);
    CHECK(terminal::parse_command_line({"plan", "x", "--from-stage", "3"}).options->from_stage == 3);
    CHECK(mistake_in({"plan", "x", "--from-stage", "0"}) ==
          std::string("glueup: --from-stage takes 1 to 12, not \"0\""));
    for (const char* wrong : {"0", "13", "two", "2.5", "-1", "100"}) {
      CHECK(mistake_in({"plan", "x", "--stages", wrong}) ==
            std::string("glueup: --stages takes 1 to 12, not \"") + wrong + "\"");
    }
    CHECK(mistake_in({"plan", "x", "--start", "25:00"}).find("as 14:30") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--start", "9:5"}).find("as 14:30") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--temperature", "20"}).find("\"64 F\"") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--paper", "a3"}).find("a4 or letter") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--units", "cm"}).find("in or mm") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--color", "maybe"}).find("auto, always") != std::string::npos);
    CHECK(mistake_in({"plan", "x", "--shop"}) == "glueup: --shop needs a value: --shop FILE");
  }

  TEST_CASE("what is missing or too much is named") {
    CHECK(mistake_in({}) == "glueup: say what to do: glueup new box to begin, glueup plan JOB");
    CHECK(mistake_in({"glue"}) == "glueup: which job? glueup glue JOB");
    CHECK(mistake_in({"tables"}) == "glueup: which table?");
    CHECK(mistake_in({"plan", "a", "b"}) == "glueup: one at a time: \"b\" is too many");
  }

  TEST_CASE("a file to start from is asked for by its kind") {
    const terminal::Options o =
        options_of({"new", "box", "--size", "14 x 9 x 3/4 in", "-o", "chest.toml"});
    CHECK(o.command == words::Command::create);
    CHECK(o.kind == "box");
    CHECK(o.out == "chest.toml");
    CHECK(o.size == std::vector<std::string>{"14", "9", "3/4 in"});
    CHECK(mistake_in({"tables", "x"}) ==
          "glueup: no table \"x\": take woods, glues, clamps or pressures");
    CHECK(mistake_in({"new", "pannel"}) == "glueup: no kind \"pannel\"; did you mean panel?");
    CHECK(mistake_in({"new"}) == "glueup: which kind?");
  }

  TEST_CASE("what was measured is a list of lengths") {
    const terminal::Options o =
        options_of({"dry-fit", "a.toml", "--diagonals", "16 5/8, 16 11/16"});
    CHECK(o.diagonals == std::vector<std::string>{"16 5/8", "16 11/16"});
    CHECK(mistake_in({"dry-fit", "a.toml", "--diagonals", "16"}).find("two lengths") !=
          std::string::npos);
    CHECK(mistake_in({"dry-fit", "a.toml", "--openings", "203,4 mmm"}).find("is no length") !=
          std::string::npos);
  }

  TEST_CASE("a rehearsal's clock runs at a sensible speed") {
    CHECK(options_of({"rehearse", "a.toml", "--live"}).live);
    CHECK(options_of({"rehearse", "a.toml", "--speed", "50"}).speed == 50);
    CHECK(mistake_in({"rehearse", "a.toml", "--speed", "0"}).find("0.1 to 10000") !=
          std::string::npos);
  }

  TEST_CASE("help and version are answers, not mistakes") {
    const std::string version = terminal::parse_command_line({"--version"}).out;
    CHECK(version.starts_with(std::string("glueup ") + GLUEUP_VERSION + "\n"));
    CHECK(version.find("woods") != std::string::npos);
    CHECK(terminal::parse_command_line({"--help"}).err.empty());
    CHECK(terminal::parse_command_line({"plan", "--help"}).out == terminal::help_text("plan"));
  }

  TEST_CASE("help fits the page and tells the exit statuses") {
    for (const char* command :
         {"", "plan", "clamps", "glue", "check", "new", "rehearse", "dry-fit", "tables"}) {
      const std::string help = terminal::help_text(command);
      CHECK(help.find("Exit status: 0") != std::string::npos);
      CHECK(help.find("; 2 ") != std::string::npos);
      std::istringstream in(help);
      for (std::string line; std::getline(in, line);) {
        INFO(line);
        CHECK(words::columns(line) <= 80);
      }
    }
  }

  TEST_CASE("options that would change nothing are refused, and not in the help") {
    const std::vector<std::vector<std::string>> idle{{"check", "a.toml", "--start", "14:30"},
                                                     {"check", "a.toml", "--people", "2"},
                                                     {"check", "a.toml", "--sheet", "a.html"},
                                                     {"glue", "a.toml", "--paper", "a4"},
                                                     {"glue", "a.toml", "--explain"},
                                                     {"clamps", "a.toml", "--sheet", "a.html"},
                                                     {"new", "box", "--quiet"},
                                                     {"dry-fit", "a.toml", "--shop", "s.toml"},
                                                     {"tables", "woods", "--units", "mm"},
                                                     {"rehearse", "a.toml", "--color", "never"}};
    for (const auto& words : idle) {
      const terminal::CommandLine line = terminal::parse_command_line(words);
      CAPTURE(line.err);
      CHECK_FALSE(line.options.has_value());
      CHECK(line.err.find(words[0] + " takes no " + words[2] + "; ") != std::string::npos);
      CHECK(terminal::help_text(words[0]).find(words[2] + " ") == std::string::npos);
    }
  }
}
