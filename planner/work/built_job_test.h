// A job made into solids and contacts, for the tests of starters and cuts.
#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "geometry/contact.h"
#include "geometry/overlap.h"
#include "planner/files/job_file.h"
#include "planner/work/job_check.h"
#include "planner/work/part_solid.h"

namespace planner::work {

struct BuiltJob {
  std::string mistakes;  // all that was said of it, by the reader or of its solids
  Job job;
  std::vector<geometry::Solid> solids;
  std::vector<geometry::Contact> contacts;

  explicit BuiltJob(const std::string& text) {
    files::JobReading read = files::read_job("job.toml", text);
    note(read.diagnostics);
    if (!read.job) {
      return;
    }
    job = *read.job;
    solids = make_solids(job.parts);
    const base::Diagnostics found = check_solids(job, solids);
    note(found);
    if (!has_errors(found)) {
      contacts = geometry::find_contacts(solids, {});
      note(check_touching(job, solids, contacts));
    }
  }

  std::size_t index(const std::string& name) const {
    const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                   [&](const Part& p) { return p.name == name; });
    return static_cast<std::size_t>(part - job.parts.begin());
  }

  double volume_mm3(const std::string& name) const {
    return geometry::volume_mm3(solids.at(index(name)));
  }

  // Areas of the faces between two parts that look along an axis, largest first.
  std::vector<double> faces(const std::string& a, const std::string& b, std::size_t axis) const {
    std::vector<double> areas;
    for (const geometry::Contact& c : contacts) {
      if (is_between(c, a, b) && std::abs(c.normal[axis]) > 0.999) {
        areas.push_back(c.area_mm2);
      }
    }
    std::sort(areas.rbegin(), areas.rend());
    return areas;
  }

  double area_mm2(const std::string& a, const std::string& b) const {
    double sum = 0;
    for (const geometry::Contact& c : contacts) {
      sum += is_between(c, a, b) ? c.area_mm2 : 0;
    }
    return sum;
  }

  // Of all faces of one part.
  double area_mm2(const std::string& name) const {
    double sum = 0;
    for (const geometry::Contact& c : contacts) {
      sum += job.parts[c.a].name == name || job.parts[c.b].name == name ? c.area_mm2 : 0;
    }
    return sum;
  }

  double total_mm2() const {
    double sum = 0;
    for (const geometry::Contact& c : contacts) {
      sum += c.area_mm2;
    }
    return sum;
  }

 private:
  void note(const base::Diagnostics& diagnostics) {
    for (const base::Diagnostic& d : diagnostics) {
      mistakes += to_text(d) + "\n";
    }
  }
  bool is_between(const geometry::Contact& c, const std::string& a, const std::string& b) const {
    const std::string &first = job.parts[c.a].name, &second = job.parts[c.b].name;
    return (first == a && second == b) || (first == b && second == a);
  }
};

}  // namespace planner::work
