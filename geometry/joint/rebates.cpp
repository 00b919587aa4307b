#include "joint/rebates.h"

#include <fmt/format.h>

#include <algorithm>

#include "joint/member_view.h"

namespace dryfit {

namespace {

constexpr double kWoodBeneath = 5;  // of the member under a rebate: common practice, least
constexpr double kLeastLand = 1;    // narrower is no land

Diagnostic rebateFault(const RebateMark& mark, std::string message, std::string hint) {
  return {Fault::BadInput, mark.path, std::move(message), std::move(hint), mark.where};
}

}  // namespace

std::vector<Rebate> rebatesOf(const Member& member, const Placement& frame) {
  std::vector<Rebate> all;
  for (const RebateMark& mark : member.rebates)
    all.push_back({all.empty() ? "rebate" : "rebate." + std::to_string(all.size() + 1),
                   towards(dot(mark.towards, frame.yAxis)), mark.depthMm, mark.widthMm, &mark});
  return all;
}

Span landOf(const std::vector<Rebate>& rebates, double widthMm) {
  Span land{-widthMm / 2, widthMm / 2};
  for (const Rebate& r : rebates) (r.edge == Towards::Low ? land.from : land.to) -= sign(r.edge) * r.width;
  return land;
}

PlanedWaste rebateFeature(const Rebate& rebate, Vec3 blankMm) {
  const double out = sign(rebate.edge);
  return {rebate.role,
          {{{0, 0, -1}, rebate.depth - blankMm.z / 2, "floor"},
           {{0, -out, 0}, rebate.width - blankMm.y / 2, "side"}}};
}

std::vector<Diagnostic> rebateFaults(const SettingOut& work, const std::vector<LaidMember>& laid) {
  std::vector<Diagnostic> faults;
  for (size_t i = 0; i < work.members.size(); ++i) {
    const Member& m = work.members[i];
    const Vec3 size = laid[i].blankMm;
    const auto rebates = rebatesOf(m, laid[i].worldFromPiece);
    for (const Rebate& r : rebates)
      if (size.z - r.depth < kWoodBeneath)
        faults.push_back(rebateFault(
            *r.mark,
            fmt::format("a rebate {:.4g} deep leaves {:.4g} of {}, {:.4g} thick", r.depth,
                        std::max(size.z - r.depth, 0.0), m.id, size.z),
            fmt::format("at least {:.4g} must be left: thicker stuff or a shallower rebate", kWoodBeneath)));
    if (const double land = landOf(rebates, size.y).size(); !rebates.empty() && land < kLeastLand)
      faults.push_back(rebateFault(*rebates.front().mark,
                                   fmt::format("the rebates leave a land of {:.4g} on {}, {:.4g} wide",
                                               std::max(land, 0.0), m.id, size.y),
                                   "a wider member or narrower rebates"));
  }
  return faults;
}

}  // namespace dryfit
