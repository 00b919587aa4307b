#include "order/try_names.h"

#include <algorithm>

#include "base/text.h"
#include "order/spoken.h"

namespace dryfit::order {

namespace {

using Name = EventName;

bool begins(const std::string& id, const std::string& name) {
  return id.size() > name.size() && id.compare(0, name.size(), name) == 0 && id[name.size()] == '.';
}

class Finder {
 public:
  Finder(const Assembly& assembly, const std::vector<TryBench>& benches)
      : assembly_(assembly), benches_(benches) {}

  Result<Name> find(const std::string& name) const {
    std::vector<Name> exact = that([&](const Event& e) { return is(e, name); });
    if (!exact.empty()) return exact.front();
    if (whole(name))
      return fault(name, "is the whole work: it goes into nothing", "name its pieces and units");
    const std::vector<Name> of = that(
        [&](const Event& e) { return anyOf(e, [&](const std::string& id) { return begins(id, name); }); });
    if (of.size() == 1 && allBegin(of.front(), name)) return of.front();
    if (!of.empty()) return fault(name, "is how the ids of several pieces begin", "say which: " + some(of));
    const auto nearest = nearestName(name, known());
    return fault(name, "names no piece and no unit of this work",
                 nearest ? "did you mean " + *nearest + "?" : "dryfit pieces lists them");
  }

 private:
  static constexpr size_t kMostTold = 4;

  static Diagnostic fault(const std::string& name, const std::string& what, const std::string& hint) {
    return {Fault::BadInput, "", dryfit::quoted(name) + " " + what, hint, {}};
  }

  template <class Is>
  std::vector<Name> that(Is is) const {
    std::vector<Name> all;
    for (size_t u = 0; u < benches_.size(); ++u)
      for (int e = 0; e < benches_[u].count(); ++e)
        if (benches_[u].event(e).comes() && is(benches_[u].event(e))) all.push_back({static_cast<int>(u), e});
    return all;
  }

  /// A unit goes by its name alone: the ids of its pieces are theirs.
  template <class Is>
  bool anyOf(const Event& e, Is is) const {
    return e.kind != Event::Kind::Unit &&
           std::any_of(e.bodies.begin(), e.bodies.end(), [&](int b) { return is(assembly_.bodies[b].id); });
  }

  bool is(const Event& e, const std::string& name) const {
    if (e.kind == Event::Kind::Unit) return assembly_.units[e.index].name == name;
    if (e.kind == Event::Kind::Operation && assembly_.operations[e.index].key == name) return true;
    return anyOf(e, [&](const std::string& id) { return id == name; });
  }

  bool allBegin(Name n, const std::string& name) const {
    const auto& bodies = benches_[n.unit].event(n.event).bodies;
    return std::all_of(bodies.begin(), bodies.end(),
                       [&](int b) { return begins(assembly_.bodies[b].id, name); });
  }

  bool whole(const std::string& name) const {
    return std::any_of(assembly_.units.begin(), assembly_.units.end(),
                       [&](const Unit& u) { return u.parent < 0 && u.name == name; });
  }

  std::string some(const std::vector<Name>& names) const {
    std::vector<std::string> told;
    for (const Name n : names) {
      if (told.size() == kMostTold) break;
      told.push_back(assembly_.bodies[benches_[n.unit].event(n.event).bodies.front()].id);
    }
    return listed(told) + (names.size() > kMostTold ? " ..." : "");
  }

  std::vector<std::string> known() const {
    std::vector<std::string> all;
    for (const Body& b : assembly_.bodies) all.push_back(b.id);
    for (const Unit& u : assembly_.units)
      if (u.parent >= 0) all.push_back(u.name);
    return all;
  }

  const Assembly& assembly_;
  const std::vector<TryBench>& benches_;
};

}  // namespace

Result<Name> findName(const Assembly& assembly, const std::vector<TryBench>& benches,
                      const std::string& name) {
  return Finder(assembly, benches).find(name);
}

}  // namespace dryfit::order
