// Setting-out rules for tenons, haunches, wedges, pins: how wide, how many, how thick. Plain arithmetic in
// mm, no joint and no kernel, so that each author's rule can be held against its author's figure.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dryfit {

/// A part of a rail's width at its end, measured from the rail's outer edge (of a middle rail: from its low
/// edge).
struct RailPart {
  enum class Kind { Tenon, Haunch, Groove, Waste };
  Kind kind = Kind::Tenon;
  double from = 0, to = 0;
  double size() const { return to - from; }
};

struct RailEnd {
  double width = 0;  ///< of the rail
  double tenonThickness = 0;
  double grooveOuter = 0;  ///< depth of the groove in the outer (low) edge; 0 without
  double grooveInner = 0;
  bool atStileEnd = true;  ///< top or bottom rail: a haunch keeps wood at the stile's end
  bool haunched = true;
  std::optional<int> tenons;          ///< given count, 1 to 3
  std::optional<double> tenonWidth;   ///< given width of each
  double leastBetween = 0;            ///< wood left between tenons, by rule
  double leastOuter = 0;              ///< wood a top or bottom rail must leave beyond its tenon, by rule
  std::optional<double> haunchWidth;  ///< given width of the outer haunch
};

/// Parts from the outer edge to the inner one, without gaps.
///
/// By rule, with t the tenon's thickness and net the width less its grooves:
/// top or bottom rail: net under 9t one tenon of half the rail's width, at most 5t, haunched outwards
/// (Hasluck, Cassell's Carpentry and Joinery, 1907: not more than half; Rivington: at most 5t); else a haunch
/// of 40 outwards and the rest in thirds, tenon, haunch, tenon. middle rail: net up to 5t one tenon; under 9t
/// one of 5t with a haunch at each edge (Goring); else thirds. Three tenons where a pair of 5t would leave
/// more than 76 between them (Fairham, Woodwork Joints). Thirds that are not whole millimetres: the tenons go
/// up to the next 5, the middle takes the rest (common practice). Returns nothing when the figures asked for
/// do not fit the width.
std::optional<std::vector<RailPart>> setOutRailEnd(const RailEnd& rail);

/// Chisel nearest a third of the thickness (Fairham: a third; the list of chisels is common practice), mm.
double tenonThicknessFor(double memberThicknessMm);

/// Named authors' widths of a haunched end tenon, mm.
double tenonWidthNoyes(double railWidthMm,
                       double grooveDepthMm);  ///< Handwork in Wood, 1910: half less the groove
double tenonWidthCassell(double railWidthMm);  ///< at most half the rail
double tenonWidthCollege(double railWidthMm, double grooveDepthMm);  ///< two thirds of the net: from memory
/// Widest single tenon, mm.
double widestTenonRivington(double thicknessMm);  ///< 5 t
double widestTenonSuperintendence();              ///< 4 in

/// A stub tenon's length: 50 (Allen, Practical Building Construction: about 2 in), but never nearer than 20
/// to the far edge, and where another comes from there, to it.
double stubLength(double mortisedWidthMm, bool meetsAnother);

/// The wedging allowance and the wedge that fills it, for a mortise right through `widthMm`.
struct WedgeSetting {
  double parallelMm =
      0;  ///< mortise ends parallel this far in: a quarter of the width, at least past groove and haunch
  double allowanceMm = 0;  ///< longer by this at the outer edge, each end: width / 19
  double lengthMm = 0;     ///< wedge driven: 14/15 of the sloped part (0.7 of the width), trade 0.67 to 0.75
  double slope() const { return allowanceMm / (sloped()); }
  double sloped() const { return lengthMm * 15 / 14; }
  /// Thickness of the wedge at a depth from the inner edge (the tip is a fifteenth of the allowance).
  double thicknessAt(double depthMm) const { return (depthMm - parallelMm) * slope(); }
};
WedgeSetting wedgeFor(double widthMm, double deepestTongueMm);

}  // namespace dryfit
