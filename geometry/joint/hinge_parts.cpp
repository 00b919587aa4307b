#include "joint/hinge_parts.h"

#include <algorithm>

#include "joint/tenon_joint.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kSteelKgM3 = 7850;  // EN 1991-1-1, table A.4, from memory: 77 to 78.5 kN/m3
constexpr const char* kKnuckle = "knuckle";

double lengthOf(const std::vector<Span>& spans) {
  double sum = 0;
  for (const Span& s : spans) sum += s.size();
  return sum;
}

std::string numbered(const std::string& word, int number) {
  return word + "." + std::to_string(number);
}

}  // namespace

std::vector<std::string> HingeParts::screwIds(bool ofLeaf) const {
  std::vector<std::string> ids;
  for (int i = 1; i <= l.size.screws; ++i)
    ids.push_back(numbered(l.name + (ofLeaf ? ".screw.leaf" : ".screw.jamb"), i));
  return ids;
}

std::string HingeParts::plateUnit(bool ofLeaf) const {
  if (l.size.loosePin) return ofLeaf ? l.leafUnit : "";
  return l.unit.empty() ? l.leafUnit : l.unit;
}

void HingeParts::touch(const FaceRef& a, const FaceRef& b, double areaMm2) {
  if (areaMm2 > kTiny) work.contacts.push_back({joint, a, b, areaMm2});
}

void HingeParts::addPlate(bool ofLeaf) {
  const HingeSizes& s = l.size;
  const double r = s.radius(), half = s.height / 2;
  const double outside = ofLeaf ? l.side : -l.side;  // of the pin at which the plate lies, along z
  OwnPiece p;
  p.id = plateId(ofLeaf);
  p.name = ofLeaf ? "leaf's hinge plate" : "jamb's hinge plate";
  p.material = "steel";
  p.densityKgM3 = kSteelKgM3;
  p.worldFromPiece = l.frame();
  p.unit = plateUnit(ofLeaf);
  const CastBlank blank{{-half, -r, -r}, {half, s.width, r}};
  p.recipe.blank = blank;
  p.recipe.blankRoles[outside < 0 ? 4 : 5] = "outer";
  Barrel barrel;
  barrel.role = kKnuckle;
  barrel.knuckles = knucklesOf(s, ofLeaf);
  barrel.radius = r;
  barrel.clearance = s.clearance();
  barrel.plate = outside < 0 ? Span{-r, s.plate - r} : Span{r - s.plate, r};
  p.recipe.features.push_back(barrel);
  p.recipe.features.push_back(RoundHole{"pin", 0, Towards::High, {}, s.pin / 2, {}});
  int number = 0;
  for (const Screw& screw : l.screws(ofLeaf))
    p.recipe.features.push_back(screw.holeIn(p.worldFromPiece, {blank.low, blank.high},
                                             {p.id, numbered("screw", ++number), {0, s.plate}}));
  work.pieces.push_back(std::move(p));
}

void HingeParts::addPin() {
  const HingeSizes& s = l.size;
  OwnPiece p;
  p.id = pinId();
  p.name = "hinge pin";
  p.material = "steel";
  p.densityKgM3 = kSteelKgM3;
  p.worldFromPiece = l.frame();
  p.unit = plateUnit(false);
  p.recipe.blank = RodBlank{s.height, s.pin};
  work.pieces.push_back(std::move(p));
  for (bool ofLeaf : {true, false})
    touch({pinId(), "side"}, {plateId(ofLeaf), "pin"},
          planningPerimeter(s.pin / 2) * lengthOf(knucklesOf(s, ofLeaf)));
  for (int end : {0, 1})
    work.flushes.push_back({joint,
                            "pin flush with the knuckles",
                            {plateId(false), blankFace(end)},
                            {pinId(), blankFace(end)},
                            0});
}

