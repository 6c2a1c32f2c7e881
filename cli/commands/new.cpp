#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/inputs.h"
#include "cli/terminal/file_text.h"
#include "cli/terminal/output.h"
#include "cli/terminal/questions.h"
#include "cli/terminal/starter_file.h"
#include "cli/text/page.h"
#include "cli/words/words.h"
#include "planner/base/spelling.h"
#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/tables/clamp.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

namespace cli::commands {
namespace {

using planner::base::Units;

std::string near_word(const std::string& word, const std::vector<std::string>& known,
                      const char* table) {
  const std::string meant = planner::base::nearest(word, known);
  return fmt::format("no \"{}\" in the table; {}", words::printable(word),
                     meant.empty() ? fmt::format("glueup tables {} lists them", table)
                                   : "did you mean " + meant + "?");
}

std::string wrong_wood(const std::string& word) {
  if (planner::tables::find_wood(word) != nullptr) {
    return "";
  }
  std::vector<std::string> names = planner::tables::wood_ids();
  for (const planner::tables::Wood& wood : planner::tables::woods()) {
    names.insert(names.end(), wood.also.begin(), wood.also.end());
  }
  return near_word(word, names, "woods");
}
std::string wrong_glue(const std::string& word) {
  return planner::tables::find_glue_family(word) != nullptr
             ? ""
             : near_word(word, planner::tables::glue_ids(), "glues");
}
std::optional<Units> units_of(std::string word) {
  for (char& c : word) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  const bool inches = word == "in" || word == "inch" || word == "inches";
  const bool metric = word == "mm" || word.starts_with("millimet") || word == "metric";
  return inches ? std::optional(Units::inch) : metric ? std::optional(Units::mm) : std::nullopt;
}
std::string wrong_units(const std::string& word) {
  return units_of(word) ? "" : "write in or mm";
}
std::string wrong_length(const std::string& word, Units units) {
  const auto read = planner::base::length_from(word, units);
  return read.value && read.value->nanometres() > 0
             ? ""
             : fmt::format("write a length: {}", units == Units::inch ? "14, 3/4 or 23 13/16"
                                                                      : "360, 19 or 60.5 cm");
}
std::string wrong_choice(const std::string& word, const std::vector<std::string>& choice) {
  return std::find(choice.begin(), choice.end(), word) != choice.end()
             ? ""
             : "write " + planner::base::one_of(choice);
}
// A bare number is in the file's own degrees.
std::string with_degrees(const std::string& word, Units units) {
  const bool bare = !word.empty() && word.find_first_not_of("0123456789.-") == std::string::npos;
  return bare ? word + (units == Units::inch ? " F" : " C") : word;
}
std::string wrong_count(const std::string& word) {
  const bool digits = !word.empty() && word.size() <= 2 &&
                      word.find_first_not_of("0123456789") == std::string::npos;
  return digits && word != "0" && word != "00" ? "" : "write a number from 1 to 99";
}
std::string wrong_people(const std::string& word) {
  return word.size() == 1 && word >= "1" && word <= "4" ? "" : "write a number from 1 to 4";
}
std::string capital(std::string word) {
  word.front() = static_cast<char>(word.front() - 'a' + 'A');
  return word;
}

// Asks one thing after another; once the user gives up, no more is asked and every answer is empty.
class Interview {
 public:
  std::string ask(const std::string& question, const std::string& usual,
                  const terminal::Judge& wrong) {
    const auto answer = given_up_ ? std::nullopt : terminal::ask(question, usual, wrong);
    given_up_ = !answer;
    return answer.value_or("");
  }
  bool given_up() const { return given_up_; }

