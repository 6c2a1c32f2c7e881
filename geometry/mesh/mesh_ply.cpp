// PLY, text and binary: a head that says which values each vertex and face has, then the values.
#include <array>
#include <bit>
#include <cstdint>
#include <optional>

#include "geometry/mesh/mesh_readers.h"
#include "geometry/mesh/mesh_words.h"

namespace geometry {
namespace {

struct Type {
  std::string_view name, also;
  std::size_t bytes;
  enum class Sort { whole, natural, real } sort;
};
constexpr std::array<Type, 8> kTypes = {{{"char", "int8", 1, Type::Sort::whole},
                                         {"uchar", "uint8", 1, Type::Sort::natural},
                                         {"short", "int16", 2, Type::Sort::whole},
                                         {"ushort", "uint16", 2, Type::Sort::natural},
                                         {"int", "int32", 4, Type::Sort::whole},
                                         {"uint", "uint32", 4, Type::Sort::natural},
                                         {"float", "float32", 4, Type::Sort::real},
                                         {"double", "float64", 8, Type::Sort::real}}};

const Type* type_of(std::string_view name) {
  const auto type = std::find_if(kTypes.begin(), kTypes.end(),
                                 [&](const Type& t) { return t.name == name || t.also == name; });
  return type == kTypes.end() ? nullptr : &*type;
}

struct Property {
  std::string_view name;
  const Type* type = nullptr;
  const Type* count = nullptr;  // of a list
};
struct Element {
  std::string_view name;
  std::size_t count = 0;
  std::vector<Property> properties;
};

enum class Coding { text, little, big };

// The values behind the head, one after the other.
class Values {
 public:
  Values(std::string_view rest, Coding coding) : rest_(rest), coding_(coding) {}

  std::size_t left() const { return rest_.size(); }

  bool next(const Type& type, double& value) {
    return coding_ == Coding::text ? next_word_as(value) : next_bytes_as(type, value);
  }

 private:
  bool next_word_as(double& value) {
    const auto in_word = [](char c) { return !is_blank(c) && c != '\n'; };
    const auto from = std::find_if(rest_.begin(), rest_.end(), in_word);
    const auto to = std::find_if_not(from, rest_.end(), in_word);
    const std::string_view word(from, to);
    rest_ = std::string_view(to, rest_.end());
    return read_number(word, value);
  }

  bool next_bytes_as(const Type& type, double& value) {
    if (rest_.size() < type.bytes) {
      return false;
    }
    std::uint64_t bits = 0;
    for (std::size_t i = 0; i < type.bytes; ++i) {
      const std::size_t at = coding_ == Coding::big ? i : type.bytes - 1 - i;
      bits = bits << 8 | static_cast<unsigned char>(rest_[at]);
    }
    rest_.remove_prefix(type.bytes);
    if (type.sort == Type::Sort::real) {
      value = type.bytes == 4
                  ? static_cast<double>(std::bit_cast<float>(static_cast<std::uint32_t>(bits)))
                  : std::bit_cast<double>(bits);
      return true;
    }
    const std::uint64_t sign = std::uint64_t{1} << (8 * type.bytes - 1);
    const bool negative = type.sort == Type::Sort::whole && (bits & sign) != 0;
    value = negative ? -static_cast<double>(2 * sign - bits) : static_cast<double>(bits);
    return true;
  }

  std::string_view rest_;
  Coding coding_;
};

class PlyReader {
 public:
  PlyReader(std::string_view bytes, double unit_mm) : lines_(bytes), unit_mm_(unit_mm) {}

  MeshText read() {
    if (!head()) {
      return refused("can't be read as the mesh its name says it is", lines_.number());
    }
    Values values(lines_.rest(), coding_);
    for (const Element& element : elements_) {
      // Every value takes a byte at the least, in text two.
      if (!element.properties.empty() && element.count > values.left()) {
        return refused("promises more than the file holds", 0);
      }
      for (std::size_t i = 0; i < element.count && !element.properties.empty(); ++i) {
        if (const std::string wrong = one(element, values); !wrong.empty()) {
          return refused(wrong, 0);
        }
      }
    }
    return surface_.triangles.empty() ? refused("has no faces", 0) : MeshText{{surface_}, {}};
  }

