// How long cutting one tree takes one experienced person. Nearly every figure is an estimate and is
// printed as one.
//
// Brush, ladder moves, cleaning and first-time hands come on top (tables/workday_overheads.csv).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "orchard/orchard.h"
#include "pruning/evidence.h"

namespace winterfolio {

enum class LabourWay { ground, pole, ladder, arborist };  ///< in the order of effort

struct LabourRule {
  std::string id;
  std::string species;            ///< "any" for all
  std::string state;              ///< "young" (planted, formative), "mature" (bearing), "neglected"
  std::string form;               ///< empty: any
  std::optional<double> above_m;  ///< heights above this
  std::optional<double> to_m;     ///< up to and including this; nothing: no bound
  Range minutes;                  ///< [worker-minutes of cutting]
  std::optional<int> people;      ///< at the tree; nothing for an arborist's crew
  LabourWay way = LabourWay::ground;
  bool plan_with = false;  ///< no: a published figure to compare with
  Evidence because;
};

std::span<const LabourRule> labour_rules();

struct LabourEstimate {
  Range minutes;  ///< [worker-minutes of cutting by one experienced person]
  int people = 1;
  LabourWay way = LabourWay::ground;  ///< the hardest that may be needed
  std::vector<Evidence> because;  ///< one row, or all that may hold where the height is not known
  bool for_volunteers() const { return way != LabourWay::arborist; }
};

/// The minutes for one tree; nothing for species "other".
///
/// A tree up to 4.5 m never takes an arborist's row, a taller one never a volunteer's. A height in
/// no row of the species takes the nearest row of its state, then the rows for any kind. An unknown
/// height gives the range over the rows up to 4.5 m.
std::optional<LabourEstimate> labour_for(const Tree& tree, TreeState state);

/// One overhead of a workday.
struct Overhead {
  std::string id;
  double low = 0.0;
  double high = 0.0;
  double planned = 0.0;  ///< what to plan with where the orchard file says nothing
  std::string unit;      ///< "min", "person_min", "team_min", "share", "factor"
  Evidence because;
};
std::span<const Overhead> workday_overheads();
/// Throws std::logic_error for an id that is not in the table.
const Overhead& workday_overhead(std::string_view id);

}  // namespace winterfolio
