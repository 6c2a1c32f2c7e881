#include "planner/pressure/pressure_contact.h"

#include <Eigen/OrderingMethods>
#include <Eigen/Sparse>
#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

#include "planner/pressure/spring_contact.h"

namespace planner::pressure {
namespace {

using Matrix = Eigen::SparseMatrix<double>;  // upper triangle: factored as it is, not copied
using Vector = Eigen::VectorXd;
// The system is numbered once so that the factors stay sparse; no solve has to permute again.
using Factor = Eigen::SimplicialLDLT<Matrix, Eigen::Upper, Eigen::NaturalOrdering<int>>;
using Order = Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int>;

// Keeps a beam that has lost all its springs from drifting off while the contact is sought: every
// spring leaves this share of itself behind. The further passes of `solve` take its effect out
// again.
constexpr double kStabiliser = 1e-8;

// Corrections by what the true system leaves over: they remove the stabiliser and the rounding of
// the factors, so that force in is force out to 1e-9 also where stiff boards lie on soft springs.
// They end when the rest no longer halves.
constexpr int kCorrections = 30;
constexpr double kNothing = 1e-14;

// Only guards against rounding: the descent always ends (spring_contact.h).
constexpr int kRoundLimit = 60;

// What of the largest closing is rounding. In large systems it is more than at first is hoped for, and
// springs that carry next to nothing would open and close for ever.
constexpr double kRounding = 1e-12, kRoundingAtLast = 1e-7;
constexpr int kFirstRounds = 15;

// What a spring that would carry less than this share of the hardest, all holding, is at first
// taken to carry: nothing. It is the echo of clamps far off.
constexpr double kFaint = 1e-4;

// Where a spring's stiffness lies in the matrix's values.
struct Entries {
  std::ptrdiff_t upper = 0, lower = 0, both = 0;
};

Eigen::Map<const Vector> as_vector(const std::vector<double>& values) {
  return {values.data(), static_cast<Eigen::Index>(values.size())};
}

using Triplets = std::vector<Eigen::Triplet<double>>;

Matrix upper_matrix(int size, const Triplets& entries) {
  Matrix matrix(size, size);
  matrix.setFromTriplets(entries.begin(), entries.end());
  return matrix;
}

// The place of each degree of freedom: as numbered along a stack, else in an order of minimum
// degree.
Order sparse_order(const SpringSystem& system) {
  if (system.numbered_along) {
    Order as_given(system.freedoms);
    as_given.setIdentity();
    return as_given;
  }
  Triplets entries;
  const auto joined = [&entries](int a, int b) { entries.emplace_back(a, b, 1); };
  for (const MatrixEntry& e : system.fixed)
    joined(e.column, e.row);
  for (const BeamElement& e : system.beams)
    for (const int a : e.freedoms)
      for (const int b : e.freedoms)
        joined(std::min(a, b), std::max(a, b));
  for (const NodeSpring& s : system.springs)
    if (s.lower != kBase)
      joined(std::min(s.upper, s.lower), std::max(s.upper, s.lower));
  Order order;
  Eigen::AMDOrdering<int>()(upper_matrix(system.freedoms, entries).selfadjointView<Eigen::Upper>(),
                            order);
  return order.inverse();
}

SpringSystem renumbered(SpringSystem system, const Order& order) {
  if (system.numbered_along)
    return system;
  const auto renumber = [&order](int& freedom) {
    if (freedom != kBase)
      freedom = order.indices()[freedom];
  };
  for (MatrixEntry& e : system.fixed) {
    renumber(e.row);
    renumber(e.column);
    if (e.row < e.column)
      std::swap(e.row, e.column);
  }
  for (BeamElement& e : system.beams)
    std::for_each(e.freedoms.begin(), e.freedoms.end(), renumber);
  for (NodeSpring& s : system.springs) {
    renumber(s.upper);
    renumber(s.lower);
  }
  const Vector load = order * as_vector(system.fixed_load_N);
  system.fixed_load_N.assign(load.data(), load.data() + load.size());
  return system;
}

double closing_mm(const NodeSpring& s, const Vector& u) {
  return u[s.upper] - (s.lower == kBase ? 0 : u[s.lower]) - s.gap_mm;
}

}  // namespace

struct ContactSolver::Model {
  Order order;                   // of the degrees of freedom as they were given
  SpringSystem system;           // in that order
  std::vector<Entries> entries;  // of each spring
  Matrix fixed;                  // springs and pins that cannot open
  Matrix beams;                  // the beams and `fixed`, with room for the springs that can
  Matrix closed;                 // every spring holding
  Factor factor;                 // of `closed`, which needs no stabiliser
  std::vector<double> at_rest_MPa;

