// Rounds figures and puts them under their keys.
#include "report/figure_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace winterfolio {
namespace {

constexpr double kOnTheTie = 1e-6;  ///< of the last place

Figure not_known(FigureUnit unit) { return Figure(unit, Figure::NotKnown{}); }

std::string month_day_text(MonthDay day) { return fmt::format("{:02}-{:02}", day.month, day.day); }

}  // namespace

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double whole = std::floor(std::abs(value) * scale + 0.5 + kOnTheTie);
  return whole == 0.0 ? 0.0 : std::copysign(whole / scale, value);
}

Figure& Figure::set(std::string key, Figure figure) {
  Map& members = std::get<Map>(content_);
  const bool twice = std::any_of(members.begin(), members.end(),
                                 [&](const auto& member) { return member.first == key; });
  if (twice) throw std::logic_error("two figures under the key " + key);
  members.emplace_back(std::move(key), std::move(figure));
  return *this;
}

Figure& Figure::append(Figure figure) {
  std::get<List>(content_).push_back(std::move(figure));
  return *this;
}

Figure amount_figure(std::optional<double> value, FigureUnit unit) {
  if (!value || !std::isfinite(*value)) return not_known(unit);
  return Figure(unit, rounded(*value, unit.decimals));
}

Figure count_figure(std::optional<std::int64_t> value, FigureUnit unit) {
  return value ? Figure(unit, *value) : not_known(unit);
}

Figure temperature_figure(std::optional<Celsius> value) {
  return amount_figure(value ? std::optional(value->degrees()) : std::nullopt,
                       figure_unit::kCelsius);
}

Figure date_figure(std::optional<Date> date) {
  return date ? Figure(figure_unit::kDate, iso_date(*date)) : not_known(figure_unit::kDate);
}

Figure hour_figure(std::optional<LocalHour> hour) {
  return hour ? Figure(figure_unit::kHour, iso_hour(*hour)) : not_known(figure_unit::kHour);
}

Figure month_day_figure(std::optional<MonthDay> day) {
  return day ? Figure(figure_unit::kMonthDay, month_day_text(*day))
             : not_known(figure_unit::kMonthDay);
}

Figure id_figure(std::string_view id) {
  return id.empty() ? not_known(figure_unit::kId) : Figure(figure_unit::kId, std::string(id));
}

Figure text_figure(std::string_view text) {
  return text.empty() ? not_known(figure_unit::kText)
                      : Figure(figure_unit::kText, std::string(text));
}

Figure yes_no_figure(bool yes) { return Figure(figure_unit::kYesNo, yes); }

Figure series_figure(const std::vector<double>& values, FigureUnit unit) {
  Figure list = Figure::list();
  for (const double value : values) list.append(amount_figure(value, unit));
  return list;
}

Figure series_figure(const std::vector<std::optional<double>>& values, FigureUnit unit) {
  Figure list = Figure::list();
  for (const auto& value : values) list.append(amount_figure(value, unit));
  return list;
}

Figure ids_figure(const std::vector<std::string>& ids) {
  Figure list = Figure::list();
  for (const std::string& id : ids) list.append(id_figure(id));
  return list;
}

Figure texts_figure(const std::vector<std::string>& texts) {
  Figure list = Figure::list();
  for (const std::string& text : texts) list.append(text_figure(text));
  return list;
}

std::string digits_of(const Figure& figure) {
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
