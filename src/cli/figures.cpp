// From an orchard file to its figures: load, find, put under keys, write.
#include "cli/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/load.h"
#include "cli/standing_day.h"
#include "report/figures.h"
#include "report/season_facts.h"

namespace winterfolio {
namespace {

std::string quoted_json(const std::string& text) {
  return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string json_of(const FigureNode& single) {
  if (const auto* yes = std::get_if<bool>(&single.value())) return *yes ? "true" : "false";
  if (const auto* text = std::get_if<std::string>(&single.value())) return quoted_json(*text);
  return single.known() ? digits_of(single) : "null";
}

bool only_singles(const FigureNode& list) {
  return std::all_of(list.items().begin(), list.items().end(),
                     [](const FigureNode& item) { return item.is_single(); });
}

void write_json(const FigureNode& node, int depth, std::string& out);

/// Members or items between brackets, each on a line of its own.
template <class Members, class Write>
void write_lines(const Members& members, char open, char close, int depth, std::string& out,
                 Write write) {
  out += open;
  bool first = true;
  for (const auto& member : members) {
    out += first ? "\n" : ",\n";
    out.append(static_cast<std::size_t>(depth + 1), ' ');
    write(member);
    first = false;
  }
  if (!first) {
    out += '\n';
    out.append(static_cast<std::size_t>(depth), ' ');
  }
  out += close;
}

void write_series(const FigureNode& list, std::string& out) {
  out += '[';
  const char* between = "";
  for (const FigureNode& item : list.items()) {
    out += between;
    out += json_of(item);
    between = ", ";
  }
  out += ']';
}

void write_json(const FigureNode& node, int depth, std::string& out) {
  if (node.is_map()) {
    write_lines(node.members(), '{', '}', depth, out, [&](const auto& member) {
      out += quoted_json(member.first) + ": ";
      write_json(member.second, depth + 1, out);
    });
  } else if (!node.is_list()) {
    out += json_of(node);
  } else if (only_singles(node)) {
    write_series(node, out);
  } else {
    write_lines(node.items(), '[', ']', depth, out,
                [&](const FigureNode& item) { write_json(item, depth + 1, out); });
  }
}

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string cell = "\"";
  for (const char c : text) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
  return cell + "\"";
}

std::string csv_value(const FigureNode& single) {
  if (const auto* text = std::get_if<std::string>(&single.value())) return csv_cell(*text);
  return single.known() ? json_of(single) : std::string();
}

/// A key within a pointer: "~" and "/" have their own spelling there.
std::string pointer_part(const std::string& key) {
  std::string part;
  for (const char c : key) {
    if (c == '~') {
      part += "~0";
    } else if (c == '/') {
      part += "~1";
    } else {
      part += c;
    }
  }
  return part;
}

void write_rows(const FigureNode& node, const std::string& path, std::string& out) {
  if (node.is_map()) {
    for (const auto& [key, member] : node.members())
      write_rows(member, path + "/" + pointer_part(key), out);
  } else if (node.is_list()) {
    std::size_t index = 0;
    for (const FigureNode& item : node.items())
      write_rows(item, fmt::format("{}/{}", path, index++), out);
  } else {
    out += fmt::format("{},{},{}\n", csv_cell(path), csv_value(node), node.unit().id);
  }
}

}  // namespace

std::string figures_as_json(const FigureNode& figures) {
  std::string out;
  write_json(figures, 0, out);
  return out + "\n";
}

std::string figures_as_csv(const FigureNode& figures) {
  std::string out = "path,value,unit\n";
  write_rows(figures, "", out);
  return out;
}

Outcome run_figures(const FiguresCommand& command) {
  Outcome outcome;
  outcome.status = kMendInput;
  const auto loaded = load_orchard(command.orchard, outcome.diagnostics);
  if (!loaded) return outcome;
  const auto today = today_of(*loaded, command.winter, command.as_of, outcome.diagnostics);
  if (!today) return outcome;
  const SeasonFacts facts = season_facts(loaded->orchard, loaded->record, *today, loaded->files,
                                         loaded->utc_offset_minutes, loaded->places);
  const FigureNode figures = figures_of(facts, command.hourly);
  outcome.out = command.as == OutputAs::csv ? figures_as_csv(figures) : figures_as_json(figures);
  outcome.status = kDone;
  return outcome;
}

}  // namespace winterfolio
