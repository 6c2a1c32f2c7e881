#include "cli/terminal/starter_file.h"

#include <algorithm>

#include <fmt/format.h>

#include "planner/base/spelling.h"
#include "planner/files/starter/starter.h"

namespace cli::terminal {
namespace {

using planner::base::Units;
using planner::files::starter::Holds;
using planner::files::starter::kStarters;
using planner::files::starter::Starter;
using planner::files::starter::StarterKey;
using planner::files::starter::StarterWord;

constexpr std::size_t kNoteColumn = 28;  // of comments behind values
constexpr std::size_t kNoteWidth = 79;

// The one kind that no starter stands for: its sizes, its wood, and a size of the example's cut.
constexpr const char* kParts =
    R"(species = {3}               # where a part names none; `glueup tables woods`

# A part a table. Joints are found, because parts touch.
[[part]]
name      = "front board"
length    = {0}             # along the grain
width     = {1}
thickness = {2}
along = "x"                 # its length runs along: x right, y back, z up
face  = "z"                 # its thickness runs along
at    = [0, 0, 0]           # its lowest corner

[[part]]
name      = "back board"
length    = {0}
width     = {1}
thickness = {2}
along = "x"
face  = "z"
at    = [0, {1}, 0]         # touches the first along its edge

# [[part.cut]]              # of the part above: rabbet, groove, dado ...
# kind  = "groove"
# on    = "-y"              # into this face
# runs  = "x"
# offset = {4}             # from the low side
# width = {4}
# depth = {4}
)";
StarterKind parts_kind() {
  return {"parts",
          "Two boards on edge",
          {"length", "width", "thickness"},
          {"24", "5", "3/4"},
          {"600", "120", "19"},
          "red_oak"};
}

// Null where the kind is none of a starter.
const Starter* starter_of(const std::string& kind) {
  const auto found = std::find_if(kStarters.begin(), kStarters.end(),
                                  [&](const Starter* starter) { return starter->name == kind; });
  return found == kStarters.end() ? nullptr : *found;
}

// The keys that a new file has: choices and thicknesses. The whole's sizes and its wood are asked anyway.
std::vector<StarterKind::Question> questions_of(const Starter& starter) {
  std::vector<StarterKind::Question> questions;
  for (const StarterKey& key : starter.keys) {
    const bool of_size = std::any_of(starter.dimensions.begin(), starter.dimensions.end(),
                                     [&](const auto& size) { return size.name == key.name; });
    const bool asked = key.holds == Holds::word || key.holds == Holds::length;
    if (!asked || of_size || key.sample.as_comment || key.sample.inches.empty()) {
      continue;
    }
    const std::string inches(key.sample.inches), mm(key.sample.mm);
    questions.push_back({std::string(key.name), std::string(key.help),
                         key.holds == Holds::word ? words_of(key) : std::vector<std::string>(),
                         inches, mm.empty() ? inches : mm});
  }
  return questions;
}

StarterKind kind_of(const Starter& starter) {
  StarterKind kind{std::string(starter.name), std::string(starter.title), {}, {}, {},
                   std::string(starter.wood), questions_of(starter)};
  for (const planner::files::starter::Dimension& dimension : starter.dimensions) {
    kind.dimensions.emplace_back(dimension.name);
    kind.size_in.emplace_back(dimension.inches);
    kind.size_mm.emplace_back(dimension.mm);
  }
  return kind;
}

// A number stays a number; anything else is quoted.
std::string value_text(const std::string& text) {
  const bool bare = !text.empty() && text.find_first_not_of("0123456789.") == std::string::npos &&
                    std::count(text.begin(), text.end(), '.') <= 1 && text.front() != '.' &&
                    text.back() != '.' &&
                    (text.size() == 1 || text.front() != '0' || text[1] == '.');
  std::string quoted;
  for (const char c : text) {
    quoted += c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c);
  }
  return bare ? text : "\"" + quoted + "\"";
}

std::string parts_text(const StarterAnswers& answers) {
  return fmt::format(kParts, value_text(answers.size[0]), value_text(answers.size[1]),
                     value_text(answers.size[2]), value_text(answers.species),
                     answers.units == Units::inch ? "\"1/4\"" : "6");
}

