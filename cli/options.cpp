#include "cli/options.h"

#include <algorithm>
#include <array>
#include <memory>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/format.h>

#include "cli/words.h"
#include "planner/diagnostic.h"
#include "planner/quantity_text.h"
#include "planner/tables/listing.h"

namespace cli {
namespace {

// What CLI11 hands over before it is looked at: every value as text, so that we word its mistakes.
struct Raw {
  std::string job, table, shop, json, sheet, paper, people, temperature, glue, units, start,
      color = "auto";
  bool explain = false, prove = false, quiet = false, ascii = false;
};

struct CommandWords {
  Command command;
  const char* name;
  const char* what;
};
constexpr std::array<CommandWords, 5> kCommands{{
    {Command::plan, "plan", "the whole plan: order, clock, clamps, glue"},
    {Command::clamps, "clamps", "do I own enough clamps, and where does each go"},
    {Command::glue, "glue", "how much glue, what to mix"},
    {Command::check, "check", "the parts and the joints found between them"},
    {Command::tables, "tables", "the tables, each value with its source"},
}};
constexpr const char* kExitFooter =
    "Exit status: 0 it works; 1 it doesn't with what the shop has (the plan and the\n"
    "ways out are still printed); 2 the input is wrong; 3 our own mistake.";

// Long words and options as the user types them; CLI11's own layout, held to 80 columns.
void add_job_options(CLI::App& app, Raw& raw) {
  app.add_option("JOB", raw.job, "the job file, or - for standard input")->type_name("");
  app.add_option("--shop", raw.shop, "the shop file: clamps, glue, people")->type_name("FILE");
  app.add_option("--json", raw.json, "machine-readable, to FILE or stdout")
      ->type_name("[FILE]")
      ->expected(0, 1);
  app.add_option("--sheet", raw.sheet, "the bench sheet: pictures and a clock, HTML")
      ->type_name("FILE");
  app.add_option("--paper", raw.paper, "to print it on: a4 or letter")->type_name("SIZE");
  app.add_flag("--explain", raw.explain, "say why at every step and clamp");
  app.add_option("--people", raw.people, "how many glue up: 1 to 4")->type_name("N");
  app.add_option("--temperature", raw.temperature, "of the shop: \"64 F\", \"18 C\"")
      ->type_name("T");
  app.add_option("--glue", raw.glue, "a glue of the shop file or the table")->type_name("NAME");
  app.add_option("--units", raw.units, "print in these: in, mm")->type_name("U");
  app.add_option("--start", raw.start, "open the glue at this time: 14:30")->type_name("H:MM");
  app.add_flag("--prove", raw.prove, "search on without the effort limit");
}

void add_printing_options(CLI::App& app, Raw& raw) {
  app.add_flag("--ascii", raw.ascii, "plain characters only");
  app.add_flag("--quiet", raw.quiet, "no warnings");
  app.add_option("--color", raw.color, "auto, always or never")->type_name("WHEN");
}

// CLI11's layout with our own usage line.
class HelpPage : public CLI::Formatter {
 public:
  std::string make_usage(const CLI::App* app, std::string name) const override {
    if (app->get_parent() == nullptr) {
      return "Usage: " + name + " COMMAND ...\n       " + name + " COMMAND --help\n";
    }
    const std::string subject = app->get_name() == "tables" ? "TABLE" : "JOB";
    return fmt::format("Usage: glueup {} {} [options]\n", app->get_name(), subject);
  }
  std::string make_description(const CLI::App* app) const override {
    return as_sentence(app->get_description()) + "\n";
  }
};

struct Parser {
  Raw raw;
  CLI::App app{"Plans woodworking glue-ups: order, clock, clamps and glue.", "glueup"};
  std::array<CLI::App*, kCommands.size()> commands{};

