// Sections of mouldings by the trade's names, drawn to fit a width and a thickness, or as a file lists them.
//
// Section plane: u across the width from the back edge (which lies against what it is planted on), v up
// from the back face. The path runs from the back edge over the shown faces down to the back face; what the
// path leaves out is straight: the back edge under its start and the back face to its end. Millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/profile.h"
#include "base/result.h"

namespace dryfit {

/// square, chamfer, ovolo, scotia, ogee, bead.
const std::vector<std::string>& profileNames();

/// Radius of the curve when none is given: 12, less where the section leaves no fillets of 2 beside it and 1
/// above and below. Common practice.
double usualRadius(const std::string& name, double widthMm, double thicknessMm);

/// The named section. `radiusMm`: of the ovolo, scotia or bead; half the height of an ogee; the leg of a
/// chamfer. Fails: BadInput when the radius does not fit the section, subject empty.
Result<Profile> namedProfile(const std::string& name, double widthMm, double thicknessMm,
                             std::optional<double> radiusMm);

/// The same worked on the far edge of a board that is wide beside it: an architrave's inner edge, a
/// skirting's top.
Result<Profile> edgeProfile(const std::string& name, double widthMm, double thicknessMm,
                            std::optional<double> radiusMm);

/// What makes a path unfit as a moulding's section of that size, with what is allowed.
std::optional<Diagnostic> profileFault(const Profile& path, double widthMm, double thicknessMm);

/// How deep a section stands over its back edge, at the shallowest, between two heights: mm.
double depthBetween(const Profile& path, double lowMm, double highMm);
/// How high it stands over its back, at the lowest, between two places across: mm.
double heightBetween(const Profile& path, double fromMm, double toMm);
/// Does a line square to the back edge pass through the timber just once, at every height between the two?
/// And a line square to the back, between two places across?
bool isOneDeepBetween(const Profile& path, double lowMm, double highMm);
bool isOneHighBetween(const Profile& path, double fromMm, double toMm);

/// Area of the timber, by its arcs or by the chords that planning meshes have, mm2.
double timberArea(const Profile& path);
double timberAreaByChords(const Profile& path);

}  // namespace dryfit
