#include "lp_file.h"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <locale>
#include <sstream>

namespace planner {
namespace {

// Coefficients too small to matter only slow the solver down.
constexpr double kNothing = 1e-9;

void add_places(std::ostream& out, const clamps::count::PressTable& table) {
  for (std::size_t p = 0; p < table.places; ++p) {
    out << " p" << p << ":";
    for (std::size_t s = 0; s < table.spots; ++s) {
      const double v = 1000 * table.of(s)[p];  // forces in kN
      if (std::abs(v) > kNothing) {
        out << (v < 0 ? " - " : " + ") << std::abs(v) << " f" << s;
      }
    }
    out << " >= " << 1 - table.at_rest[p] << "\n";
  }
}

}  // namespace

clamps::count::PlacementQuestion only_spots(const clamps::count::PlacementQuestion& q,
                                            std::span<const std::size_t> spots) {
  clamps::count::PlacementQuestion out;
  const std::size_t gone = q.limit_N.size();
  std::vector<std::size_t> index(gone, gone);
  out.table.places = q.table.places;
  out.table.at_rest = q.table.at_rest;
  for (const std::size_t s : spots) {
    index[s] = out.table.spots++;
    const auto column = q.table.of(s);
    out.table.per_N.insert(out.table.per_N.end(), column.begin(), column.end());
    out.snug_N.push_back(q.snug_N[s]);
    out.limit_N.push_back(q.limit_N[s]);
  }
  for (const clamps::count::SpotRule& rule : q.rules) {
    clamps::count::SpotRule kept{{}, rule.at_least};
    for (const std::size_t s : rule.spots) {
      if (index[s] != gone) {
        kept.spots.push_back(index[s]);
      }
    }
    if (static_cast<int>(kept.spots.size()) >= kept.at_least) {
      out.rules.push_back(std::move(kept));
    }
  }
  for (const auto& [a, b] : q.exclusive) {
    if (index[a] != gone && index[b] != gone) {
      out.exclusive.emplace_back(index[a], index[b]);
    }
  }
  return out;
}

std::string lp_text(const clamps::count::PlacementQuestion& q) {
  std::ostringstream out;
  out.imbue(std::locale::classic());
  out.precision(12);
  const std::size_t spots = q.limit_N.size();
  out << "Minimize\n clamps:";
  for (std::size_t s = 0; s < spots; ++s) {
    out << " + x" << s;
  }
  out << "\nSubject To\n";
  add_places(out, q.table);
  for (std::size_t s = 0; s < spots; ++s) {
    out << " most" << s << ": f" << s << " - " << q.limit_N[s] / 1000 << " x" << s << " <= 0\n";
    out << " snug" << s << ": f" << s << " - " << q.snug_N[s] / 1000 << " x" << s << " >= 0\n";
  }
  for (std::size_t r = 0; r < q.rules.size(); ++r) {
    out << " rule" << r << ":";
    for (const std::size_t s : q.rules[r].spots) {
      out << " + x" << s;
    }
    out << " >= " << q.rules[r].at_least << "\n";
  }
  for (const auto& [a, b] : q.exclusive) {
    out << " apart" << a << "_" << b << ": x" << a << " + x" << b << " <= 1\n";
  }
  out << "Binary\n";
  for (std::size_t s = 0; s < spots; ++s) {
    out << " x" << s << "\n";
  }
  out << "End\n";
  return out.str();
}

std::optional<GlpkAnswer> ask_glpk(const clamps::count::PlacementQuestion& question, int seconds) {
  if (std::system("command -v glpsol >/dev/null 2>&1") != 0) {
    return std::nullopt;
  }
  const std::filesystem::path dir = std::filesystem::current_path() / "placements";
  std::filesystem::create_directories(dir);
  const std::string lp = (dir / "question.lp").string(), answer = (dir / "answer.txt").string();
  std::ofstream(lp) << lp_text(question);
  std::filesystem::remove(answer);
  const std::string command = "glpsol --lp '" + lp + "' --cuts --tmlim " + std::to_string(seconds) +
                              " -o '" + answer + "' >/dev/null 2>&1";
  if (std::system(command.c_str()) != 0) {
    return GlpkAnswer{};
  }
  // "Status:     INTEGER OPTIMAL" and "Objective:  clamps = 5 (MINimum)"
  GlpkAnswer out;
  std::ifstream in(answer);
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("Status:", 0) == 0) {
      out.optimal = line.find("INTEGER OPTIMAL") != std::string::npos;
      out.impossible = line.find("INTEGER EMPTY") != std::string::npos;
      if (line.find("UNDEFINED") != std::string::npos || out.impossible) {
        return out;
      }
    }
    const std::size_t equals = line.find("= ");
    if (line.rfind("Objective:", 0) == 0 && equals != std::string::npos) {
      out.clamps = static_cast<int>(std::stod(line.substr(equals + 2)) + 0.5);
      return out;
    }
  }
  return out;
}

}  // namespace planner
