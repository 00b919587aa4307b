// Setting-out rules for dowels and nails: how thick, how many, how deep. Plain arithmetic in mm, no joint and
// no kernel, so that each rule can be held against a published figure.
#pragma once

#include <array>

namespace dryfit {

/// Diameters dowels are sold in, mm (common practice).
inline constexpr std::array<double, 5> kDowelSizes{6, 8, 10, 12, 16};

/// A third to a half of the thickness (the rule of third and half, common practice): the smallest size that
/// is a third of it, else the largest that is not over a half. Never so thick that less than 2 of wood is
/// left each side within `roomMm`: the tongue, where the member has one. 0: no size goes in.
double dowelDiameterFor(double memberThicknessMm, double roomMm);

/// At least two, so that the member cannot turn; one more for each further 75 between the outer ones (Spons'
/// Mechanics' Own Book: 3 to 12 in apart; common practice in frames: at the near end of that).
int dowelCountFor(double betweenOuterMm);

/// From the edge of the wood to the middle of the outer dowels: 1.5 diameters (common practice).
double dowelMarginFor(double diameterMm);

/// How far it enters each member: three diameters, up to the next 5 (common practice: 3/8 in enters 1 1/4
/// in).
double dowelDepthFor(double diameterMm);

/// Length of a nail through `thicknessMm`: two and a half times that (a timber yards' rule of thumb: 1 in
/// boards, 2 1/2 in nails), down to the next 5, at least 15.
double nailLengthFor(double thicknessMm);

/// Diameter of a nail through `thicknessMm`: panel pins of 1.6 up to 15, else nails of 2.5 (common practice).
double nailDiameterFor(double thicknessMm);

}  // namespace dryfit
