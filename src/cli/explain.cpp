#include "cli/explain.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <unordered_map>

#include "base/text.h"
#include "base/tolerance.h"
#include "cli/explain_entries.h"
#include "doorset/read_door_set.h"
#include "settingout/read_work.h"

namespace dryfit::cli {

namespace {

constexpr double kNudgeMm = 0.01, kNudge = 0.1;  // the second of per cent and degrees
constexpr double kFar = 0.1;  // of the value: far enough to reach the next step of a rule that goes in steps

/// A draft cut, as figures and shapes that can be compared.
struct Stand {
  std::unordered_map<std::string, DoorSetValue> values;
  struct Shape {
    std::vector<std::shared_ptr<const CutRecipe>> states;
    std::string material;
    Placement place;
  };
  std::map<std::string, Shape> shapes;
};

class Explainer {
 public:
  Explainer(Draft draft) : draft_(std::move(draft)), keys_(doorSetKeys(keysOf(standardJoints()))) {}

  Result<Explanation> explain(const std::string& key) {
    const auto cut = cutWork(draft_.work, standardJoints(), cache_);
    if (!cut) return cut.faults();
    std::vector<Entry> entries = joinedAll(cut.value());
    const std::vector<Entry> all = entries;
    const Stand base = standOf(draft_, cut.value());
    if (!key.empty())
      if (auto fault = unknown(entries, key)) return *fault;
    Explanation out;
    out.title = draft_.work.title;
    out.lengths = draft_.work.lengths;
    for (const Piece& piece : cut.value().pieces) out.pieces.push_back(piece.id);
    for (const Entry& entry : entries) out.keys.push_back(entry.told.key);
    const auto isAsked = [&](const Entry& e) { return key.empty() || isCalled(e, key); };
    // What a size follows from is known only when every other one has been changed.
    const bool every =
        std::any_of(entries.begin(), entries.end(), [&](const Entry& e) { return isAsked(e) && !e.change; });
    for (Entry& entry : entries)
      if (entry.change && (every || isAsked(entry))) findDependents(entry, all, base, out.pieces);
    for (Entry& entry : entries) {
      if (!isAsked(entry)) continue;
      if (!entry.change) entry.told.follows = sourcesOf(entry.told.key, entries);
      out.sizes.push_back(entry.told);
    }
    return out;
  }

 private:
  static std::vector<std::string> sourcesOf(const std::string& key, const std::vector<Entry>& entries) {
    std::vector<std::string> sources;
    for (const Entry& e : entries)
      if (std::find(e.told.sizes.begin(), e.told.sizes.end(), key) != e.told.sizes.end())
        sources.push_back(e.told.key);
    return sources;
  }

  /// For people: what joints decide alike is told once; a member's size that is a key of its own, too.
  std::vector<Entry> joinedAll(const CutWork& cut) const {
    std::vector<Entry> entries;
    if (draft_.set) entries = doorSetEntries(draft_, keys_);
    std::set<std::string> known;
    for (const Entry& e : entries) known.insert(e.told.key);
    auto add = [&](std::vector<Entry> more) {
      for (Entry& e : more)
        if (known.insert(e.told.key).second) entries.push_back(std::move(e));
    };
    add(joinedEntries(draft_, jointEntries(draft_, cut), keys_));
    add(memberEntries(draft_, cut));
    return entries;
  }

  Stand standOf(const Draft& draft, const CutWork& cut) const {
    Stand stand;
    auto note = [&](const std::vector<Entry>& entries) {
      for (const Entry& e : entries) stand.values.emplace(e.told.key, e.told.value);
    };
    if (draft.set) note(doorSetEntries(draft, keys_));
    note(jointEntries(draft, cut));
    note(memberEntries(draft, cut));
    for (const Piece& piece : cut.pieces) {
      Stand::Shape& shape = stand.shapes[piece.id];
      shape.material = piece.material;
      shape.place = piece.worldFromPiece;
      for (const PieceState& state : piece.states) shape.states.push_back(state.cut);
    }
    return stand;
  }

