#include "cli/options.h"

#include <algorithm>
#include <array>
#include <memory>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/format.h>

#include "cli/option_values.h"
#include "cli/starter_file.h"
#include "cli/words.h"
#include "planner/diagnostic.h"
#include "planner/file_notes.h"
#include "planner/tables/listing.h"
#include "planner/tables/version.h"

namespace cli {
namespace {

struct CommandWords {
  Command command;
  const char* name;
  const char* subject;  // of its usage line
  const char* what;
  const char* example;
};
constexpr std::array<CommandWords, 8> kCommands{{
    {Command::plan, "plan", "JOB", "the whole plan: order, clock, clamps, glue",
     "glueup plan chest.toml --start 14:30 --sheet chest.html"},
    {Command::clamps, "clamps", "JOB...", "do I own enough clamps, and where does each go",
     "glueup clamps chest.toml; glueup clamps jobs/*.toml: which to buy next"},
    {Command::glue, "glue", "JOB", "how much glue, what to mix, which glue suits",
     "glueup glue chest.toml --temperature \"64 F\""},
    {Command::check, "check", "JOB", "the parts and the joints found between them",
     "glueup check chest.toml"},
    {Command::create, "new", "KIND", "a job file to start from, or the shop's",
     "glueup new box --size \"14 x 9 x 8\" --units in -o chest.toml"},
    {Command::rehearse, "rehearse", "JOB", "the steps on a running clock, dry or live",
     "glueup rehearse chest.toml; then glueup rehearse chest.toml --learn"},
    {Command::fit, "fit", "JOB", "what to cut and mend after the dry fit",
     "glueup fit chest.toml --diagonals \"16 5/8, 16 11/16\""},
    {Command::tables, "tables", "TABLE", "the tables, each value with its source",
     "glueup tables woods"},
}};
constexpr const char* kFirstSteps =
    "Example:\n"
    "  glueup new box --size \"14 x 9 x 8\" --units in -o chest.toml\n"
    "  glueup plan chest.toml\n\n";
constexpr const char* kExitFooter =
    "Exit status: 0 it works; 1 it doesn't with what the shop has (the plan and the\n"
    "ways out are still printed); 2 the input is wrong; 3 our own mistake.";

const CommandWords* find_command(const std::string& name) {
  const auto* found = std::find_if(kCommands.begin(), kCommands.end(),
                                   [&](const CommandWords& words) { return name == words.name; });
  return found == kCommands.end() ? nullptr : found;
}

// Long words and options as the user types them; CLI11's own layout, held to 80 columns.
void add_job(CLI::App& app, RawOptions& raw, bool several) {
  app.add_option("JOB", raw.jobs, several ? "job files" : "the job file, or - for standard input")
      ->type_name("")
      ->expected(0, 1000);  // how many there may be is told in words, below
}

void add_shop_options(CLI::App& app, RawOptions& raw) {
  app.add_option("--shop", raw.shop, "the shop file: clamps, glue, people")->type_name("FILE");
  app.add_option("--people", raw.people, "how many glue up: 1 to 4")->type_name("N");
  app.add_option("--temperature", raw.temperature, "of the shop: \"64 F\", \"18 C\"")
      ->type_name("T");
  app.add_option("--glue", raw.glue, "a glue of the shop file or the table")->type_name("NAME");
  app.add_option("--units", raw.units, "print in these: in, mm")->type_name("U");
}

void add_plan_options(CLI::App& app, RawOptions& raw) {
  add_shop_options(app, raw);
  app.add_option("--json", raw.json, "machine-readable, to FILE or stdout")
      ->type_name("[FILE]")
      ->expected(0, 1);
  app.add_option("--sheet", raw.sheet, "the bench sheet: pictures and a clock, HTML")
      ->type_name("FILE");
  app.add_option("--paper", raw.paper, "to print it on: a4 or letter")->type_name("SIZE");
  app.add_flag("--explain", raw.explain, "say why at every step and clamp");
  app.add_option("--start", raw.start, "open the glue at this time: 14:30")->type_name("H:MM");
  app.add_flag("--prove", raw.prove, "search on without the effort limit; Ctrl-C ends it");
}

void add_new_options(CLI::App& app, RawOptions& raw) {
  app.add_option("KIND", raw.kind, "what to start from; `glueup new` names them")->type_name("");
  app.add_option("-o,--out", raw.out, "the file to write; standard output without")
      ->type_name("FILE");
  app.add_option("--size", raw.size, "its outside: \"14 x 9 x 8\"")->type_name("SIZES");
  app.add_option("--species", raw.species, "the wood: glueup tables woods")->type_name("WOOD");
  app.add_option("--glue", raw.glue, "a glue of the shop file or the table")->type_name("NAME");
  app.add_option("--units", raw.units, "of the file: in, mm")->type_name("U");
  app.add_flag("--force", raw.force, "write over a file that is there");
}

void add_rehearse_options(CLI::App& app, RawOptions& raw) {
  add_shop_options(app, raw);
  app.add_flag("--live", raw.live, "with glue: the clock can't be stopped");
  app.add_option("--log", raw.log, "keep the times here, go on where it ends")->type_name("FILE");
  app.add_flag("--learn", raw.learn, "from the log to the shop file's pace; asks first");
  app.add_option("--speed", raw.speed, "run the clock this much faster")->type_name("X");
}

void add_fit_options(CLI::App& app, RawOptions& raw) {
  app.add_option("--openings", raw.openings, "as measured: \"203.4, 203.1\"")->type_name("LIST");
  app.add_option("--diagonals", raw.diagonals, "both: \"16 5/8, 16 11/16\"")->type_name("LIST");
  app.add_option("--units", raw.units, "print in these: in, mm")->type_name("U");
}

void add_table_options(CLI::App& app, RawOptions& raw) {
  app.add_option("TABLE", raw.table, "woods, glues, clamps or pressures")->type_name("");
  app.add_option("--json", raw.json, "machine-readable, to FILE or stdout")
      ->type_name("[FILE]")
      ->expected(0, 1);
}

void add_options(Command command, CLI::App& app, RawOptions& raw) {
  switch (command) {
    case Command::create:
      return add_new_options(app, raw);
    case Command::tables:
      return add_table_options(app, raw);
    case Command::rehearse:
      add_job(app, raw, false);
      return add_rehearse_options(app, raw);
    case Command::fit:
      add_job(app, raw, false);
      return add_fit_options(app, raw);
    case Command::check:
      add_job(app, raw, false);
      app.add_flag("--expand", raw.expand, "print the job part by part, to change by hand");
      return add_plan_options(app, raw);
    case Command::plan:
    case Command::clamps:
    case Command::glue:
      add_job(app, raw, command == Command::clamps);
      return add_plan_options(app, raw);
  }
}

void add_printing_options(CLI::App& app, RawOptions& raw) {
  app.add_flag("--ascii", raw.ascii, "plain characters only");
  app.add_flag("--quiet", raw.quiet, "no warnings");
  app.add_option("--color", raw.color, "auto, always or never")->type_name("WHEN");
}

// The tables go on with the program, and can change without it.
std::string version_text() {
  std::string text = fmt::format("glueup {}\ntables: rows and CRC-32\n", GLUEUP_VERSION);
  for (const planner::TableVersion& table : planner::table_versions()) {
    text += fmt::format("  {:<16} {:>3}  {:08x}\n", table.name, table.rows, table.crc32);
  }
  return text;
}

// CLI11's layout with our own usage line.
class HelpPage : public CLI::Formatter {
 public:
  std::string make_usage(const CLI::App* app, std::string name) const override {
    if (app->get_parent() == nullptr) {
      return "Usage: " + name + " COMMAND ...\n       " + name + " COMMAND --help\n";
    }
    return fmt::format("Usage: glueup {} {} [options]\n", app->get_name(),
                       find_command(app->get_name())->subject);
  }
  std::string make_description(const CLI::App* app) const override {
    return as_sentence(app->get_description()) + "\n";
  }
};

struct Parser {
  RawOptions raw;
  CLI::App app{"Plans woodworking glue-ups: order, clock, clamps and glue.", "glueup"};
  std::array<CLI::App*, kCommands.size()> commands{};