  explicit Model(SpringSystem given);
  void locate_entries();
  // Those of the springs that hold, times `share`, into a matrix of the pattern of `beams`.
  Matrix with_springs(Matrix matrix, const std::vector<char>& holding, double share) const;
  Matrix stabilised(const Matrix& matrix) const;
  Vector gap_load(const std::vector<char>& holding) const;
  // What the displaced system pushes back with.
  Vector resistance(const Vector& u, const std::vector<char>& holding) const;
  Vector solve(const Factor& with, const Vector& rhs, const std::vector<char>& holding) const;
  std::vector<char> all_holding() const;
  std::vector<double> closing_mm_of(const Vector& u) const;
  std::vector<double> pressure_MPa(const Vector& u) const;
  double step_towards(const Vector& aim, const Vector& u) const;
};

ContactSolver::Model::Model(SpringSystem given)
    : order(sparse_order(given)), system(renumbered(std::move(given), order)) {
  Triplets entries_of;
  for (const MatrixEntry& e : system.fixed)
    entries_of.emplace_back(e.column, e.row, e.value);
  fixed = upper_matrix(system.freedoms, entries_of);
  for (const BeamElement& e : system.beams) {
    const BeamMatrix k = beam_stiffness(e.layer, e.length_mm);
    for (std::size_t r = 0; r < 4; ++r)
      for (std::size_t c = 0; c < 4; ++c)
        if (e.freedoms[r] <= e.freedoms[c])
          entries_of.emplace_back(e.freedoms[r], e.freedoms[c], k[r][c]);
  }
  for (const NodeSpring& s : system.springs)
    if (s.lower != kBase)
      entries_of.emplace_back(std::min(s.upper, s.lower), std::max(s.upper, s.lower), 0);
  beams = upper_matrix(system.freedoms, entries_of);
  locate_entries();
  closed = with_springs(beams, all_holding(), 1);
  factor.analyzePattern(closed);
  factor.factorize(closed);
  at_rest_MPa = pressure_MPa(solve(factor, gap_load(all_holding()), all_holding()));
}

void ContactSolver::Model::locate_entries() {
  const auto offset = [this](int a, int b) {
    return &beams.coeffRef(std::min(a, b), std::max(a, b)) - beams.valuePtr();
  };
  for (const NodeSpring& s : system.springs)
    entries.push_back(s.lower == kBase ? Entries{offset(s.upper, s.upper), 0, 0}
                                       : Entries{offset(s.upper, s.upper), offset(s.lower, s.lower),
                                                 offset(s.upper, s.lower)});
}

// None of springs that carry nothing.
std::vector<char> ContactSolver::Model::all_holding() const {
  return std::vector<char>(entries.size(), system.springs_hold);
}

Matrix ContactSolver::Model::with_springs(Matrix matrix, const std::vector<char>& holding,
                                          double share) const {
  double* values = matrix.valuePtr();
  for (std::size_t i = 0; i < holding.size(); ++i) {
    if (!holding[i])
      continue;
    const NodeSpring& s = system.springs[i];
    const double k = share * s.stiffness_N_mm;
    values[entries[i].upper] += k;
    if (s.lower == kBase)
      continue;
    values[entries[i].lower] += k;
    values[entries[i].both] -= k;
  }
  return matrix;
}

Matrix ContactSolver::Model::stabilised(const Matrix& matrix) const {
  return with_springs(matrix, std::vector<char>(entries.size(), 1), kStabiliser);
}

// What the gaps push through the springs that hold.
Vector ContactSolver::Model::gap_load(const std::vector<char>& holding) const {
  Vector f = as_vector(system.fixed_load_N);
  for (std::size_t i = 0; i < holding.size(); ++i) {
    const NodeSpring& s = system.springs[i];
    const double force = holding[i] ? s.stiffness_N_mm * s.gap_mm : 0;
    f[s.upper] += force;
    if (s.lower != kBase)
      f[s.lower] -= force;
  }
  return f;
}

Vector ContactSolver::Model::resistance(const Vector& u, const std::vector<char>& holding) const {
  Vector f = fixed.selfadjointView<Eigen::Upper>() * u;
  for (const BeamElement& e : system.beams) {
    BeamVector displacement{};
    for (std::size_t r = 0; r < 4; ++r)
      displacement[r] = u[e.freedoms[r]];
    const BeamVector force = beam_forces(e.layer, e.length_mm, displacement);
    for (std::size_t r = 0; r < 4; ++r)
      f[e.freedoms[r]] += force[r];
  }
  for (std::size_t i = 0; i < holding.size(); ++i) {
    if (!holding[i])
      continue;
    const NodeSpring& s = system.springs[i];
    const double force = s.stiffness_N_mm * (closing_mm(s, u) + s.gap_mm);
    f[s.upper] += force;
    if (s.lower != kBase)
      f[s.lower] -= force;
  }
  return f;
}

Vector ContactSolver::Model::solve(const Factor& with, const Vector& rhs,
                                   const std::vector<char>& holding) const {
  Vector u = with.solve(rhs);
  double before = rhs.lpNorm<1>();
  const double enough = kNothing * before;
  for (int i = 0; i < kCorrections && before > enough; ++i) {
    const Vector rest = rhs - resistance(u, holding);
    const double now = rest.lpNorm<1>();
    if (now > before / 2 || now <= enough)
      break;
    u += with.solve(rest);
    before = now;
  }
  return u;
}

std::vector<double> ContactSolver::Model::closing_mm_of(const Vector& u) const {
  std::vector<double> closing(entries.size());
  for (std::size_t i = 0; i < closing.size(); ++i)
    closing[i] = closing_mm(system.springs[i], u);
  return closing;
}

std::vector<double> ContactSolver::Model::pressure_MPa(const Vector& u) const {
  std::vector<double> p(entries.size());
  for (std::size_t i = 0; i < p.size(); ++i) {
    const NodeSpring& s = system.springs[i];
    p[i] = s.stiffness_N_mm * closing_mm(s, u) / s.area_mm2;
  }
  return p;
}

ContactSolver::ContactSolver(SpringSystem system)
    : model_(std::make_unique<Model>(std::move(system))) {}
ContactSolver::ContactSolver(ContactSolver&&) noexcept = default;
ContactSolver& ContactSolver::operator=(ContactSolver&&) noexcept = default;
ContactSolver::~ContactSolver() = default;

const std::vector<double>& ContactSolver::pressure_at_rest_MPa() const {
  return model_->at_rest_MPa;
}

std::vector<double> ContactSolver::influence_MPa(const NodeLoads& load) const {
  return std::move(influences_MPa({&load, 1}).front());
}

namespace {

// Right-hand sides side by side: one walk over the factors serves a row of them.
constexpr int kAbreast = 8;
using Row = Eigen::Array<double, kAbreast, 1>;

// REQUIRES: x is 0 before `first`.
void solve_in_place(const Factor& factor, std::vector<Row>& x, std::size_t first) {
  const Matrix& lower = factor.matrixL().nestedExpression();  // its diagonal is 1, and not stored
  const Vector diagonal = factor.vectorD();
  const int* begin = lower.outerIndexPtr();
  const auto row_of = [&](int entry) {
    return static_cast<std::size_t>(lower.innerIndexPtr()[entry]);
  };
  for (std::size_t j = first; j < x.size(); ++j) {
    const Row pivot = x[j];
    for (int e = begin[j]; e < begin[j + 1]; ++e)
      x[row_of(e)] -= lower.valuePtr()[e] * pivot;
  }
  for (std::size_t j = x.size(); j-- > 0;) {
    Row sum = x[j] / diagonal[static_cast<Eigen::Index>(j)];
    for (int e = begin[j]; e < begin[j + 1]; ++e)
      sum -= lower.valuePtr()[e] * x[row_of(e)];
    x[j] = sum;
  }
}

}  // namespace

// The factors as they are: an influence is a step of a search, whose answer is pressed in full.
std::vector<std::vector<double>> ContactSolver::influences_MPa(
    std::span<const NodeLoads> loads) const {
  const Model& m = *model_;
  std::vector<std::vector<double>> out(loads.size(), std::vector<double>(m.entries.size()));
  std::vector<Row> u(static_cast<std::size_t>(m.system.freedoms));
  for (std::size_t first = 0; first < loads.size(); first += kAbreast) {
    const auto count = static_cast<int>(std::min<std::size_t>(kAbreast, loads.size() - first));
    std::fill(u.begin(), u.end(), Row::Zero());
    std::size_t first_loaded = u.size();
    for (int k = 0; k < count; ++k)
      for (const NodeLoad& l : loads[first + static_cast<std::size_t>(k)]) {
        const auto at = static_cast<std::size_t>(m.order.indices()[l.freedom]);
        first_loaded = std::min(first_loaded, at);
        u[at][k] += l.force_N;
      }
    solve_in_place(m.factor, u, first_loaded);
    for (std::size_t i = 0; i < m.entries.size(); ++i) {
      const NodeSpring& s = m.system.springs[i];
      Row closing = u[static_cast<std::size_t>(s.upper)];
      if (s.lower != kBase)
        closing -= u[static_cast<std::size_t>(s.lower)];
      for (int k = 0; k < count; ++k)
        out[first + static_cast<std::size_t>(k)][i] = s.stiffness_N_mm * closing[k] / s.area_mm2;
    }
  }
  return out;
}

// How far to go from `u` towards `aim`, the answer for the springs that are closed at `u`.
double ContactSolver::Model::step_towards(const Vector& aim, const Vector& u) const {
  const Vector way = aim - u;
  std::vector<SpringOnTheWay> springs(entries.size());
  for (std::size_t i = 0; i < springs.size(); ++i) {
    const NodeSpring& s = system.springs[i];
    springs[i] = {s.stiffness_N_mm, closing_mm(s, u), closing_mm(s, way) + s.gap_mm};
  }
  const std::vector<char> none(entries.size(), 0);
  return descent_step(springs, way.dot(resistance(way, none)));
}

ContactSolution ContactSolver::press(const NodeLoads& load) const {
  const Model& m = *model_;
  Vector pushed = Vector::Zero(m.system.freedoms);
  for (const NodeLoad& l : load)
    pushed[m.order.indices()[l.freedom]] += l.force_N;
  std::vector<char> holding = m.all_holding();
  Vector aim = m.solve(m.factor, pushed + m.gap_load(holding), holding), u;
  std::vector<double> closing = m.closing_mm_of(aim);
  Factor factor;
  ContactSolution out{{}, {}, 1, hold_rightly(holding, closing, kRounding)};
  while (!out.settled && out.rounds < kRoundLimit) {
    // The first answers are for springs that aren't those closed at any `u`.
    if (out.rounds <= 2)
      u = aim;
    else
      u += m.step_towards(aim, u) * (aim - u);
    holding = closed_by(m.closing_mm_of(u), out.rounds == 1 ? kFaint : 0);
    const Matrix matrix = m.with_springs(m.beams, holding, 1);
    if (out.rounds == 1)
      factor.analyzePattern(matrix);
    factor.factorize(m.stabilised(matrix));
    aim = m.solve(factor, pushed + m.gap_load(holding), holding);
    closing = m.closing_mm_of(aim);
    out.settled =
        hold_rightly(holding, closing, out.rounds < kFirstRounds ? kRounding : kRoundingAtLast);
    ++out.rounds;
  }
  out.pressure_MPa = m.pressure_MPa(aim);
  out.gap_mm.assign(closing.size(), 0);
  for (std::size_t i = 0; i < closing.size(); ++i)
    if (!holding[i] || closing[i] < 0) {
      out.pressure_MPa[i] = 0;
      out.gap_mm[i] = std::max(0.0, -closing[i]);
    }
  return out;
}

}  // namespace planner::pressure