  static bool same(const DoorSetValue& a, const DoorSetValue& b) {
    const auto *p = std::get_if<std::vector<double>>(&a), *q = std::get_if<std::vector<double>>(&b);
    if (p && q)
      return std::equal(p->begin(), p->end(), q->begin(), q->end(),
                        [](double u, double v) { return std::abs(u - v) < 1e-9; });
    const auto *x = std::get_if<double>(&a), *y = std::get_if<double>(&b);
    return x && y ? std::abs(*x - *y) < 1e-9 : a == b;
  }
  /// One of its joints has another value, or none of them is there any more.
  static bool changedIn(const Entry& e, const Stand& base, const Stand& other) {
    bool there = false;
    const size_t parts = std::max<size_t>(e.parts.size(), 1);
    for (size_t i = 0; i < parts; ++i) {
      const std::string& part = e.parts.empty() ? e.told.key : e.parts[i];
      const auto a = base.values.find(part), b = other.values.find(part);
      if (a == base.values.end()) return false;  // given, but in no joint
      if (b == other.values.end()) continue;
      there = true;
      if (!same(a->second, b->second)) return true;
    }
    return !there;
  }
  static bool isFar(Vec3 u, Vec3 v) { return length(u - v) > tolerance::kPoint; }
  static bool isMoved(const Placement& a, const Placement& b) {
    return isFar(a.origin, b.origin) || isFar(a.xAxis, b.xAxis) || isFar(a.yAxis, b.yAxis);
  }
  /// The same but for rounding: a piece that only stands elsewhere may have another hash.
  static bool alike(const Shell& a, const Shell& b) {
    if (a.vertices.size() != b.vertices.size() || a.rounds.size() != b.rounds.size()) return false;
    for (size_t i = 0; i < a.vertices.size(); ++i)
      if (isFar(a.vertices[i], b.vertices[i])) return false;
    for (size_t i = 0; i < a.rounds.size(); ++i) {
      const RoundFace &r = a.rounds[i], &s = b.rounds[i];
      if (isFar(r.from, s.from) || isFar(r.to, s.to) || std::abs(r.radius - s.radius) > tolerance::kPoint ||
          std::abs(r.radiusTo - s.radiusTo) > tolerance::kPoint)
        return false;
    }
    return std::abs(volume(a) - volume(b)) < tolerance::kOverlapVolume;
  }
  static bool alike(const Stand::Shape& a, const Stand::Shape& b) {
    if (a.states.size() != b.states.size()) return false;
    for (size_t i = 0; i < a.states.size(); ++i)
      if (a.states[i]->hash != b.states[i]->hash && !alike(a.states[i]->shell, b.states[i]->shell))
        return false;
    return true;
  }

  /// Small steps first: the first two that can be made at all speak for the size as it is.
  static std::vector<std::vector<DoorSetValue>> tries(const Entry& entry) {
    const DoorSetValue& now = entry.told.value;
    if (!entry.others.empty()) {
      std::vector<std::vector<DoorSetValue>> out;
      for (const DoorSetValue& other : entry.others) out.push_back({other});
      return out;
    }
    if (const auto* range = std::get_if<std::array<double, 2>>(&now)) {
      const auto [low, high] = *range;
      return {{std::array{low - kNudge, high}, std::array{low + kNudge, high}},
              {std::array{low, high + kNudge}, std::array{low, high - kNudge}}};
    }
    if (const auto* list = std::get_if<std::vector<double>>(&now)) return triesOfList(*list);
    const auto* value = std::get_if<double>(&now);
    if (!value || entry.told.unit == "count") return {};
    const double step = entry.told.unit == "mm" ? kNudgeMm : entry.told.unit == "slope" ? 1e-4 : kNudge;
    return {{*value + step, *value - step}, {*value * (1 + kFar)}, {*value * (1 - kFar)}};
  }

  /// Lengths that are one value are nudged one by one.
  static std::vector<std::vector<DoorSetValue>> triesOfList(const std::vector<double>& list) {
    std::vector<std::vector<DoorSetValue>> out;
    for (size_t i = 0; i < list.size(); ++i) {
      std::vector<DoorSetValue> ways;
      for (const double step : {kNudgeMm, -kNudgeMm}) {
        std::vector<double> other = list;
        other[i] += step;
        ways.push_back(std::move(other));
      }
      out.push_back(std::move(ways));
    }
    return out;
  }

  /// Of several ways to try one step the first that can be made.
  void findDependents(Entry& entry, const std::vector<Entry>& all, const Stand& base,
                      const std::vector<std::string>& pieces) {
    std::set<std::string> sizes, cutOtherwise, moved;
    std::string why;
    bool made = false;
    for (const auto& ways : tries(entry))
      for (const DoorSetValue& value : ways) {
        const auto stand = madeWith(entry, value, made ? nullptr : &why);
        if (!stand) continue;
        made = true;
        for (const Entry& e : all)
          if (e.told.key != entry.told.key && changedIn(e, base, *stand)) sizes.insert(e.told.key);
        compareShapes(base, *stand, cutOtherwise, moved);
        break;
      }
    if (!made && !tries(entry).empty()) entry.told.alone = plainReason(entry, why);
    for (const Entry& e : all)
      if (sizes.count(e.told.key)) entry.told.sizes.push_back(e.told.key);
    for (const std::string& id : pieces)
      if (cutOtherwise.count(id))
        entry.told.pieces.push_back(id);
      else if (moved.count(id))
        entry.told.moved.push_back(id);
  }

