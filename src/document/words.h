// The words of one language: turns what is said (document/text.h) into what is printed.
//
// templates/words/<language>.yaml is a map of ids to words. Words may hold
//   {name}             a value as its type prints: counts and numbers in figures, dates in their
//   own form {name:word}        a count spelled out up to twelve ("five"), in figures beyond
//   {name:spelled}     a count always spelled out up to ninety-nine ("twenty-one")
//   {name:ordinal}     a count as an ordinal ("third", "21st")
//   {name:brief}       a date in another form: any of the words' `dates:`
//   {name?tree|trees}  words chosen by a count: singular, then plural; =0 before one of them is for
//   exactly that many
//   {^name:word}       with its first letter a capital
//   {{ and }}          braces
//   *words*            bold; ** for an asterisk
//   ~words~            quiet: in grey, for what stands beside the main thing; ~~ for a tilde
// Values are put in as they are: an asterisk or a brace in a tree's name is printed.
// The reserved families months, weekdays, dates, times, numbers, lists and units hold how numbers
// and dates are written; words of `units` take {amount}, the figures, and {n?hour|hours}.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "document/text.h"

namespace winterfolio {

/// Some words of one look.
struct Span {
  std::string text;
  bool bold = false;
  bool quiet = false;
  bool operator==(const Span&) const = default;
};
using RichText = std::vector<Span>;

class Words {
 public:
  using Entries = std::unordered_map<std::string, std::string>;

  /// Requires: `entries` hold the reserved families whole; missing ones throw std::logic_error
  /// where they are used.
  Words(std::string language, Entries entries);

  const std::string& language() const { return language_; }
  bool has(std::string_view id) const;
  /// Whether any id begins with `family` and a dot.
  bool has_family(std::string_view family) const;
  const Entries& entries() const { return entries_; }

  /// What is printed. Throws std::logic_error for an id without words or a value the words name but
  /// the message lacks.
  RichText rich(const Text& text) const;
  /// The same without bold or quiet.
  std::string plain(const Text& text) const;

  /// Parts of dates and numbers for axes. `month` is 1 to 12.
  std::string month(unsigned month) const;        ///< January
  std::string month_brief(unsigned month) const;  ///< Jan
  std::string date(Date date, DateForm form) const;
  std::string date_range(Date from, Date to, DateForm form) const;
  std::string hour(int hour_of_day) const;  ///< noon, 6 pm, midnight
  std::string winter(WinterYears winter) const;
  /// "1,234.5", with a true minus; `unit` is an id of `units:` or empty.
  std::string number(double value, int decimals = 0, std::string_view unit = {}) const;
  std::string number_range(double low, double high, int decimals = 0,
                           std::string_view unit = {}) const;
  std::string count_word(long value) const;     ///< up to twelve in words
  std::string count_spelled(long value) const;  ///< up to ninety-nine in words
  std::string ordinal(long value) const;

 private:
  friend class Expander;
  const std::string& entry(std::string_view id) const;
  /// Entry `index` (from 1) of a listed family, e.g. ("months", 3).
  const std::string& member(std::string_view family, long index) const;

  std::string language_;
  Entries entries_;
};

}  // namespace winterfolio