// "butt, rabbet (in front and back), miter or finger"; without meanings where the line has no room.
std::string words_comment(const StarterKey& key, std::size_t room) {
  std::vector<std::string> told;
  for (const StarterWord& w : key.words) {
    if (!w.word.empty()) {
      told.push_back(w.meaning.empty() ? std::string(w.word)
                                       : fmt::format("{} ({})", w.word, w.meaning));
    }
  }
  const std::string text = planner::base::one_of(told);
  return text.size() <= room ? text : planner::base::one_of(words_of(key));
}

// What a key is, behind its value; of one that is only suggested, also what stands where it is left
// out, as far as there is room.
std::string comment_of(const Starter& starter, const StarterKey& key, std::size_t room) {
  if (key.name == "species") {
    return "`glueup tables woods` lists them";
  }
  if (key.holds == Holds::outside) {
    return fmt::format("{}", fmt::join(kind_of(starter).dimensions, ", "));
  }
  if (key.holds == Holds::word) {
    return words_comment(key, room);
  }
  if (key.holds == Holds::length && key.sample.as_comment) {
    const std::string usual = fmt::format("{} where left out", key.usual);
    const std::string both = key.help.empty() ? usual : fmt::format("{}; {}", key.help, usual);
    return both.size() <= room ? both : usual;
  }
  return std::string(key.help);
}

// The key's value in a new file; empty where it has none of it.
std::string value_of(const Starter& starter, const StarterKey& key, const StarterAnswers& answers) {
  if (key.name == "species") {
    return value_text(answers.species);
  }
  std::vector<std::string> sizes;
  for (const std::string& size : answers.size) {
    sizes.push_back(value_text(size));
  }
  if (key.holds == Holds::outside) {
    return fmt::format("[{}]", fmt::join(sizes, ", "));
  }
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (starter.dimensions[i].name == key.name) {
      return sizes[i];
    }
  }
  if (const auto answer = answers.values.find(std::string(key.name));
      answer != answers.values.end()) {
    return value_text(answer->second);
  }
  const bool inches = answers.units == Units::inch || key.sample.mm.empty();
  const std::string text(inches ? key.sample.inches : key.sample.mm);
  return text.empty() || key.holds == Holds::truth ? text : value_text(text);
}

// The starter's table: what is written, then what is only suggested.
std::string table_text(const Starter& starter, const StarterAnswers& answers) {
  constexpr std::size_t kLongName = 9;  // longer ones don't move the others' values
  struct Line {
    std::string name, value, comment;
  };
  std::vector<Line> lines;
  std::size_t widest = 0;
  for (const StarterKey& key : starter.keys) {
    const std::string value = value_of(starter, key, answers);
    if (value.empty()) {
      continue;
    }
    const std::string name = (key.sample.as_comment ? "# " : "") + std::string(key.name);
    const bool aligned = !key.sample.as_comment && name.size() <= kLongName;
    widest = aligned ? std::max(widest, name.size()) : widest;
    const std::size_t column = std::max(kNoteColumn, name.size() + value.size() + 4);
    lines.push_back({name, value, comment_of(starter, key, kNoteWidth - column - 2)});
  }
  std::string text = fmt::format("[{}]\n", starter.name), before;
  for (const Line& line : lines) {
    // A comment that the line has no room for stands above it.
    if (std::max(kNoteColumn, line.name.size() + line.value.size() + 4) + 2 + line.comment.size() > kNoteWidth) {
      text += fmt::format("# {}\n{:<{}} = {}\n", line.comment, line.name, widest, line.value);
      continue;
    }
    text += fmt::format("{:<{}} = {}", line.name, widest, line.value);
    text += line.comment.empty() || line.comment == before ? "" : " # " + line.comment;
    text += "\n";
    before = line.comment;
  }
  return text;
}

// Comments behind values in one column, where the values leave room.
std::string comments_aligned(const std::string& text) {
  std::string out;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find('\n', from);
    std::string line = text.substr(from, end - from);
    from = end + 1;
    const std::size_t mark = line.starts_with("#") ? line.find(" # ") : line.find(" #");
    if (mark != std::string::npos) {
      const std::string comment = line.substr(mark + 1);
      line.erase(line.find_last_not_of(' ', mark) + 1);
      line.resize(std::max(line.size() + 1, kNoteColumn), ' ');
      line += comment;
    }
    out += line + "\n";
  }
  return out;
}

