// What stands behind a Solid: the kernel's solid and the role of each of its faces. Kernel headers: detail/
// only.
#pragma once

#include <TopoDS_Solid.hxx>
#include <string>
#include <vector>

#include "solid/solid.h"

namespace dryfit {

struct Solid::Body {
  TopoDS_Solid shape;
  std::vector<std::string> roles;  ///< one a face, in the order of TopExp::MapShapes; empty when not known
};

}  // namespace dryfit
