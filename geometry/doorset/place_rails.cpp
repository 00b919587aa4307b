#include "doorset/place_rails.h"

#include <fmt/format.h>

#include <cmath>

namespace dryfit {

namespace {

using From = Size::From;

constexpr double kTiny = 1e-6;
constexpr double kNarrow = 95, kWide = 195;  // old BS 459-1 finished widths, from memory
constexpr const char* kWidths = "old BS 459-1, from memory: 95 ex 100, 195 ex 200";
constexpr const char* kLockHeight = "Allen, Practical Building Construction: 3 ft 2 in";

Size byRule(double mm, const char* source) {
  return {mm, From::Rule, source};
}

/// The height is a chain: rail, opening, rail, ..., the last rail's lower edge on the leaf's bottom. Rails
/// whose top edge is known part it into stretches, each of a known height.
class Chain {
 public:
  Chain(LeafSpec& leaf, const std::vector<GivenRail>& rails, const std::vector<GivenRow>& rows, bool usual)
      : leaf_(leaf), rails_(rails), usual_(usual) {
    for (size_t i = 0; i < rails.size(); ++i) {
      leaf_.rails.push_back(railOf(rails[i], i));
      if (i + 1 < rails.size()) heights_.push_back(i < rows.size() ? rows[i].height : std::nullopt);
      rowPlaces_.push_back(i < rows.size() ? rows[i].where : leaf.where);
    }
  }

  Result<bool> place() {
    for (size_t first = 0; first < rails_.size();) {
      size_t next = first + 1;
      while (next < rails_.size() && !rails_[next].topEdge) ++next;
      if (auto filled = fill(first, next); !filled) return filled.faults();
      first = next;
    }
    for (size_t i = 0; i + 1 < leaf_.rails.size(); ++i) {
      const double open = leaf_.rails[i].topEdge.mm - leaf_.rails[i].width.mm - leaf_.rails[i + 1].topEdge.mm;
      leaf_.rows.emplace_back().height =
          heights_[i] ? Size{*heights_[i], From::Given, ""} : byRule(open, "what the rails leave");
    }
    return true;
  }

 private:
  LeafRail railOf(const GivenRail& given, size_t i) const {
    LeafRail rail;
    rail.name = given.name;
    rail.joint = given.joint;
    rail.ends = given.ends;
    rail.where = given.where;
    if (given.width && !usual_)
      rail.width = {*given.width, From::Given, ""};
    else
      rail.width = {i == 0 ? kNarrow : kWide, From::Default, kWidths};
    if (given.topEdge)
      rail.topEdge =
          usual_ ? Size{*given.topEdge, From::Default, kLockHeight} : Size{*given.topEdge, From::Given, ""};
    else if (i == 0)
      rail.topEdge = byRule(leaf_.height.mm, "the top rail's edge is the leaf's");
    return rail;
  }

  Diagnostic fault(size_t rail, std::string message, std::string hint) const {
    return {Fault::BadInput, "leaf.rail." + rails_[rail].name, std::move(message), std::move(hint),
            rails_[rail].where};
  }
  std::string end(size_t next) const {
    return next < rails_.size() ? fmt::format("the top edge of the {} rail", rails_[next].name)
                                : std::string("the leaf's bottom");
  }

  /// The stretch from the top edge of rail `first` down to that of rail `next`, or to the bottom.
  Result<bool> fill(size_t first, size_t next) {
    const bool toBottom = next == rails_.size();
    const size_t openings = toBottom ? next - 1 : next;
    const double height = leaf_.rails[first].topEdge.mm - (toBottom ? 0 : leaf_.rails[next].topEdge.mm);
    double known = 0;
    std::vector<size_t> filling, equal;
    for (size_t i = first; i < next; ++i) {
      if (rails_[i].fill)
        filling.push_back(i);
      else
        known += leaf_.rails[i].width.mm;
      if (i >= openings) continue;
      if (heights_[i])
        known += *heights_[i];
      else
        equal.push_back(i);
    }
    if (filling.size() > 1)
      return fault(filling[1],
                   fmt::format("the {} and the {} rail cannot both fill one height", rails_[filling[0]].name,
                               rails_[filling[1]].name),
                   "give the width of one, or a top edge between them");
    if (!filling.empty() && !equal.empty())
      return fault(
          filling[0],
          fmt::format("it is to fill what the openings leave, but row {} has no height", equal[0] + 1),
          fmt::format("give the height of each [[leaf.row]] from the {} rail down to {}", rails_[first].name,
                      end(next)));
    const double rest = height - known;
    if (!filling.empty() && rest < 1)
      return fault(filling[0], fmt::format("it is to fill what the openings leave, but that is {:.6g}", rest),
                   "lower openings or narrower rails beside it");
    const bool railAlone = next - first == 1 && toBottom;  // it may lie above the leaf's bottom
    if (filling.empty() && equal.empty() && !railAlone && std::abs(rest) > kTiny)
      return Diagnostic{Fault::BadInput, fmt::format("leaf.row[{}].height", openings),
                        fmt::format("from the top edge of the {} rail down to {}, rails and openings come to "
                                    "{:.6g}, but {:.6g} is there",
                                    rails_[first].name, end(next), known, height),
                        "leave out one height, or let one rail take what is left: width = \"fill\"",
                        rowPlaces_[openings - 1]};
    if (!filling.empty())
      leaf_.rails[filling[0]].width = byRule(rest, "fills what the openings beside it leave");
    const double share = equal.empty() ? 0 : rest / static_cast<double>(equal.size());
    settle(first, next, openings, share, equal.size() < openings - first || !filling.empty());
    return true;
  }

  /// Top edges of the rails below the first one.
  void settle(size_t first, size_t next, size_t openings, double share, bool heightsGiven) {
    for (size_t i = first + 1; i < next; ++i) {
      const bool bottom = i == openings && !rails_[i].fill && !heightsGiven;
      const LeafRail& above = leaf_.rails[i - 1];
      const double top = above.topEdge.mm - above.width.mm - heights_[i - 1].value_or(share);
      leaf_.rails[i].topEdge =
          bottom ? byRule(leaf_.rails[i].width.mm, "the bottom rail's edge is the leaf's")
                 : byRule(top, heightsGiven ? "from the heights of the openings"
                                            : "panels of equal height between the rails that are placed");
    }
  }

  LeafSpec& leaf_;
  const std::vector<GivenRail>& rails_;
  std::vector<std::optional<double>> heights_;
  std::vector<SourcePlace> rowPlaces_;
  bool usual_;
};

}  // namespace

Result<bool> placeRails(LeafSpec& leaf, const std::vector<GivenRail>& rails,
                        const std::vector<GivenRow>& rows, bool usual) {
  return Chain(leaf, rails, rows, usual).place();
}

}  // namespace dryfit
