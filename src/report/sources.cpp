// The pages behind source codes.
#include "report/sources.h"

#include "pruning/evidence.h"

namespace winterfolio {

namespace {

/// Whether the words say by themselves how well they are founded.
bool says_its_mark(std::string_view words, RuleMark mark) {
  const auto has = [&](std::string_view part) { return words.find(part) != words.npos; };
  if (mark == RuleMark::memory) return has("memory");
  if (mark == RuleMark::estimate) return has("ours") || words.starts_with("our");
  return true;  // common practice does; what was read on a page needs no mark
}

}  // namespace

Text source_text(const Evidence& because) {
  const std::string words = without_codes(because.source);
  const Text source = literal(words);
  if (says_its_mark(words, because.mark)) return source;
  return say("cautions.source",
             {{"source", source}, {"mark", say_one_of("mark", id_of(because.mark))}});
}

Text source_codes_text(const Evidence& because) {
  TextList codes;
  codes.joined = TextList::Joined::plain;
  for (std::string& code : source_codes(because.source))
    codes.items.push_back(literal(std::move(code)));
  if (codes.items.empty()) return source_text(because);
  if (because.mark == RuleMark::seen) return value_text(std::move(codes));
  return say("cautions.source",
             {{"source", std::move(codes)}, {"mark", say_one_of("mark", id_of(because.mark))}});
}

void SourceList::add(const std::string& source) {
  for (std::string& code : source_codes(source)) codes_.insert(std::move(code));
}

List SourceList::as_list() const {
  List list;
  list.marker = List::Marker::dash;
  list.role = Role::note;
  for (const SourcePage& page : source_pages()) {
    if (codes_.count(page.code) == 0) continue;
    list.items.push_back(say("sources.line", {{"code", literal(page.code)},
                                              {"reference", literal(page.reference)},
                                              {"page", literal(page.page)}}));
  }
  return list;
}

}  // namespace winterfolio
