#include "scene/sizes.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "scene/overlay_lines.h"
#include "scene/size_text.h"

namespace dryfit::scene {

namespace {

using Rank = FoundSize::Rank;

/// Of the design: sizes shorter than this on the picture are not worth a line, longer where they are drawn
/// aslant; and how many are enough.
constexpr double kLeastPx = 14, kLeastAslantPx = 30, kLeastOfJointPx = 7;
constexpr std::size_t kMost = 14, kMostAslant = 10, kMostOfJoint = 24;
constexpr double kMeetMm = 0.05;  ///< ends so near meet: under a tenth, the last figure that is written

/// A size with its place along its own way.
struct Candidate {
  const FoundSize* found = nullptr;
  DrawableSize drawable;
  double low = 0, high = 0;
  std::string name;
};

double lengthPx(const Candidate& c, const Sight& sight) {
  const SizeStand& s = c.drawable.stands.front();
  return length(sight.camera.project(s.toAt(0)).at - sight.camera.project(s.fromAt(0)).at);
}

/// Says each thing once: the same figure for the same thing, and the same stretch of one line.
class Said {
 public:
  bool isNew(const Candidate& c) {
    const FoundSize& f = *c.found;
    // What members are thick is all one; else a figure is told from another by whose it is.
    const std::string thing = f.what == "thickness" ? "" : f.kind;
    const std::string key = f.what + "|" + thing + "|" + c.drawable.figures;
    const std::string open = f.rank == Rank::Joint ? f.joint : "";
    for (const Stretch& s : stretches_)
      if (dot(s.way, f.way) > 1 - 1e-9 && std::abs(s.low - c.low) < kMeetMm &&
          std::abs(s.high - c.high) < kMeetMm)
        return false;
    const auto [place, fresh] = keys_.insert({key, open});
    // Within one joint a figure may come again: two tenons of one width.
    if (!fresh && (open.empty() || place->second != open)) return false;
    stretches_.push_back({f.way, c.low, c.high});
    return true;
  }

