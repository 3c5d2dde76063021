// One way of naming each thing.
#include "report/speak.h"

#include <cmath>

#include "models/chill/registry.h"
#include "orchard/species.h"
#include "report/reckoning.h"

namespace winterfolio {
namespace {

bool whole(double value) { return value == std::floor(value); }

}  // namespace

Text species_text(const Tree& tree) {
  return tree.species == kOtherSpecies ? literal(tree.other) : say_one_of("species", tree.species);
}

Text cultivar_text(const Tree& tree) {
  if (!tree.grafts.empty()) {
    TextList names;
    names.joined = TextList::Joined::plain;
    for (const std::string& graft : tree.grafts) names.items.push_back(literal(graft));
    return value_text(names);
  }
  if (!tree.cultivar.empty()) return literal(tree.cultivar);
  return tree.species == kOtherSpecies ? literal(tree.other) : say("tree.unknown-cultivar");
}

Text tree_text(const Tree& tree) {
  return say("tree.named", {{"id", literal(tree.id)}, {"name", cultivar_text(tree)}});
}

TextList tree_ids(const std::vector<const Tree*>& trees, TextList::Joined joined) {
  TextList ids;
  ids.joined = joined;
  for (const Tree* tree : trees) ids.items.push_back(literal(tree->id));
  return ids;
}

Text some_tree_ids(std::vector<const Tree*> trees, std::size_t most) {
  const bool others = trees.size() > most;
  if (others) trees.resize(most);
  const TextList ids = tree_ids(trees, TextList::Joined::plain);
  return others ? say("tree.and-others", {{"trees", ids}}) : value_text(ids);
}

Number temperature(const Orchard& orchard, Celsius temperature, int decimals) {
  return orchard.units == TemperatureUnits::fahrenheit
             ? number(temperature.fahrenheit(), decimals, "fahrenheit")
             : number(temperature.degrees(), decimals, "celsius");
}

Number line_temperature(const Orchard& orchard, Celsius line) {
  const double shown =
      orchard.units == TemperatureUnits::fahrenheit ? line.fahrenheit() : line.degrees();
  return temperature(orchard, line, std::abs(shown - std::round(shown)) < 0.05 ? 0 : 1);
}

Number difference(const Orchard& orchard, CelsiusDelta by) {
  const bool in_fahrenheit = orchard.units == TemperatureUnits::fahrenheit;
  const double shown = in_fahrenheit ? by.fahrenheit() : by.degrees();
  const int decimals = std::abs(shown - std::round(shown)) < 0.05 ? 0 : 1;
  return number(shown, decimals, in_fahrenheit ? "fahrenheit" : "celsius");
}

Number length(const Orchard& orchard, Metres length) {
  if (orchard.lengths == LengthUnits::feet) return number(length.feet(), 0, "feet");
  return number(length.metres(), whole(length.metres()) ? 0 : 1, "metres");
}

Text measure_text(ChillMeasure measure) { return say_one_of("measure", id_of(measure)); }

Text measure_title(ChillMeasure measure) { return say_one_of("measure-title", id_of(measure)); }

int decimals_of(ChillMeasure measure) { return chill_model(measure).whole_numbers ? 0 : 1; }

Number amount(ChillMeasure measure, double amount) { return number(amount, decimals_of(measure)); }

NumberRange amount(ChillMeasure measure, const Range& range) {
  return winterfolio::range(range.low, range.high, decimals_of(measure));
}

Text need_text(const DecidingNeed& need) {
  // A bracket of the tree's own years is no finer than its winters.
  const auto decimals = [&](double value) {
    return whole(value) || need.kind == NeedKind::own_years ? 0 : 1;
  };
  if (need.low && need.high) {
    return value_text(
        range(*need.low, *need.high, std::max(decimals(*need.low), decimals(*need.high))));
  }
  if (need.low) return say("need.at-least", {{"low", number(*need.low, decimals(*need.low))}});
  if (need.high) return say("need.up-to", {{"high", number(*need.high, decimals(*need.high))}});
  return {};
}

MarkState mark_of(VerdictState state) {
  switch (state) {
    case VerdictState::met:
      return MarkState::met;
    case VerdictState::nearly:
      return MarkState::nearly;
    case VerdictState::short_of:
      return MarkState::short_so_far;
    case VerdictState::undecided:
    case VerdictState::unknown:
      break;
  }
  return MarkState::not_known;
}

Text place_text(const PlaceAmongWinters& place, bool winter_over) {
  const std::string side = place.from_coldest ? "coldest" : "mildest";
  const std::string over = winter_over ? "-over" : "";
  if (place.best != place.worst) {
    return say("chart.rank.one-of-" + side + over,
               {{"n", count(place.worst)}, {"all", count(place.all)}});
  }
  if (place.best == 1) return say("chart.rank." + side + over, {{"all", count(place.all)}});
  return say("chart.rank.nth-" + side + over,
             {{"n", count(place.best)}, {"all", count(place.all)}});
}

WinterYears winter_years(int began, bool southern) { return {began, southern}; }

Text winter_text(int began, bool southern) { return value_text(winter_years(began, southern)); }

}  // namespace winterfolio