  Parser() {
    app.set_version_flag("--version", std::string("glueup ") + GLUEUP_VERSION, "print the version");
    app.set_help_flag("-h,--help", "print this help");
    app.footer(kExitFooter);
    app.require_subcommand(0, 1);  // so that "tables clamps" is one command and its table
    const auto page = std::make_shared<HelpPage>();
    page->column_width(26);
    page->label("Positionals", "What to read");
    page->label("Subcommands", "Commands");
    app.formatter(page);  // the commands below inherit it
    for (std::size_t i = 0; i < kCommands.size(); ++i) {
      CLI::App* command = app.add_subcommand(kCommands[i].name, kCommands[i].what);
      commands[i] = command;
      if (kCommands[i].command == Command::tables) {
        command->add_option("TABLE", raw.table, "woods, glues, clamps or pressures")->type_name("");
        command->add_option("--json", raw.json, "machine-readable, to FILE or stdout")
            ->type_name("[FILE]")
            ->expected(0, 1);
      } else {
        add_job_options(*command, raw);
      }
      add_printing_options(*command, raw);
      command->footer(kExitFooter);
    }
  }
};

struct Mistake {
  std::string message;
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

const CommandWords* find_command(const std::string& name) {
  const auto* found = std::find_if(kCommands.begin(), kCommands.end(),
                                   [&](const CommandWords& words) { return name == words.name; });
  return found == kCommands.end() ? nullptr : found;
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

std::optional<int> minute_of_day(const std::string& text) {
  const std::size_t colon = text.find(':');
  const auto digits = [](const std::string& s) {
    return !s.empty() && s.size() <= 2 &&
           std::all_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
  };
  if (colon == std::string::npos || !digits(text.substr(0, colon)) || text.size() - colon != 3 ||
      !digits(text.substr(colon + 1))) {
    return std::nullopt;
  }
  const int hour = std::stoi(text.substr(0, colon));
  const int minute = std::stoi(text.substr(colon + 1));
  return hour < 24 && minute < 60 ? std::optional<int>(hour * 60 + minute) : std::nullopt;
}

std::optional<Mistake> read_people(const Raw& raw, Options& options) {
  if (raw.people.empty()) {
    return std::nullopt;
  }
  if (raw.people.size() != 1 || raw.people[0] < '1' || raw.people[0] > '4') {
    return Mistake{fmt::format("--people takes 1 to 4, not \"{}\"", raw.people)};
  }
  options.people = raw.people[0] - '0';
  return std::nullopt;
}

std::optional<Mistake> read_temperature(const Raw& raw, Options& options) {
  if (raw.temperature.empty()) {
    return std::nullopt;
  }
  const auto reading = planner::celsius_from(raw.temperature);
  if (!reading.value) {
    return Mistake{
        fmt::format("--temperature takes \"64 F\" or \"18 C\", not \"{}\"", raw.temperature)};
  }
  options.temperature_C = reading.value;
  return std::nullopt;
}

std::optional<Mistake> read_units(const Raw& raw, Options& options) {
  if (raw.units.empty()) {
    return std::nullopt;
  }
  if (raw.units != "in" && raw.units != "mm") {
    return Mistake{fmt::format("--units takes in or mm, not \"{}\"", raw.units)};
  }
  options.units = raw.units == "in" ? planner::Units::inch : planner::Units::mm;
  return std::nullopt;
}

std::optional<Mistake> read_paper(const Raw& raw, Options& options) {
  if (!raw.paper.empty() && raw.paper != "a4" && raw.paper != "letter") {
    return Mistake{fmt::format("--paper takes a4 or letter, not \"{}\"", raw.paper)};
  }
  options.paper = raw.paper == "letter" ? Paper::letter : Paper::a4;
  return std::nullopt;
}

std::optional<Mistake> read_start(const Raw& raw, Options& options) {
  if (raw.start.empty()) {
    return std::nullopt;
  }
  options.start_minute = minute_of_day(raw.start);
  return options.start_minute
             ? std::nullopt
             : std::optional<Mistake>(Mistake{
                   fmt::format("--start takes a time of day as 14:30, not \"{}\"", raw.start)});
}

std::optional<Mistake> read_colour(const Raw& raw, Options& options) {
  if (raw.color != "auto" && raw.color != "always" && raw.color != "never") {
    return Mistake{fmt::format("--color takes auto, always or never, not \"{}\"", raw.color)};
  }
  options.colour = raw.color == "always"  ? Colour::always
                   : raw.color == "never" ? Colour::never
                                          : Colour::automatic;
  return std::nullopt;
}

// `--json JOB` reads the job's name as the file to write: where no job is left, it was the job.
void settle_json(const Parser& parser, std::size_t command, const Raw& raw, Options& options) {
  if (parser.commands[command]->count("--json") == 0) {
    return;
  }
  options.json = raw.json.empty() ? "-" : raw.json;
  std::string& word = options.command == Command::tables ? options.table : options.job;
  if (word.empty() && !raw.json.empty()) {
    word = raw.json;
    options.json = "-";
  }
}

std::optional<Mistake> read_subject(const CommandWords& words, const Options& options) {
  if (options.command != Command::tables) {
    return options.job.empty() ? std::optional<Mistake>(
                                     Mistake{fmt::format("which job? glueup {} JOB", words.name)})
                               : std::nullopt;
  }
  const std::vector<std::string>& tables = planner::listing_names();
  if (std::find(tables.begin(), tables.end(), options.table) != tables.end()) {
    return std::nullopt;
  }
  return Mistake{options.table.empty() ? "which table? woods, glues, clamps or pressures"
                                       : fmt::format("no table \"{}\"{}", options.table,
                                                     did_you_mean(options.table, tables))};
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
  const Raw& raw = parser.raw;
  Options options;
  options.command = kCommands[i].command;
  options.job = raw.job;
  options.table = raw.table;
  options.shop = raw.shop.empty() ? std::nullopt : std::optional<std::string>(raw.shop);
  options.sheet = raw.sheet.empty() ? std::nullopt : std::optional<std::string>(raw.sheet);
  options.glue = raw.glue.empty() ? std::nullopt : std::optional<std::string>(raw.glue);
  options.explain = raw.explain;
  options.prove = raw.prove;
  options.quiet = raw.quiet;
  options.ascii = raw.ascii;
  settle_json(parser, i, raw, options);
  for (const auto read :
       {read_people, read_temperature, read_units, read_paper, read_start, read_colour}) {
    if (const auto mistake = read(raw, options)) {
      return wrong(*mistake, kCommands[i].name);
    }
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
    return {std::nullopt, std::string("glueup ") + GLUEUP_VERSION + "\n", ""};
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