LetIn HingeParts::recess(bool inLeaf) const {
  const Span u = l.recessU(inLeaf);
  const double half = l.size.height / 2, open = 1e4;  // open: beyond the jamb's rebate, if any
  Box3 box;
  box.add(Vec3{l.xAt(inLeaf ? u.from : u.to + open), l.frontOf(inLeaf) - open, l.pin.z - half});
  box.add(Vec3{l.xAt(inLeaf ? u.to : u.from), l.farY(), l.pin.z + half});
  return letInto(l.memberOf(inLeaf), l.name, box);
}

void HingeParts::addRecess(bool inLeaf) {
  if (l.recessU(inLeaf).size() < kTiny) return;
  const MemberView& m = l.memberOf(inLeaf);
  const LetIn r = recess(inLeaf);
  const Vec3 up{0, 0, 1}, inwards = inLeaf ? l.toLeaf() : -l.toLeaf();
  work.features.push_back({m.index, {r.recess, {}, {}}});
  const auto size = [&](const char* what, const std::string& from, const std::string& to, double mm) {
    work.dimensions.push_back({joint, what, {m.id(), from}, {m.id(), to}, mm});
  };
  size("recess length", r.wall(-up), r.wall(up), l.size.height);
  size("recess depth", face(inLeaf), r.wall(inwards), l.recessU(inLeaf).size());
  // What stands in this recess: its own plate, and the other one too where all is let into one member.
  for (bool ofLeaf : {true, false}) {
    const double deep = sharedLength(l.plateU(ofLeaf), l.recessU(inLeaf));
    const double from = std::max(l.frontOf(inLeaf), l.pin.y + (ofLeaf ? l.size.clearance() : 0));
    for (int end : {0, 1})
      touch({plateId(ofLeaf), blankFace(end)}, {m.id(), r.wall(end == 0 ? -up : up)},
            deep * (l.farY() - from));
    touch({plateId(ofLeaf), blankFace(3)}, {m.id(), r.wall({0, 1, 0})}, deep * l.size.height);
  }
}

/// The plate's outer side on its recess's bottom, or on the wood's own face where nothing is let in.
void HingeParts::addSeat(bool ofLeaf) {
  const HingeSizes& s = l.size;
  const MemberView& m = l.memberOf(ofLeaf);
  const Vec3 inwards = ofLeaf ? l.toLeaf() : -l.toLeaf();
  const bool letIn = l.recessU(ofLeaf).size() > kTiny;
  const double knuckled = lengthOf(knucklesOf(s, ofLeaf)), front = l.frontOf(ofLeaf);
  const double notched = std::max(front, l.pin.y + s.clearance());
  double area =
      knuckled * (l.farY() - std::max(front, l.pin.y)) + (s.height - knuckled) * (l.farY() - notched);
  for (const Screw& screw : l.screws(ofLeaf)) area -= screw.areaAt(s.plate);
  touch({plateId(ofLeaf), "outer"}, {m.id(), letIn ? recess(ofLeaf).wall(inwards) : face(ofLeaf)}, area);
}

std::vector<ScrewLayer> HingeParts::layersOf(bool ofLeaf, int index, const Screw& screw) const {
  const MemberView& wood = l.memberOf(ofLeaf);
  std::vector<ScrewLayer> layers{{plateId(ofLeaf), numbered("screw", index), {0, l.size.plate}}};
  const std::string role = numbered(l.name + ".screw", index);
  layers.push_back({wood.id(), role, l.woodDepth(wood, screw)});
  if (!ofLeaf)
    for (const MemberView& m : l.behind) layers.push_back({m.id(), role, l.woodDepth(m, screw)});
  std::erase_if(layers,
                [&](const ScrewLayer& layer) { return layer.depth.from > screw.size.lengthMm - kTiny; });
  return layers;
}

