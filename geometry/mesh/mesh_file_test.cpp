#include "geometry/mesh/mesh_file.h"

#include <algorithm>
#include <cstdint>

#include <doctest/doctest.h>

using namespace geometry;
using doctest::Approx;

namespace {

const Length kMm = Length::whole_mm(1);

// A board 40 x 20 x 10 as a modeller writes it; faces are changed by the tests.
const std::string kPoints =
    "v 0 0 0\nv 40 0 0\nv 40 20 0\nv 0 20 0\nv 0 0 10\nv 40 0 10\nv 40 20 10\nv 0 20 10\n";
const std::string kSides = "f 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";
const std::string kBottom = "f 4 3 2 1\n", kTop = "f 5 6 7 8\n";
const std::string kInward = "f 5 6 2 1\nf 6 7 3 2\nf 7 8 4 3\nf 8 5 1 4\nf 1 2 3 4\nf 8 7 6 5\n";

MeshParts read(const std::string& text, Length unit = kMm) {
  return read_mesh(text, MeshFormat::kObj, "board", unit);
}

std::string only_defect(const MeshParts& parts) {
  REQUIRE(parts.parts.empty());
  REQUIRE(parts.defects.size() == 1);
  return parts.defects[0].what;
}

}  // namespace

TEST_SUITE("geometry/mesh_file") {
  TEST_CASE("a board of eight points and six faces is one box, in the file's units") {
    const MeshParts mm = read(kPoints + kSides + kBottom + kTop);
    REQUIRE(mm.parts.size() == 1);
    CHECK(mm.parts[0].name == "board");
    CHECK(volume_mm3(mm.parts[0].solid) == 40.0 * 20 * 10);
    CHECK(mm.parts[0].cell_count == 1);
    CHECK(mm.parts[0].longest_edge == Direction{1, 0, 0});
    const MeshParts inches = read(kPoints + kSides + kBottom + kTop, Length::in_64ths(64));
    CHECK(volume_mm3(inches.parts[0].solid) == Approx(8000 * 25.4 * 25.4 * 25.4).epsilon(1e-15));
  }

  TEST_CASE("corners may count from the end, carry texture and normals, and lines may go on") {
    const std::string faces =
        "vn 0 0 1\nvt 0 0\ns off\nusemtl oak\n"
        "f 1/1/1 2/1/1 6/1/1 5/1/1\nf 2//1 3//1 7//1 6//1\r\nf 3/1 4/1 8/1 7/1\nf -5 -8 -4 -1\n"
        "f 4 3 2 \\\n 1\n# a comment\n\nf 5 6 7 8";
    REQUIRE(read(kPoints + faces).parts.size() == 1);
    CHECK(volume_mm3(read(kPoints + faces).parts[0].solid) == 8000);
  }

  TEST_CASE("objects are parts; groups are where there are no objects; a name may come again") {
    std::string second =
        "v 60 0 0\nv 100 0 0\nv 100 20 0\nv 60 20 0\nv 60 0 10\nv 100 0 10\n"
        "v 100 20 10\nv 60 20 10\n";
    const std::string faces =
        "f 9 10 14 13\nf 10 11 15 14\nf 11 12 16 15\nf 12 9 13 16\n"
        "f 12 11 10 9\nf 13 14 15 16\n";
    const std::string first = kPoints + kSides + kBottom;
    for (const std::string kind : {"o ", "g "}) {
      const MeshParts parts = read(kind + "left stile\n" + first + kind + "rail\n" + second +
                                   faces + kind + "left stile\n" + kTop);
      CHECK(parts.defects.empty());
      REQUIRE(parts.parts.size() == 2);
      CHECK(parts.parts[0].name == "left stile");
      CHECK(parts.parts[1].name == "rail");
    }
    const MeshParts nested =
        read("o left stile\ng oak\n" + first + kTop + "g pine\no rail\n" + second + faces);
    CHECK(nested.parts.size() == 2);
  }

  TEST_CASE("an L-shaped face is cut into triangles where it is hollow") {
    const std::string l =
        "v 0 0 0\nv 40 0 0\nv 40 10 0\nv 15 10 0\nv 15 30 0\nv 0 30 0\n"
        "v 0 0 5\nv 40 0 5\nv 40 10 5\nv 15 10 5\nv 15 30 5\nv 0 30 5\n"
        "f 6 5 4 3 2 1\nf 7 8 9 10 11 12\nf 1 2 8 7\nf 2 3 9 8\nf 3 4 10 9\nf 4 5 11 10\n"
        "f 5 6 12 11\nf 6 1 7 12\n";
    const MeshParts parts = read(l);
    REQUIRE(parts.parts.size() == 1);
    CHECK(volume_mm3(parts.parts[0].solid) == (40.0 * 10 + 15 * 20) * 5);
    CHECK(parts.parts[0].facet_count == 8);
    CHECK(parts.parts[0].cell_count == 2);
  }

  // Outside, closed form: a trapezium's area
  TEST_CASE("a mitred board's end keeps its 45 degrees exactly") {
    const std::string mitred =
        "v 0 0 0\nv 40 0 0\nv 20 20 0\nv 0 20 0\nv 0 0 10\nv 40 0 10\nv 20 20 10\nv 0 20 10\n";
    const MeshParts parts = read(mitred + kSides + kBottom + kTop);
    REQUIRE(parts.parts.size() == 1);
    CHECK(volume_mm3(parts.parts[0].solid) == 30.0 * 20 * 10);
    const std::vector<Facet> all = facets(parts.parts[0].solid);
    CHECK(all.size() == 6);
    CHECK(all.back().normal.x == 1 / std::sqrt(2.0));
  }

  TEST_CASE("each defect is named, with where it is") {
    const MeshParts open = read(kPoints + kSides + kBottom);
    CHECK(only_defect(open) == "has an open edge");
    CHECK(open.defects[0].part == "board");
    REQUIRE(open.defects[0].at);
    CHECK(open.defects[0].at->z == 10);

    // Of several pieces one may be a hollow, so that which way is outward isn't plain.
    const std::string apart =
        "v 60 0 0\nv 100 0 0\nv 100 20 0\nv 60 20 0\nv 60 0 10\nv 100 0 10\nv 100 20 10\n"
        "v 60 20 10\nf 13 14 10 9\nf 14 15 11 10\nf 15 16 12 11\nf 16 13 9 12\nf 9 10 11 12\n"
        "f 16 15 14 13\n";
    CHECK(only_defect(read(kPoints + kInward + apart)) == "is inside out: its faces look inward");
    CHECK(only_defect(read(kPoints + kSides + kBottom + "f 8 7 6 5\n" + apart)) ==
          "has faces that look opposite ways on the two sides of an edge");
    CHECK(only_defect(read(kPoints + "f 1 2 3 4\nf 4 3 2 1\n")) == "has no volume");
    CHECK(only_defect(read(kPoints)) == "has no faces");
    CHECK(only_defect(read(kPoints + kSides + kBottom + kTop, Length::whole_mm(1000))) ==
          "reaches farther than 30 m");
  }

  TEST_CASE("faces that look the wrong way are turned where it is plain which that is") {
    const std::string one_wrong = kSides + kBottom + "f 8 7 6 5\n";
    for (const std::string& faces : {one_wrong, kInward}) {
      const MeshParts parts = read(kPoints + faces);
      CHECK(parts.defects.empty());
      REQUIRE(parts.parts.size() == 1);
      CHECK(volume_mm3(parts.parts[0].solid) == 40.0 * 20 * 10);
    }
  }

  TEST_CASE("a part whose faces pass through each other crosses itself") {
    // Two boxes in one object, one driven 10 into the other.
    const std::string second =
        "v 30 5 2\nv 70 5 2\nv 70 15 2\nv 30 15 2\nv 30 5 8\nv 70 5 8\nv 70 15 8\nv 30 15 8\n"
        "f 9 10 14 13\nf 10 11 15 14\nf 11 12 16 15\nf 12 9 13 16\nf 12 11 10 9\nf 13 14 15 16\n";
    const MeshParts parts = read(kPoints + kSides + kBottom + kTop + second);
    CHECK(only_defect(parts) == "crosses itself");
    REQUIRE(parts.defects[0].at);
    CHECK(parts.defects[0].at->x > 30);
    CHECK(parts.defects[0].at->x < 40);
  }

  TEST_CASE("all bad parts of a file are named at once, the sound ones still read") {
    const std::string b = "v 60 0 0\nv 100 0 0\nv 100 20 0\nv 60 20 0\nf 9 10 11 12\n";
    const MeshParts parts =
        read("o good\n" + kPoints + kSides + kBottom + kTop + "o flat\n" + b + "o open\nf 1 2 3\n");
    CHECK(parts.parts.size() == 1);
    REQUIRE(parts.defects.size() == 2);
    CHECK(parts.defects[0].part == "flat");
    CHECK(parts.defects[1].part == "open");
  }

  TEST_CASE("an OBJ line that can't be read is named by its number") {
    const auto check = [](const std::string& text, const std::string& what, int line) {
      const MeshParts parts = read(text);
      REQUIRE(parts.defects.size() == 1);
      CHECK(parts.defects[0].what == what);
      CHECK(parts.defects[0].line == line);
    };
    check("v 0 0\n", "has a vertex that isn't three numbers", 1);
    check("v 0 0 1e999\n", "has a vertex that isn't three numbers", 1);
    check(kPoints + "f 1 2 9\n", "has a face with vertex 9 of 8", 9);
    check(kPoints + "f 1 2 -9\n", "has a face with vertex -9 of 8", 9);
    check(kPoints + "f 1 2 0\n", "has a face whose corner isn't a vertex number", 9);
    check(kPoints + "f 1 2\n", "has a face with fewer than three corners", 9);
  }

  TEST_CASE("files that lie about themselves are refused") {
    const auto refused = [](const std::string& bytes, MeshFormat format) {
      const MeshParts parts = read_mesh(bytes, format, "part", kMm);
      CHECK(parts.parts.empty());
      CHECK(parts.defects.size() == 1);
    };
    refused("", MeshFormat::kObj);
    refused("", MeshFormat::kOff);
    refused("", MeshFormat::kPly);
    refused("", MeshFormat::kStl);
    refused("OFF\n4000000000 4000000000 0\n0 0 0\n", MeshFormat::kOff);
    refused("OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 7\n", MeshFormat::kOff);
    refused("OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n4000000000 0 1 2\n", MeshFormat::kOff);
    refused("ply\nformat ascii 1.0\nelement vertex 4000000000\nend_header\n", MeshFormat::kPly);
    refused(std::string(80, 'x') + "\xff\xff\xff\xff", MeshFormat::kStl);
    refused("solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 nan\n", MeshFormat::kStl);
    refused(std::string(5000, '\0'), MeshFormat::kOff);
  }

  TEST_CASE("one board reads the same from OFF, and from PLY and STL in text and binary") {
    const double corners[8][3] = {{0, 0, 0},  {40, 0, 0},  {40, 20, 0},  {0, 20, 0},
                                  {0, 0, 10}, {40, 0, 10}, {40, 20, 10}, {0, 20, 10}};
    const int faces[6][4] = {{0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6},
                             {3, 0, 4, 7}, {3, 2, 1, 0}, {4, 5, 6, 7}};
    const auto text_of = [](double c) { return " " + std::to_string(static_cast<int>(c)); };
    // The lowest byte first, or last.
    const auto bytes_of = [](auto value, bool big) {
      std::string bytes(reinterpret_cast<const char*>(&value), sizeof value);
      if (big) {
        std::reverse(bytes.begin(), bytes.end());
      }
      return bytes;
    };
    std::string off = "COFF # the counts come next\n8 6 0\n\n", ply, little, big;
    std::string stl = "solid board\n", stl_triangles;
    for (const auto& c : corners) {
      for (const double x : c) {
        off += text_of(x);
        ply += text_of(x);
        little += bytes_of(static_cast<float>(x), false);
        big += bytes_of(x, true);
      }
      off += " 0.5 0.4 0.1 1 # walnut\n";
      ply += " 7\n";
      little += '\7';
      big += '\7';
    }
    for (const auto& face : faces) {
      off += "4";
      ply += "4";
      little += '\4';
      big += '\4';
      for (const int corner : face) {
        off += text_of(corner);
        ply += text_of(corner);
        little += bytes_of(corner, false);
        big += bytes_of(static_cast<std::uint16_t>(corner), true);
      }
      off += " 255 0 0\n";
      ply += "\n";
      for (const int third : {2, 3}) {
        stl += "facet normal 0 0 0\nouter loop\n";
        stl_triangles += std::string(12, '\0');
        for (const int k : {0, third - 1, third}) {
          stl += "vertex";
          for (const double x : corners[face[k]]) {
            stl += text_of(x);
            stl_triangles += bytes_of(static_cast<float>(x), false);
          }
          stl += "\n";
        }
        stl += "endloop\nendfacet\n";
        stl_triangles += "ab";
      }
    }
    const auto head = [](const std::string& format, const std::string& coordinate,
                         const std::string& corner) {
      return "ply\nformat " + format + " 1.0\ncomment of a board\nelement vertex 8\nproperty " +
             coordinate + " x\nproperty " + coordinate + " y\nproperty " + coordinate +
             " z\nproperty uchar red\nelement face 6\nproperty list uchar " + corner +
             " vertex_indices\nend_header\n";
    };
    const std::pair<std::string, MeshFormat> files[] = {
        {off, MeshFormat::kOff},
        {head("ascii", "float", "int") + ply, MeshFormat::kPly},
        {head("binary_little_endian", "float", "int") + little, MeshFormat::kPly},
        {head("binary_big_endian", "double", "ushort") + big, MeshFormat::kPly},
        {stl + "endsolid\n", MeshFormat::kStl},
        {std::string("solid in its first letters").append(54, ' ') + bytes_of(12u, false) +
             stl_triangles,
         MeshFormat::kStl}};
    for (const auto& file : files) {
      CAPTURE(file.first);
      const auto& [bytes, format] = file;
      const MeshParts parts = read_mesh(bytes, format, "board", kMm);
      CHECK(parts.defects.empty());
      REQUIRE(parts.parts.size() == 1);
      CHECK(volume_mm3(parts.parts[0].solid) == 8000);
      // Whatever is cut off its end, it is refused and not guessed.
      const std::string cut =
          bytes.substr(0, bytes.size() - (format == MeshFormat::kStl ? 60 : 12));
      CHECK(read_mesh(cut, format, "board", kMm).parts.empty());
    }
  }

  TEST_CASE("the format follows the file's ending") {
    CHECK(mesh_format("rack.OBJ") == MeshFormat::kObj);
    CHECK(mesh_format("a.b/rack.stl") == MeshFormat::kStl);
    CHECK(mesh_format("rack.off") == MeshFormat::kOff);
    CHECK(mesh_format("rack.Ply") == MeshFormat::kPly);
    CHECK_FALSE(mesh_format("rack.step"));
    CHECK_FALSE(mesh_format(".obj"));
  }
}
