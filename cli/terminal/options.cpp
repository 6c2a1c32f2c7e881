#include "cli/terminal/options.h"

#include <algorithm>
#include <array>
#include <memory>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/format.h>

#include "cli/terminal/option_values.h"
#include "cli/terminal/starter_file.h"
#include "cli/words/command_words.h"
#include "cli/words/words.h"
#include "planner/base/diagnostic.h"
#include "planner/files/file_notes.h"
#include "planner/tables/listing.h"
#include "planner/tables/version.h"

namespace cli::terminal {
namespace {

constexpr std::size_t kColumn = 26;  // where what an option does begins
constexpr std::size_t kWidth = 79;

// A command takes the options that change what it answers, and no others.
void add_job(CLI::App& app, RawOptions& raw) {
  app.add_option("JOB", raw.jobs)->expected(0, 1000);  // how many there may be is told in words
}

void add_text(CLI::App& app, const char* name, std::string& to, const char* value,
              const char* what) {
  app.add_option(name, to, what)->type_name(value);
}

void add_units(CLI::App& app, RawOptions& raw) {
  add_text(app, "--units", raw.units, "U", "print in inches or mm: in, mm");
}

void add_shop_options(CLI::App& app, RawOptions& raw) {
  add_text(app, "--shop", raw.shop, "FILE", "the shop file: clamps, glue, people");
  add_text(app, "--people", raw.people, "N", "how many glue up: 1 to 4");
  add_text(app, "--temperature", raw.temperature, "T", "of the shop: \"64 F\", \"18 C\"");
  add_text(app, "--humidity", raw.humidity, "H", "of the shop's air: \"40 %\"");
  add_text(app, "--glue", raw.glue, "NAME", "a glue of the shop file or the table");
  add_units(app, raw);
}

void add_json(CLI::App& app, RawOptions& raw) {
  app.add_option("--json", raw.json, "machine-readable, to FILE or stdout")
      ->type_name("[FILE]")
      ->expected(0, 1);
}

void add_plan_options(CLI::App& app, RawOptions& raw) {
  add_text(app, "--sheet", raw.sheet, "FILE", "the bench sheet: pictures and a clock, HTML");
  add_text(app, "--paper", raw.paper, "SIZE", "to print it on: a4 or letter");
  add_text(app, "--start", raw.start, "TIME", "open the glue then: 14:30, \"2027-03-06 9:00\"");
  add_text(app, "--calendar", raw.calendar, "FILE", "when to come back, with alarms: iCalendar");
  add_text(app, "--from-stage", raw.from_stage, "N", "those before are glued and dry: go on from here");
  app.add_flag("--details", raw.details, "all of it: timeline, pressure, what if");
}

void add_search_options(CLI::App& app, RawOptions& raw) {
  app.add_flag("--explain", raw.explain, "say why at every step and clamp");
  app.add_flag("--full", raw.full, "plan full pressure, not only what holds");
  add_text(app, "--stages", raw.stages, "N", "glue up in so many stages: 1 to 12");
  app.add_flag("--no-limit", raw.no_limit, "search on without the effort limit; Ctrl-C ends it");
  app.add_flag("--ascii", raw.ascii, "plain characters only");
}

void add_out(CLI::App& app, RawOptions& raw) {
  add_text(app, "-o,--out", raw.out, "FILE", "the file to write; standard output without");
}

void add_new_options(CLI::App& app, RawOptions& raw) {
  app.add_option("KIND", raw.kind);
  add_out(app, raw);
  add_text(app, "--size", raw.size, "SIZES", "its outside: \"14 x 9 x 8\"");
  add_text(app, "--species", raw.species, "WOOD", "the wood: glueup tables woods");
  add_text(app, "--glue", raw.glue, "NAME", "a glue of the shop file or the table");
  add_text(app, "--units", raw.units, "U", "of the file: in, mm");
  app.add_flag("--force", raw.force, "write over a file that is there");
}

void add_rehearse_options(CLI::App& app, RawOptions& raw) {
  app.add_flag("--live", raw.live, "with glue: the clock can't be stopped");
  add_text(app, "--log", raw.log, "FILE", "keep the times here, go on where it ends");
  app.add_flag("--learn", raw.learn, "from the log to the shop file's pace; asks first");
  add_text(app, "--speed", raw.speed, "X", "run the clock this much faster");
}

void add_check_options(CLI::App& app, RawOptions& raw) {
  app.add_flag("--expand", raw.expand, "print the job part by part, to change by hand");
  add_text(app, "--shop", raw.shop, "FILE", "the shop file, for the names of its glues");
  add_text(app, "--glue", raw.glue, "NAME", "a glue of the shop file or the table");
  add_units(app, raw);
}

void add_fit_options(CLI::App& app, RawOptions& raw) {
  add_text(app, "--openings", raw.openings, "LIST", "as measured: \"203.4, 203.1\"");
  add_text(app, "--diagonals", raw.diagonals, "LIST", "both: \"16 5/8, 16 11/16\"");
  add_units(app, raw);
}

void add_quiet(CLI::App& app, RawOptions& raw) {
  app.add_flag("--quiet", raw.quiet, "no warnings");
}

void add_color(CLI::App& app, RawOptions& raw) {
  add_text(app, "--color", raw.color, "WHEN", "auto, always or never");
}

void add_options(words::Command command, CLI::App& app, RawOptions& raw) {
  if (command == words::Command::create) {
    return add_new_options(app, raw);
  }
  if (command == words::Command::page) {
    return add_out(app, raw);
  }
  if (command == words::Command::tables) {
    app.add_option("TABLE", raw.table);
    add_json(app, raw);
    return add_color(app, raw);
  }
  add_job(app, raw);
  if (command == words::Command::check) {
    add_check_options(app, raw);
  } else if (command == words::Command::dry_fit) {
    add_fit_options(app, raw);
  } else {
    add_shop_options(app, raw);
  }
  if (command == words::Command::rehearse) {
    add_rehearse_options(app, raw);
    return add_quiet(app, raw);
  }
  if (command == words::Command::plan) {
    add_plan_options(app, raw);
  }
  if (command != words::Command::dry_fit) {
    add_json(app, raw);
  }
  if (command == words::Command::plan || command == words::Command::clamps) {
    add_search_options(app, raw);
  }
  add_quiet(app, raw);
  add_color(app, raw);
}

// The tables go on with the program, and can change without it.
std::string version_text() {
  std::string text = fmt::format("glueup {}\ntables: rows and CRC-32\n", GLUEUP_VERSION);
  for (const planner::tables::TableVersion& table : planner::tables::table_versions()) {
    text += fmt::format("  {:<16} {:>3}  {:08x}\n", table.name, table.rows, table.crc32);
  }
  return text;
}

// "box, panel ... or parts; or shop: clamps, glue, people", in lines that fit beside the column.
std::string kinds_text() {
  std::vector<std::string> jobs = starter_kinds();
  jobs.pop_back();  // the shop
  std::string text = planner::base::one_of(jobs) + "; or shop: clamps, glue, people";
  for (std::size_t start = 0; text.size() - start > kWidth - kColumn;) {
    const std::size_t end = text.rfind(' ', start + kWidth - kColumn);
    text.replace(end, 1, "\n" + std::string(kColumn, ' '));
    start = end + 1 + kColumn;
  }
  return text;
}

// Puts `by` in place of the first `piece` there is.
void replace_first(std::string& text, const std::string& piece, const std::string& by) {
  const std::size_t at = text.find(piece);
  if (at != std::string::npos) {
    text.replace(at, piece.size(), by);
  }
}

// CLI11's layout with our own usage lines.
class HelpPage : public CLI::Formatter {
 public:
  std::string make_usage(const CLI::App* app, std::string name) const override {
    if (app->get_parent() == nullptr) {
      return "Usage: " + name + " COMMAND ..., or " + name + " COMMAND --help\n";
    }
    const words::CommandWords& words = *words::find_command(app->get_name());
    if (*words.subject == '\0') {
      return fmt::format("Usage: glueup {} [options]\n", words.name);
    }
    const std::string reads =
        words.command == words::Command::create ? kinds_text() : words.reads;
    return fmt::format("Usage: glueup {} {} [options]\n  {:<{}}{}\n", words.name, words.subject,
                       words.subject, kColumn - 2, reads);
  }
  std::string make_positionals(const CLI::App*) const override { return ""; }
  std::string make_description(const CLI::App* app) const override {
    return words::as_sentence(app->get_description()) + "\n";
  }
  // Neither blank lines nor a heading in a command's page, as it has to fit a screen of 24 lines.
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override {
    std::string help = Formatter::make_help(app, std::move(name), mode);
    if (app->get_parent() != nullptr) {
      replace_first(help, "\n\nOptions:", "");
      replace_first(help, "\n\nExample: ", "\nExample: ");
      if (std::ranges::count(help, '\n') > 22) {
        replace_first(help, ".\nUsage: ", ". Usage: ");
      }
      if (std::ranges::count(help, '\n') > 22) {  // what JOB is, `glueup clamps --help` tells as well
        const std::size_t subject = help.find("\n  JOB ");
        help.erase(subject, help.find('\n', subject + 1) - subject);
      }
      if (std::ranges::count(help, '\n') > 22) {  // whoever reads it knows
        const std::size_t itself = help.find("\n  -h,--help");
        help.erase(itself, help.find('\n', itself + 1) - itself);
      }
    }
    return help;
  }
};

struct Parser {
  RawOptions raw;
  CLI::App app{"Plans woodworking glue-ups: order, clock, clamps and glue.", "glueup"};
  std::vector<CLI::App*> commands;  // as in command_words()

