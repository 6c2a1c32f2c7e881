#include <algorithm>
#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::LatticeBox;

enum class Held { rabbet, butt, none, dado };

struct Carcass {
  geometry::Length width, depth, height, stock, dado_depth, stop, bottom_height;
  Held top = Held::rabbet, bottom = Held::rabbet;
  bool back = false;
  geometry::Length back_thickness, back_depth;
  std::vector<geometry::Length> shelves,
      dividers;  // undersides above the ground; left faces from the left
  std::string species, back_species;
  std::optional<std::string> back_fit;
  base::Place place, top_place, bottom_place, shelf_place, divider_place, back_place;

  // Shelves and the like end where the back begins.
  geometry::Length inner_depth() const {
    return depth - (back ? back_thickness : geometry::Length());
  }
  geometry::Length floor() const {
    return bottom == Held::none   ? geometry::Length()
           : bottom == Held::dado ? bottom_height + stock
                                  : stock;
  }
  geometry::Length ceiling() const { return top == Held::none ? height : height - stock; }
};

class CarcassReader {
 public:
  CarcassReader(const Node& node, FileNotes& notes) : table_(node, kCarcass, notes) {}

  std::optional<Carcass> read() {
    Carcass c;
    TableReader& keys = table_.keys();
    c.place = keys.place();
    const auto outside = table_.outside();
    c.width = outside[0];
    c.depth = outside[1];
    c.height = outside[2];
    c.stock = table_.size("stock");
    c.species = table_.species();
    // A third of the stock: common practice.
    c.dado_depth = table_.size("dado_depth", c.stock / 3);
    c.top = table_.kind<Held>("top");
    c.bottom = table_.kind<Held>("bottom");
    c.top_place = keys.place("top");
    c.bottom_place = keys.place("bottom");
    // As high off the ground as the stock is thick.
    c.bottom_height = table_.size_with("bottom_height", c.bottom == Held::dado, "bottom = \"dado\"")
                          .value_or(c.stock);
    c.stop = keys.length("stop", Sign::above_zero, Needed::no).value_or(geometry::Length());
    read_back(c);
    if (!table_.failed()) {
      c.shelves = spaced("shelves", c.floor(), c.ceiling(), c.stock);
      c.dividers = spaced("dividers", c.stock, c.width - c.stock, c.stock);
    } else {
      read_alone("shelves");
      read_alone("dividers");
    }
    c.shelf_place = keys.place("shelves");
    c.divider_place = keys.place("dividers");
    keys.finish();
    if (!table_.failed()) {
      check(c);
    }
    return table_.failed() ? std::nullopt : std::optional(c);
  }

 private:
  // A quarter inch or 6 mm, in a rabbet half the stock deep: common practice.
  void read_back(Carcass& c) {
    c.back = table_.word("back") == "rabbet";
    c.back_place = table_.keys().place("back");
    c.back_thickness =
        table_.size_with("back_thickness", c.back, "a back").value_or(usual_sheet(table_.units()));
    c.back_depth = table_.size_with("back_depth", c.back, "a back").value_or(c.stock / 2);
    table_.only_with("back_species", c.back, "a back");
    c.back_species = table_.species("back_species", c.species);
    table_.only_with("back_fit", c.back, "a back");
    c.back_fit = table_.word("back_fit");
  }

  // For its own mistakes, where there is nothing to stand in.
  void read_alone(std::string_view key) {
    const Node* node = table_.keys().value(key);
    if (node != nullptr && node->kind == NodeKind::list) {
      table_.keys().lengths(key, Sign::above_zero, Needed::no);
    } else {
      table_.count(key);
    }
  }

