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

/// Whose rule sets a tenon out. What an author does not decide is the house's rule.
enum class TenonRule {
  House,
  Fairham,
  Rivington,
  Goring,
  Cassell,
  Noyes,
  College,
  Cpwd,
  Superintendence,
  BuildingConstruction
};
struct TenonAuthor {
  TenonRule rule;
  const char* word;     ///< in a file: rule = "noyes"
  const char* decides;  ///< a line for people
  const char* source;   ///< author and work; "from memory" where no copy was at hand
};
/// All of them, the house first.
const std::vector<TenonAuthor>& tenonAuthors();
std::vector<std::string> tenonRuleWords();
/// Nothing when there is no such word.
std::optional<TenonRule> tenonRuleNamed(const std::string& word);

struct RailEnd {
  double width = 0;  ///< of the rail
  TenonRule rule = TenonRule::House;
  double tenonThickness = 0;
  double grooveOuter = 0;  ///< depth of the groove in the outer (low) edge; 0 without
  double grooveInner = 0;
  bool atStileEnd = true;  ///< top or bottom rail: a haunch keeps wood at the stile's end
  bool haunched = true;
  std::optional<int> tenons;          ///< given count, 1 to 4
  std::optional<double> tenonWidth;   ///< given width of each
  double leastBetween = 0;            ///< wood left between tenons, by rule
  double leastOuter = 0;              ///< wood a top or bottom rail must leave beyond its tenon, by rule
  std::optional<double> haunchWidth;  ///< given width of the outer haunch
};

/// Parts from the outer edge to the inner one, without gaps. Returns nothing when the figures asked for do
/// not fit the width. With t the tenon's thickness and net the width less its grooves:
///
/// House. Top or bottom rail: net under 9t one tenon of half the rail's width, at most 5t, haunched outwards
/// (Hasluck, Cassell's Carpentry and Joinery, 1907: not more than half; Rivington: at most 5t); else a haunch
/// of 40 outwards and the rest in thirds, tenon, haunch, tenon. Middle rail: net up to 5t one tenon; under 9t
/// one of 5t with a haunch at each edge (Goring); else thirds. Three tenons where a pair of 5t would leave
/// more than 76 between them, four where three would (Fairham, Woodwork Joints); no rule goes further, so a
/// rail over 4 x 5t + 3 x 76 net keeps wider gaps. Thirds that are not whole millimetres: the tenons go up to
/// the next 5, the middle takes the rest (common practice).
///
/// The authors, each only where he says so; all else is the house's:
/// Fairham: tenons and gaps between several equal, without rounding.
/// Rivington: a pair as soon as a single tenon would be wider than 5t.
/// Goring: a rail too narrow for a pair but over 5t keeps 5t and is haunched at both edges, an end rail too.
/// Cassell: haunched end tenon half the rail; a rail of up to 127 (5 in) that needs no haunch: all of the
/// net. Noyes: haunched end tenon half the rail less the groove. College: haunched end tenon two thirds of
/// the net, at most the house's 5t. CPWD: no tenon wider than 3t, two of them in a rail over 180, else one.
/// Superintendence: single tenon two thirds of the rail, at most 102 (4 in); a pair over 178 (7 in). Building
/// Construction: a wide bottom rail has 38 (1 1/2 in) of haunch below, then tenon, haunch and tenon as 5 : 3
/// : 5.
std::optional<std::vector<RailPart>> setOutRailEnd(const RailEnd& rail);

/// House: chisel nearest a third of the thickness (Fairham: a third; the list of chisels is common practice),
/// mm. Fairham, and Rivington (a third to a quarter): the third itself.
double tenonThicknessFor(double memberThicknessMm, TenonRule rule = TenonRule::House);

/// How far a haunch projects, mm: the groove's depth (Fairham), 12 without a groove. Rivington: 1/2 in, or
/// the groove's depth where that is more (less would leave the groove open beside the haunch).
double haunchProjectionFor(double grooveDepthMm, TenonRule rule = TenonRule::House);

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