 private:
  bool given_up_ = false;
};

Units ask_units(Interview& interview, const terminal::Options& options) {
  return options.units ? *options.units
         : units_of(interview.ask("Units of the file, in or mm", "mm", wrong_units)).value_or(Units::mm);
}

// "Corners (butt, rabbet, miter, finger or dovetail)", "Stock, thickness of the walls"
std::string ask_one(Interview& interview, const terminal::StarterKind::Question& question,
                    Units units) {
  const std::string name = capital(question.key);
  const std::string& usual = units == Units::inch ? question.usual_in : question.usual_mm;
  if (question.choice.empty()) {
    return interview.ask(question.about.empty() ? name : name + ", " + question.about, usual,
                         [&](const std::string& word) { return wrong_length(word, units); });
  }
  return interview.ask(
      fmt::format("{} ({})", name, planner::base::one_of(question.choice)), usual,
      [&](const std::string& word) { return wrong_choice(word, question.choice); });
}

// Asks for what the command line leaves open. Nothing where the user gives up.
std::optional<terminal::StarterAnswers> ask_about(const terminal::StarterKind& kind,
                                                  const terminal::Options& options) {
  Interview interview;
  const Units units = ask_units(interview, options);
  terminal::StarterAnswers answers = terminal::usual_answers(kind, units);
  for (std::size_t i = 0; i < answers.size.size(); ++i) {
    answers.size[i] =
        !options.size.empty()
            ? options.size[i]
            : interview.ask(capital(kind.dimensions[i]), answers.size[i],
                            [&](const std::string& word) { return wrong_length(word, units); });
  }
  for (const terminal::StarterKind::Question& question : kind.questions) {
    answers.values[question.key] = ask_one(interview, question, units);
  }
  answers.species =
      options.species ? *options.species : interview.ask("Wood", answers.species, wrong_wood);
  answers.glue = options.glue ? *options.glue : interview.ask("Glue", answers.glue, wrong_glue);
  return interview.given_up() ? std::nullopt : std::optional(answers);
}

terminal::StarterAnswers answers_of(const terminal::StarterKind& kind,
                                    const terminal::Options& options) {
  terminal::StarterAnswers answers =
      terminal::usual_answers(kind, options.units.value_or(Units::mm));
  answers.size = options.size.empty() ? answers.size : options.size;
  answers.species = options.species.value_or(answers.species);
  answers.glue = options.glue.value_or(answers.glue);
  return answers;
}

// What the options say that no file can be made of; empty where all is well.
std::string wrong_shop_options(const terminal::Options& options) {
  const char* idle = !options.size.empty() ? "--size"
                     : options.species     ? "--species"
                     : options.glue        ? "--glue"
                                           : nullptr;
  return idle == nullptr ? ""
                         : fmt::format(
                               "{} is of a job; glueup new shop takes --units, -o and "
                               "--force, and asks for the rest on a terminal",
                               idle);
}

std::string wrong_job_options(const terminal::StarterKind& kind, const terminal::Options& options) {
  if (!options.size.empty() && options.size.size() != kind.dimensions.size()) {
    return fmt::format("--size of a {} is its {}: {} lengths, not {}", kind.name,
                       words::list_text(kind.dimensions), kind.dimensions.size(),
                       options.size.size());
  }
  if (options.species && !wrong_wood(*options.species).empty()) {
    return "--species: " + wrong_wood(*options.species);
  }
  // A glue that the table lacks may be a bottle in the shop file: only what can't be quoted is
  // wrong.
  if (options.glue && options.glue->find_first_of("\"\\\n") != std::string::npos) {
    return "--glue takes a name without quotes";
  }
  return "";
}

// One kind and size, `offered` where Enter is pressed; nothing after the last.
std::optional<terminal::ShopAnswers::Clamp> ask_about_clamp(
    Interview& interview, const terminal::ShopAnswers::Clamp& offered, Units units) {
  const std::string word = interview.ask("Kind of clamp", offered.kind, [](const std::string& kind) {
    return kind.empty() || kind == "none" || planner::tables::find_clamp_kind(kind) != nullptr
               ? std::string()
               : near_word(kind, planner::tables::clamp_ids(), "clamps");
  });
  if (word.empty() || word == "none") {
    return std::nullopt;
  }
  const planner::tables::ClampKind& kind = *planner::tables::find_clamp_kind(word);
  terminal::ShopAnswers::Clamp clamp{kind.id, "", ""};
  clamp.count = interview.ask("How many", offered.count, wrong_count);
  if (kind.openings_mm.size() != 1) {
    clamp.opening =
        interview.ask("How far they open", offered.opening,
                      [&](const std::string& length) { return wrong_length(length, units); });
  }
  return clamp;
}

// Nothing where the user gives up.
std::optional<terminal::ShopAnswers> ask_about_shop(const terminal::Options& options) {
  Interview interview;
  terminal::ShopAnswers shop;
  shop.units = ask_units(interview, options);
  const terminal::ShopAnswers usual = terminal::usual_shop(shop.units);
  shop.people = interview.ask("How many people glue up", usual.people, wrong_people);
  const char* example = shop.units == Units::inch ? "write 68 F" : "write 20 C";
  shop.temperature = with_degrees(
      interview.ask("Temperature of the shop", usual.temperature,
                    [&](const std::string& word) {
                      const auto read = planner::base::celsius_from(with_degrees(word, shop.units));
                      return read.value ? "" : example;
                    }),
      shop.units);
  if (interview.given_up()) {
    return std::nullopt;
  }
  text::Page kinds(false);
  kinds.line("Clamps, a kind and size at a time; none when there are no more.");
  kinds.item("  kinds:", words::list_text(planner::tables::clamp_ids()));
  terminal::complain(kinds.text());
  // A usual rack is offered to who takes it clamp by clamp; whoever lists his own is offered no more.
  bool usual_rack = true;
  const std::string opening = shop.units == Units::inch ? "24" : "600";
  for (std::size_t i = 0;; ++i) {
    const terminal::ShopAnswers::Clamp offered = usual_rack && i < usual.clamps.size()
                                                     ? usual.clamps[i]
                                                     : terminal::ShopAnswers::Clamp{"", "4", opening};
    const auto clamp = ask_about_clamp(interview, offered, shop.units);
    if (!clamp) {
      break;
    }
    usual_rack = usual_rack && clamp->kind == offered.kind;
    shop.clamps.push_back(*clamp);
  }
  shop.glue = interview.ask("Glue in the bottle", usual.glue, wrong_glue);
  const char* much = shop.units == Units::inch ? "write 16 fl oz" : "write 500 ml";
  shop.left = interview.ask("How much is left", usual.left, [&](const std::string& word) {
    return planner::base::millilitres_from(word).value ? "" : much;
  });
  return interview.given_up() ? std::nullopt : std::optional(shop);
}

// The text as a file's, read as any other: what we write must be planned.
planner::base::Diagnostics mistakes_in(const std::string& kind, const std::string& text) {
  return kind == "shop" ? planner::files::read_shop("the shop file", text).diagnostics
                        : planner::files::read_job("the job file", text).diagnostics;
}

terminal::ExitStatus give_up() {
  terminal::complain("glueup: given up, nothing written\n");
  return terminal::ExitStatus::bad_input;
}

bool taken(const std::string& path, const terminal::Options& options) {
  std::error_code error;
  return !options.force && path != "-" && std::filesystem::exists(path, error);
}

// Whether a plan finds a shop file by itself.
bool shop_is_known() {
  std::error_code error;
  const auto usual = usual_shop_file();
  return std::getenv("GLUEUP_SHOP") != nullptr ||
         (usual && std::filesystem::exists(*usual, error));
}

terminal::ExitStatus put_file(const std::string& path, const std::string& text, bool shop) {
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  if (shop && path == usual_shop_file()) {
    std::filesystem::create_directories(folder, error);  // elsewhere a missing one is misspelt
  }
  if (const std::string wrong = terminal::write_file(path, text); !wrong.empty()) {
    terminal::complain("glueup: " + wrong + "\n");
    return terminal::ExitStatus::bad_input;
  }
  terminal::complain(shop && path == usual_shop_file() ? fmt::format("{} written\n", path)
                     : shop ? fmt::format("{} written; glueup plan JOB --shop {}\n", path, path)
                            : fmt::format("{} written; glueup plan {}{}\n", path, path,
                                   shop_is_known() ? "" : "; glueup new shop for your clamps"));
  return terminal::ExitStatus::works;
}

// The line by which an editor completes the keys and marks what is wrong, where the schema lies beside the
// file: a path of this machine would be wrong on the next.
std::string schema_line(const std::string& kind, const std::string& path) {
  const std::string name = kind == "shop" ? "shop.schema.json" : "job.schema.json";
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  return std::filesystem::is_regular_file(folder / name, error) ? "#:schema ./" + name + "\n" : "";
}

std::optional<std::string> text_for(const terminal::Options& options, bool asking) {
  if (options.kind == "shop") {
    const auto shop = asking
                          ? ask_about_shop(options)
                          : std::optional(terminal::usual_shop(options.units.value_or(Units::mm)));
    return shop ? std::optional(terminal::shop_starter_file(*shop)) : std::nullopt;
  }
  const terminal::StarterKind kind = terminal::starter_kind(options.kind);
  const auto answers = asking ? ask_about(kind, options) : std::optional(answers_of(kind, options));
  return answers ? std::optional(terminal::starter_file(kind, *answers)) : std::nullopt;
}

}  // namespace

terminal::ExitStatus run_new(const terminal::Options& options) {
  const std::string wrong_use =
      options.kind == "shop" ? wrong_shop_options(options)
                             : wrong_job_options(terminal::starter_kind(options.kind), options);
  if (!wrong_use.empty()) {
    terminal::complain("glueup: " + wrong_use + "\n");
    return terminal::ExitStatus::bad_input;
  }
  if (options.out && taken(*options.out, options)) {  // before anything is asked
    terminal::complain(
        fmt::format("glueup: {} is there already; write over it with --force, or give another "
                    "name with -o\n",
                    *options.out));
    return terminal::ExitStatus::bad_input;
  }
  // Whoever gives the size knows what is wanted; whoever redirects the output isn't there to ask.
  const bool asking = options.size.empty() && terminal::can_ask() &&
                      (options.out || terminal::output_is_terminal());
  const auto text = text_for(options, asking);
  if (!text) {
    return give_up();
  }
  const planner::base::Diagnostics wrong = mistakes_in(options.kind, *text);
  if (planner::base::has_errors(wrong)) {
    terminal::complain("glueup: nothing written, since these sizes can't be made:\n");
    for (const planner::base::Diagnostic& diagnostic : wrong) {
      terminal::complain("  " +
                         words::printable(diagnostic.message +
                                          (diagnostic.remedy.empty() ? "" : ": ") +
                                          diagnostic.remedy) +
                         "\n");
    }
    return terminal::ExitStatus::bad_input;
  }
  if (!options.out && !asking) {
    return terminal::print(*text) ? terminal::ExitStatus::works : terminal::ExitStatus::bad_input;
  }
  std::optional<std::string> path = options.out;
  if (!path) {
    const std::string usual =
        options.kind == "shop" ? usual_shop_file().value_or("shop.toml") : options.kind + ".toml";
    path = terminal::ask("Write it to", usual, [&](const std::string& name) {
      return taken(name, options) ? name + " is there already; give another name" : "";
    });
  }
  return !path          ? give_up()
         : *path == "-" ? (terminal::print(*text) ? terminal::ExitStatus::works
                                                  : terminal::ExitStatus::bad_input)
                        : put_file(*path, schema_line(options.kind, *path) + *text,
                                   options.kind == "shop");
}

}  // namespace cli::commands
