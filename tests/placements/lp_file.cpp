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

void add_places(std::ostream& out, const PressTable& table) {
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

std::string lp_text(const PlacementQuestion& q) {
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

std::optional<GlpkAnswer> ask_glpk(const PlacementQuestion& question, int seconds) {
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