  // Where the pieces stand: as listed, or so many at equal distances between `low` and `high`.
  std::vector<geometry::Length> spaced(std::string_view key, geometry::Length low,
                                       geometry::Length high, geometry::Length thick) {
    const Node* node = table_.keys().value(key);
    if (node == nullptr) {
      return {};
    }
    std::vector<geometry::Length> places;
    if (node->kind == NodeKind::list) {
      places = table_.keys().lengths(key, Sign::above_zero, Needed::no).value_or(places);
      std::sort(places.begin(), places.end());
    } else if (const auto count = table_.count(key)) {
      const geometry::Length opening = (high - low - *count * thick) / (*count + 1);
      if (opening <= geometry::Length()) {
        table_.keys().refuse(key, "there is no room for so many", "leave some out");
        return {};
      }
      for (int i = 0; i < *count; ++i) {
        places.push_back(low + (i + 1) * opening + i * thick);
      }
    }
    check_spaced(key, places, low, high, thick);
    return places;
  }

  void check_spaced(std::string_view key, const std::vector<geometry::Length>& places,
                    geometry::Length low, geometry::Length high, geometry::Length thick) {
    geometry::Length free = low;
    for (const geometry::Length place : places) {
      if (place <= free || place + thick >= high) {
        table_.keys().refuse(
            key, "there is no room for one at " + table_.text(place),
            "between " + table_.text(free) + " and " + table_.text(high - thick) + " there is");
        return;
      }
      free = place + thick;
    }
  }

  void check(const Carcass& c) {
    if (c.width <= 2 * c.stock || c.ceiling() <= c.floor() ||
        c.inner_depth() <= geometry::Length()) {
      table_.keys().refuse("outside", "the boards leave nothing inside",
                           "make it larger or the stock thinner");
    }
    if (c.dado_depth >= c.stock ||
        (2 * c.dado_depth >= c.stock && !c.dividers.empty() && !c.shelves.empty())) {
      table_.refuse("dado_depth",
                    c.dado_depth >= c.stock
                        ? "a dado " + table_.text(c.dado_depth) + " deep goes through stock of " +
                              table_.text(c.stock)
                        : "dadoes " + table_.text(c.dado_depth) +
                              " deep from both sides cut a divider of " + table_.text(c.stock) +
                              " in two",
                    "a third of the stock is usual");
    }
    if (c.back && c.back_depth >= c.stock) {
      table_.refuse("back_depth",
                    "a rabbet " + table_.text(c.back_depth) + " deep goes through stock of " +
                        table_.text(c.stock),
                    "half the stock is usual");
    }
    if (c.stop >= c.inner_depth()) {
      table_.refuse("stop",
                    "dadoes that stop " + table_.text(c.stop) + " short are none in shelves " +
                        table_.text(c.inner_depth()) + " deep",
                    "make it shorter");
    }
    if (!c.dividers.empty() && (c.top == Held::none || c.bottom == Held::none)) {
      table_.keys().refuse("dividers", "they need a top and a bottom to stand between",
                           "give it both");
    }
  }

  StarterTable table_;
};

class CarcassMaker {
 public:
  explicit CarcassMaker(const Carcass& carcass) : c_(carcass) {}

  Expansion make() {
    const geometry::Length w = c_.width, t = c_.stock;
    uprights_.push_back(
        board("left side", c_.species, c_.place, {2, 0}, {{}, {t, c_.depth, c_.height}}));
    add_dividers();
    uprights_.push_back(
        board("right side", c_.species, c_.place, {2, 0},
              {{w - t, geometry::Length(), geometry::Length()}, {w, c_.depth, c_.height}}));
    rabbet_sides();
    add_bottom_and_top();
    add_shelves();
    collect();
    return std::move(made_);
  }

 private:
  work::Part& left() { return uprights_.front(); }
  work::Part& right() { return uprights_.back(); }

  void add_dividers() {
    for (std::size_t i = 0; i < c_.dividers.size(); ++i) {
      work::Part divider =
          board("divider " + std::to_string(i + 1), c_.species, c_.divider_place, {2, 0},
                {{c_.dividers[i], geometry::Length(), c_.floor() - c_.dado_depth},
                 {c_.dividers[i] + c_.stock, c_.inner_depth(), c_.ceiling() + c_.dado_depth}});
      notch_front(divider, 2, c_.divider_place);
      uprights_.push_back(std::move(divider));
    }
  }

