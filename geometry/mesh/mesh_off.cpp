// OFF: counts, a line a vertex, a line a face. Colours, normals and texture behind the coordinates
// say nothing of shape.
#include "geometry/mesh/mesh_readers.h"
#include "geometry/mesh/mesh_words.h"

namespace geometry {
namespace {

class OffReader {
 public:
  OffReader(std::string_view text, double unit_mm)
      : lines_(text), size_(text.size()), unit_mm_(unit_mm) {}

  MeshText read() {
    if (!head()) {
      return refused("can't be read as the mesh its name says it is");
    }
    // A vertex or face takes two bytes at the least.
    if (vertices_ > size_ / 2 || faces_ > size_ / 2) {
      return refused("promises more than the file holds");
    }
    for (std::size_t i = 0; i < vertices_; ++i) {
      if (!vertex()) {
        return refused("has a vertex that isn't three numbers");
      }
    }
    for (std::size_t i = 0; i < faces_; ++i) {
      if (const std::string wrong = face(); !wrong.empty()) {
        return refused(wrong);
      }
    }
    return surface_.triangles.empty() ? refused("has no faces") : MeshText{{surface_}, {}};
  }

 private:
  MeshText refused(std::string what) const {
    return {{}, {{"", std::move(what), std::nullopt, lines_.number()}}};
  }

  // "OFF" with letters for what else a vertex has, and the counts behind it or on the next line.
  bool head() {
    std::string_view line;
    if (!lines_.next_told(line)) {
      return false;
    }
    std::string_view word = next_word(line);
    for (const std::string_view extra : {"ST", "C", "N"}) {
      word.remove_prefix(word.starts_with(extra) ? extra.size() : 0);
    }
    if (word != "OFF" || (trimmed(line).empty() && !lines_.next_told(line))) {
      return false;
    }
    return read_number(next_word(line), vertices_) && read_number(next_word(line), faces_);
  }

  bool vertex() {
    std::string_view line;
    double c[3];
    if (!lines_.next_told(line)) {
      return false;
    }
    for (double& coordinate : c) {
      if (!read_coordinate(line, coordinate)) {
        return false;
      }
    }
    surface_.points.push_back({c[0] * unit_mm_, c[1] * unit_mm_, c[2] * unit_mm_});
    return true;
  }

  std::string face() {
    std::string_view line;
    std::size_t count = 0;
    if (!lines_.next_told(line) || !read_number(next_word(line), count)) {
      return "ends before its last face";
    }
    if (count > kMostCorners) {
      return "has a face with more than " + std::to_string(kMostCorners) + " corners";
    }
    std::vector<std::size_t> corners;
    for (std::size_t i = 0; i < count; ++i) {
      std::size_t corner = 0;
      if (!read_number(next_word(line), corner)) {
        return "has a face whose corner isn't a vertex number";
      }
      if (corner >= vertices_) {
        return "has a face with vertex " + std::to_string(corner) + " of " +
               std::to_string(vertices_);
      }
      corners.push_back(corner);
    }
    if (corners.size() < 3) {
      return "has a face with fewer than three corners";
    }
    add_polygon(corners, surface_);
    return {};
  }

  Lines lines_;
  std::size_t size_;
  double unit_mm_;
  std::size_t vertices_ = 0, faces_ = 0;
  MeshSurface surface_;
};

}  // namespace

MeshText read_off(std::string_view text, double unit_mm) {
  return OffReader(text, unit_mm).read();
}

}  // namespace geometry