  Parser() {
    app.set_version_flag("--version", version_text(), "print the version, and those of the tables");
    app.set_help_flag("-h,--help", "print this help");
    app.footer(std::string(kFirstSteps) + kExitFooter);
    app.require_subcommand(0, 1);  // so that "tables clamps" is one command and its table
    const auto page = std::make_shared<HelpPage>();
    page->column_width(26);
    page->label("Positionals", "What to read");
    app.formatter(page);  // the commands below inherit it
    for (std::size_t i = 0; i < kCommands.size(); ++i) {
      CLI::App* command = app.add_subcommand(kCommands[i].name, kCommands[i].what);
      command->group("Commands");
      commands[i] = command;
      add_options(kCommands[i].command, *command, raw);
      add_printing_options(*command, raw);
      command->footer(fmt::format("Example: {}\n\n{}", kCommands[i].example, kExitFooter));
    }
  }
};

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known) {
  const std::string near = planner::nearest(word, known);
  return near.empty() ? "" : "; did you mean " + near + "?";
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandWords& words : kCommands) {
    names.push_back(words.name);
  }
  return names;
}

std::vector<std::string> long_options(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      names.push_back("--" + name);
    }
  }
  return names;
}

// The first word that is no option, which must be a command, and options that the command lacks:
// what CLI11 can only call extra.
std::optional<Mistake> unknown_word(const std::vector<std::string>& arguments, Parser& parser) {
  const CLI::App* app = &parser.app;
  bool inside = false;
  for (const std::string& argument : arguments) {
    if (argument == "--") {
      break;
    }
    if (argument.size() > 1 && argument.front() == '-') {
      const std::string name = argument.substr(0, argument.find('='));
      if (app->get_option_no_throw(name) == nullptr) {
        return Mistake{fmt::format("no option {}{}", name, did_you_mean(name, long_options(*app)))};
      }
      continue;
    }
    if (!inside) {
      if (find_command(argument) == nullptr) {
        return Mistake{
            fmt::format("no command \"{}\"{}", argument, did_you_mean(argument, command_names()))};
      }
      app = parser.app.get_subcommand(argument);
      inside = true;
    }
  }
  return inside ? std::nullopt : std::optional<Mistake>(Mistake{"say what to do: glueup plan JOB"});
}

