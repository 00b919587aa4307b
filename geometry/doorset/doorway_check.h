// Private to doorset: what the checks of a doorway's parts share.
#pragma once

#include <fmt/format.h>

#include <initializer_list>
#include <string>

#include "doorset/complete_doorway.h"

namespace dryfit {

struct DoorwayCheck {
  const DoorSetSpec& set;
  DoorwayFaults& faults;

  const DoorwaySpec& d() const { return *set.doorway; }
  double leafThickness() const { return set.leaf.thickness.mm; }

  template <class... A>
  void fault(const std::string& path, const std::string& hint, fmt::format_string<A...> text, A... a) {
    faults.add(path, fmt::vformat(fmt::string_view(text), fmt::make_format_args(a...)), hint);
  }
  /// Of what is at odds the first that the file gives, else the first.
  std::string blamed(std::initializer_list<const char*> paths) const {
    for (const char* path : paths)
      if (faults.has(path)) return path;
    return *paths.begin();
  }
  static std::string atLeast(double mm) { return fmt::format("at least {:.6g}", mm); }
  static std::string atMost(double mm) { return fmt::format("at most {:.6g}", mm); }
};

}  // namespace dryfit
