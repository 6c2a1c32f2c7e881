#include "cli/terminal/starter_file.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "planner/base/spelling.h"

namespace cli::terminal {
namespace {

using planner::base::Units;

// `{0}` ... are the sizes, `{wood}` the species; `in|mm` picks one by the file's units.
struct Body {
  StarterKind kind;
  const char* title;
  const char* text;
};

const std::array<Body, 8>& bodies() {
  static const std::array<Body, 8> kBodies = {{
      {{"box",
        {"length", "width", "height"},
        {"14", "9", "8"},
        {"360", "230", "200"},
        "black_cherry"},
       "Box",
       R"([box]
outside = [{0}, {1}, {2}]   # length, width, height
stock   = {"3/4"|19}        # thickness of the walls
corners = "rabbet"          # butt, rabbet, mitre or finger
top     = "rabbet"          # none, butt, rabbet, inset or groove
bottom  = "rabbet"
species = "{wood}"          # `glueup tables woods` lists them
# rabbet_depth = {"3/8"|9.5} # of the corners: half the stock where left out
# top_thickness = {"1/2"|12} # the stock where left out; so bottom_thickness
# top_fit = "float"         # in a groove: float or glue
)"},
      {{"panel",
        {"length", "width", "thickness"},
        {"36", "20", "1"},
        {"900", "500", "25"},
        "hard_maple"},
       "Panel",
       R"([panel]
length    = {0}
width     = {1}             # of the whole panel
thickness = {2}
boards    = 5               # how many alike; or widths: [90, 85, 90]
species   = "{wood}"        # `glueup tables woods` lists them
# tongue  = "loose"         # none, loose (a strip in two grooves) or real
)"},
      {{"frame", {"width", "height"}, {"18", "30"}, {"450", "750"}, "white_oak"},
       "Door",
       R"([frame]
outside   = [{0}, {1}]      # width, height
thickness = {"3/4"|20}
member    = {"2 1/4"|57}    # width of the stiles; `rail` where rails differ
corners   = "mortise"       # mitre, half-lap, bridle or mortise
panel     = "float"         # none, float or glue: a solid panel must float
species   = "{wood}"        # `glueup tables woods` lists them
# panel_species = "plywood_birch"
# tenon_length = {"1 1/2"|38} # two thirds of the stile where left out
)"},
      {{"carcass",
        {"width", "depth", "height"},
        {"30", "11", "36"},
        {"760", "280", "900"},
        "plywood_birch"},
       "Bookcase",
       R"([carcass]
outside = [{0}, {1}, {2}]   # width, depth, height
stock   = {"3/4"|18}        # thickness of sides, top, bottom and shelves
top     = "rabbet"          # rabbet, butt or none
bottom  = "dado"            # the same, or dado
shelves = 2                 # how many, evenly; or heights of undersides
back    = "none"            # rabbet or none
species = "{wood}"          # `glueup tables woods` lists them
# dividers = 1              # how many; or their left faces from the left
# dado_depth = {"1/4"|6}    # a third of the stock where left out
)"},
      {{"drawer",
        {"width", "depth", "height"},
        {"16", "18", "5"},
        {"400", "450", "120"},
        "red_maple"},
       "Drawer",
       R"([drawer]
outside = [{0}, {1}, {2}]   # width, depth, height
stock   = {"1/2"|12}        # of sides and back
corners = "rabbet"          # rabbet, dado or finger
bottom  = "captured"        # slide or captured (in grooves of all four)
bottom_species = "plywood_birch"
species = "{wood}"          # `glueup tables woods` lists them
# front_thickness = {"3/4"|19} # the stock where left out
)"},
      {{"lamination",
        {"length", "width", "thickness"},
        {"36", "3", "1 1/2"},
        {"900", "75", "36"},
        "white_ash"},
       "Lamination",
       R"([lamination]
length    = {0}
width     = {1}
thickness = {2}             # of the whole
layers    = 4               # how many alike; or thicknesses: [9, 9, 9]
species   = "{wood}"        # `glueup tables woods` lists them
# crossed = true            # every second layer's grain runs across
)"},
      {{"trestle",
        {"length", "width", "height"},
        {"32", "16", "24"},
        {"800", "400", "600"},
        "beech"},
       "Hive stand",
       R"([trestle]
outside = [{0}, {1}, {2}]   # length, width, height
leg     = {"2 1/4"|57}      # square
rail_width     = {"4"|100}
rail_thickness = {"1"|25}
species = "{wood}"          # `glueup tables woods` lists them
# stretcher = {"5"|125}     # underside of lower rails
)"},
      {{"parts",
        {"length", "width", "thickness"},
        {"24", "5", "3/4"},
        {"600", "120", "19"},
        "red_oak"},
       "Two boards on edge",
       R"(species = "{wood}"          # where a part names none; `glueup tables woods`

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
# offset = {"1/4"|6}        # from the low side
# width = {"1/4"|6}
# depth = {"1/4"|6}
)"},
  }};
  return kBodies;
}

const Body& body_of(const std::string& kind) {
  return *std::find_if(bodies().begin(), bodies().end(),
                       [&](const Body& body) { return body.kind.name == kind; });
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

std::string filled_in(const std::string& text, const StarterAnswers& answers) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] != '{') {
      out += text[i++];
      continue;
    }
    const std::size_t end = text.find('}', i);
    const std::string inside = text.substr(i + 1, end - i - 1);
    const std::size_t bar = inside.find('|');
    if (bar != std::string::npos) {
      out += answers.units == Units::inch ? inside.substr(0, bar) : inside.substr(bar + 1);
    } else if (inside == "wood") {
      out += answers.species;
    } else {
      out += value_text(answers.size[static_cast<std::size_t>(std::stoi(inside))]);
    }
    i = end + 1;
  }
  return out;
}

