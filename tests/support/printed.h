// Everything countable that a document prints, with the words it stands in: counts, amounts,
// ranges, days, hours, winters and names that hold a figure. Charts too: what they draw from is
// listed like what is printed.
//
// A value is named by the message that says it and by its name there. One that stands alone (a
// table's cell, a large figure) is named by what stands over it: the head of its column, its label,
// or for charts the kind and the field, "chart.WeeklyGain" and "gain".
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "document/block.h"
#include "document/chart.h"

namespace winterfolio::test {

/// A number that a chart draws, on the scale that it is given.
struct Drawn {
  enum class Scale { amount, celsius, metres, hours_after_noon };
  double value = 0.0;
  Scale scale = Scale::amount;
};

struct Printed {
  std::string message;
  std::string name;
  std::variant<Count, Number, NumberRange, Day, DayRange, HourOfDay, WinterYears, Literal, Drawn>
      value;
};

class PrintedValues {
 public:
  explicit PrintedValues(const Document& document) {
    for (const Text* text : {&document.title, &document.subject, &document.head_left,
                             &document.head_right, &document.foot_left}) {
      see(*text, "page", "value");
    }
    for (const Section& section : document.sections) see(section.blocks);
  }
  explicit PrintedValues(const Blocks& blocks) { see(blocks); }

  const std::vector<Printed>& all() const { return all_; }

 private:
  void add(const std::string& message, const std::string& name, auto value) {
    all_.push_back({message, name, std::move(value)});
  }

  void see(const Text& text, const std::string& over, const std::string& name) {
    if (const auto* literal = std::get_if<Literal>(&text.content)) {
      const bool figure = literal->text.find_first_of("0123456789") != std::string::npos;
      if (figure) add(over, name, *literal);
      return;
    }
    const Message& message = std::get<Message>(text.content);
    const bool alone = message.id == "value";
    for (const NamedValue& named : message.values) {
      const std::string& by = alone ? over : message.id;
      const std::string& as = alone ? name : named.name;
      std::visit(
          [&](const auto& value) {
            using Kind = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<Kind, Text>) {
              see(value, by, as);
            } else if constexpr (std::is_same_v<Kind, TextList>) {
              for (const Text& item : value.items) see(item, by, as);
            } else {
              add(by, as, value);
            }
          },
          named.value);
    }
  }

