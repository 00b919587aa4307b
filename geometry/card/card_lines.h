// The lines of a card: one feature of a recipe after another, or all that are marked and cut in one go.
#pragma once

#include <vector>

#include "card/card_view.h"

namespace dryfit::card {

/// Sawing to size, face and edge.
std::vector<CardLine> preparing(const View& view);
/// What is done before the piece is put together: features of its first state.
std::vector<CardLine> jointing(const View& view);
/// What goes through the thickness or is let in for others: holes, recesses for hinges and lock.
std::vector<CardLine> letting(const View& view);
/// What its later states take away: tenons cleaned off, horns, splays.
std::vector<CardLine> finishing(const View& view);

/// All features of one type in a list, in order.
template <class T>
std::vector<T> all(const std::vector<Feature>& features) {
  std::vector<T> out;
  for (const Feature& f : features)
    if (const auto* one = std::get_if<T>(&f)) out.push_back(*one);
  return out;
}
/// "a, b and c".
std::string listed(const std::vector<std::string>& words);
/// True when the role begins with the word as a whole part: "hinge" of "hinge.1".
bool isOf(const std::string& role, const std::string& word);

}  // namespace dryfit::card