const char* units_word(Units units) {
  return units == Units::inch ? "in" : "mm";
}

}  // namespace

const std::vector<std::string>& starter_kinds() {
  static const std::vector<std::string> kNames = [] {
    std::vector<std::string> names;
    for (const Starter* starter : kStarters) {
      names.emplace_back(starter->name);
    }
    names.insert(names.end(), {"parts", "shop"});
    return names;
  }();
  return kNames;
}

StarterKind starter_kind(const std::string& kind) {
  const Starter* starter = starter_of(kind);
  return starter == nullptr ? parts_kind() : kind_of(*starter);
}

StarterAnswers usual_answers(const StarterKind& kind, Units units) {
  return {units, units == Units::inch ? kind.size_in : kind.size_mm, kind.species, "pva_type2"};
}

std::string starter_file(const StarterKind& kind, const StarterAnswers& answers) {
  const std::string head = fmt::format(
      "# What is being glued. `glueup check FILE` says what was understood of it,\n"
      "# `glueup plan FILE` plans it. A length is a number in `units`, or quoted:\n"
      "# {}.\n"
      "title = \"{}\"\nunits = \"{}\" # of bare numbers: in or mm\n",
      answers.units == Units::inch ? "\"3/4\", \"23 13/16 in\"" : "\"19 mm\", \"60.5 cm\"",
      kind.title, units_word(answers.units));
  const std::string tail = fmt::format(
      "\n[glue]\nuse = \"{}\" # `glueup tables glues`, or a name in the shop file\n"
      "\n# What was measured at the dry fit goes here; `glueup dry-fit FILE` says what.\n",
      answers.glue);
  // Parts name their wood before the first table.
  const Starter* starter = starter_of(kind.name);
  const std::string body =
      starter == nullptr ? parts_text(answers) : "\n" + table_text(*starter, answers);
  return comments_aligned(head + body + tail);
}

ShopAnswers usual_shop(Units units) {
  const bool inches = units == Units::inch;
  ShopAnswers shop;
  shop.units = units;
  shop.temperature = inches ? "68 F" : "20 C";
  shop.clamps = {{"f_heavy", "6", inches ? "24" : "600"},
                 {"parallel", "4", inches ? "24" : "600"},
                 {"pipe_3_4", "4", inches ? "48" : "1200"}};
  shop.glue = "pva_type2";
  shop.left = inches ? "16 fl oz" : "500 ml";
  return shop;
}

std::string shop_starter_file(const ShopAnswers& answers) {
  std::string text = fmt::format(
      "# What the shop has, once for all jobs. `glueup plan JOB --shop FILE` uses it;\n"
      "# as ~/.config/glueup/shop.toml it is found without --shop.\n"
      "units = \"{}\" # of bare numbers: in or mm\n"
      "people = {} # who glue up\n"
      "temperature = \"{}\" # of the shop, the wood and the glue\n",
      units_word(answers.units), answers.people, answers.temperature);
  for (const ShopAnswers::Clamp& clamp : answers.clamps) {
    text += fmt::format(
        "\n[[clamp]]\nkind = \"{}\" # `glueup tables clamps` lists the kinds\ncount = {}\n",
        clamp.kind, clamp.count);
    text += clamp.opening.empty() ? "" : fmt::format("opening = {}\n", value_text(clamp.opening));
  }
  text +=
      fmt::format("\n[[glue]]\nname = \"shop bottle\"\nfamily = \"{}\" # `glueup tables glues`\n",
                  answers.glue);
  text += answers.left.empty() ? "" : fmt::format("left = \"{}\"\n", answers.left);
  text +=
      "# open = \"6 min\" # the label wins over the table; so total, clamp\n"
      "\n# How fast these people work; `glueup rehearse JOB --learn` fills it in.\n"
      "# [pace]\n# join = \"25 s\"\n";
  return comments_aligned(text);
}

}  // namespace cli::terminal
