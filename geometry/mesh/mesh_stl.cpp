// STL, text and binary: triangles with a point of their own at each corner.
#include <bit>
#include <cstdint>

#include "geometry/mesh/mesh_readers.h"
#include "geometry/mesh/mesh_words.h"

namespace geometry {
namespace {

// Little-endian, as the format has it, wherever we run.
std::uint32_t word_at(std::string_view bytes, std::size_t at) {
  std::uint32_t word = 0;
  for (std::size_t i = 4; i-- > 0;) {
    word = word << 8 | static_cast<unsigned char>(bytes[at + i]);
  }
  return word;
}

MeshText refused(std::string what, int line) {
  return {{}, {{"", std::move(what), std::nullopt, line}}};
}

void add_triangle(MeshSurface& surface) {
  const std::size_t n = surface.points.size();
  surface.triangles.push_back({n - 3, n - 2, n - 1});
}

constexpr std::size_t kHead = 84, kTriangle = 50;  // bytes

MeshText read_binary(std::string_view bytes, double unit_mm) {
  if (bytes.size() < kHead || (bytes.size() - kHead) / kTriangle < word_at(bytes, 80)) {
    return refused("promises more than the file holds", 0);
  }
  MeshSurface surface;
  const std::size_t count = word_at(bytes, 80);
  surface.points.reserve(3 * count);
  surface.triangles.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    // A normal, which the corners tell anyway, and three corners.
    for (std::size_t corner = 1; corner <= 3; ++corner) {
      double c[3];
      for (std::size_t k = 0; k < 3; ++k) {
        c[k] = std::bit_cast<float>(
            word_at(bytes, kHead + i * kTriangle + (3 * corner + k) * sizeof(float)));
        if (!std::isfinite(c[k])) {
          return refused("has a vertex that isn't three numbers", 0);
        }
      }
      surface.points.push_back({c[0] * unit_mm, c[1] * unit_mm, c[2] * unit_mm});
    }
    add_triangle(surface);
  }
  return surface.triangles.empty() ? refused("has no faces", 0)
                                   : MeshText{{std::move(surface)}, {}};
}

MeshText read_text(std::string_view text, double unit_mm) {
  MeshSurface surface;
  Lines lines(text);
  std::size_t corners = 0;  // of the facet at hand
  for (std::string_view line; lines.next(line);) {
    const std::string_view word = next_word(line);
    if (word == "vertex") {
      double c[3];
      for (double& coordinate : c) {
        if (!read_coordinate(line, coordinate)) {
          return refused("has a vertex that isn't three numbers", lines.number());
        }
      }
      surface.points.push_back({c[0] * unit_mm, c[1] * unit_mm, c[2] * unit_mm});
      ++corners;
    } else if (word == "endloop") {
      if (corners != 3) {
        return refused("has a facet that isn't a triangle", lines.number());
      }
      add_triangle(surface);
      corners = 0;
    }
  }
  if (corners != 0) {
    return refused("ends within a facet", lines.number());
  }
  return surface.triangles.empty() ? refused("has no faces", 0)
                                   : MeshText{{std::move(surface)}, {}};
}

}  // namespace

MeshText read_stl(std::string_view bytes, double unit_mm) {
  // A binary file may begin with "solid" too: then its size says which it is.
  const bool binary_size =
      bytes.size() >= kHead && bytes.size() == kHead + kTriangle * std::size_t{word_at(bytes, 80)};
  return !binary_size && bytes.starts_with("solid") ? read_text(bytes, unit_mm)
                                                    : read_binary(bytes, unit_mm);
}

}  // namespace geometry