void HingeParts::addScrews(bool ofLeaf) {
  const std::vector<Screw> all = l.screws(ofLeaf);
  const std::vector<std::string> ids = screwIds(ofLeaf);
  for (size_t i = 0; i < all.size(); ++i) {
    const Screw& screw = all[i];
    OwnPiece p = screw.piece(ids[i]);
    p.unit = screwUnit(ofLeaf);
    work.pieces.push_back(std::move(p));
    const auto layers = layersOf(ofLeaf, static_cast<int>(i) + 1, screw);
    for (size_t k = 1; k < layers.size(); ++k) {
      const MemberView& m = k >= 2 ? l.behind[k - 2] : l.memberOf(ofLeaf);
      work.features.push_back({m.index, {screw.holeIn(m, layers[k]), {}, {}}});
    }
    for (JointContact& c : screw.contacts(joint, ids[i], layers)) work.contacts.push_back(std::move(c));
    work.flushes.push_back({joint,
                            "screw's head flush with the plate",
                            {plateId(ofLeaf), "knuckle.inner"},
                            {ids[i], "head"},
                            0});
    // A point that ends just where the wood it is in does, on what stands behind.
    const size_t next = layers.size() - 2;
    if (!ofLeaf && next < l.behind.size() &&
        std::abs(l.woodDepth(l.behind[next], screw).from - screw.size.lengthMm) < kTiny)
      touch({ids[i], "point"}, {l.behind[next].id(), faceTowards(l.behind[next], -screw.way)},
            screw.areaAt(screw.size.lengthMm));
  }
}

std::string HingeParts::face(bool ofLeaf) const {
  return ofLeaf ? faceTowards(l.leaf, -l.toLeaf()) : l.jambFace.role;
}

/// Knuckle ends are clear of each other, plates stand apart.
void HingeParts::addKnuckles() {
  const auto role = [](int place, const char* end) {
    return numbered(kKnuckle, place / 2 + 1) + ".end." + end;
  };
  for (int i = 0; i + 1 < l.size.knuckles; ++i)
    work.gaps.push_back({joint,
                         "knuckles clear of each other",
                         {plateId(i % 2 == 1), role(i, "high")},
                         {plateId(i % 2 == 0), role(i + 1, "low")},
                         kKnuckleGap});
  work.gaps.push_back(
      {joint, "at the leaf's edge", {l.leaf.id(), face(true)}, {l.jamb.id(), face(false)}, l.size.gap()});
  const std::string inner = std::string(kKnuckle) + ".inner";
  const double between = l.size.barrel - 2 * l.size.plate;
  work.gaps.push_back(
      {joint, "between the plates", {plateId(true), inner}, {plateId(false), inner}, between});
  for (bool ofLeaf : {true, false})
    work.dimensions.push_back(
        {joint, "plate thickness", {plateId(ofLeaf), inner}, {plateId(ofLeaf), "outer"}, l.size.plate});
  work.dimensions.push_back(
      {joint, "hinge height", {plateId(false), blankFace(0)}, {plateId(false), blankFace(1)}, l.size.height});
}

void HingeParts::addSizes() {
  const HingeSizes& s = l.size;
  const auto tell = [&](const char* name, const char* key, double value, JointSize::Unit unit = {}) {
    work.sizes.push_back({l.leaf.id(), joint, name, key, value, unit});
  };
  tell("hinge_centre", "centre", l.pin.z);
  tell("hinge_height", "height", s.height);
  tell("hinge_width", "width", s.width);
  tell("hinge_plate", "plate", s.plate);
  tell("hinge_pin", "pin", s.pin);
  tell("hinge_barrel", "barrel", s.barrel);
  tell("hinge_proud", "proud", s.proud);
  tell("hinge_let_in", "let_in", s.letIn);
  tell("hinge_jamb_let_in", "jamb_let_in", s.jambLetIn);
  tell("hinge_knuckles", "knuckles", s.knuckles, JointSize::Unit::Count);
  tell("hinge_screws", "screws", s.screws, JointSize::Unit::Count);
  tell("hinge_screw_diameter", "screw_diameter", s.screw.diameterMm);
  tell("hinge_screw_length", "screw_length", s.screw.lengthMm);
  tell("hinge_screw_head", "screw_head", s.screw.headMm);
}

void HingeParts::addAll() {
  for (bool ofLeaf : {true, false}) {
    addPlate(ofLeaf);
    addRecess(ofLeaf);
    addSeat(ofLeaf);
  }
  addPin();
  addKnuckles();
  for (bool ofLeaf : {true, false}) addScrews(ofLeaf);
  addSizes();
}

}  // namespace dryfit
