/// @file
/// The ways follow the lists of fields, so that a member that is listed there can be varied.
#include "cook/plan/vary.hpp"

#include <optional>
#include <type_traits>
#include <utility>
#include <vector>

#include "cook/cooker/fire_fields.hpp"
#include "cook/meat/cut.hpp"
#include "cook/meat/tissue_fields.hpp"
#include "cook/plan/plan_fields.hpp"

namespace cook {

namespace {

using Way = std::span<const PlanStep>;
template <class T> using Set = std::function<void(T &, double)>;

template <class T> Set<T> setter(const T &now, Way way);

template <class T> struct IsVector : std::false_type {};
template <class T> struct IsVector<std::vector<T>> : std::true_type {};
template <class T> struct IsOptional : std::false_type {};
template <class T> struct IsOptional<std::optional<T>> : std::true_type {};

/// What the number becomes, where the way ends.
template <class T> Set<T> at_the_end(const T &now) {
  if constexpr (std::is_same_v<T, double> || std::is_same_v<T, Signal>) {
    return [](T &to, double value) { to = value; };
  } else if constexpr (std::is_same_v<T, Film>) {
    return [](Film &to, double value) { to = {.kind = Convection::given, .value = value}; };
  } else if constexpr (std::is_same_v<T, std::vector<End>>) {
    return now.size() == 1 ? [](std::vector<End> &to, double value) { to.front().value = value; } : Set<T>{};
  } else {
    return {};
  }
}

template <class S> Set<S> member(const S &now, const std::string &name, Way rest) {
  Set<S> found;
  for_each_field<S>([&]<class T>(const Field<S, T> &one) {
    if ((one.called.empty() ? one.name : one.called) == name) {
      if (auto inner = setter(now.*one.member, rest)) {
        found = [inner = std::move(inner), which = one.member](S &to, double value) {
          inner(to.*which, value);
        };
      }
    }
  });
  return found;
}

template <class T> Set<T> setter(const T &now, Way way) {
  if constexpr (IsOptional<T>::value) {
    using Inner = typename T::value_type;
    if (way.empty() && (std::is_same_v<Inner, double> || std::is_same_v<Inner, Signal>)) {
      auto inner = setter(Inner{}, way);
      return [inner](T &to, double value) { inner(to.emplace(), value); };
    }
    auto inner = now ? setter(*now, way) : Set<Inner>{};
    return inner ? [inner](T &to, double value) { inner(*to, value); } : Set<T>{};
  } else if constexpr (IsVector<T>::value) {
    const auto *place = way.empty() ? nullptr : std::get_if<std::size_t>(&way.front());
    if (!place || *place >= now.size()) {
      return way.empty() ? at_the_end(now) : Set<T>{};
    }
    if constexpr (Listed<typename T::value_type>) {
      auto inner = setter(now[*place], way.subspan(1));
      return inner ? [inner, at = *place](T &to, double value) { inner(to[at], value); } : Set<T>{};
    } else {
      return {};
    }
  } else {
    if (way.empty()) {
      return at_the_end(now);
    }
    if constexpr (Listed<T>) {
      const auto *name = std::get_if<std::string>(&way.front());
      return name ? member(now, *name, way.subspan(1)) : Set<T>{};
    } else {
      return {};
    }
  }
}

bool is(const PlanStep &step, const char *name) {
  const auto *text = std::get_if<std::string>(&step);
  return text && *text == name;
}

} // namespace

SetNumber number_in(const Plan &plan, std::span<const PlanStep> way) {
  if (way.size() == 2 && is(way[0], "meat") && is(way[1], "mass")) {
    return [](Plan &to, double mass) { to.meat = with_mass(std::move(to.meat), mass); };
  }
  if (way.size() == 2 && is(way[0], "meat") && is(way[1], "thickness")) {
    return [](Plan &to, double thickness) {
      const double mass = to.meat.mass();
      to.meat = resized(std::move(to.meat), mass, thickness);
    };
  }
  return setter(plan, way);
}

} // namespace cook
