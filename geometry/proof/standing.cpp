#include "proof/standing.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/tolerance.h"
#include "proof/held.h"

namespace dryfit::proof {

namespace {

using Kind = ProofFault::Kind;

bool contains(const std::vector<int>& all, int body) {
  return std::find(all.begin(), all.end(), body) != all.end();
}

}  // namespace

double Standing::clear() {
  double most = 0;
  const std::vector<int> standing = bench_.standing();
  for (int a : standing) {
    if (!contains(touched_, a)) continue;
    for (int b : standing) {
      if (a == b || (b < a && contains(touched_, b))) continue;
      const double shared = judge_.shared(bench_.put(a), bench_.put(b));
      if (shared <= tolerance::kOverlapVolume)
        most = std::max(most, shared);
      else if (overlapping_.insert(std::minmax(a, b)).second)
        findings_.add(
            Kind::Overlaps, {a, b},
            fmt::format("{} stands in {}: they share {:.3g} mm3", bench_.id(a), bench_.id(b), shared));
    }
  }
  return most;
}

void Standing::make(const Bond& bond, bool judged) {
  for (int b : bond.between)
    if (!bench_.stands[static_cast<size_t>(b)])
      findings_.add(Kind::Missing, {b},
                    fmt::format("{} is not there, and a bond ({}) is asked of it", bench_.id(b), bond.kind));
  if (judged && !joinedByTouch(judge_, bench_, bond.between)) {
    const double apart = bond.between.size() == 2
                             ? judge_.distanceMm(bench_.put(bond.between[0]), bench_.put(bond.between[1]))
                             : 0;
    findings_.add(Kind::Apart, bond.between,
                  fmt::format("a bond ({}) is asked of {}, which do not touch{}", bond.kind,
                              listed(bench_, bond.between),
                              apart > 0 ? fmt::format(": they stand {:.3g} mm apart", apart) : ""));
  }
  bench_.bonds.push_back(bond);
}

void Standing::held() {
  std::vector<int> fresh;
  for (int b : unheld(judge_, bench_))
    if (loose_.insert(b).second) fresh.push_back(b);
  if (fresh.empty()) return;
  findings_.add(Kind::Floats, fresh,
                fmt::format("nothing holds {}: no chain of contacts or bonds leads to the bench or the wall",
                            listed(bench_, fresh)));
}

}  // namespace dryfit::proof
