#include "fit/belief/belief.hpp"

#include <algorithm>
#include <cmath>

namespace cook::fit {

namespace {

constexpr std::size_t nowhere = population_numbers.size();

std::size_t place_of(std::string_view name, bool pork) {
  const std::string_view wanted = name != "thickness" ? name : pork ? "pork thickness" : "brisket thickness";
  const auto found = std::find_if(population_numbers.begin(), population_numbers.end(),
                                  [&](const PopulationNumber &n) { return n.name == wanted; });
  return static_cast<std::size_t>(found - population_numbers.begin());
}

double tie(std::size_t a, std::size_t b) {
  if (a == b) {
    return 1.0;
  }
  const auto found =
      std::find_if(population_ties.begin(), population_ties.end(), [&](const PopulationTie &t) {
        return (t.one == a && t.other == b) || (t.one == b && t.other == a);
      });
  return found == population_ties.end() ? 0.0 : found->correlation;
}

} // namespace

double believed_scatter(std::string_view name) {
  const std::size_t at = std::min(place_of(name, false), place_of(name, true));
  if (at == nowhere) {
    return 0.0;
  }
  const double scatter = population_numbers[at].scatter;
  return scatter > 0.0 || name == "emissivity" ? scatter : unseen_scatter;
}

double believed_spread(std::string_view name) {
  const std::size_t at = std::min(place_of(name, false), place_of(name, true));
  return at == nowhere ? 0.0 : std::hypot(population_numbers[at].middle, believed_scatter(name));
}

Eigen::MatrixXd believed_correlation(const std::vector<Believed> &numbers, bool pork) {
  const auto n = static_cast<Eigen::Index>(numbers.size());
  Eigen::MatrixXd made = Eigen::MatrixXd::Identity(n, n);
  for (Eigen::Index a = 0; a < n; ++a) {
    for (Eigen::Index b = 0; b < a; ++b) {
      const Believed &one = numbers[static_cast<std::size_t>(a)];
      const Believed &other = numbers[static_cast<std::size_t>(b)];
      const std::size_t at = place_of(one.name, pork);
      const std::size_t with = place_of(other.name, pork);
      if (at == nowhere || with == nowhere) {
        continue;
      }
      // Two cooks share the population's middle, not what is their own.
      const double share = std::min(population_numbers[at].middle / one.spread, 1.0) *
                           std::min(population_numbers[with].middle / other.spread, 1.0);
      made(a, b) = made(b, a) = tie(at, with) * share;
    }
  }
  return made;
}

} // namespace cook::fit
