// The pages behind source codes.
#include "report/sources.h"

#include "pruning/evidence.h"

namespace winterfolio {

Text source_text(const Evidence& because) {
  const Text source = literal(without_codes(because.source));
  // Common practice says so itself; what was read on a page needs no mark.
  if (because.mark == RuleMark::common_practice || because.mark == RuleMark::seen) return source;
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