  // Where dadoes stop short of the front, what lies in them is notched at its two front corners
  // along `axis`.
  void notch_front(work::Part& part, int axis, const base::Place& place) {
    if (c_.stop <= geometry::Length()) {
      return;
    }
    const auto i = static_cast<std::size_t>(axis);
    work::Notch notch{{}, {part.size(0), c_.stop, part.size(2)}};
    notch.size[i] = c_.dado_depth;
    part.cuts.push_back({place, notch});
    notch.from[i] = part.size(axis) - c_.dado_depth;
    part.cuts.push_back({place, notch});
  }

  void rabbet_sides() {
    for (work::Part* side : {&left(), &right()}) {
      const work::Face inner = side == &left() ? kRight : kLeft;
      const auto rabbet = [&](work::Face at, geometry::Length width, geometry::Length depth,
                              const base::Place& place) {
        // A rabbet deeper than the back's would show behind it.
        const bool shows = c_.back && at.axis == 2 && depth > c_.back_depth;
        side->cuts.push_back(
            {place, work::Rabbet{inner,
                                 at,
                                 width,
                                 depth,
                                 {},
                                 shows ? std::optional(c_.inner_depth()) : std::nullopt}});
      };
      if (c_.top == Held::rabbet) {
        rabbet(kUp, c_.stock, c_.dado_depth, c_.top_place);
      }
      if (c_.bottom == Held::rabbet) {
        rabbet(kDown, c_.stock, c_.dado_depth, c_.bottom_place);
      }
      if (c_.back) {
        rabbet(kBack, c_.back_thickness, c_.back_depth, c_.back_place);
      }
    }
  }

  // A level board from the right face of one upright to the left face of another, `reach` into
  // both.
  work::Part level(const std::string& name, const base::Place& place, const work::Part& from,
                   const work::Part& to, geometry::Length low, geometry::Length reach) {
    return board(name, c_.species, place, {0, 2},
                 {{from.at[0] + c_.stock - reach, geometry::Length(), low},
                  {to.at[0] + reach, c_.inner_depth(), low + c_.stock}});
  }

  void add_bottom_and_top() {
    const auto reach = [&](Held held) {
      return held == Held::butt ? geometry::Length() : c_.dado_depth;
    };
    if (c_.bottom != Held::none) {
      work::Part bottom = level("bottom", c_.bottom_place, left(), right(), c_.floor() - c_.stock,
                                reach(c_.bottom));
      if (c_.bottom == Held::dado) {
        house(bottom, left(), right(), c_.bottom_place);
      }
      house_dividers(bottom, kUp);
      levels_.push_back(std::move(bottom));
    }
    if (c_.top != Held::none) {
      work::Part top = level("top", c_.top_place, left(), right(), c_.ceiling(), reach(c_.top));
      house_dividers(top, kDown);
      levels_.push_back(std::move(top));
    }
  }

  // Dadoes for a level board in the two uprights it lies between.
  void house(work::Part& part, work::Part& from, work::Part& to, const base::Place& place) {
    LatticeBox space = part.blank();
    space.lo[1] = c_.stop;
    from.cuts.push_back({place, channel_for(from, kRight, 1, space)});
    to.cuts.push_back({place, channel_for(to, kLeft, 1, space)});
    notch_front(part, 0, place);
  }

  void house_dividers(work::Part& part, work::Face on) {
    for (std::size_t i = 1; i + 1 < uprights_.size(); ++i) {
      LatticeBox space = uprights_[i].blank();
      space.lo[1] = c_.stop;
      part.cuts.push_back({c_.divider_place, channel_for(part, on, 1, space)});
    }
  }

  void add_shelves() {
    const bool bays = uprights_.size() > 2;
    for (std::size_t s = 0; s < c_.shelves.size(); ++s) {
      for (std::size_t bay = 0; bay + 1 < uprights_.size(); ++bay) {
        const std::string name =
            "shelf " + std::to_string(s + 1) + (bays ? ", bay " + std::to_string(bay + 1) : "");
        work::Part shelf = level(name, c_.shelf_place, uprights_[bay], uprights_[bay + 1],
                                 c_.shelves[s], c_.dado_depth);
        house(shelf, uprights_[bay], uprights_[bay + 1], c_.shelf_place);
        shelves_.push_back(std::move(shelf));
      }
    }
  }