// Comments behind values in one column, where the values leave room.
std::string comments_aligned(const std::string& text) {
  constexpr std::size_t kColumn = 28;
  std::string out;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find('\n', from);
    std::string line = text.substr(from, end - from);
    from = end + 1;
    const std::size_t mark = line.starts_with("#") ? line.find(" # ") : line.find(" #");
    if (mark != std::string::npos) {
      const std::string comment = line.substr(mark + 1);
      line.erase(line.find_last_not_of(' ', mark) + 1);
      line.resize(std::max(line.size() + 1, kColumn), ' ');
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
    for (const Body& body : bodies()) {
      names.push_back(body.kind.name);
    }
    names.push_back("shop");
    return names;
  }();
  return kNames;
}

std::string starter_kinds_text() {
  return planner::base::one_of(starter_kinds());
}

const StarterKind& starter_kind(const std::string& kind) {
  return body_of(kind).kind;
}

StarterAnswers usual_answers(const StarterKind& kind, Units units) {
  return {units, units == Units::inch ? kind.size_in : kind.size_mm, kind.species, "pva_type2"};
}

std::string starter_file(const StarterKind& kind, const StarterAnswers& answers) {
  const Body& body = body_of(kind.name);
  const std::string head = fmt::format(
      "# What is being glued. `glueup check FILE` says what was understood of it,\n"
      "# `glueup plan FILE` plans it. A length is a number in `units`, or quoted:\n"
      "# \"3/4 in\", \"19 mm\".\n"
      "title = \"{}\"\nunits = \"{}\" # of bare numbers: in or mm\n",
      body.title, units_word(answers.units));
  const std::string tail = fmt::format(
      "\n[glue]\nuse = \"{}\" # `glueup tables glues`, or a name in the shop file\n"
      "\n# What was measured at the dry fit goes here; `glueup fit FILE` says what.\n",
      answers.glue);
  // Parts name their wood before the first table.
  const std::string gap = kind.name == "parts" ? "" : "\n";
  return comments_aligned(head + gap + filled_in(body.text, answers) + tail);
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
      "# [pace]\n# place = \"25 s\"\n";
  return comments_aligned(text);
}

}  // namespace cli::terminal
