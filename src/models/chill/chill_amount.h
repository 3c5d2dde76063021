// An amount of winter cold whose measure is known only when the program runs, as read from an
// orchard file or picked for a page: "18 portions". Two amounts of different measures have no order
// and no sum; asking for one is our fault.
#pragma once

#include <compare>

#include "base/units.h"

namespace winterfolio {

class ChillAmount {
 public:
  constexpr ChillAmount(ChillMeasure measure, double amount) : measure_(measure), amount_(amount) {}
  template <ChillMeasure M>
  constexpr ChillAmount(Chill<M> chill)
      : measure_(M), amount_(chill.amount()) {}  // NOLINT: a widening

  constexpr ChillMeasure measure() const { return measure_; }
  constexpr double amount() const { return amount_; }

  /// The amount as its own type. Throws std::logic_error if it is of another measure.
  template <ChillMeasure M>
  Chill<M> as() const {
    require(M);
    return Chill<M>(amount_);
  }

  /// Comparing and adding throw std::logic_error where the measures differ.
  std::partial_ordering operator<=>(ChillAmount other) const {
    require(other.measure_);
    return amount_ <=> other.amount_;
  }
  bool operator==(ChillAmount other) const {
    require(other.measure_);
    return amount_ == other.amount_;
  }
  ChillAmount operator+(ChillAmount other) const {
    require(other.measure_);
    return {measure_, amount_ + other.amount_};
  }
  ChillAmount operator-(ChillAmount other) const {
    require(other.measure_);
    return {measure_, amount_ - other.amount_};
  }

 private:
  void require(ChillMeasure measure) const;

  ChillMeasure measure_;
  double amount_;
};

}  // namespace winterfolio
