#include "card/card.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "card/card_lines.h"

namespace dryfit {

namespace card {

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return text;
}

bool isOf(const std::string& role, const std::string& word) {
  return role.rfind(word, 0) == 0 && (role.size() == word.size() || role[word.size()] == '.');
}

std::vector<CardLine> preparing(const View& view) {
  const auto n = [&](double mm) { return view.figure(mm); };
  const Vec3 size = view.blank();
  if (const auto* rod = std::get_if<RodBlank>(&view.made().blank))
    return {
        {Making::Saw,
         "Round rod " + n(rod->diameter) + " thick, " + n(rod->length) + " long; ease the end that enters.",
         {{"length", rod->length}, {"diameter", rod->diameter}},
         {}}};
  std::vector<std::string> waste;
  double over = 0;
  for (const Feature& f : view.last().features)
    if (const auto* cut = std::get_if<CutOff>(&f)) {
      const double off = size.x / 2 - std::abs(cut->at);
      const bool horn = cut->role.rfind("end", 0) == 0;
      waste.push_back(n(off) + (horn ? " of horn at the " : " left proud at the ") + view.endName(cut->end));
      over += off;
    }
  if (!view.piece().joint.empty())
    return {{Making::Saw,
             "Saw out " + n(size.x) + " long, " + n(size.y) + " by " + n(size.z) +
                 (waste.empty() ? "." : "; in the length " + listed(waste) + "."),
             {{"length", size.x}, {"width", size.y}, {"thickness", size.z}},
             {}}};
  std::vector<CardLine> lines;
  lines.push_back({Making::Saw,
                   "Saw out " + n(size.x) + " long, with planing to come off the width and thickness" +
                       (waste.empty() ? "." : ". In the length: " + listed(waste) + "."),
                   {{"length", size.x}, {"waste", over}},
                   {}});
  lines.push_back({Making::Mark,
                   "Plane the face true and mark it; plane the " + view.edgeName(view.faceEdge()) +
                       " square to it and mark it: the face edge.",
                   {},
                   {}});
  lines.push_back({Making::Mark,
                   "Gauge and plane to " + n(size.y) + " wide, " + n(size.z) + " thick.",
                   {{"width", size.y}, {"thickness", size.z}},
                   {}});
  return lines;
}

namespace {

/// Most pieces alike that are named.
constexpr size_t kMostNamed = 5;

/// Recipes less what is done when it is hung: stiles of a pair differ in nothing else.
Recipe bare(const Piece& piece) {
  Recipe r = piece.states.front().cut->recipe;
  std::erase_if(r.features, [](const Feature& f) {
    return std::visit([](const auto& one) { return isOf(one.role, "hinge") || isOf(one.role, "lock"); }, f);
  });
  return r;
}

/// Its fellow: the piece of its unit that differs from it, but is the same or its mirror image before hinges
/// and lock are let in.
struct Fellow {
  int piece = -1;
  bool handed = false;
};

Fellow fellowOf(const View& view, const std::vector<Alike>& alikes) {
  const CutWork& work = view.work();
  const Alike& own = alikes[static_cast<size_t>(view.index())];
  if (own.handedWith) return {*own.handedWith, true};
  CutCache cache(CutCache::Cuts::ShellsOnly);
  const auto cutOf = [&](const Piece& piece) { return cache.cut(bare(piece), piece.id); };
  const auto mine = cutOf(view.piece());
  if (!mine) return {};
  const std::string same = shapeKey({&mine.value()->shell}),
                    mirror = mirroredShapeKey({&mine.value()->shell});
  for (int i = 0; i < static_cast<int>(work.pieces.size()); ++i) {
    const Piece& other = work.pieces[static_cast<size_t>(i)];
    if (i == view.index() || other.formed || !other.joint.empty() || other.unit != view.piece().unit)
      continue;
    if (!(other.states.front().cut->recipe.blank == view.made().blank)) continue;
    if (alikes[static_cast<size_t>(i)].key == own.key) continue;
    const auto theirs = cutOf(other);
    const std::string key = theirs ? shapeKey({&theirs.value()->shell}) : "";
    if (key == same || key == mirror) return {i, key != same};
  }
  return {};
}

std::string alikeText(const View& view, const std::vector<Alike>& alikes) {
  const Alike& own = alikes[static_cast<size_t>(view.index())];
  const bool member = view.piece().joint.empty();
  std::vector<std::string> names{"this"};
  for (int i = 0; i < static_cast<int>(alikes.size()); ++i)
    if (i != view.index() && alikes[static_cast<size_t>(i)].key == own.key) names.push_back(view.called(i));
  std::string text = "Make " + std::to_string(own.count);
  if (own.count > 1)
    text += " alike" + (member && names.size() <= kMostNamed ? ": " + listed(names) : std::string());
  text += ".";
  const Fellow fellow = member ? fellowOf(view, alikes) : Fellow{};
  if (fellow.piece < 0) return text;
  const std::string who = view.called(fellow.piece);
  return text +
         (fellow.handed ? " A handed pair with " + who
                        : " A pair with " + who + ", alike until something is let in") +
         ": set the two out together, face edge to face edge.";
}

bool does(const MakingCard& card, std::initializer_list<Making> any) {
  return std::any_of(card.lines.begin(), card.lines.end(), [&](const CardLine& line) {
    return std::find(any.begin(), any.end(), line.making) != any.end();
  });
}

std::vector<std::string> cautionsOf(const MakingCard& card) {
  using enum Making;
  std::vector<std::string> out;
  if (does(card, {Mortise, Trench, Haunch, Dovetail, LetIn, Lock}))
    out.push_back("Chisels: sharp, both hands behind the edge, the work cramped; cut away from yourself.");
  if (does(card, {Taper})) out.push_back("Wedges are small: saw them from a longer piece that you can hold.");
  if (does(card, {Rebate, Section, Plough, Raise}))
    out.push_back(
        "On a machine: guards set, push-sticks, the plug out before the cutter is changed; what the "
        "machine's "
        "manual, your workshop and local law say comes first.");
  out.push_back("Wood dust harms: collect it and wear a mask.");
  return out;
}

std::string measuredFrom(const View& view) {
  return "Lengths from the " + view.endName(view.fromEnd()) +
         (does(MakingCard{{}, {}, {}, finishing(view), {}}, {Making::Horns}) ? ", horns not counted" : "") +
         "; across from the face edge, the " + view.edgeName(view.faceEdge()) + "; gauges from the face." +
         (view.tellsLeft() ? " Left and right as seen from the front." : "");
}

/// Metal is bought; pins and dowels may be of any hard wood, which the timber table need not have.
bool isWood(const Piece& piece) {
  static const std::array<const char*, 3> metals = {"steel", "brass", "iron"};
  const bool metal = std::any_of(metals.begin(), metals.end(),
                                 [&](const char* m) { return piece.material.find(m) != std::string::npos; });
  const Blank& blank = piece.last().recipe.blank;
  return !metal && (std::holds_alternative<BoxBlank>(blank) || std::holds_alternative<RodBlank>(blank));
}

}  // namespace

}  // namespace card

Result<MakingCard> makingCard(const CutWork& work, int piece) {
  return makingCard(work, piece, alikes(work.pieces));
}

Result<MakingCard> makingCard(const CutWork& work, int index, const std::vector<Alike>& alikes) {
  using namespace card;
  const Piece& piece = work.pieces.at(static_cast<size_t>(index));
  if (piece.formed)
    return Diagnostic{Fault::BadInput,
                      piece.id,
                      "is formed in place: there is nothing to make on the bench",
                      "dryfit order tells when it is formed",
                      {}};
  if (!isWood(piece))
    return Diagnostic{Fault::BadInput, piece.id, "is bought, not made", "dryfit pieces lists its size", {}};
  const View view(work, index);
  MakingCard out;
  out.name = piece.name;
  out.alike = alikeText(view, alikes);
  if (piece.joint.empty()) out.measured = measuredFrom(view);
  for (const auto& lines : {preparing(view), jointing(view), letting(view), finishing(view)})
    out.lines.insert(out.lines.end(), lines.begin(), lines.end());
  std::stable_sort(out.lines.begin(), out.lines.end(),
                   [](const CardLine& a, const CardLine& b) { return a.making < b.making; });
  out.cautions = cautionsOf(out);
  return out;
}

}  // namespace dryfit
