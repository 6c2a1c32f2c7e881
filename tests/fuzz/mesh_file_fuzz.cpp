// Any bytes as a mesh: the first says which format, the rest is the file. A part that is read has
// a volume; whatever is not is told.
#include <cmath>

#include "geometry/mesh/mesh_file.h"
#include "tests/fuzz/fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  if (size == 0) {
    return 0;
  }
  constexpr geometry::MeshFormat kFormats[] = {
      geometry::MeshFormat::kObj, geometry::MeshFormat::kOff, geometry::MeshFormat::kPly,
      geometry::MeshFormat::kStl};
  const std::string_view bytes(reinterpret_cast<const char*>(data + 1), size - 1);
  const geometry::MeshParts read =
      geometry::read_mesh(bytes, kFormats[data[0] % 4], "rack", geometry::Length::whole_mm(1));
  fuzz::require(!read.parts.empty() || !read.defects.empty(), "a mesh has parts or defects");
  for (const geometry::MeshPart& part : read.parts) {
    const double volume = geometry::volume_mm3(part.solid);
    fuzz::require(std::isfinite(volume) && volume > 0, "a part has a volume");
  }
  for (const geometry::MeshDefect& defect : read.defects) {
    fuzz::require(!defect.what.empty(), "a defect has words");
  }
  return 0;
}