  void collect() {
    const auto add = [&](work::Part& part) { made_.parts.push_back(std::move(part)); };
    add(left());
    add(right());
    std::for_each(levels_.begin(), levels_.end(), add);
    std::for_each(uprights_.begin() + 1, uprights_.end() - 1, add);
    std::for_each(shelves_.begin(), shelves_.end(), add);
    if (c_.back) {
      const geometry::Length margin = c_.stock - c_.back_depth;
      const LatticeBox box{{margin, c_.inner_depth(), geometry::Length()},
                           {c_.width - margin, c_.depth, c_.height}};
      const bool tall = c_.height > c_.width - 2 * margin;
      std::vector<std::string> others;
      for (const work::Part& part : made_.parts) {
        others.push_back(part.name);
      }
      fit_sheet(c_.back_fit, "back", others, c_.back_place, made_);
      made_.parts.push_back(board("back", c_.back_species, c_.back_place, {tall ? 2 : 0, 1}, box));
    }
  }

  const Carcass& c_;
  std::vector<work::Part> uprights_, levels_, shelves_;  // left side, dividers, right side
  Expansion made_;
};

Expansion expand(const Node& table, FileNotes& notes) {
  const std::optional<Carcass> read = CarcassReader(table, notes).read();
  return read ? CarcassMaker(*read).make() : Expansion{};
}

constexpr Dimension kOutside[] = {
    {"width", "30", "760"}, {"depth", "11", "280"}, {"height", "36", "900"}};
constexpr StarterKey kKeys[] = {
    {"outside", Holds::outside, "", kRequired},
    {"stock",
     Holds::length,
     "thickness of sides, top, bottom and shelves",
     kRequired,
     {"3/4", "18"}},
    {"top",
     Holds::word,
     "how the sides hold it",
     "rabbet",
     {"rabbet"},
     {{{"rabbet"}, {"butt"}, {"none"}}}},
    {"bottom",
     Holds::word,
     "how the sides hold it",
     "rabbet",
     {"dado"},
     {{{"rabbet"}, {"butt"}, {"none"}, {"dado", "at `bottom_height`"}}}},
    {"bottom_height", Holds::length, "of its underside, in a dado", "the stock"},
    {"shelves",
     Holds::lengths,
     "how many, evenly; or heights of undersides",
     "none",
     {"2"},
     {},
     1,
     200},
    {"back",
     Holds::word,
     "whether it has one",
     "none",
     {"none"},
     {{{"rabbet", "in rabbets of the sides, over the ends of all that lies between"}, {"none"}}}},
    species_key("of all but the back"),
    {"dividers",
     Holds::lengths,
     "how many; or their left faces from the left",
     "none",
     {"1", "", kAsComment},
     {},
     1,
     200},
    {"dado_depth",
     Holds::length,
     "of dadoes, and of the rabbets for top and bottom",
     "a third of the stock",
     {"1/4", "6", kAsComment}},
    {"stop", Holds::length,
     "how far dadoes stop short of the front; what lies in them is notched there",
     "they run through"},
    {"back_thickness", Holds::length, "", "1/4 in or 6 mm"},
    {"back_depth", Holds::length, "of its rabbets", "half the stock"},
    {"back_species", Holds::wood, "", "the sides'"},
    {"back_fit",
     Holds::word,
     "how it is held",
     kUsualSheetFit,
     {},
     {{{"glue"}, {"pins"}, {"screws"}, {"dry"}}}},
};

}  // namespace

constexpr Starter kCarcass = {
    .name = "carcass",
    .summary = "a case: sides, bottom, top, dividers, shelves and back",
    .about =
        R"(Makes `left side`, `right side`, `bottom`, `top`, `divider 1` ..., `shelf 1` ... (`shelf 1, bay 1` ... between dividers)
and `back`. x is its width, y its depth with the front at the low side. Shelves and dividers stand in dadoes.)",
    .title = "Bookcase",
    .wood = "plywood_birch",
    .dimensions = kOutside,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
