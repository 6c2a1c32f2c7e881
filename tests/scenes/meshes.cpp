#include "scenes/meshes.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <map>
#include <numbers>

#include "scenes/random_parts.h"

namespace scenes {

using geometry::LatticeBox;
using geometry::Length;
using geometry::Point;

namespace {

std::string number(double x) {
  char text[40];
  std::snprintf(text, sizeof text, "%.9f", x);
  return text;
}

std::string coordinates(const Point& p) {
  return number(p.x) + " " + number(p.y) + " " + number(p.z);
}

// Faces as triangles: a fan, so faces must be convex.
std::vector<std::array<std::size_t, 3>> triangles(const Mesh& mesh) {
  std::vector<std::array<std::size_t, 3>> all;
  for (const auto& face : mesh.faces) {
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
      all.push_back({face[0], face[i], face[i + 1]});
    }
  }
  return all;
}

class Grid {
 public:
  explicit Grid(const Recipe& recipe) : recipe_(recipe) {
    for (std::size_t k = 0; k < 3; ++k) {
      marks_[k] = {recipe.board.lo[k], recipe.board.hi[k]};
      for (const LatticeBox& cut : recipe.cuts) {
        for (const Length mark : {cut.lo[k], cut.hi[k]}) {
          if (recipe.board.lo[k] < mark && mark < recipe.board.hi[k]) {
            marks_[k].push_back(mark);
          }
        }
      }
      std::sort(marks_[k].begin(), marks_[k].end());
      marks_[k].erase(std::unique(marks_[k].begin(), marks_[k].end()), marks_[k].end());
    }
  }

  int fields(std::size_t k) const { return static_cast<int>(marks_[k].size()) - 1; }

  // Fields beyond the board are empty.
  bool full(std::array<int, 3> at) const {
    for (std::size_t k = 0; k < 3; ++k) {
      if (at[k] < 0 || at[k] >= fields(k)) {
        return false;
      }
    }
    return std::none_of(recipe_.cuts.begin(), recipe_.cuts.end(), [&](const LatticeBox& cut) {
      for (std::size_t k = 0; k < 3; ++k) {
        const auto i = static_cast<std::size_t>(at[k]);
        if (cut.lo[k] > marks_[k][i] || cut.hi[k] < marks_[k][i + 1]) {
          return false;
        }
      }
      return true;
    });
  }

  Point point(std::array<int, 3> at) const {
    return {marks_[0][static_cast<std::size_t>(at[0])].mm(),
            marks_[1][static_cast<std::size_t>(at[1])].mm(),
            marks_[2][static_cast<std::size_t>(at[2])].mm()};
  }

 private:
  const Recipe& recipe_;
  std::vector<Length> marks_[3];
};

}  // namespace

Mesh mesh_of(const Recipe& recipe) {
  const Grid grid(recipe);
  Mesh mesh;
  std::map<std::array<int, 3>, std::size_t> names;
  const auto corner = [&](std::array<int, 3> at) {
    const auto [it, fresh] = names.try_emplace(at, mesh.points.size());
    if (fresh) {
      mesh.points.push_back(grid.point(at));
    }
    return it->second;
  };
  for (int x = 0; x < grid.fields(0); ++x) {
    for (int y = 0; y < grid.fields(1); ++y) {
      for (int z = 0; z < grid.fields(2); ++z) {
        const std::array<int, 3> at = {x, y, z};
        for (std::size_t k = 0; grid.full(at) && k < 3; ++k) {
          const std::size_t u = (k + 1) % 3, v = (k + 2) % 3;
          for (const int up : {0, 1}) {
            std::array<int, 3> next = at;
            next[k] += up ? 1 : -1;
            if (grid.full(next)) {
              continue;
            }
            std::array<int, 3> a = at;
            a[k] += up;
            std::array<int, 3> b = a, c = a, d = a;
            ++b[u];
            ++c[u];
            ++c[v];
            ++d[v];
            if (up) {
              mesh.faces.push_back({corner(a), corner(b), corner(c), corner(d)});
            } else {
              mesh.faces.push_back({corner(a), corner(d), corner(c), corner(b)});
            }
          }
        }
      }
    }
  }
  return mesh;
}

Mesh turned_body(const std::vector<std::pair<double, double>>& profile, int sides) {
  Mesh mesh;
  const auto n = static_cast<std::size_t>(sides);
  for (const auto& [height, radius] : profile) {
    for (std::size_t i = 0; i < n; ++i) {
      const double a = 2 * std::numbers::pi * static_cast<double>(i) / sides;
      mesh.points.push_back({radius * std::cos(a), radius * std::sin(a), height});
    }
  }
  const std::size_t rings = profile.size();
  std::vector<std::size_t> low, high;
  for (std::size_t i = 0; i < n; ++i) {
    low.push_back(n - 1 - i);
    high.push_back((rings - 1) * n + i);
    for (std::size_t r = 0; r + 1 < rings; ++r) {
      const std::size_t j = (i + 1) % n;
      mesh.faces.push_back({r * n + i, r * n + j, (r + 1) * n + j, (r + 1) * n + i});
    }
  }
  mesh.faces.push_back(low);
  mesh.faces.push_back(high);
  return mesh;
}

