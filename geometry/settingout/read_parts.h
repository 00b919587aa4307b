// Private to the reader: the parts of a work file, each read by its own function into the setting-out.
#pragma once

#include <vector>

#include "settingout/orientation.h"
#include "settingout/setting_out.h"
#include "settingout/values.h"

namespace dryfit::reading {

inline constexpr size_t kMostMembers = 500, kMostJoints = 2000, kMostUnits = 200, kMostStages = 200,
                        kMostRules = 200;

/// What [timber] says of every member that does not say it itself.
struct TimberDefaults {
  std::string species;
  Sawn sawn = Sawn::Quarter;
};

/// [timber]: species, sawn, fitted, range.
TimberDefaults readTimber(const toml::table& root, ReadState& state, Moisture& moisture);
/// The species under its own name; tells when it is not known.
std::optional<std::string> speciesOf(const Slot& at);
std::optional<Sawn> sawnOf(const Slot& at);

/// [[member]]. Members with faults come too, so that what names them is not called a fault as well.
std::vector<Member> readMembers(const toml::table& root, const TimberDefaults& defaults, ReadState& state);

/// A way of the world, "+X" to "-Z"; tells when it is none.
std::optional<WorldWay> wayOf(const Slot& at, const std::string& what);
const std::vector<std::string>& worldWays();
/// Of a member whose orientation and horns are read: `bevel`, `horn_slope`, `rebate`.
void readEdgeWork(const TableReader& table, Member& member);

/// [[joint]], each key checked against its kind's.
std::vector<JointMark> readJoints(const toml::table& root, const std::vector<KindSpec>& kinds,
                                  const std::vector<Member>& members, ReadState& state);

/// [[unit]]: fills work.units, and the unit of each member, unless there were faults. Gives the units' names,
/// in the order of work.units when it was filled.
std::vector<std::string> readUnits(const toml::table& root, SettingOut& work, ReadState& state);
/// [[stage]]; `unitNames` as readUnits() gave them.
std::vector<StageMark> readStages(const toml::table& root, const std::vector<std::string>& unitNames,
                                  ReadState& state);

/// [[rule]]. Whether what they name is there is seen when the work is cut.
std::vector<RuleMark> readRules(const toml::table& root, ReadState& state);

/// A section as given: by name, or listed point by point.
struct GivenProfile {
  std::string name;  ///< of its faces: "ovolo", "moulding" for a listed one
  std::optional<Profile> path;
};
std::optional<GivenProfile> givenProfileOf(const Slot& at);
/// The section drawn to a width and a thickness; tells what does not fit.
std::optional<Profile> drawnProfile(const Slot& at, const GivenProfile& given, double widthMm,
                                    double thicknessMm, const std::optional<Slot>& radius);

}  // namespace dryfit::reading