 private:
  struct Stretch {
    Vec3 way;
    double low, high;
  };
  std::vector<Stretch> stretches_;
  struct ByKey {
    bool operator()(const std::pair<std::string, std::string>& a,
                    const std::pair<std::string, std::string>& b) const {
      return a.first < b.first;
    }
  };
  std::set<std::pair<std::string, std::string>, ByKey> keys_;
};

std::vector<Candidate> drawableOnes(const std::vector<FoundSize>& found, const SizeAsk& ask,
                                    const Sight& sight) {
  const bool ofJoint = !ask.search.joint.empty();
  const double least = (ofJoint                 ? kLeastOfJointPx
                        : sight.camera.parallel ? kLeastPx
                                                : kLeastAslantPx) *
                       sight.unit;
  std::vector<Candidate> all;
  for (const FoundSize& f : found) {
    if (f.rank == Rank::Small && !ofJoint && !ask.search.apart) continue;
    Candidate c{&f, {sizeText(f.mm, ask.unit), standsOf(f, sight, least)}, 0, 0, ""};
    if (c.drawable.stands.empty()) continue;
    c.low = dot(f.way, c.drawable.stands.front().from);
    c.high = c.low + f.mm;
    c.name = f.what + " " + c.drawable.figures + (f.of.empty() ? "" : ", " + f.of);
    all.push_back(std::move(c));
  }
  return all;
}

/// How telling: a joint's own list before its members when it is looked at alone, else after them.
int order(const Candidate& c, bool ofJoint) {
  switch (c.found->rank) {
    case Rank::Overall:
      return 0;
    case Rank::Joint:
      return ofJoint ? 1 : 2;
    case Rank::Member:
      return ofJoint ? 2 : 1;
    case Rank::Small:
      break;
  }
  return 3;
}

bool meets(const Candidate& a, const Candidate& b) {
  return a.found->rank == b.found->rank && a.found->joint == b.found->joint &&
         dot(a.found->way, b.found->way) > 1 - 1e-9 && std::abs(a.high - b.low) < kMeetMm;
}

/// A chain about candidate `seed`, as far as ends meet and a line can be shared; what is used is noted.
std::vector<std::size_t> chainFrom(std::size_t seed, const std::vector<Candidate>& all,
                                   std::vector<bool>& used, const Camera& camera) {
  std::vector<std::size_t> chain{seed};
  used[seed] = true;
  for (bool grown = true; grown;) {
    grown = false;
    for (std::size_t i = 0; i < all.size() && !grown; ++i) {
      if (used[i]) continue;
      const bool after = meets(all[chain.back()], all[i]), before = meets(all[i], all[chain.front()]);
      if (!after && !before) continue;
      std::vector<std::size_t> longer = chain;
      longer.insert(after ? longer.end() : longer.begin(), i);
      SizeRow row;
      for (const std::size_t k : longer) row.push_back(all[k].drawable);
      if (sharedStands(row, camera).empty()) continue;
      chain = std::move(longer);
      used[i] = grown = true;
    }
  }
  return chain;
}

}  // namespace

std::vector<ChosenRow> chooseSizes(const std::vector<FoundSize>& found, const SizeAsk& ask,
                                   const Sight& sight) {
  const bool ofJoint = !ask.search.joint.empty();
  std::vector<Candidate> all = drawableOnes(found, ask, sight);
  std::stable_sort(all.begin(), all.end(), [&](const Candidate& a, const Candidate& b) {
    return order(a, ofJoint) < order(b, ofJoint);
  });
  Said said;
  std::erase_if(all, [&](const Candidate& c) { return !said.isNew(c); });
  const std::size_t most = ofJoint ? kMostOfJoint : sight.camera.parallel ? kMost : kMostAslant;
  if (all.size() > most) all.resize(most);

  std::vector<std::pair<double, ChosenRow>> rows;
  std::vector<bool> used(all.size(), false);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (used[i]) continue;
    ChosenRow row{all[i].found->rank, {}, {}};
    double px = 0;
    for (const std::size_t k : chainFrom(i, all, used, sight.camera)) {
      row.sizes.push_back(all[k].drawable);
      row.names.push_back(all[k].name);
      px += lengthPx(all[k], sight);
    }
    rows.emplace_back(px, std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<ChosenRow> chosen;
  for (auto& [px, row] : rows) chosen.push_back(std::move(row));
  return chosen;
}

namespace {

void putOn(Board& board, const RowLayout& row) {
  for (const Figures& f : row.figures) board.put(f.box);
  for (const Segment& s : row.lines) board.put(s, Board::Line::Dimension);
  for (const Segment& s : row.extensions) board.put(s, Board::Line::Extension);
}

/// A row waiting for its turn to be placed.
struct Turn {
  ChosenRow row;
  bool wasMoved = false;  ///< before all others, once
};

/// Rows placed in this order, as far as there is room; the places of those that found none are listed.
PlacedSizes placedInOrder(const std::vector<Turn>& order, const Sight& sight, Board& board,
                          const Lettering& lettering, std::vector<std::size_t>& failed) {
  PlacedSizes out;
  failed.clear();
  for (std::size_t i = 0; i < order.size(); ++i) {
    const ChosenRow& chosen = order[i].row;
    auto row = placeRow(chosen.sizes, out.rows, sight, board, lettering);
    if (!row) {
      failed.push_back(i);
      out.leftOut.insert(out.leftOut.end(), chosen.names.begin(), chosen.names.end());
      continue;
    }
    putOn(board, *row);
    out.rows.push_back(std::move(*row));
  }
  return out;
}

/// What is lost when those rows are left out: more telling sizes count more.
double lossOf(const std::vector<Turn>& order, const std::vector<std::size_t>& failed) {
  double loss = 0;
  for (const std::size_t i : failed) {
    const Rank rank = order[i].row.rank;
    loss += static_cast<double>(order[i].row.sizes.size()) * (rank == Rank::Overall ? 5
                                                              : rank == Rank::Small ? 0.8
                                                                                    : 1);
  }
  return loss;
}

/// The longest of those that found no room goes first in the next try; when all had their turn, a chain is
/// taken apart. False: nothing is left to try.
bool reorder(std::vector<Turn>& order, const std::vector<std::size_t>& failed) {
  for (auto i = failed.rbegin(); i != failed.rend(); ++i) {
    const auto at = order.begin() + static_cast<std::ptrdiff_t>(*i);
    if (at->wasMoved) continue;
    at->wasMoved = true;
    std::rotate(order.begin(), at, at + 1);
    return true;
  }
  for (const std::size_t i : failed) {
    const ChosenRow chain = order[i].row;
    if (chain.sizes.size() == 1) continue;
    const auto at = order.erase(order.begin() + static_cast<std::ptrdiff_t>(i));
    std::vector<Turn> single;
    for (std::size_t k = 0; k < chain.sizes.size(); ++k)
      single.push_back({{chain.rank, {chain.sizes[k]}, {chain.names[k]}}, true});
    order.insert(at, single.begin(), single.end());
    return true;
  }
  return false;
}

}  // namespace

PlacedSizes placeSizes(const std::vector<ChosenRow>& chosen, const Sight& sight, Board& board,
                       const Lettering& lettering) {
  constexpr int kTries = 8;
  const Board::Mark start = board.mark();
  std::vector<Turn> order;
  for (const ChosenRow& row : chosen) order.push_back({row});
  std::vector<Turn> best = order;
  std::vector<std::size_t> failed;
  double least = 1e300;
  for (int k = 0; k < kTries; ++k) {
    board.rewind(start);
    placedInOrder(order, sight, board, lettering, failed);
    if (lossOf(order, failed) < least) {
      least = lossOf(order, failed);
      best = order;
    }
    if (!reorder(order, failed)) break;
  }
  board.rewind(start);
  return placedInOrder(best, sight, board, lettering, failed);
}

void drawSizes(const std::vector<RowLayout>& rows, const Look& look, double unit, Overlay& overlay) {
  const GroundColours& colours = coloursOf(look.ground);
  const double thin = look.widths.extension * unit, line = look.widths.leader * unit;
  for (const RowLayout& row : rows) {
    for (const Segment& s : row.extensions) addLine(overlay, {s.from, s.to}, thin, colours.ink);
    for (const Segment& s : row.lines) addLine(overlay, {s.from, s.to}, line, colours.ink);
    for (const auto& a : row.arrows) overlay.marks.emplace_back(Fill{{a.begin(), a.end()}, colours.ink});
    for (const Vec2 p : row.dots) overlay.marks.emplace_back(Dot{p, dimension::kDot * unit, colours.ink});
  }
  for (const RowLayout& row : rows)
    for (const Figures& f : row.figures)
      overlay.marks.emplace_back(Text{f.at, f.angleRad, f.text, Face::Lettering, figuresPx(unit), colours.ink,
                                      2.5 * unit, colours.ground});
}

}  // namespace dryfit::scene