  Parser() {
    app.set_version_flag("--version", version_text(), "print the version, and those of the tables");
    app.set_help_flag("-h,--help", "print this help");
    app.footer(words::kProgramFooter);
    app.require_subcommand(0, 1);  // so that "tables clamps" is one command and its table
    const auto page = std::make_shared<HelpPage>();
    page->column_width(kColumn);
    app.formatter(page);  // the commands below inherit it
    for (const words::CommandWords& words : words::command_words()) {
      CLI::App* command = app.add_subcommand(words.name, words.what);
      command->group("Commands");
      add_options(words.command, *command, raw);
      command->footer(fmt::format("Example: {}\nExit status: {}", words.example, words.statuses));
      commands.push_back(command);
    }
  }
};

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known) {
  const std::string near = planner::base::nearest(word, known);
  return near.empty() ? "" : "; did you mean " + near + "?";
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const words::CommandWords& words : words::command_words()) {
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

// An option that this command lacks: one of another command, or one misspelt.
Mistake no_option(const std::string& name, const CLI::App& app, const Parser& parser) {
  std::vector<std::string> others;
  for (const CLI::App* command : parser.commands) {
    if (name.starts_with("--") && command->get_option_no_throw(name) != nullptr) {
      others.push_back(command->get_name());
    }
  }
  if (!others.empty() && app.get_parent() != nullptr) {
    return {fmt::format("{} takes no {}; {} {}", app.get_name(), name, words::list_text(others),
                        others.size() == 1 ? "does" : "do")};
  }
  return {fmt::format("no option {}{}", name, did_you_mean(name, long_options(app)))};
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
        return no_option(name, *app, parser);
      }
      continue;
    }
    if (!inside) {
      if (words::find_command(argument) == nullptr) {
        return Mistake{
            fmt::format("no command \"{}\"{}", argument, did_you_mean(argument, command_names()))};
      }
      app = parser.app.get_subcommand(argument);
      inside = true;
    }
  }
  return inside ? std::nullopt
                : std::optional<Mistake>(
                      Mistake{"say what to do: glueup new box to begin, glueup plan JOB"});
}

