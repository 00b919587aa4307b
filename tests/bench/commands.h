// What a whole leaf and whole door sets cost: a fresh process from the file to the order of work, its peak
// memory; and how much of the leaf is cut anew when one size changes.
#pragma once

#include <string>

namespace dryfit::tests {

/// A leaf of 45 pieces: four rails, three raised panels, wedged, mouldings on the front.
std::string leafOf45();

/// Prints the figures. `program`: the dryfit just built.
void reportLeaf(const std::string& program);
/// The same for a door set's file.
void reportWhole(const std::string& program, const std::string& path);
/// What its picture costs, two passes: a fresh process, with the driver's store of compiled shaders empty,
/// and full.
void reportPictureCommand(const std::string& program);

}  // namespace dryfit::tests
