// Reads a section's blocks back: which messages it says with which values, which names, which
// charts. By meaning only; how it is worded or laid out is not seen here.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "document/block.h"
#include "document/chart.h"

namespace winterfolio::test {

/// Calls `see` with every text of the blocks in reading order, those inside other texts after the
/// text that holds them.
template <class See>
void see_text(const Text& text, const See& see) {
  if (text.empty()) return;
  see(text);
  const auto* message = std::get_if<Message>(&text.content);
  if (!message) return;
  for (const NamedValue& named : message->values) {
    if (const auto* inner = std::get_if<Text>(&named.value)) see_text(*inner, see);
    if (const auto* list = std::get_if<TextList>(&named.value)) {
      for (const Text& item : list->items) see_text(item, see);
    }
  }
}

template <class See, class SeeBlock>
void see_blocks(const Blocks& blocks, const See& see, const SeeBlock& see_block) {
  const auto texts = [&](const auto&... each) { (see_text(each, see), ...); };
  const auto inner = [&](const Blocks& more) { see_blocks(more, see, see_block); };
  for (const Block& block : blocks) {
    see_block(block);
    if (const auto* b = std::get_if<TitleBlock>(&block.content)) {
      texts(b->over_left, b->over_right, b->title, b->aside);
    } else if (const auto* h = std::get_if<Heading>(&block.content)) {
      texts(h->text, h->aside);
    } else if (const auto* p = std::get_if<Paragraph>(&block.content)) {
      texts(p->text);
    } else if (const auto* l = std::get_if<List>(&block.content)) {
      for (const Text& item : l->items) texts(item);
    } else if (const auto* t = std::get_if<Table>(&block.content)) {
      texts(t->title);
      for (const TableColumn& column : t->columns) texts(column.head);
      for (const TableGroup& group : t->groups) {
        texts(group.name);
        for (const TableRow& row : group.rows)
          for (const TableCell& cell : row.cells) texts(cell.text);
      }
      for (const auto& [key, words] : t->footnotes) texts(words);
    } else if (const auto* f = std::get_if<Figure>(&block.content)) {
      texts(f->title, f->subtitle, f->note);
    } else if (const auto* c = std::get_if<Cards>(&block.content)) {
      for (const Card& card : c->cards) {
        texts(card.id, card.name, card.detail, card.verdict);
        inner(card.body);
      }
    } else if (const auto* figures = std::get_if<BigFigures>(&block.content)) {
      for (const auto& entry : figures->entries) texts(entry.label, entry.value, entry.note);
    } else if (const auto* columns = std::get_if<Columns>(&block.content)) {
      for (const auto& column : columns->columns) inner(column.blocks);
    } else if (const auto* keep = std::get_if<KeepTogether>(&block.content)) {
      inner(keep->blocks);
    } else if (const auto* boxed = std::get_if<Boxed>(&block.content)) {
      inner(boxed->blocks);
    } else if (const auto* writing = std::get_if<WritingLines>(&block.content)) {
      for (const Text& label : writing->labels) texts(label);
    }
  }
}

/// Every message said, in reading order. Points into the blocks.
inline std::vector<const Message*> messages_in(const Blocks& blocks) {
  std::vector<const Message*> messages;
  see_blocks(
      blocks,
      [&](const Text& text) {
        if (const auto* message = std::get_if<Message>(&text.content)) messages.push_back(message);
      },
      [](const Block&) {});
  return messages;
}

/// Every message within one text, itself first.
inline std::vector<const Message*> messages_in(const Text& text) {
  std::vector<const Message*> messages;
  see_text(text, [&](const Text& one) {
    if (const auto* message = std::get_if<Message>(&one.content)) messages.push_back(message);
  });
  return messages;
}

/// The first message of an id; nullptr if it is not said.
template <class From>
const Message* message_in(const From& from, std::string_view id) {
  for (const Message* message : messages_in(from)) {
    if (message->id == id) return message;
  }
  return nullptr;
}

template <class From>
bool says(const From& from, std::string_view id) {
  return message_in(from, id) != nullptr;
}

/// Whether any message of a family is said: "caution-for" for "caution-for.ladder".
template <class From>
bool says_any_of(const From& from, std::string_view family) {
  const auto messages = messages_in(from);
  return std::any_of(messages.begin(), messages.end(), [&](const Message* message) {
    return message->id.size() > family.size() && message->id.starts_with(family) &&
           message->id[family.size()] == '.';
  });
}

template <class From>
int times_said(const From& from, std::string_view id) {
  const auto messages = messages_in(from);
  return static_cast<int>(std::count_if(messages.begin(), messages.end(),
                                        [&](const Message* one) { return one->id == id; }));
}

/// Names and ids that no one translates, in reading order.
template <class From>
std::vector<std::string> literals_in(const From& from) {
  std::vector<std::string> found;
  const auto see = [&](const Text& text) {
    if (const auto* one = std::get_if<Literal>(&text.content)) found.push_back(one->text);
  };
  if constexpr (std::is_same_v<From, Blocks>) {
    see_blocks(from, see, [](const Block&) {});
  } else {
    see_text(from, see);
  }
  return found;
}

template <class From>
bool names(const From& from, std::string_view name) {
  const auto all = literals_in(from);
  return std::find(all.begin(), all.end(), name) != all.end();
}

/// A message's value of a kind; nullptr where it has no such value.
template <class Kind>
const Kind* value_of(const Message* message, std::string_view name) {
  if (!message) return nullptr;
  for (const NamedValue& named : message->values) {
    if (named.name == name) return std::get_if<Kind>(&named.value);
  }
  return nullptr;
}

/// A count among a message's values; -1 where there is none.
inline long count_of(const Message* message, std::string_view name) {
  const auto* counted = value_of<Count>(message, name);
  return counted ? counted->value : -1;
}

/// The value that a text made by value_text() holds; nullptr for another kind.
template <class Kind>
const Kind* value_in(const Text& text) {
  return value_of<Kind>(std::get_if<Message>(&text.content), "value");
}

/// All blocks of a kind, those inside others too. Points into the blocks.
template <class Kind>
std::vector<const Kind*> blocks_of(const Blocks& blocks) {
  std::vector<const Kind*> found;
  see_blocks(
      blocks, [](const Text&) {},
      [&](const Block& block) {
        if (const auto* one = std::get_if<Kind>(&block.content)) found.push_back(one);
      });
  return found;
}

/// The first chart of a kind; nullptr if there is none.
template <class Kind>
const Kind* chart_in(const Blocks& blocks) {
  for (const Figure* figure : blocks_of<Figure>(blocks)) {
    if (!figure->chart) continue;
    if (const auto* chart = std::get_if<Kind>(&figure->chart->kind)) return chart;
  }
  return nullptr;
}

/// The figure that holds the first chart of a kind.
template <class Kind>
const Figure* figure_with(const Blocks& blocks) {
  for (const Figure* figure : blocks_of<Figure>(blocks)) {
    if (figure->chart && std::holds_alternative<Kind>(figure->chart->kind)) return figure;
  }
  return nullptr;
}

}  // namespace winterfolio::test
