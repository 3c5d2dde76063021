// Rounds figures and puts them under their keys.
#include "report/figure_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace winterfolio {
namespace {

constexpr double kOnTheTie = 1e-6;  ///< of the last place

FigureNode not_known(FigureUnit unit) { return FigureNode(unit, FigureNode::NotKnown{}); }

std::string month_day_text(MonthDay day) { return fmt::format("{:02}-{:02}", day.month, day.day); }

}  // namespace

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double whole = std::floor(std::abs(value) * scale + 0.5 + kOnTheTie);
  return whole == 0.0 ? 0.0 : std::copysign(whole / scale, value);
}

FigureNode& FigureNode::set(std::string key, FigureNode figure) & {
  Map& members = std::get<Map>(content_);
  const bool twice = std::any_of(members.begin(), members.end(),
                                 [&](const auto& member) { return member.first == key; });
  if (twice) throw std::logic_error("two figures under the key " + key);
  members.emplace_back(std::move(key), std::move(figure));
  return *this;
}

FigureNode& FigureNode::append(FigureNode figure) {
  std::get<List>(content_).push_back(std::move(figure));
  return *this;
}

FigureNode amount_figure(std::optional<double> value, FigureUnit unit) {
  if (!value || !std::isfinite(*value)) return not_known(unit);
  return FigureNode(unit, rounded(*value, unit.decimals));
}

FigureNode count_figure(std::optional<std::int64_t> value, FigureUnit unit) {
  return value ? FigureNode(unit, *value) : not_known(unit);
}

FigureNode temperature_figure(std::optional<Celsius> value) {
  return amount_figure(value ? std::optional(value->degrees()) : std::nullopt,
                       figure_unit::kCelsius);
}

FigureNode date_figure(std::optional<Date> date) {
  return date ? FigureNode(figure_unit::kDate, iso_date(*date)) : not_known(figure_unit::kDate);
}

FigureNode hour_figure(std::optional<LocalHour> hour) {
  return hour ? FigureNode(figure_unit::kHour, iso_hour(*hour)) : not_known(figure_unit::kHour);
}

FigureNode month_day_figure(std::optional<MonthDay> day) {
  return day ? FigureNode(figure_unit::kMonthDay, month_day_text(*day))
             : not_known(figure_unit::kMonthDay);
}

FigureNode id_figure(std::string_view id) {
  return id.empty() ? not_known(figure_unit::kId) : FigureNode(figure_unit::kId, std::string(id));
}

FigureNode text_figure(std::string_view text) {
  return text.empty() ? not_known(figure_unit::kText)
                      : FigureNode(figure_unit::kText, std::string(text));
}

FigureNode yes_no_figure(bool yes) { return FigureNode(figure_unit::kYesNo, yes); }

FigureNode series_figure(const std::vector<double>& values, FigureUnit unit) {
  FigureNode list = FigureNode::list();
  for (const double value : values) list.append(amount_figure(value, unit));
  return list;
}

FigureNode series_figure(const std::vector<std::optional<double>>& values, FigureUnit unit) {
  FigureNode list = FigureNode::list();
  for (const auto& value : values) list.append(amount_figure(value, unit));
  return list;
}

FigureNode ids_figure(const std::vector<std::string>& ids) {
  FigureNode list = FigureNode::list();
  for (const std::string& id : ids) list.append(id_figure(id));
  return list;
}

FigureNode texts_figure(const std::vector<std::string>& texts) {
  FigureNode list = FigureNode::list();
  for (const std::string& text : texts) {
    if (!text.empty()) list.append(text_figure(text));
  }
  return list;
}

std::string digits_of(const FigureNode& figure) {
  if (const auto* whole = std::get_if<std::int64_t>(&figure.value()))
    return fmt::format("{}", *whole);
  std::string digits =
      fmt::format("{:.{}f}", std::get<double>(figure.value()), figure.unit().decimals);
  if (digits.find('.') == std::string::npos) return digits;
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

}  // namespace winterfolio