 private:
  static MeshText refused(std::string what, int line) {
    return {{}, {{"", std::move(what), std::nullopt, line}}};
  }

  bool head() {
    std::string_view line;
    if (!lines_.next(line) || trimmed(line) != "ply") {
      return false;
    }
    bool coded = false;
    while (lines_.next(line)) {
      const std::string_view word = next_word(line);
      if (word == "end_header") {
        return coded;
      }
      if (word == "format") {
        coded = format(next_word(line));
      } else if (word == "element") {
        Element element{next_word(line), 0, {}};
        if (!read_number(next_word(line), element.count)) {
          return false;
        }
        elements_.push_back(std::move(element));
      } else if (word == "property" && !property(line)) {
        return false;
      }
    }
    return false;
  }

  bool format(std::string_view name) {
    coding_ = name == "binary_little_endian" ? Coding::little
              : name == "binary_big_endian"  ? Coding::big
                                             : Coding::text;
    return coding_ != Coding::text || name == "ascii";
  }

  bool property(std::string_view line) {
    if (elements_.empty()) {
      return false;
    }
    Property property;
    std::string_view type = next_word(line);
    if (type == "list") {
      property.count = type_of(next_word(line));
      type = next_word(line);
      if (property.count == nullptr) {
        return false;
      }
    }
    property.type = type_of(type);
    property.name = next_word(line);
    elements_.back().properties.push_back(property);
    return property.type != nullptr && !property.name.empty();
  }

  // One vertex, face or whatever else there is; what is wrong with it.
  std::string one(const Element& element, Values& values) {
    std::array<std::optional<double>, 3> at;
    for (const Property& property : element.properties) {
      const bool corners = property.name == "vertex_indices" || property.name == "vertex_index";
      if (property.count != nullptr) {
        const std::string wrong = list(property, element.name == "face" && corners, values);
        if (!wrong.empty()) {
          return wrong;
        }
        continue;
      }
      double value = 0;
      if (!values.next(*property.type, value)) {
        return "ends before its last " + std::string(element.name == "face" ? "face" : "vertex");
      }
      const std::size_t axis = std::string_view("xyz").find(property.name);
      if (property.name.size() == 1 && axis < 3) {
        at[axis] = value;
      }
    }
    if (element.name != "vertex") {
      return {};
    }
    for (const std::optional<double>& coordinate : at) {
      if (!coordinate || !std::isfinite(*coordinate)) {
        return "has a vertex that isn't three numbers";
      }
    }
    surface_.points.push_back({*at[0] * unit_mm_, *at[1] * unit_mm_, *at[2] * unit_mm_});
    return {};
  }

  std::string list(const Property& property, bool face, Values& values) {
    double count = 0;
    if (!values.next(*property.count, count) || !(count >= 0) ||
        count > static_cast<double>(values.left())) {
      return "ends before its last face";
    }
    if (face && count > static_cast<double>(kMostCorners)) {
      return "has a face with more than " + std::to_string(kMostCorners) + " corners";
    }
    std::vector<std::size_t> corners;
    for (double i = 0; i < count; ++i) {
      double corner = 0;
      if (!values.next(*property.type, corner)) {
        return "ends before its last face";
      }
      if (!face) {
        continue;
      }
      if (!(corner >= 0 && corner < static_cast<double>(surface_.points.size()))) {
        return "has a face whose corner isn't one of its " +
               std::to_string(surface_.points.size()) + " vertices";
      }
      corners.push_back(static_cast<std::size_t>(corner));
    }
    if (!face) {
      return {};
    }
    if (corners.size() < 3) {
      return "has a face with fewer than three corners";
    }
    add_polygon(corners, surface_);
    return {};
  }

  Lines lines_;
  double unit_mm_;
  Coding coding_ = Coding::text;
  std::vector<Element> elements_;
  MeshSurface surface_;
};

}  // namespace

MeshText read_ply(std::string_view bytes, double unit_mm) {
  return PlyReader(bytes, unit_mm).read();
}

}  // namespace geometry
