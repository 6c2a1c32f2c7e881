// What the exact geometry costs beside its slow twins: solids against Nef polyhedra, contacts
// against Boolean operations on cross sections. Milliseconds, and how many times longer the twin
// takes.
#include <algorithm>
#include <chrono>
#include <cstdio>

#include "geometry/contact.h"
#include "scenes/scenes.h"
#include "twins/nef_twin.h"
#include "twins/polygon_set_twin.h"

namespace {

template <class Work>
double least_ms(int runs, Work work) {
  double least = 1e300;
  for (int i = 0; i < runs; ++i) {
    const auto from = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - from;
    least = std::min(least, took.count());
  }
  return least;
}

void compare(const char* name, const scenes::Assembly& assembly) {
  const double solids = least_ms(20, [&] {
    for (const geometry::Solid& solid : scenes::make(assembly)) {
      volume_mm3(solid);
      facets(solid);
    }
  });
  const double nef = least_ms(1, [&] {
    for (const scenes::Recipe& recipe : assembly) {
      twins::nef_figures(recipe);
    }
  });
  const double contacts = least_ms(20, [&] { find_contacts(scenes::make(assembly), {}); });
  const double sections = least_ms(1, [&] {
    for (std::size_t a = 0; a < assembly.size(); ++a) {
      for (std::size_t b = a + 1; b < assembly.size(); ++b) {
        twins::contact_areas(assembly[a], assembly[b]);
      }
    }
  });
  std::printf(
      "%-10s solids and facets %8.3f, Nef %8.1f (%.0f x)   contacts %8.3f, sections %8.1f (%.0f "
      "x)\n",
      name, solids, nef, nef / solids, contacts, sections, sections / contacts);
}

}  // namespace

int main() {
  compare("chest", scenes::chest());
  compare("fingers", scenes::finger_box());
  compare("10 parts", scenes::carcass(10));
  compare("30 parts", scenes::carcass(30));
}
