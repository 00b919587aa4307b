#include "ui/card_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "order/spoken.h"
#include "scene/names.h"
#include "scene/size_text.h"

namespace dryfit::ui {

namespace {

/// More rows than these are told as so many more.
constexpr size_t kMostRows = 7;

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}
std::string withoutThe(const std::string& name) {
  return name.rfind("the ", 0) == 0 ? name.substr(4) : name;
}

std::string firstSentence(const std::string& text) {
  const size_t end = text.find_first_of(".:;");
  return end == std::string::npos ? text : text.substr(0, end);
}

const Step& stepOf(const Model& model, int step) {
  return model.order.steps.at(static_cast<size_t>(step));
}

/// Pieces the step brings or works on, those that are called alike on one row.
std::vector<CardRow> rowsOf(const Model& model, const std::vector<int>& bodies, LengthUnit unit) {
  std::vector<CardRow> rows;
  std::vector<std::pair<std::string, std::vector<int>>> alike;
  for (const int b : bodies) {
    const Piece& piece = model.work.pieces.at(static_cast<size_t>(b));
    if (piece.formed) continue;
    const std::string key = piece.joint.empty() ? piece.id : piece.joint + scene::kindOf(piece.name);
    auto known = std::find_if(alike.begin(), alike.end(), [&](const auto& a) { return a.first == key; });
    if (known == alike.end()) known = alike.insert(alike.end(), {key, {}});
    known->second.push_back(b);
  }
  for (const auto& [key, pieces] : alike) {
    if (rows.size() == kMostRows) {
      rows.push_back({fmt::format("and {} more", alike.size() - kMostRows), "", -1});
      break;
    }
    std::string name;
    for (const std::string& one : order::namesOf(model.work.assembly, pieces))
      name += (name.empty() ? "" : ", ") + withoutThe(one);
    rows.push_back({capital(name), sizesOf(model, pieces.front(), unit), pieces.front()});
  }
  return rows;
}

CardText stepCard(const Model& model, const State& state, int step) {
  const Step& s = stepOf(model, step);
  CardText card;
  card.number = std::to_string(step + 1);
  card.ofStage = fmt::format("of {} \u00B7 {}", model.steps(), s.stage);
  card.title = titleOf(model, step);
  card.text = {s.text};
  card.rows = rowsOf(model, s.bodies, state.unit);
  if (!card.rows.empty()) card.rowsTitle = "Pieces";
  card.care = s.caution;
  card.whyTitle = "Why now";
  card.why = s.why;
  if (step + 1 < model.steps()) card.next = titleOf(model, step + 1);
  return card;
}

CardText startCard(const Model& model) {
  CardText card;
  card.number = "0";
  card.ofStage = fmt::format("of {}", model.steps());
  card.title = model.work.title;
  card.text = {fmt::format(
      "{} pieces, {} joints. Forward begins the order of work; drag the pencil to any moment of it.",
      model.work.pieces.size(), model.work.assembly.joints.size())};
  if (model.steps() > 0) card.next = titleOf(model, 0);
  return card;
}

/// The step a piece goes in at; -1: none tells.
int stepBringing(const Model& model, int piece) {
  for (int i = 0; i < model.steps(); ++i) {
    const Step& s = stepOf(model, i);
    if (s.event != "fit" && s.event != "drive" && s.event != "fasten" && s.event != "form") continue;
    if (order::contains(s.bodies, piece)) return i;
  }
  return -1;
}

CardText pieceCard(const Model& model, const State& state, int piece) {
  const Piece& p = model.work.pieces.at(static_cast<size_t>(piece));
  CardText card;
  const int step = stepBringing(model, piece);
  card.number = step < 0 ? "" : std::to_string(step + 1);
  card.ofStage = step < 0 ? "a piece" : "is when it goes in";
  card.title = capital(withoutThe(order::called(model.work.assembly, piece)));
  card.text = {p.id};
  card.rowsTitle = "This piece";
  card.rows.push_back(
      {p.material.empty() ? "Size" : capital(p.material), sizesOf(model, piece, state.unit), piece});
  const double mm3 = volume(p.last().shell);
  card.rows.push_back({"Volume", fmt::format("{:.0f} cm\u00B3", mm3 / 1000), -1});
  if (const auto kg = massKg(p, p.states.back()))
    card.rows.push_back({"Mass", fmt::format("{:.2f} kg", *kg), -1});
  std::vector<int> meets;
  for (const auto& joint : model.work.assembly.joints)
    if (order::contains(joint.bodies, piece))
      for (const int b : joint.bodies)
        if (b != piece && model.work.pieces[static_cast<size_t>(b)].joint.empty() &&
            !order::contains(meets, b))
          meets.push_back(b);
  if (!meets.empty()) {
    card.whyTitle = "Its joints meet";
    card.why = order::sentence(order::listed(order::namesOf(model.work.assembly, meets))) + ".";
  }
  return card;
}

}  // namespace

std::string titleOf(const Model& model, int step) {
  const Step& s = stepOf(model, step);
  const Assembly& assembly = model.work.assembly;
  if (s.event == "fit" || s.event == "drive" || s.event == "fasten" || s.event == "form") {
    if (!s.moves.empty() && s.moves.front().unit >= 0)
      return capital(assembly.units.at(static_cast<size_t>(s.moves.front().unit)).name) + " into its place";
    std::string names;
    for (const std::string& name : order::namesOf(assembly, s.bodies))
      names += (names.empty() ? "" : ", ") + withoutThe(name);
    if (!names.empty() && names.size() < 60) return capital(names);
  }
  return capital(firstSentence(s.text));
}

std::string sizesOf(const Model& model, int piece, LengthUnit unit) {
  const Vec3 mm = sizeOf(model.work.pieces.at(static_cast<size_t>(piece)).last().shell);
  std::string text;
  for (const double side : {mm.x, mm.y, mm.z})
    text += (text.empty() ? "" : " \u00D7 ") + scene::sizeText(side, unit);
  return text;
}

CardText cardOf(const Model& model, const State& state) {
  if (state.chosen) return pieceCard(model, state, *state.chosen);
  const int step = stepTold(state);
  return step < 0 ? startCard(model) : stepCard(model, state, step);
}

}  // namespace dryfit::ui