// `--json JOB` reads the job's name as the file to write: where no job is left, it was the job.
void settle_json(const Parser& parser, std::size_t command, const RawOptions& raw,
                 Options& options) {
  const CLI::Option* json = parser.commands[command]->get_option_no_throw("--json");
  if (json == nullptr || json->count() == 0) {
    return;
  }
  options.json = raw.json.empty() ? "-" : raw.json;
  std::string& word = options.command == words::Command::tables ? options.table : options.job;
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
    return Mistake{fmt::format("which {}?\n  {}", noun, planner::base::one_of(known))};
  }
  const std::string meant = did_you_mean(word, known);
  return Mistake{fmt::format("no {} \"{}\"{}", noun, word,
                             meant.empty() ? ": take " + planner::base::one_of(known) : meant)};
}

std::optional<Mistake> read_subject(const words::CommandWords& words, const Options& options) {
  if (options.command == words::Command::create) {
    return no_such("kind", options.kind, starter_kinds());
  }
  if (options.command == words::Command::tables) {
    return no_such("table", options.table, planner::tables::listing_names());
  }
  if (options.command == words::Command::page) {
    return std::nullopt;
  }
  const bool several = options.command == words::Command::clamps;
  if (options.jobs.size() > 1 && !several) {
    return Mistake{fmt::format("one at a time: \"{}\" is too many", options.jobs[1])};
  }
  if (options.jobs.size() > 1 && options.json) {
    return Mistake{fmt::format("--json takes one job; leave \"{}\" out", options.jobs[1])};
  }
  return options.job.empty()
             ? std::optional<Mistake>(Mistake{fmt::format("which job? glueup {} JOB", words.name)})
             : std::nullopt;
}

