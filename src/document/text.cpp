#include "document/text.h"

namespace winterfolio {

bool Text::empty() const {
  if (const auto* l = std::get_if<Literal>(&content)) return l->text.empty();
  return std::get<Message>(content).id.empty();
}

Text say(std::string id, std::vector<NamedValue> values) {
  return Text{Message{std::move(id), std::move(values)}};
}

Text say_one_of(std::string_view family, std::string_view member, std::vector<NamedValue> values) {
  std::string id(family);
  id += '.';
  id += member;
  return say(std::move(id), std::move(values));
}

Text literal(std::string text) { return Text{Literal{std::move(text)}}; }

Text value_text(Value value) { return say("value", {{"value", std::move(value)}}); }

std::string_view message_id(const Text& text) {
  const auto* message = std::get_if<Message>(&text.content);
  return message ? std::string_view(message->id) : std::string_view();
}

}  // namespace winterfolio