Mesh gridded_board(double a, double b, int n) {
  Mesh mesh;
  const auto row = static_cast<std::size_t>(n) + 1;
  for (const double z : {0.0, 18.0}) {
    for (int i = 0; i <= n; ++i) {
      for (int j = 0; j <= n; ++j) {
        mesh.points.push_back({a * i / n, b * j / n, z});
      }
    }
  }
  const auto at = [&](std::size_t level, std::size_t i, std::size_t j) {
    return level * row * row + i * row + j;
  };
  for (std::size_t i = 0; i + 1 < row; ++i) {
    for (std::size_t j = 0; j + 1 < row; ++j) {
      mesh.faces.push_back({at(1, i, j), at(1, i + 1, j), at(1, i + 1, j + 1)});
      mesh.faces.push_back({at(1, i, j), at(1, i + 1, j + 1), at(1, i, j + 1)});
      mesh.faces.push_back({at(0, i, j), at(0, i + 1, j + 1), at(0, i + 1, j)});
      mesh.faces.push_back({at(0, i, j), at(0, i, j + 1), at(0, i + 1, j + 1)});
    }
    const std::size_t j = i + 1, last = row - 1;
    mesh.faces.push_back({at(0, i, 0), at(0, j, 0), at(1, j, 0), at(1, i, 0)});
    mesh.faces.push_back({at(0, j, last), at(0, i, last), at(1, i, last), at(1, j, last)});
    mesh.faces.push_back({at(0, 0, j), at(0, 0, i), at(1, 0, i), at(1, 0, j)});
    mesh.faces.push_back({at(0, last, i), at(0, last, j), at(1, last, j), at(1, last, i)});
  }
  return mesh;
}

Mesh shaken(Mesh mesh, double mm, std::uint64_t seed) {
  Dice dice(seed);
  const auto off = [&] { return mm * static_cast<double>(dice.from_to(-1000, 1000)) / 1000; };
  for (Point& p : mesh.points) {
    p = {p.x + off(), p.y + off(), p.z + off()};
  }
  return mesh;
}

std::string obj_text(const std::vector<std::pair<std::string, Mesh>>& meshes) {
  std::string text;
  std::size_t first = 1;
  for (const auto& [name, mesh] : meshes) {
    text += "o " + name + "\n";
    for (const Point& p : mesh.points) {
      text += "v " + coordinates(p) + "\n";
    }
    for (const auto& face : mesh.faces) {
      text += "f";
      for (const std::size_t corner : face) {
        text += " " + std::to_string(first + corner);
      }
      text += "\n";
    }
    first += mesh.points.size();
  }
  return text;
}

namespace {

std::string indexed_faces(const Mesh& mesh) {
  std::string text;
  for (const auto& face : mesh.faces) {
    text += std::to_string(face.size());
    for (const std::size_t corner : face) {
      text += " " + std::to_string(corner);
    }
    text += "\n";
  }
  return text;
}

std::string point_lines(const Mesh& mesh) {
  std::string text;
  for (const Point& p : mesh.points) {
    text += coordinates(p) + "\n";
  }
  return text;
}

}  // namespace

std::string off_text(const Mesh& mesh) {
  return "OFF\n" + std::to_string(mesh.points.size()) + " " + std::to_string(mesh.faces.size()) +
         " 0\n" + point_lines(mesh) + indexed_faces(mesh);
}

std::string ply_text(const Mesh& mesh) {
  return "ply\nformat ascii 1.0\nelement vertex " + std::to_string(mesh.points.size()) +
         "\nproperty double x\nproperty double y\nproperty double z\nelement face " +
         std::to_string(mesh.faces.size()) +
         "\nproperty list uchar int vertex_indices\nend_header\n" + point_lines(mesh) +
         indexed_faces(mesh);
}

std::string stl_text(const std::vector<Mesh>& meshes) {
  std::string text = "solid bench\n";
  for (const Mesh& mesh : meshes) {
    for (const auto& t : triangles(mesh)) {
      text += "facet normal 0 0 0\nouter loop\n";
      for (const std::size_t corner : t) {
        text += "vertex " + coordinates(mesh.points[corner]) + "\n";
      }
      text += "endloop\nendfacet\n";
    }
  }
  return text + "endsolid bench\n";
}

std::string stl_bytes(const Mesh& mesh) {
  std::string bytes(80, ' ');
  const auto append = [&](const auto& value) {
    bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
  };
  const auto all = triangles(mesh);
  append(static_cast<std::uint32_t>(all.size()));
  for (const auto& t : all) {
    for (int i = 0; i < 3; ++i) {
      append(0.0f);
    }
    for (const std::size_t corner : t) {
      for (std::size_t k = 0; k < 3; ++k) {
        append(static_cast<float>(mesh.points[corner][k]));
      }
    }
    append(std::uint16_t{0});
  }
  return bytes;
}

}  // namespace scenes
