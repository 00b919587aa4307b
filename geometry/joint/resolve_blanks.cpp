#include "joint/resolve_blanks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "base/tolerance.h"

namespace dryfit {

namespace {

/// What all joints together announce for one member.
struct Told {
  std::optional<EndWork> low, high;
  bool twice = false;  ///< two joints at one end
  SizeWork size;
  std::vector<GrooveWork> grooves;
  bool groovesDiffer = false;
};

void tell(Told& told, const EndWork& end) {
  auto& slot = end.end == Towards::Low ? told.low : told.high;
  told.twice = told.twice || slot.has_value();
  slot = end;
}

void tell(Told& told, const GrooveWork& groove) {
  for (const GrooveWork& known : told.grooves)
    if (known.edge == groove.edge) {
      told.groovesDiffer = told.groovesDiffer || !(known == groove);
      return;
    }
  told.grooves.push_back(groove);
}

void tell(Told& told, const SizeWork& size) {
  if (size.lengthMm) told.size.lengthMm = size.lengthMm;
  if (size.widthMm) told.size.widthMm = size.widthMm;
  if (size.thicknessMm) told.size.thicknessMm = size.thicknessMm;
  if (size.centre) told.size.centre = size.centre;
}

Diagnostic memberFault(const Member& m, std::string message, std::string hint) {
  return {Fault::BadInput, m.id, std::move(message), std::move(hint), m.where};
}

/// Ends of the blank along the member's x axis, world coordinates, and the middle between the shoulders.
struct Extent {
  double low = 0, high = 0, shoulderMiddle = 0;
};

Result<Extent> extentFromShoulders(const Member& m, const Told& told) {
  const double beyondLow = told.low ? told.low->beyondMm : 0,
               beyondHigh = told.high ? told.high->beyondMm : 0;
  double low = 0, high = 0;
  if (told.low && told.high) {
    low = told.low->shoulderMm;
    high = told.high->shoulderMm;
    if (high - low < 1)
      return memberFault(m, "the members it is joined to leave no length between its shoulders",
                         "move them apart");
    if (m.shoulderMm && std::abs(high - low - *m.shoulderMm) > tolerance::kSize)
      return memberFault(
          m,
          fmt::format("its shoulder length is {:.6g}, but the members it meets stand {:.6g} apart",
                      *m.shoulderMm, high - low),
          fmt::format("shoulder = {:.6g}, or move them", high - low));
  } else if (m.shoulderMm && (told.low || told.high)) {
    low = told.low ? told.low->shoulderMm : told.high->shoulderMm - *m.shoulderMm;
    high = low + *m.shoulderMm;
  } else if (m.shoulderMm && m.origin) {
    low = dot(*m.origin, m.orientation.xAxis) - *m.shoulderMm / 2;
    high = low + *m.shoulderMm;
  } else {
    return memberFault(m, "its length is left to the rule, but no joint rules it",
                       "give length, or shoulder, or a joint at each end");
  }
  return Extent{low - beyondLow, high + beyondHigh, (low + high) / 2};
}

Result<Extent> extentOf(const Member& m, const Told& told) {
  if (m.lengthMm || told.size.lengthMm) {
    const double length = m.lengthMm ? *m.lengthMm : *told.size.lengthMm;
    if (!m.origin && !told.size.centre)
      return memberFault(m, "its origin is left to the rule, but no joint rules it", "origin = [x, y, z]");
    const double middle = dot(m.origin ? *m.origin : *told.size.centre, m.orientation.xAxis);
    return Extent{middle - length / 2, middle + length / 2, middle};
  }
  auto extent = extentFromShoulders(m, told);
  if (!extent || !m.origin) return extent;
  const Extent& e = extent.value();
  const double given = dot(*m.origin, m.orientation.xAxis), middle = (e.low + e.high) / 2;
  if (std::abs(given - middle) > tolerance::kSize && std::abs(given - e.shoulderMiddle) > tolerance::kSize)
    return memberFault(
        m,
        fmt::format("its origin lies at {:.6g} along the grain, but its joints put it at {:.6g}", given,
                    e.shoulderMiddle),
        fmt::format("{:.6g} (the middle between its shoulders) or {:.6g} (of its blank)", e.shoulderMiddle,
                    middle));
  return extent;
}

/// A formed body has the box it is given; joints may name it but work nothing on it before it is there.
LaidMember layFormed(const Member& m) {
  REQUIRE(m.lengthMm && m.widthMm && m.thicknessMm && m.origin);
  LaidMember laid;
  laid.blankMm = {*m.lengthMm, *m.widthMm, *m.thicknessMm};
  laid.worldFromPiece = m.orientation;
  laid.worldFromPiece.origin = *m.origin;
  laid.finishedX = {-*m.lengthMm / 2, *m.lengthMm / 2};
  return laid;
}

Result<LaidMember> lay(const Member& m, const Told& told) {
  if (m.formed) return layFormed(m);
  if (told.twice) return memberFault(m, "two joints claim the same end of it", "one joint an end");
  if (told.groovesDiffer)
    return memberFault(m, "two panels ask for different grooves in one edge of it",
                       "one depth and one width an edge");
  const auto width = m.widthMm ? m.widthMm : told.size.widthMm;
  const auto thickness = m.thicknessMm ? m.thicknessMm : told.size.thicknessMm;
  if (!width || !thickness)
    return memberFault(m, "its section is left to the rule, but no joint rules it",
                       "section = [width, thickness]");
  auto extent = extentOf(m, told);
  if (!extent) return extent.faults();
  const Extent& e = extent.value();
  LaidMember laid;
  laid.blankMm = {e.high - e.low, *width, *thickness};
  if (m.hornLowMm + m.hornHighMm > laid.blankMm.x - 1)
    return memberFault(m, "its horns are as long as itself", "shorter horns");
  laid.worldFromPiece = m.orientation;
  const Vec3 across = m.origin ? *m.origin : told.size.centre.value_or(Vec3{});
  if (!m.origin && !told.size.centre)
    return memberFault(m, "its origin is left to the rule, but no joint rules it", "origin = [x, y, z]");
  const Vec3 x = m.orientation.xAxis;
  laid.worldFromPiece.origin = across + x * ((e.low + e.high) / 2 - dot(across, x));
  laid.grooves = told.grooves;
  if (told.low) laid.endSlants[0] = told.low->slantTo;
  if (told.high) laid.endSlants[1] = told.high->slantTo;
  laid.finishedX = {-laid.blankMm.x / 2 + m.hornLowMm, laid.blankMm.x / 2 - m.hornHighMm};
  return laid;
}

}  // namespace

Result<std::vector<LaidMember>> resolveBlanks(const SettingOut& work,
                                              const std::vector<Announcement>& announced) {
  std::vector<Told> told(work.members.size());
  auto of = [&](int member) -> Told& { return told[static_cast<size_t>(member)]; };
  for (const Announcement& a : announced) {
    for (const EndWork& e : a.ends) tell(of(e.member), e);
    for (const GrooveWork& g : a.grooves) tell(of(g.member), g);
    for (const SizeWork& s : a.sizes) tell(of(s.member), s);
  }
  for (Told& t : told)
    for (auto* end : {&t.low, &t.high})
      if (*end && (*end)->fills)
        for (const GrooveWork& g : of((*end)->fills->member).grooves)
          if (g.edge == (*end)->fills->edge) (*end)->beyondMm += g.depthMm;
  std::vector<LaidMember> laid;
  std::vector<Diagnostic> faults;
  for (size_t i = 0; i < work.members.size(); ++i) {
    auto one = lay(work.members[i], told[i]);
    if (one)
      laid.push_back(one.value());
    else
      faults.insert(faults.end(), one.faults().begin(), one.faults().end());
  }
  if (!faults.empty()) return faults;
  return laid;
}

}  // namespace dryfit