// `--json JOB` reads the job's name as the file to write: where no job is left, it was the job.
void settle_json(const Parser& parser, std::size_t command, const RawOptions& raw,
                 Options& options) {
  const CLI::Option* json = parser.commands[command]->get_option_no_throw("--json");
  if (json == nullptr || json->count() == 0) {
    return;
  }
  options.json = raw.json.empty() ? "-" : raw.json;
  std::string& word = options.command == Command::tables ? options.table : options.job;
  if (word.empty() && !raw.json.empty()) {
    word = raw.json;
    options.json = "-";
  }
}

std::optional<Mistake> no_such(const char* noun, const std::string& word,
                               const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), word) != known.end()) {
    return std::nullopt;
  }
  if (word.empty()) {
    return Mistake{fmt::format("which {}? {}", noun, planner::one_of(known))};
  }
  const std::string meant = did_you_mean(word, known);
  return Mistake{fmt::format("no {} \"{}\"{}", noun, word,
                             meant.empty() ? ": take " + planner::one_of(known) : meant)};
}

std::optional<Mistake> read_subject(const CommandWords& words, const Options& options) {
  if (options.command == Command::create) {
    return no_such("kind", options.kind, starter_kinds());
  }
  if (options.command == Command::tables) {
    return no_such("table", options.table, planner::listing_names());
  }
  const bool several = options.command == Command::clamps;
  if (options.jobs.size() > 1 && !several) {
    return Mistake{fmt::format("one at a time: \"{}\" is too many", options.jobs[1])};
  }
  if (options.jobs.size() > 1 && (options.json || options.sheet)) {
    return Mistake{fmt::format("--{} takes one job; leave \"{}\" out",
                               options.json ? "json" : "sheet", options.jobs[1])};
  }
  return options.job.empty()
             ? std::optional<Mistake>(Mistake{fmt::format("which job? glueup {} JOB", words.name)})
             : std::nullopt;
}

// What is left once every word is known: one subject too many, or an option without its value.
Mistake worded(const CLI::ParseError& error, const Parser& parser) {
  const std::string text = error.what();
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
    return {text.substr(0, text.find(':')) + " needs a value"};
  }
  const std::vector<std::string> extra = parser.app.remaining(true);
  return {extra.empty() ? text : fmt::format("one at a time: \"{}\" is too many", extra.front())};
}

CommandLine wrong(const Mistake& mistake, const std::string& command) {
  const std::string about = command.empty() ? "" : " " + command;
  return {
      std::nullopt, "",
      fmt::format("glueup: {}\n  glueup{} --help shows what there is\n", mistake.message, about)};
}

CommandLine options_of(Parser& parser) {
  std::size_t i = 0;
  while (i < kCommands.size() && !parser.commands[i]->parsed()) {
    ++i;
  }
  const RawOptions& raw = parser.raw;
  Options options;
  options.command = kCommands[i].command;
  options.jobs = raw.jobs;
  options.job = raw.jobs.empty() ? "" : raw.jobs.front();
  options.table = raw.table;
  options.kind = raw.kind;
  settle_json(parser, i, raw, options);
  if (const auto mistake = read_values(raw, options)) {
    return wrong(*mistake, kCommands[i].name);
  }
  if (const auto mistake = read_subject(kCommands[i], options)) {
    return wrong(*mistake, kCommands[i].name);
  }
  return {options, "", ""};
}

}  // namespace

CommandLine parse_command_line(const std::vector<std::string>& arguments) {
  Parser parser;
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // as CLI11 wants them
  try {
    parser.app.parse(reversed);
  } catch (const CLI::CallForVersion&) {
    return {std::nullopt, version_text(), ""};
  } catch (const CLI::Success&) {
    const bool in_command = !parser.app.get_subcommands().empty();
    return {std::nullopt,
            help_text(in_command ? parser.app.get_subcommands().front()->get_name() : ""), ""};
  } catch (const CLI::ParseError& error) {
    if (const auto mistake = unknown_word(arguments, parser)) {
      return wrong(*mistake, "");
    }
    return wrong(worded(error, parser), parser.app.get_subcommands().front()->get_name());
  }
  if (parser.app.get_subcommands().empty()) {
    return wrong(*unknown_word(arguments, parser), "");
  }
  return options_of(parser);
}

std::string help_text(const std::string& command) {
  Parser parser;
  return command.empty() ? parser.app.help() : parser.app.get_subcommand(command)->help("glueup");
}

}  // namespace cli