struct OldWord {
  const char *before, *now;
};
constexpr OldWord kOldCommand{"fit", "dry-fit"}, kOldFlag{"--prove", "--no-limit"};

// Puts the word of today in an old one's place, and tells of it.
void rename_old(std::string& word, const OldWord& old, std::string& notice) {
  if (word == old.before) {
    word = old.now;
    notice += fmt::format("glueup: {} is called {} now\n", old.before, old.now);
  }
}

// The command is the first word that is no option.
std::string rename_old_words(std::vector<std::string>& arguments) {
  std::string notice;
  bool inside = false;
  for (std::string& argument : arguments) {
    if (argument == "--") {
      break;
    }
    if (argument.starts_with('-')) {
      rename_old(argument, kOldFlag, notice);
    } else if (!inside) {
      rename_old(argument, kOldCommand, notice);
      inside = true;
    }
  }
  return notice;
}

// What is left once every word is known: one subject too many, or an option without its value.
Mistake worded(const CLI::ParseError& error, const Parser& parser) {
  const std::string text = error.what();
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
    const std::string name = text.substr(0, text.find(':'));
    const std::vector<CLI::App*> begun = parser.app.get_subcommands();
    const CLI::Option* option = begun.empty() ? nullptr : begun.front()->get_option_no_throw(name);
    const std::string value = option == nullptr ? "" : option->get_type_name();
    return {name + " needs a value" + (value.empty() ? "" : ": " + name + " " + value)};
  }
  const std::vector<std::string> extra = parser.app.remaining(true);
  return {extra.empty() ? text : fmt::format("one at a time: \"{}\" is too many", extra.front())};
}

CommandLine wrong(const Mistake& mistake, const std::string& command) {
  const std::string about = command.empty() ? "" : " " + command;
  return {
      std::nullopt, "",
      fmt::format("glueup: {}\n  glueup{} --help shows what there is\n", mistake.message, about),
      ""};
}

CommandLine options_of(Parser& parser) {
  std::size_t i = 0;
  while (i < words::command_words().size() && !parser.commands[i]->parsed()) {
    ++i;
  }
  const RawOptions& raw = parser.raw;
  Options options;
  options.command = words::command_words()[i].command;
  options.jobs = raw.jobs;
  options.job = raw.jobs.empty() ? "" : raw.jobs.front();
  options.table = raw.table;
  options.kind = raw.kind;
  settle_json(parser, i, raw, options);
  if (const auto mistake = read_values(raw, options)) {
    return wrong(*mistake, words::command_words()[i].name);
  }
  if (const auto mistake = read_subject(words::command_words()[i], options)) {
    return wrong(*mistake, words::command_words()[i].name);
  }
  return {options, "", "", ""};
}

// REQUIRES: no word is an old one.
CommandLine parse_words(const std::vector<std::string>& arguments) {
  Parser parser;
  const auto command = [&] {
    const std::vector<CLI::App*> begun = parser.app.get_subcommands();
    return begun.empty() ? std::string() : begun.front()->get_name();
  };
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());  // as CLI11 wants them
  try {
    parser.app.parse(reversed);
  } catch (const CLI::CallForVersion&) {
    return {std::nullopt, version_text(), "", ""};
  } catch (const CLI::Success&) {
    return {std::nullopt, help_text(command()), "", ""};
  } catch (const CLI::ParseError& error) {
    const auto mistake = unknown_word(arguments, parser);
    return wrong(mistake ? *mistake : worded(error, parser), command());
  }
  return command().empty() ? wrong(*unknown_word(arguments, parser), "") : options_of(parser);
}

}  // namespace

CommandLine parse_command_line(std::vector<std::string> arguments) {
  const std::string notice = rename_old_words(arguments);
  CommandLine line = parse_words(arguments);
  const bool quiet = line.options && line.options->quiet;
  line.notice = quiet ? "" : notice;
  return line;
}

std::string help_text(const std::string& command) {
  Parser parser;
  return command.empty() ? parser.app.help() : parser.app.get_subcommand(command)->help("glueup");
}

}  // namespace cli::terminal
