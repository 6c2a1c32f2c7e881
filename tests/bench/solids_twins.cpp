// What the exact geometry costs beside its slow twins: solids against Nef polyhedra and Booleans of
// meshes, contacts against Boolean operations on cross sections.
#include <cmath>

#include "bench/table.h"
#include "geometry/contact.h"
#include "scenes/scenes.h"
#include "twins/mesh_twin.h"
#include "twins/nef_twin.h"
#include "twins/polygon_set_twin.h"

namespace {

void compare(const std::string& name, const scenes::Assembly& assembly) {
  const double solids = bench::median_ms([&] {
    for (const geometry::Solid& solid : scenes::make(assembly)) {
      volume_mm3(solid);
      facets(solid);
    }
  });
  const double nef = bench::once_ms([&] {
    for (const scenes::Recipe& recipe : assembly) {
      twins::nef_figures(recipe);
    }
  });
  double unlike_mm3 = 0;
  const double meshes = bench::once_ms([&] {
    for (const scenes::Recipe& recipe : assembly) {
      unlike_mm3 += std::abs(twins::mesh_volume_mm3(recipe) - volume_mm3(scenes::make(recipe)));
    }
  });
  const double contacts = bench::median_ms([&] { find_contacts(scenes::make(assembly), {}); });
  const double sections = bench::once_ms([&] {
    for (std::size_t a = 0; a < assembly.size(); ++a) {
      for (std::size_t b = a + 1; b < assembly.size(); ++b) {
        twins::contact_areas(assembly[a], assembly[b]);
      }
    }
  });
  bench::row_beside(name + ": solids, facets, volumes", "", solids, "Nef polyhedra", nef);
  bench::row_beside(name + ": solids, facets, volumes", "", solids,
                    unlike_mm3 < 1e-3 ? "mesh Booleans" : "other mesh Booleans", meshes);
  bench::row_beside(name + ": solids and contacts", "", contacts, "polygon sets", sections);
}

}  // namespace

int main() {
  compare("rabbeted box, 6 parts", scenes::chest());
  compare("box of 4 x 11 fingers", scenes::finger_box());
  compare("carcass of 30 parts", scenes::carcass(30));
}
