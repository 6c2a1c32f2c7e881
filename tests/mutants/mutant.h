// What mutants.py writes into its copy of the sources: places that hold a mistake once the environment asks for it, so
// that one build serves all. An operator keeps its place in the line, as `a < mutant::Less{7} > b`: operators of the
// same rank on both sides, so that the operands stay what they were.
#pragma once
#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdlib>
#include <type_traits>

// Of a file with mistakes in it nobody wants warnings.
#pragma GCC diagnostic ignored "-Wall"
#pragma GCC diagnostic ignored "-Wextra"
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wnarrowing"
#pragma GCC diagnostic ignored "-Wparentheses"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#pragma GCC diagnostic ignored "-Wsign-compare"
#pragma GCC diagnostic ignored "-Wfloat-conversion"

namespace mutant {

// GLUEUP_MUTANT is the number of the mutant that is alive; GLUEUP_MUTANTS_MET a file with a byte for each, set where
// a run meets one that would have made a difference.
struct Run {
  int alive = -1;
  unsigned char* met = nullptr;
};

inline Run asked_run() {
  Run run;
  if (const char* number = std::getenv("GLUEUP_MUTANT")) {
    run.alive = std::atoi(number);
  }
  if (const char* path = std::getenv("GLUEUP_MUTANTS_MET")) {
    const int file = open(path, O_RDWR);
    void* bytes = mmap(nullptr, 4096, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    run.met = bytes == MAP_FAILED ? nullptr : static_cast<unsigned char*>(bytes);
    close(file);
  }
  return run;
}

template <class T>
T chosen(int k, T original, T changed) {
  static const Run run = asked_run();
  if (run.met && original != changed) {
    run.met[k] = 1;
  }
  return k == run.alive ? changed : original;
}

// A tenth more; of a small whole number one more.
template <class T>
T number(int k, T original) {
  if constexpr (std::is_floating_point_v<T>) {
    return chosen<T>(k, original, original == 0 ? T(1) : original * T(1.1));
  } else {
    return chosen<T>(k, original, static_cast<T>(original + (original < 10 ? 1 : original / 10)));
  }
}

// Fractions are never equal but by chance, so that only the other way round is a change.
template <class A, class B>
constexpr bool kFractions = std::is_floating_point_v<A> || std::is_floating_point_v<B>;

// NAME stands between FIRST and SECOND for the operator FIRST; CHANGED says what it becomes of a and b.
#define GLUEUP_MUTANT(NAME, FIRST, SECOND, CHANGED)                      \
  struct NAME {                                                          \
    int k;                                                               \
  };                                                                     \
  template <class A>                                                     \
  struct NAME##Of {                                                      \
    const A& a;                                                          \
    int k;                                                               \
  };                                                                     \
  template <class A>                                                     \
  NAME##Of<A> operator FIRST(const A& a, NAME place) {                   \
    return {a, place.k};                                                 \
  }                                                                      \
  template <class A, class B>                                            \
  auto operator SECOND(NAME##Of<A> left, const B& b) {                   \
    const A& a = left.a;                                                 \
    return chosen<std::decay_t<decltype(a FIRST b)>>(left.k, a FIRST b, CHANGED); \
  }

GLUEUP_MUTANT(Less, <, >, (kFractions<A, B> ? a > b : a <= b))
GLUEUP_MUTANT(Greater, >, <, (kFractions<A, B> ? a < b : a >= b))
GLUEUP_MUTANT(LessEqual, <=, >=, (kFractions<A, B> ? a >= b : a < b))
GLUEUP_MUTANT(GreaterEqual, >=, <=, (kFractions<A, B> ? a <= b : a > b))
GLUEUP_MUTANT(Equal, ==, ==, a != b)
GLUEUP_MUTANT(Unequal, !=, !=, a == b)
GLUEUP_MUTANT(Plus, +, +, a - b)
GLUEUP_MUTANT(Minus, -, -, a + b)

}  // namespace mutant
