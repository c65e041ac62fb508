/// @file
/// Eight neighbours in an array as one scalar: one cook's loops over its nodes, where nothing is chosen lane
/// by lane and one wide vector is a tenth quicker than the two of a pack (engine/arithmetic/pack.hpp).
#pragma once

#include <array>
#include <cstddef>
#include <cstring>

namespace cook::reference {

struct Neighbours {
  static constexpr std::size_t count = 8;
  typedef double Vector __attribute__((vector_size(8 * count)));
  Vector vector; ///< like a double: not set unless it is

  Neighbours() = default;
  Neighbours(double all) : vector(all - Vector{}) {} // NOLINT: a number is that many equal numbers
  explicit Neighbours(const Vector &from) : vector(from) {}

  [[nodiscard]] double operator[](std::size_t i) const { return vector[i]; }
  void set(std::size_t i, double value) { vector[i] = value; }

  using N = Neighbours;
  friend N operator+(const N &a, const N &b) { return N(a.vector + b.vector); }
  friend N operator-(const N &a, const N &b) { return N(a.vector - b.vector); }
  friend N operator*(const N &a, const N &b) { return N(a.vector * b.vector); }
  friend N operator/(const N &a, const N &b) { return N(a.vector / b.vector); }
  friend N operator-(const N &a) { return N(-a.vector); }
  friend N min(const N &a, const N &b) { return N(a.vector < b.vector ? a.vector : b.vector); }
  friend N max(const N &a, const N &b) { return N(a.vector > b.vector ? a.vector : b.vector); }
};

inline Neighbours load(const double *from) {
  Neighbours n;
  std::memcpy(&n.vector, from, sizeof n.vector);
  return n;
}

inline void store(const Neighbours &n, double *to) { std::memcpy(to, &n.vector, sizeof n.vector); }

/// Calls work(first) for every eight of n neighbours; n is at least eight. The last eight overlap those
/// before: the work must not mind being done twice.
template <class Work> void for_neighbours(std::size_t n, Work work) {
  for (std::size_t at = 0; at < n; at += Neighbours::count) {
    work(at + Neighbours::count <= n ? at : n - Neighbours::count);
  }
}

/// Two unknowns of neighbouring nodes, which lie in turn in an array.
inline std::array<Neighbours, 2> load_pairs(const double *from) {
  const auto low = load(from).vector;
  const auto high = load(from + Neighbours::count).vector;
  return {Neighbours(__builtin_shufflevector(low, high, 0, 2, 4, 6, 8, 10, 12, 14)),
          Neighbours(__builtin_shufflevector(low, high, 1, 3, 5, 7, 9, 11, 13, 15))};
}

} // namespace cook::reference