  void see(const Table& table) {
    see(table.title, "table", "title");
    for (const TableColumn& column : table.columns) see(column.head, "table", "head");
    for (const TableGroup& group : table.groups) {
      see(group.name, "table", "group");
      for (const TableRow& row : group.rows) {
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
          const Text* head = i < table.columns.size() ? &table.columns[i].head : nullptr;
          const bool named = head && !message_id(*head).empty();
          see(row.cells[i].text, named ? std::string(message_id(*head)) : "table", "cell");
        }
      }
    }
    for (const auto& [key, words] : table.footnotes) see(words, "table", "footnote");
  }

  void see(const Card& card) {
    for (const Text* text : {&card.id, &card.name, &card.detail, &card.verdict, &card.bookmark})
      see(*text, "card", "value");
    if (card.thumbnail) see(*card.thumbnail);
    see(card.body);
  }

  void see(const Blocks& blocks) {
    for (const Block& block : blocks) {
      std::visit([&](const auto& content) { see_block(content); }, block.content);
    }
  }

  void see_block(const TitleBlock& b) {
    for (const Text* text : {&b.over_left, &b.over_right, &b.title, &b.aside})
      see(*text, "title", "value");
  }
  void see_block(const Heading& b) {
    see(b.text, "heading", "value");
    see(b.aside, "heading", "aside");
  }
  void see_block(const Paragraph& b) { see(b.text, "paragraph", "value"); }
  void see_block(const List& b) {
    for (const Text& item : b.items) see(item, "list", "item");
  }
  void see_block(const Table& b) { see(b); }
  void see_block(const Figure& b) {
    for (const Text* text : {&b.title, &b.subtitle, &b.note}) see(*text, "figure", "value");
    if (b.chart) see(*b.chart);
  }
  void see_block(const Cards& b) {
    for (const Card& card : b.cards) see(card);
  }
  void see_block(const BigFigures& b) {
    for (const BigFigures::Entry& entry : b.entries) {
      const std::string label(message_id(entry.label));
      see(entry.label, label, "label");
      see(entry.value, label, "value");
      see(entry.note, label, "note");
    }
  }
  void see_block(const Columns& b) {
    for (const Columns::Column& column : b.columns) see(column.blocks);
  }
  void see_block(const KeepTogether& b) { see(b.blocks); }
  void see_block(const Boxed& b) { see(b.blocks); }
  void see_block(const WritingLines& b) {
    for (const Text& label : b.labels) see(label, "writing-line", "label");
  }
  void see_block(const Contents&) {}
  void see_block(const PageBreak&) {}
  void see_block(const Rule&) {}

  // ---- charts

  void see(const Chart& chart) {
    std::visit([&](const auto& kind) { see_chart(kind); }, chart.kind);
  }
  void draw(const char* chart, const char* field, double value,
            Drawn::Scale scale = Drawn::Scale::amount) {
    add(chart, field, Drawn{value, scale});
  }
  void draw(const char* chart, const char* field, const std::vector<double>& values,
            Drawn::Scale scale = Drawn::Scale::amount) {
    for (const double value : values) draw(chart, field, value, scale);
  }
  void draw(const char* chart, const char* field, const Spread& spread) {
    draw(chart, field, spread.low);
    draw(chart, field, spread.high);
  }
  void day(const char* chart, const char* field, Date date) {
    add(chart, field, Day{date, DateForm::iso});
  }
  void span(const char* chart, const char* field, const DaySpan& span) {
    day(chart, field, span.from);
    day(chart, field, span.to);
  }
  void gaps(const char* chart, const std::vector<ReadingGap>& gaps) {
    for (const ReadingGap& gap : gaps) {
      add(chart, "gap", HourOfDay{gap.from, {}});
      add(chart, "gap", HourOfDay{gap.until, {}});
      for (const Text& line : gap.label) see(line, chart, "gap");
    }
  }
  void buds(const char* chart, const std::vector<PhaseSpan>& spans) {
    for (const PhaseSpan& one : spans) span(chart, "buds", one.days);
  }
  void work(const char* chart, const std::vector<WorkMark>& marks) {
    for (const WorkMark& mark : marks) day(chart, "work", mark.on);
  }

  void see_chart(const ChillBuildUp& c) {
    const char* const name = "chart.ChillBuildUp";
    // The first point is where counting begins, at nought.
    for (std::size_t i = 1; i < c.this_winter.size(); ++i)
      draw(name, "this_winter", c.this_winter[i].amount);
    for (std::size_t i = 1; i < c.as_past_winters.size(); ++i)
      draw(name, "as_past_winters", c.as_past_winters[i].amount);
    gaps(name, c.gaps);
    if (c.last) {
      draw(name, "last", c.last->recorded.amount);
      if (c.last->with_gaps) draw(name, "with_gaps", *c.last->with_gaps);
      for (const Text& line : c.last->label) see(line, name, "last_label");
    }
    if (c.middle_low) draw(name, "middle_low", c.middle_low->values);
    if (c.middle_high) draw(name, "middle_high", c.middle_high->values);
    if (c.median) draw(name, "median", c.median->values);
    for (const auto& extreme : c.extremes) {
      draw(name, "extremes", extreme.curve.values);
      see(extreme.label, name, "extreme");
    }
    if (c.forecast) {
      day(name, "forecast", c.forecast->first);
      draw(name, "forecast_low", c.forecast->low);
      draw(name, "forecast_middle", c.forecast->middle);
      draw(name, "forecast_high", c.forecast->high);
    }
    for (const auto& need : c.needs) {
      draw(name, "need", need.amount);
      if (need.met) draw(name, "met", need.met->amount);
      see(need.name, name, "need_name");
      see(need.figure, name, "need_figure");
      see(need.when, name, "need_when");
    }
    for (const Text* text : {&c.needs_head, &c.when_head, &c.note}) see(*text, name, "words");
  }
  void see_chart(const RankedWinters& c) {
    for (const auto& row : c.rows) {
      see(row.name, "chart.RankedWinters", "name");
      draw("chart.RankedWinters", "amount", row.amount);
      see(row.figure, "chart.RankedWinters", "figure");
    }
  }
  void see_chart(const WeeklyGain& c) {
    const char* const name = "chart.WeeklyGain";
    for (const auto& week : c.weeks) {
      span(name, "days", week.days);
      draw(name, "gain", week.gain);
      if (week.median) draw(name, "median", *week.median);
      see(week.figure, name, "figure");
    }
  }
  void see_chart(const HourRaster& c) {
    const char* const name = "chart.HourRaster";
    for (const auto& hour : c.hours) {
      if (hour) draw(name, "hours", hour->degrees(), Drawn::Scale::celsius);
    }
    for (const auto& edge : c.edges) {
      draw(name, "edge", edge.at.degrees(), Drawn::Scale::celsius);
      see(edge.label, name, "edge_label");
    }
    draw(name, "sunset", c.sunset, Drawn::Scale::hours_after_noon);
    draw(name, "sunrise", c.sunrise, Drawn::Scale::hours_after_noon);
    for (const Text* text : {&c.sunset_label, &c.sunrise_label, &c.colder, &c.warmer})
      see(*text, name, "words");
  }
  void see_chart(const DailyRange& c) {
    const char* const name = "chart.DailyRange";
    for (const auto& one : c.values) {
      draw(name, "low", one.low.degrees(), Drawn::Scale::celsius);
      draw(name, "high", one.high.degrees(), Drawn::Scale::celsius);
    }
    if (c.usual_low) draw(name, "usual_low", c.usual_low->values, Drawn::Scale::celsius);
    if (c.usual_high) draw(name, "usual_high", c.usual_high->values, Drawn::Scale::celsius);
    gaps(name, c.gaps);
    for (const auto& event : c.events) {
      day(name, "event", event.on);
      see(event.label, name, "event");
    }
    for (const Text* text : {&c.freezing_label, &c.chill_label, &c.warm_label})
      see(*text, name, "line");
  }
  void see_chart(const NeedBar& c) {
    const char* const name = "chart.NeedBar";
    draw(name, "has", c.has);
    if (c.likely) draw(name, "likely", *c.likely);
    if (c.need) draw(name, "need", *c.need);
    for (const Text* text : {&c.measure, &c.making, &c.need_label, &c.has_label, &c.likely_label})
      see(*text, name, "words");
  }
  void see_chart(const SeasonStrip& c) {
    const char* const name = "chart.SeasonStrip";
    buds(name, c.buds);
    for (const Date night : c.frost_nights) day(name, "frost_nights", night);
    if (c.frost_possible) span(name, "frost_possible", *c.frost_possible);
    if (c.pruning) span(name, "pruning", *c.pruning);
    work(name, c.work);
    if (c.last_reading) day(name, "last_reading", *c.last_reading);
    for (const Text* text : {&c.work_words, &c.buds_label, &c.frost_label, &c.work_label})
      see(*text, name, "words");
  }
  void see_chart(const SeasonCalendar& c) {
    const char* const name = "chart.SeasonCalendar";
    for (const auto& group : c.groups) {
      see(group.species, name, "species");
      for (const auto& row : group.rows) {
        add(name, "id", Literal{row.id});
        see(row.name, name, "name");
        buds(name, row.buds);
        if (row.pruning) span(name, "pruning", *row.pruning);
        work(name, row.work);
        see(row.when, name, "when");
      }
    }
    for (const Date night : c.frost_nights) day(name, "frost_nights", night);
    see(c.frost_label, name, "frost");
    for (const auto& line : c.workdays) {
      day(name, "workday", line.on);
      see(line.label, name, "workday_label");
    }
    for (const auto& line : c.last_frosts) {
      day(name, "last_frost", line.on);
      see(line.label, name, "last_frost_label");
    }
    if (c.last_reading) {
      day(name, "last_reading", c.last_reading->on);
      see(c.last_reading->label, name, "last_reading_label");
    }
    for (const Text* text : {&c.workdays_label, &c.left_head, &c.right_head})
      see(*text, name, "words");
  }
  void see_chart(const SeasonKey& c) {
    for (const auto& entry : c.entries) see(entry.label, "chart.SeasonKey", "entry");
  }
  void see_chart(const OrchardMap& c) {
    const char* const name = "chart.OrchardMap";
    for (const auto& tree : c.trees) {
      add(name, "id", Literal{tree.id});
      draw(name, "east", tree.east, Drawn::Scale::metres);
      draw(name, "north", tree.north, Drawn::Scale::metres);
    }
    for (const auto& area : c.areas) see(area.name, name, "area");
    if (c.scale_bar) {
      draw(name, "scale_bar", c.scale_bar->metres, Drawn::Scale::metres);
      see(c.scale_bar->label, name, "scale_bar_label");
    }
    see(c.north_label, name, "north_label");
  }
  void see_chart(const VerdictTally& c) {
    for (const auto& group : c.groups) {
      see(group.label, "chart.VerdictTally", "label");
      for (const std::string& id : group.ids) add("chart.VerdictTally", "id", Literal{id});
    }
  }

  std::vector<Printed> all_;
};

}  // namespace winterfolio::test
