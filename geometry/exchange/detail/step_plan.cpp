#include "exchange/detail/step_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <set>
#include <string_view>
#include <tuple>

#include "base/hash.h"
#include "piece/same_shape.h"

namespace dryfit::detail {

namespace {

using Colour = std::array<double, 3>;

constexpr Colour rgb(int red, int green, int blue) {
  return {red / 255., green / 255., blue / 255.};
}

// Calm tones that tell kinds of use apart; a material keeps its tone in every file.
constexpr std::array<Colour, 8> kTimber{rgb(222, 196, 154), rgb(203, 163, 113), rgb(187, 142, 93),
                                        rgb(170, 122, 76),  rgb(214, 180, 132), rgb(196, 152, 108),
                                        rgb(160, 116, 82),  rgb(178, 132, 100)};
constexpr Colour kTimberPin = rgb(122, 86, 58);
constexpr Colour kMetal = rgb(150, 154, 160);
constexpr std::array<Colour, 3> kFormed{rgb(205, 200, 190), rgb(188, 176, 160), rgb(170, 164, 156)};
/// Fastenings heavier than this are of metal: the heaviest timbers reach 1300 kg/m3, light alloys 2700.
constexpr double kMetalFromKgM3 = 2000;

/// Neighbours of one timber are told apart: upright grain lightest, level darker, into the wall darker still;
/// what a joint brings (wedges) darkest. Alike pieces are one product and take the tone of the first.
double shadeOf(const Piece& piece) {
  if (!piece.joint.empty()) return 0.72;
  const Vec3 grain = piece.worldFromPiece.xAxis;
  if (std::abs(grain.z) > 0.5) return 1;
  return std::abs(grain.x) > 0.5 ? 0.93 : 0.86;
}

Colour colourOf(const Piece& piece) {
  const std::uint64_t hash = stableHash(piece.material);
  if (piece.formed) return kFormed[hash % kFormed.size()];
  if (piece.fastening) return piece.densityKgM3.value_or(0) > kMetalFromKgM3 ? kMetal : kTimberPin;
  Colour colour = kTimber[hash % kTimber.size()];
  for (double& part : colour) part *= shadeOf(piece);
  return colour;
}

/// Pieces of one kind and one shape are one product.
auto kindOf(const Piece& piece) {
  return std::tie(piece.material, piece.densityKgM3, piece.fastening, piece.formed);
}

/// Where the first piece's frame stands in the other's, when they are one product.
std::optional<Placement> likeness(const Piece& first, const Piece& other) {
  if (kindOf(first) != kindOf(other)) return {};
  if (first.last().hash == other.last().hash) return Placement{};
  return turnOnto(first.last().shell, other.last().shell);
}

class Planner {
 public:
  explicit Planner(const StepInput& input) : input_(input) {}

  Result<StepPlan> plan() {
    REQUIRE(input_.stageOf.size() == input_.pieces.size());
    if (input_.pieces.empty()) return fault("there are no pieces to write");
    if (!unitsMakeATree()) return fault("the units make no tree with one root");
    for (size_t i = 0; i < input_.pieces.size(); ++i) addPiece(static_cast<int>(i));
    addAssemblies();
    return plan_;
  }

 private:
  Diagnostic fault(const std::string& message) const {
    return {Fault::WorkFault, input_.title.empty() ? "work" : input_.title, message, "", {}};
  }

  bool unitsMakeATree() {
    const int count = static_cast<int>(input_.units.size());
    int roots = 0;
    for (int i = 0; i < count; ++i) {
      if (input_.units[i].parent == -1) plan_.root = i, ++roots;
      int up = i;
      for (int steps = 0; up != -1; ++steps) {
        if (up < 0 || up >= count || steps > count) return false;
        up = input_.units[up].parent;
      }
    }
    for (const Piece& piece : input_.pieces)
      if (piece.unit < 0 || piece.unit >= count) return false;
    return roots == 1;
  }

  /// Names tell products apart in other programs, so no two are the same.
  std::string distinctName(const std::string& wanted) {
    const std::string base = wanted.empty() ? "unnamed" : wanted;
    std::string name = base;
    for (int i = 2; !names_.insert(name).second; ++i) name = base + " #" + std::to_string(i);
    return name;
  }

  void addPiece(int index) {
    const Piece& piece = input_.pieces[index];
    size_t part = 0;
    std::optional<Placement> pieceFromPart;
    while (part < plan_.parts.size() &&
           !(pieceFromPart = likeness(input_.pieces[plan_.parts[part].firstPiece], piece)))
      ++part;
    if (!pieceFromPart) plan_.parts.push_back({distinctName(piece.id), index, {}, colourOf(piece)});
    plan_.partOfPiece.push_back(static_cast<int>(part));
    plan_.worldFromPart.push_back(piece.worldFromPiece * pieceFromPart.value_or(Placement{}));
    if (input_.stageOf[index].empty()) return;
    std::vector<std::string>& layers = plan_.parts[plan_.partOfPiece.back()].layers;
    if (std::find(layers.begin(), layers.end(), input_.stageOf[index]) == layers.end())
      layers.push_back(input_.stageOf[index]);
  }

  void addAssemblies() {
    const int count = static_cast<int>(input_.units.size());
    std::vector<bool> used(count, false);
    for (const Piece& piece : input_.pieces)
      for (int up = piece.unit; up != -1; up = input_.units[up].parent) used[up] = true;
    plan_.assemblies.resize(count);
    for (int i = 0; i < count; ++i) {
      if (!used[i]) continue;
      const bool isRoot = i == plan_.root && !input_.title.empty();
      plan_.assemblies[i].name = distinctName(isRoot ? input_.title : input_.units[i].name);
      if (i != plan_.root) plan_.assemblies[input_.units[i].parent].units.push_back(i);
    }
    for (size_t i = 0; i < input_.pieces.size(); ++i)
      plan_.assemblies[input_.pieces[i].unit].pieces.push_back(static_cast<int>(i));
  }

  const StepInput& input_;
  StepPlan plan_;
  std::set<std::string> names_;
};

}  // namespace

Result<StepPlan> stepPlan(const StepInput& input) {
  return Planner(input).plan();
}

}  // namespace dryfit::detail
