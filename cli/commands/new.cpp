#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/inputs.h"
#include "cli/file_text.h"
#include "cli/output.h"
#include "cli/questions.h"
#include "cli/schema_path.h"
#include "cli/sheet/page.h"
#include "cli/starter_file.h"
#include "cli/words.h"
#include "planner/job_file.h"
#include "planner/shop_file.h"
#include "planner/tables/clamp.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

namespace cli {
namespace {

using planner::Units;

std::string near_word(const std::string& word, const std::vector<std::string>& known,
                      const char* table) {
  const std::string meant = planner::nearest(word, known);
  return fmt::format("no \"{}\" in the table; {}", printable(word),
                     meant.empty() ? fmt::format("glueup tables {} lists them", table)
                                   : "did you mean " + meant + "?");
}

std::string wrong_wood(const std::string& word) {
  if (planner::find_wood(word) != nullptr) {
    return "";
  }
  std::vector<std::string> names = planner::wood_ids();
  for (const planner::Wood& wood : planner::woods()) {
    names.insert(names.end(), wood.also.begin(), wood.also.end());
  }
  return near_word(word, names, "woods");
}
std::string wrong_glue(const std::string& word) {
  return planner::find_glue_family(word) != nullptr ? ""
                                                    : near_word(word, planner::glue_ids(), "glues");
}
std::string wrong_units(const std::string& word) {
  return word == "in" || word == "mm" ? "" : "write in or mm";
}
std::string wrong_length(const std::string& word, Units units) {
  const auto read = planner::length_from(word, units);
  return read.value && read.value->nanometres() > 0 ? "" : "write a length: 14, 3/4 or 19 mm";
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

// Asks for what the command line leaves open. Nothing where the user gives up.
std::optional<StarterAnswers> ask_about(const StarterKind& kind, const Options& options) {
  StarterAnswers answers;
  if (options.units) {
    answers.units = *options.units;
  } else {
    const auto units = ask("Units of the file, in or mm", "mm", wrong_units);
    if (!units) {
      return std::nullopt;
    }
    answers.units = *units == "in" ? Units::inch : Units::mm;
  }
  const StarterAnswers usual = usual_answers(kind, answers.units);
  answers.size = options.size;
  for (std::size_t i = 0; options.size.empty() && i < kind.dimensions.size(); ++i) {
    const auto size = ask(capital(kind.dimensions[i]), usual.size[i], [&](const std::string& word) {
      return wrong_length(word, answers.units);
    });
    if (!size) {
      return std::nullopt;
    }
    answers.size.push_back(*size);
  }
  const auto species = options.species ? options.species : ask("Wood", usual.species, wrong_wood);
  const auto glue = !species       ? std::nullopt
                    : options.glue ? options.glue
                                   : ask("Glue", usual.glue, wrong_glue);
  if (!species || !glue) {
    return std::nullopt;
  }
  answers.species = *species;
  answers.glue = *glue;
  return answers;
}

StarterAnswers answers_of(const StarterKind& kind, const Options& options) {
  StarterAnswers answers = usual_answers(kind, options.units.value_or(Units::mm));
  answers.size = options.size.empty() ? answers.size : options.size;
  answers.species = options.species.value_or(answers.species);
  answers.glue = options.glue.value_or(answers.glue);
  return answers;
}

// What the options say that no file can be made of; empty where all is well.
std::string wrong_shop_options(const Options& options) {
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

std::string wrong_job_options(const StarterKind& kind, const Options& options) {
  if (!options.size.empty() && options.size.size() != kind.dimensions.size()) {
    return fmt::format("--size of a {} is its {}: {} lengths, not {}", kind.name,
                       list_text(kind.dimensions), kind.dimensions.size(), options.size.size());
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

std::optional<ShopAnswers> ask_about_shop(const Options& options) {
  ShopAnswers shop;
  std::optional<std::string> answer;
  const auto asked = [&](const std::string& question, const std::string& usual,
                         const Judge& wrong) {
    answer = ask(question, usual, wrong);
    return answer.has_value();
  };
  if (options.units) {
    shop.units = *options.units;
  } else if (asked("Units of the file, in or mm", "mm", wrong_units)) {
    shop.units = *answer == "in" ? Units::inch : Units::mm;
  } else {
    return std::nullopt;
  }
  const ShopAnswers usual = usual_shop(shop.units);
  if (!asked("How many people glue up", usual.people, wrong_people)) {
    return std::nullopt;
  }
  shop.people = *answer;
  if (!asked("Temperature of the shop", usual.temperature, [](const std::string& word) {
        return planner::celsius_from(word).value ? "" : "write 68 F or 20 C";
      })) {
    return std::nullopt;
  }
  shop.temperature = *answer;
  Page kinds(false);
  kinds.line("Clamps, a kind and size at a time; an empty line when there are no more.");
  kinds.item("  kinds:", list_text(planner::clamp_ids()));
  complain(kinds.text());
  for (;;) {
    if (!asked("Kind of clamp", "", [](const std::string& word) {
          return word.empty() || planner::find_clamp_kind(word) != nullptr
                     ? std::string()
                     : near_word(word, planner::clamp_ids(), "clamps");
        })) {
      return std::nullopt;
    }
    if (answer->empty()) {
      break;
    }
    const planner::ClampKind& kind = *planner::find_clamp_kind(*answer);
    ShopAnswers::Clamp clamp{kind.id, "", ""};
    if (!asked("How many", "4", wrong_count)) {
      return std::nullopt;
    }
    clamp.count = *answer;
    if (kind.openings_mm.size() != 1) {
      if (!asked("How far they open", shop.units == Units::inch ? "24" : "600",
                 [&](const std::string& word) { return wrong_length(word, shop.units); })) {
        return std::nullopt;
      }
      clamp.opening = *answer;
    }
    shop.clamps.push_back(clamp);
  }
  if (!asked("Glue in the bottle", usual.glue, wrong_glue)) {
    return std::nullopt;
  }
  shop.glue = *answer;
  if (!asked("How much is left", usual.left, [](const std::string& word) {
        return planner::millilitres_from(word).value ? "" : "write 500 ml or 16 fl oz";
      })) {
    return std::nullopt;
  }
  shop.left = *answer;
  return shop;
}

// The text as a file's, read as any other: what we write must be planned.
planner::Diagnostics mistakes_in(const std::string& kind, const std::string& text) {
  return kind == "shop" ? planner::read_shop("the shop file", text).diagnostics
                        : planner::read_job("the job file", text).diagnostics;
}

ExitStatus give_up() {
  complain("glueup: given up, nothing written\n");
  return ExitStatus::bad_input;
}

bool taken(const std::string& path, const Options& options) {
  std::error_code error;
  return !options.force && path != "-" && std::filesystem::exists(path, error);
}

ExitStatus put_file(const std::string& path, const std::string& text, bool shop) {
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  if (shop && path == usual_shop_file()) {
    std::filesystem::create_directories(folder, error);  // elsewhere a missing one is misspelt
  }
  if (const std::string wrong = write_file(path, text); !wrong.empty()) {
    complain("glueup: " + wrong + "\n");
    return ExitStatus::bad_input;
  }
  complain(shop && path == usual_shop_file() ? fmt::format("{} written\n", path)
           : shop ? fmt::format("{} written; glueup plan JOB --shop {}\n", path, path)
                  : fmt::format("{} written; glueup plan {}\n", path, path));
  return ExitStatus::works;
}

// The line by which an editor completes the keys and marks what is wrong; none where no schema
// lies.
std::string schema_line(const std::string& kind) {
  const auto path = schema_path(kind == "shop" ? "shop.schema.json" : "job.schema.json");
  return path ? "#:schema " + *path + "\n" : "";
}

std::optional<std::string> text_for(const Options& options, bool asking) {
  std::string text = schema_line(options.kind);
  if (options.kind == "shop") {
    const auto shop = asking ? ask_about_shop(options)
                             : std::optional(usual_shop(options.units.value_or(Units::mm)));
    return shop ? std::optional(text + shop_starter_file(*shop)) : std::nullopt;
  }
  const StarterKind& kind = starter_kind(options.kind);
  const auto answers = asking ? ask_about(kind, options) : std::optional(answers_of(kind, options));
  return answers ? std::optional(text + starter_file(kind, *answers)) : std::nullopt;
}

}  // namespace

ExitStatus run_new(const Options& options) {
  const std::string wrong_use = options.kind == "shop"
                                    ? wrong_shop_options(options)
                                    : wrong_job_options(starter_kind(options.kind), options);
  if (!wrong_use.empty()) {
    complain("glueup: " + wrong_use + "\n");
    return ExitStatus::bad_input;
  }
  if (options.out && taken(*options.out, options)) {  // before anything is asked
    complain(
        fmt::format("glueup: {} is there already; write over it with --force, or give another "
                    "name with -o\n",
                    *options.out));
    return ExitStatus::bad_input;
  }
  // Whoever gives the size knows what is wanted; whoever redirects the output isn't there to ask.
  const bool asking = options.size.empty() && can_ask() && (options.out || output_is_terminal());
  const auto text = text_for(options, asking);
  if (!text) {
    return give_up();
  }
  const planner::Diagnostics wrong = mistakes_in(options.kind, *text);
  if (planner::has_errors(wrong)) {
    complain("glueup: nothing written, since these sizes can't be made:\n");
    for (const planner::Diagnostic& diagnostic : wrong) {
      complain("  " +
               printable(diagnostic.message + (diagnostic.remedy.empty() ? "" : ": ") +
                         diagnostic.remedy) +
               "\n");
    }
    return ExitStatus::bad_input;
  }
  if (!options.out && !asking) {
    return print(*text) ? ExitStatus::works : ExitStatus::bad_input;
  }
  std::optional<std::string> path = options.out;
  if (!path) {
    const std::string usual =
        options.kind == "shop" ? usual_shop_file().value_or("shop.toml") : options.kind + ".toml";
    path = ask("Write it to", usual, [&](const std::string& name) {
      return taken(name, options) ? name + " is there already; give another name" : "";
    });
  }
  return !path          ? give_up()
         : *path == "-" ? (print(*text) ? ExitStatus::works : ExitStatus::bad_input)
                        : put_file(*path, *text, options.kind == "shop");
}

}  // namespace cli
