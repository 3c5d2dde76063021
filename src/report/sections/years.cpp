// This winter among the others: the winters in the order of their cold on the same day, what each
// measure says of the end of a winter here, whether winters are changing, and what suits the place.
#include <algorithm>
#include <iterator>

#include "document/chart.h"
#include "report/reckoning.h"
#include "report/sections.h"
#include "report/speak.h"

namespace winterfolio {
namespace {

constexpr std::size_t kMostSuited = 2;  ///< cultivars named of a kind
constexpr double kNoDifference = 0.05;  ///< it would print as 0.0
constexpr std::size_t kMostBars = 15;   ///< winters drawn; the latest, where there are more

Spread this_winter(const YearsFinding& years) {
  return years.now_range ? Spread{years.now_range->low, years.now_range->high}
                         : Spread{years.now, years.now};
}

/// Past winters with a figure for the same day, the latest of them where there are many.
std::vector<const PastWinterChill*> winters_to_draw(const YearsFinding& years) {
  std::vector<const PastWinterChill*> winters;
  for (const PastWinterChill& winter : years.winters) {
    if (winter.same_day) winters.push_back(&winter);
  }
  if (winters.size() > kMostBars)
    winters.erase(winters.begin(), winters.end() - static_cast<std::ptrdiff_t>(kMostBars));
  return winters;
}

/// The first measure shown that has other winters: notes of totals are mostly chill hours.
const ShownMeasure& first_with_winters(const SeasonFacts& facts) {
  for (const ShownMeasure& shown : facts.shown)
    if (!shown.years.winters.empty()) return shown;
  return facts.shown.front();
}

Figure ranked_winters(const SeasonFacts& facts, const ShownMeasure& shown) {
  const bool southern = !facts.today.window.crosses_new_year();
  RankedWinters chart;
  const auto winters = winters_to_draw(shown.years);
  for (const PastWinterChill* winter : winters) {
    chart.rows.push_back({winter_text(winter->year, southern),
                          {*winter->same_day, *winter->same_day},
                          value_text(number(*winter->same_day)),
                          false});
  }
  const Spread now = this_winter(shown.years);
  chart.rows.push_back({winter_text(facts.today.winter.year, southern), now,
                        value_text(range(now.low, now.high)), true});
  std::stable_sort(chart.rows.begin(), chart.rows.end(), [](const auto& a, const auto& b) {
    return a.amount.low + a.amount.high > b.amount.low + b.amount.high;
  });
  Figure figure;
  const auto place = place_among_winters(shown.years);
  figure.title = place ? place_text(*place, facts.today.winter_over()) : say("years.no-place");
  const bool some = winters.size() < static_cast<std::size_t>(shown.years.compared);
  figure.subtitle =
      say(facts.today.winter_over() ? (some ? "years.bars-over-some" : "years.bars-over")
                                    : (some ? "years.bars-some" : "years.bars"),
          {{"measure", measure_title(shown.measure)},
           {"day", day(facts.today.as_of)},
           {"n", count(static_cast<long>(winters.size()))}});
  figure.chart = std::make_shared<const Chart>(Chart{std::move(chart)});
  figure.height = FigureHeight::own;
  return figure;
}

// ---- the table

Text place_cell(const YearsFinding& years) {
  if (!place_among_winters(years)) return {};
  return say("years.place-of", {{"place", range(*years.rank_at_best, *years.rank_at_worst)},
                                {"all", count(years.compared + 1)}});
}

Text trend_cell(const YearsFinding& years) {
  if (!years.trend) return {};
  if (years.trend->word == TrendWord::cannot_tell) return say("years.trend.cannot-tell");
  const TheilSen& line = years.trend->line;
  const char* id =
      years.trend->word == TrendWord::rising ? "years.trend.rising" : "years.trend.falling";
  const double low = std::min(std::abs(line.low), std::abs(line.high));
  const double high = std::max(std::abs(line.low), std::abs(line.high));
  return say(id, {{"slope", range(low, high, 1)}});
}

TableCell amount_cell(const std::optional<double>& amount) {
  return amount ? TableCell{value_text(number(*amount))} : TableCell{};
}

Table measures_table(const SeasonFacts& facts) {
  const bool over = facts.today.winter_over();
  Table table;
  table.title = say("years.table-title");
  table.columns = {{say("years.measure")},
                   {say("years.now"), ColumnKind::numbers},
                   {say("years.place")},
                   {say(over ? "years.median" : "years.median-by-now"), ColumnKind::numbers},
                   {say("years.nine-of-ten"), ColumnKind::numbers},
                   {say("years.trend-head")}};
  TableGroup group;
  for (const ShownMeasure& shown : facts.shown) {
    const YearsFinding& years = shown.years;
    const Spread now = this_winter(years);
    TableRow row;
    row.cells = {{measure_title(shown.measure)},
                 {value_text(range(now.low, now.high))},
                 {place_cell(years)},
                 amount_cell(years.same_day_median),
                 amount_cell(years.exceeded_in_nine_of_ten),
                 {trend_cell(years)}};
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

// ---- what has to be said beside them

Text trend_words(const SeasonFacts& facts, const ShownMeasure& shown) {
  const Trend& trend = *shown.years.trend;
  // No chance is nought: what would round to less than one in a hundred is told as under that.
  const bool rare = trend.test.p * 100.0 < 1.0;
  return say(trend.word == TrendWord::cannot_tell ? "years.trend-note-none"
             : rare                               ? "years.trend-note-rare"
                                                  : "years.trend-note",
             {{"n", count(trend.test.n)},
              {"first", winter_years(trend.first_year, !facts.today.window.crosses_new_year())},
              {"chance", number(trend.test.p * 100.0, 0, "percent")}});
}

/// Which of the two measures puts this winter under the winter they part over.
Text disagreement_words(const SeasonFacts& facts, const YearsFinding& one,
                        const Disagreement& apart) {
  const auto winter =
      std::find_if(one.winters.begin(), one.winters.end(),
                   [&](const PastWinterChill& past) { return past.year == apart.year; });
  const bool one_milder =
      winter != one.winters.end() && winter->same_day && *winter->same_day > one.now;
  return say("years.disagree",
             {{"milder", measure_text(one_milder ? apart.one : apart.other)},
              {"colder", measure_text(one_milder ? apart.other : apart.one)},
              {"winter", winter_years(apart.year, !facts.today.window.crosses_new_year())}});
}

/// The first half of the blocks on the left, the others on the right.
Columns halved(Blocks left) {
  const auto half = static_cast<std::ptrdiff_t>((left.size() + 1) / 2);
  Blocks right(std::make_move_iterator(left.begin() + half), std::make_move_iterator(left.end()));
  left.erase(left.begin() + half, left.end());
  Columns columns;
  columns.columns.push_back({6, std::move(left)});
  if (!right.empty()) columns.columns.push_back({6, std::move(right)});
  return columns;
}

void add_notes(const SeasonFacts& facts, Blocks& blocks) {
  Blocks notes;
  const auto note = [&](Text text) { notes.emplace_back(Paragraph{Role::note, std::move(text)}); };
  const YearsFinding& first = first_with_winters(facts).years;
  note(say(first.few_winters ? "years.nine-of-ten-few" : "years.nine-of-ten-note",
           {{"n", count(first.whole_winters)}}));
  if (first.rank_withheld) note(say("years.withheld"));
  if (first.basis != facts.chill.detail) {
    TextList differences;
    for (const ShownMeasure& shown : facts.shown) {
      const double by = shown.years.difference;
      if (std::abs(by) < kNoDifference) continue;
      differences.items.push_back(say(by < 0.0 ? "years.fewer" : "years.more",
                                      {{"by", number(std::abs(by), std::abs(by) < 9.95 ? 1 : 0)},
                                       {"measure", measure_text(shown.measure)}}));
    }
    note(differences.items.empty() ? say("years.by-extremes-same")
                                   : say("years.by-extremes", {{"differences", differences}}));
  }
  if (first.left_out > 0) note(say("years.left-out", {{"n", count(first.left_out)}}));
  if (facts.shown.size() > 1) {
    if (const auto apart = disagreement_of(first, facts.shown[1].years))
      note(disagreement_words(facts, first, *apart));
  }
  if (first.trend) note(trend_words(facts, first_with_winters(facts)));
  if (const auto& score = facts.shown.front().hindcast; score && !facts.today.winter_over())
    note(say("years.looking-ahead", {{"n", count(score->winters)},
                                     {"inside", count(score->inside)},
                                     {"trials", count(score->trials)}}));
  blocks.emplace_back(halved(std::move(notes)));
}

// ---- what suits this place

/// "Babcock (250 chill hours)".
Text suited_text(const SuitedCultivar& suited) {
  return say(suited.frost == FrostEscape::at_risk ? "site.cultivar-at-risk" : "site.cultivar",
             {{"name", literal(suited.cultivar)},
              {"need", need_text(suited.need)},
              {"measure", measure_text(suited.need.measure)}});
}

/// Cultivars of one kind that would suit, those that use the place's cold best first.
struct SuitedKind {
  std::string species;
  std::vector<const SuitedCultivar*> cultivars;
};

double share_to_spare(const SiteFinding& site, const SuitedCultivar& one) {
  for (const SiteChill& chill : site.chill) {
    if (chill.measure == one.need.measure && chill.exceeded_in_nine_of_ten > 0.0)
      return one.to_spare / chill.exceeded_in_nine_of_ten;
  }
  return 0.0;
}

/// Of the kinds that stand here, in the order of the table.
std::vector<SuitedKind> suited_kinds(const SiteFinding& site) {
  std::vector<SuitedKind> kinds;
  for (const SuitedCultivar& one : site.suited) {
    if (!one.kind_grown_here) continue;
    auto kind = std::find_if(kinds.begin(), kinds.end(),
                             [&](const SuitedKind& k) { return k.species == one.species; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), {one.species, {}});
    kind->cultivars.push_back(&one);
  }
  for (SuitedKind& kind : kinds) {
    std::stable_sort(kind.cultivars.begin(), kind.cultivars.end(),
                     [&](const SuitedCultivar* a, const SuitedCultivar* b) {
                       return share_to_spare(site, *a) < share_to_spare(site, *b);
                     });
  }
  return kinds;
}

Table suited_table(const std::vector<SuitedKind>& kinds) {
  Table table;
  table.air = Table::Air::dense;
  table.columns = {{say("site.kind"), ColumnKind::words, 2, false, false},
                   {say("site.suited"), ColumnKind::words, 10, false, false}};
  TableGroup group;
  for (const SuitedKind& kind : kinds) {
    TextList cultivars;
    cultivars.joined = TextList::Joined::plain;
    const std::size_t named = std::min(kind.cultivars.size(), kMostSuited);
    for (std::size_t i = 0; i < named; ++i)
      cultivars.items.push_back(suited_text(*kind.cultivars[i]));
    const long more = static_cast<long>(kind.cultivars.size() - named);
    TableRow row;
    row.cells = {
        {say_one_of("species", kind.species)},
        {more > 0 ? say("site.cultivars-more", {{"cultivars", cultivars}, {"n", count(more)}})
                  : say("site.cultivars", {{"cultivars", cultivars}})}};
    group.rows.push_back(std::move(row));
  }
  table.groups.push_back(std::move(group));
  return table;
}

void add_site(const SeasonFacts& facts, Blocks& blocks) {
  const SiteFinding& site = facts.site;
  if (site.chill.empty()) return;
  blocks.emplace_back(Heading{2, say("site.title"), {}});
  if (mostly_frozen(facts)) {
    blocks.emplace_back(Paragraph{Role::body, say("site.frozen")});
    return;
  }
  TextList amounts;
  for (const SiteChill& chill : site.chill) {
    amounts.items.push_back(say("site.amount", {{"amount", number(chill.exceeded_in_nine_of_ten)},
                                                {"measure", measure_text(chill.measure)}}));
  }
  const std::vector<SuitedKind> kinds = suited_kinds(site);
  blocks.emplace_back(Paragraph{
      Role::body, say(kinds.empty() ? "site.none" : "site.intro", {{"amounts", amounts}})});
  if (!kinds.empty()) blocks.emplace_back(suited_table(kinds));
  List failing;
  for (const FailingTree& tree : site.failing) {
    failing.items.push_back(say("site.failing", {{"tree", tree_text(*tree.tree)},
                                                 {"need", need_text(tree.need)},
                                                 {"measure", measure_text(tree.need.measure)},
                                                 {"enough", count(tree.enough)},
                                                 {"winters", count(tree.winters)}}));
  }
  if (!failing.items.empty()) blocks.emplace_back(std::move(failing));
}

}  // namespace

Blocks years_section(const SeasonFacts& facts) {
  Blocks blocks;
  const ShownMeasure& shown = first_with_winters(facts);
  if (shown.years.winters.empty()) return blocks;
  blocks.emplace_back(Heading{1, say("years.title"), {}}, Importance::essential);
  if (shown.years.compared > 0) blocks.emplace_back(ranked_winters(facts, shown));
  blocks.emplace_back(measures_table(facts), Importance::essential);
  add_notes(facts, blocks);
  add_site(facts, blocks);
  return blocks;
}

}  // namespace winterfolio
