// Wavefront OBJ: vertices, faces, objects and groups; the rest of the format says nothing of shape.
#include <unordered_map>

#include "geometry/mesh/mesh_readers.h"
#include "geometry/mesh/mesh_words.h"

namespace geometry {
namespace {

class ObjReader {
 public:
  explicit ObjReader(double unit_mm) : unit_mm_(unit_mm) {}

  MeshText read(std::string_view text) {
    has_objects_ = text.starts_with("o ") || text.find("\no ") != std::string_view::npos;
    while (!text.empty() && !stop_) {
      const std::string joined = next_line(text);
      std::string_view rest = joined;
      const std::string_view word = next_word(rest);
      if (word == "v") {
        vertex(rest);
      } else if (word == "f") {
        face(rest);
      } else if (word == "o" || (word == "g" && !has_objects_)) {
        begin(std::string(trimmed(rest)));
      }
    }
    for (MeshSurface& surface : result_.surfaces) {
      surface = compact(surface.name, points_, surface.triangles);
    }
    std::erase_if(result_.surfaces, [](const MeshSurface& s) { return s.triangles.empty(); });
    if (result_.surfaces.empty() && result_.defects.empty()) {
      result_.defects.push_back({"", "has no faces", std::nullopt, 0});
    }
    return std::move(result_);
  }

 private:
  // A backslash at the end of a line joins it to the next.
  std::string next_line(std::string_view& text) {
    std::string joined;
    for (;;) {
      ++line_;
      const std::size_t end = std::min(text.find('\n'), text.size());
      std::string_view line = text.substr(0, end);
      text.remove_prefix(std::min(end + 1, text.size()));
      while (!line.empty() && line.back() == '\r') {
        line.remove_suffix(1);
      }
      if (line.empty() || line.back() != '\\') {
        joined += line;
        return joined;
      }
      joined += line.substr(0, line.size() - 1);
      joined += ' ';
      if (text.empty()) {
        return joined;
      }
    }
  }

  void refuse(std::string what) {
    const std::string part = result_.surfaces.empty() ? "" : result_.surfaces[current_].name;
    result_.defects.push_back({part, std::move(what), std::nullopt, line_});
    stop_ = true;  // what follows would only repeat it
  }

  void begin(std::string name) {
    const auto [known, fresh] = by_name_.try_emplace(name, result_.surfaces.size());
    current_ = known->second;
    if (fresh) {
      result_.surfaces.push_back({std::move(name), {}, {}});
    }
  }

  void vertex(std::string_view rest) {
    double c[3];
    for (double& coordinate : c) {
      if (!read_coordinate(rest, coordinate)) {
        return refuse("has a vertex that isn't three numbers");
      }
    }
    points_.push_back({c[0] * unit_mm_, c[1] * unit_mm_, c[2] * unit_mm_});
  }

  void face(std::string_view rest) {
    if (result_.surfaces.empty()) {
      begin("");
    }
    std::vector<std::size_t> corners;
    for (std::string_view word = next_word(rest); !word.empty(); word = next_word(rest)) {
      long index = 0;
      if (!read_number(word.substr(0, word.find('/')), index) || index == 0) {
        return refuse("has a face whose corner isn't a vertex number");
      }
      const long count = static_cast<long>(points_.size());
      const long at = index > 0 ? index - 1 : count + index;
      if (at < 0 || at >= count) {
        return refuse("has a face with vertex " + std::to_string(index) + " of " +
                      std::to_string(count));
      }
      corners.push_back(static_cast<std::size_t>(at));
    }
    if (corners.size() > kMostCorners) {
      return refuse("has a face with more than " + std::to_string(kMostCorners) + " corners");
    }
    if (corners.size() < 3) {
      return refuse("has a face with fewer than three corners");
    }
    MeshSurface& surface = result_.surfaces[current_];
    surface.points.swap(points_);
    add_polygon(corners, surface);
    surface.points.swap(points_);
  }

  double unit_mm_;
  bool has_objects_ = false;
  bool stop_ = false;
  int line_ = 0;
  std::size_t current_ = 0;
  std::unordered_map<std::string, std::size_t> by_name_;  // never walked through
  std::vector<Point> points_;
  MeshText result_;
};

}  // namespace

MeshText read_obj(std::string_view text, double unit_mm) {
  return ObjReader(unit_mm).read(text);
}

}  // namespace geometry
