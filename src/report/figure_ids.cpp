// The ids themselves; the compiler asks for one where a kind is added.
#include "report/figure_ids.h"

namespace winterfolio::figures {

std::string_view name(GapRange gaps) {
  switch (gaps) {
    case GapRange::no_gap:
      return "no_gap";
    case GapRange::known:
      return "known";
    case GapRange::unknown:
      return "unknown";
  }
  return {};
}

std::string_view name(WinterDetail detail) {
  switch (detail) {
    case WinterDetail::hourly:
      return "hourly";
    case WinterDetail::daily_extremes:
      return "daily_extremes";
  }
  return {};
}

std::string_view name(TrendWord word) {
  switch (word) {
    case TrendWord::rising:
      return "rising";
    case TrendWord::falling:
      return "falling";
    case TrendWord::cannot_tell:
      return "cannot_tell";
  }
  return {};
}

std::string_view name(BracketUse use) {
  switch (use) {
    case BracketUse::none:
      return "none";
    case BracketUse::alone:
      return "alone";
    case BracketUse::agrees:
      return "agrees";
    case BracketUse::narrows:
      return "narrows";
    case BracketUse::overrules:
      return "overrules";
  }
  return {};
}

std::string_view name(Leafing leafing) {
  switch (leafing) {
    case Leafing::well:
      return "well";
    case Leafing::badly:
      return "badly";
    case Leafing::not_noted:
      return "not_noted";
  }
  return {};
}

std::string_view name(StandsFor stands_for) {
  switch (stands_for) {
    case StandsFor::orchard:
      return "orchard";
    case StandsFor::nearby:
      return "nearby";
    case StandsFor::forecast:
      return "forecast";
  }
  return {};
}

std::string_view name(DateKind kind) {
  switch (kind) {
    case DateKind::seen:
      return "seen";
    case DateKind::by_then:
      return "by_then";
    case DateKind::estimated:
      return "estimated";
  }
  return {};
}

std::string_view name(EdgeBasis basis) {
  switch (basis) {
    case EdgeBasis::calendar:
      return "calendar";
    case EdgeBasis::fallback:
      return "fallback";
    case EdgeBasis::seen:
      return "seen";
    case EdgeBasis::by_then:
      return "by_then";
    case EdgeBasis::estimated:
      return "estimated";
    case EdgeBasis::winter_begins:
      return "winter_begins";
  }
  return {};
}

std::string_view name(HeavyCuts::When when) {
  switch (when) {
    case HeavyCuts::When::never:
      return "never";
    case HeavyCuts::When::from:
      return "from";
    case HeavyCuts::When::always:
      return "always";
    case HeavyCuts::When::when_leaves_drop:
      return "when_leaves_drop";
  }
  return {};
}

std::string_view name(TreeWork work) {
  switch (work) {
    case TreeWork::crew:
      return "crew";
    case TreeWork::arborist:
      return "arborist";
    case TreeWork::lead_first:
      return "lead_first";
    case TreeWork::dry_summer:
      return "dry_summer";
    case TreeWork::no_day:
      return "no_day";
    case TreeWork::no_window:
      return "no_window";
  }
  return {};
}

std::string_view name(LabourWay way) {
  switch (way) {
    case LabourWay::ground:
      return "ground";
    case LabourWay::pole:
      return "pole";
    case LabourWay::ladder:
      return "ladder";
    case LabourWay::arborist:
      return "arborist";
  }
  return {};
}

std::string_view name(BudPhase phase) {
  switch (phase) {
    case BudPhase::resting:
      return "resting";
    case BudPhase::likely_met:
      return "likely_met";
    case BudPhase::met:
      return "met";
    case BudPhase::swelling:
      return "swelling";
    case BudPhase::bloom:
      return "bloom";
    case BudPhase::bloom_estimated:
      return "bloom_estimated";
    case BudPhase::no_date:
      return "no_date";
  }
  return {};
}

std::string_view name(HourOrigin origin) {
  switch (origin) {
    case HourOrigin::missing:
      return "missing";
    case HourOrigin::observed:
      return "observed";
    case HourOrigin::line:
      return "line";
    case HourOrigin::nearby:
      return "nearby";
    case HourOrigin::daily_extremes:
      return "daily_extremes";
    case HourOrigin::forecast:
      return "forecast";
  }
  return {};
}

std::string_view name(SourceMark mark) {
  switch (mark) {
    case SourceMark::seen:
      return "seen";
    case SourceMark::memory:
      return "memory";
  }
  return {};
}

std::string_view name(TemperatureUnits units) {
  switch (units) {
    case TemperatureUnits::celsius:
      return "celsius";
    case TemperatureUnits::fahrenheit:
      return "fahrenheit";
  }
  return {};
}

std::string_view name(LengthUnits lengths) {
  switch (lengths) {
    case LengthUnits::metres:
      return "metres";
    case LengthUnits::feet:
      return "feet";
  }
  return {};
}

std::string_view name(District pressure) {
  switch (pressure) {
    case District::yes:
      return "yes";
    case District::no:
      return "no";
    case District::unknown:
      return "unknown";
  }
  return {};
}

std::string_view name(HygienePreference preference) {
  switch (preference) {
    case HygienePreference::first:
      return "first";
    case HygienePreference::second:
      return "second";
    case HygienePreference::also:
      return "also";
  }
  return {};
}

std::string_view name(BloomOverlap::KnownBy known_by) {
  switch (known_by) {
    case BloomOverlap::KnownBy::nothing:
      return "nothing";
    case BloomOverlap::KnownBy::dates:
      return "dates";
    case BloomOverlap::KnownBy::groups:
      return "groups";
  }
  return {};
}

}  // namespace winterfolio::figures