  /// What is wrong, and what would be right; not words that another key may have.
  static std::string reasonOf(const Diagnostic& fault) {
    const bool tells = !fault.hint.empty() && fault.hint.front() != '"';
    return fault.message + (tells ? "; " + fault.hint : "");
  }
  /// Told of a millimetre: the figures of the small steps that were tried mean nothing to a reader.
  std::string plainReason(const Entry& entry, const std::string& tried) {
    const auto* now = std::get_if<double>(&entry.told.value);
    if (!now || entry.told.unit != "mm") return tried;
    std::string why;
    madeWith(entry, *now + 1, &why);
    return why.empty() ? tried : "a millimetre more, and " + why;
  }

  std::optional<Stand> madeWith(const Entry& entry, const DoorSetValue& value, std::string* why) {
    const auto draft = entry.change(value);
    if (!draft) {
      if (why && why->empty()) *why = reasonOf(draft.faults().front());
      return std::nullopt;
    }
    const auto cut = cutWork(draft.value().work, standardJoints(), cache_);
    if (!cut) {
      if (why && why->empty()) *why = reasonOf(cut.faults().front());
      return std::nullopt;
    }
    return standOf(draft.value(), cut.value());
  }

  static void compareShapes(const Stand& base, const Stand& other, std::set<std::string>& cutOtherwise,
                            std::set<std::string>& moved) {
    for (const auto& [id, shape] : base.shapes) {
      const auto now = other.shapes.find(id);
      if (now == other.shapes.end() || now->second.material != shape.material || !alike(now->second, shape))
        cutOtherwise.insert(id);
      else if (isMoved(shape.place, now->second.place))
        moved.insert(id);
    }
  }

  static bool begins(const std::string& text, const std::string& head) {
    if (text.rfind(head, 0) != 0) return false;
    return text.size() == head.size() || std::string(".+[").find(text[head.size()]) != std::string::npos;
  }
  /// "leaf.rail.width" of "leaf.rail[2].width".
  static std::string unnumbered(std::string path) {
    for (size_t at = path.find('['); at != std::string::npos; at = path.find('['))
      path.erase(at, path.find(']', at) - at + 1);
    return path;
  }
  static bool isCalled(const Entry& e, const std::string& key) {
    if (begins(e.told.key, key)) return true;
    return std::any_of(e.told.setBy.begin(), e.told.setBy.end(), [&](const std::string& path) {
      return begins(path, key) || begins(unnumbered(path), unnumbered(key));
    });
  }

  std::optional<Diagnostic> unknown(const std::vector<Entry>& entries, const std::string& key) const {
    if (std::any_of(entries.begin(), entries.end(), [&](const Entry& e) { return isCalled(e, key); }))
      return std::nullopt;
    const std::string& file = draft_.work.file;
    for (const DoorSetKey& k : keys_)
      if (draft_.set && unnumbered(k.path) == unnumbered(key))
        return Diagnostic{Fault::BadInput,
                          key,
                          "it is a key, but nothing in this door set has it in force",
                          "dryfit keys " + k.path + " tells what it is for",
                          {file, 0, 0}};
    std::vector<std::string> names;
    for (const Entry& e : entries) {
      for (const std::string& whole :
           {e.told.key, unnumbered(e.told.setBy.empty() ? "" : e.told.setBy.front())})
        for (size_t at = whole.find('.'); at != std::string::npos; at = whole.find('.', at + 1))
          names.push_back(whole.substr(0, at));
      names.push_back(e.told.key);
    }
    const auto nearest = nearestName(key, names);
    return Diagnostic{
        Fault::BadInput,
        "",
        "no size in force is called " + dryfit::quoted(key),
        nearest ? "did you mean " + dryfit::quoted(*nearest) + "?" : "without a key every size is told",
        {file, 0, 0}};
  }

  Draft draft_;
  std::vector<DoorSetKey> keys_;
  CutCache cache_{CutCache::Cuts::ShellsOnly};
};

Result<Draft> draftOf(const std::string& text, const std::string& fileName) {
  const std::vector<KindSpec> kinds = keysOf(standardJoints());
  if (isDoorSet(text)) {
    const auto given = readGivenDoorSet(text, fileName, kinds);
    if (!given) return given.faults();
    return drawn(given.value());
  }
  const auto work = readWork(text, fileName, kinds);
  if (!work) return work.faults();
  return Draft{{}, {}, work.value()};
}

}  // namespace

Result<Explanation> explain(const std::string& text, const std::string& fileName, const std::string& key) {
  auto draft = draftOf(text, fileName);
  if (!draft) return draft.faults();
  return Explainer(std::move(draft).value()).explain(key);
}

}  // namespace dryfit::cli
