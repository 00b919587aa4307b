// The door set's keys: hinges and lock.
#include "doorset/doorway_rules.h"
#include "doorset/key_rows.h"

namespace dryfit::doorsetkeys {

namespace {

constexpr const char* kHouseHinge = "common practice: a butt hinge of 100";

template <class Of>
DoorSetKey flag(Of of, const std::string& path, const std::string& what, const std::string& standard,
                const std::string& about) {
  return row(
      Type::Flag, path, what, standard, kCommon, about,
      [of](GivenDoorway& g, const GivenValue& v) { of(g.spec) = std::get<bool>(v.value); },
      ofDoorway(path, [of](const DoorwaySpec& d) {
        return InForce{static_cast<bool>(of(d)), {}};
      }));
}

DoorSetKey whole(int HingeSpec::*member, const std::string& path, const std::string& what,
                 const std::string& standard, const std::string& about, double least, double most) {
  return ranged(row(
                    Type::Whole, path, what, standard, kCommon, about,
                    [member](GivenDoorway& g, const GivenValue& v) { g.spec.hinges.*member = v.whole(); },
                    ofDoorway("hinge",
                              [member](const DoorwaySpec& d) {
                                return InForce{static_cast<double>(d.hinges.*member), {}};
                              })),
                least, most);
}

DoorSetKey places() {
  DoorSetKey k = length(
      "hinge.places", "place of a hinge", "by hinge.rule", "the rule's author",
      "centres above the leaf's bottom, from the top hinge down, in place of rule and count",
      [](GivenDoorway& g, const GivenValue& v) {
        const auto* list = std::get_if<std::vector<double>>(&v.value);
        g.hingePlaces = list ? *list : std::vector{v.number()};
      },
      ofDoorway("hinge", [](const DoorwaySpec& d) {
        std::vector<double> centres;
        for (const Size& c : d.hinges.centres) centres.push_back(c.mm);
        return InForce{centres, d.hinges.centres.front()};
      }));
  k.type = Type::Lengths;
  k.mostValues = 8;
  return k;
}

DoorSetKey letIn() {
  return ranged(worded(length(
                           "hinge.let_in", "depth let into the stile", "shared",
                           "Noyes, Handwork in Wood: half the knuckle's thickness into each",
                           "\"shared\": each plate its own thickness; \"stile\": both in the stile's edge",
                           [](GivenDoorway& g, const GivenValue& v) {
                             const auto* word = std::get_if<std::string>(&v.value);
                             g.letIn = word ? *word : "given";
                             if (!word) g.spec.hinges.letIn = v.size();
                           },
                           ofDoorway("hinge", [](const DoorwaySpec& d) { return inForce(d.hinges.letIn); })),
                       {"shared", "stile"}),
                0, 20);
}

DoorSetKey listedTable(const std::string& path, const std::string& about) {
  DoorSetKey k = table(path, Type::Table, about);
  k.listed = true;
  return k;
}

void addScrewKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(listedTable("hinge.screw", "its screws"));
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* about,
                  double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, kCommon, about), least, most));
  };
  size(
      [](auto& d) -> auto& { return d.hinges.screwDiameter; }, "hinge.screw.diameter",
      "diameter of the screws", "4.2", "of the shank", 1, 10);
  size(
      [](auto& d) -> auto& { return d.hinges.screwLength; }, "hinge.screw.length", "length of the screws",
      "32, less where less wood stands behind", "from the plate's face", 8, 120);
  size(
      [](auto& d) -> auto& { return d.hinges.screwHead; }, "hinge.screw.head", "diameter of the heads",
      "twice the shank", "of a head at 90 degrees", 2, 20);
  keys.push_back(flag(
      [](auto& d) -> auto& { return d.hinges.staggered; }, "hinge.staggered", "staggered screws", "true",
      "two rows, or all in line"));
  keys.push_back(flag(
      [](auto& d) -> auto& { return d.hinges.countersunk; }, "hinge.countersunk", "countersunk holes", "true",
      "heads flush with the plate"));
}

}  // namespace

void addHingeKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(table("hinge", Type::Table, "the hinges",
                       [](GivenDoorway& g, const GivenValue& v) { g.spec.hinges.where = v.where; }));
  keys.push_back(worded(row(
                            Type::Word, "hinge.rule", "rule for the hinges", "british",
                            "Joyce, The Technique of Furniture Making: 6 in and 9 in",
                            "whose places and count; \"given\" in force where hinge.places are",
                            [](GivenDoorway& g, const GivenValue& v) { g.spec.hinges.rule = v.word(); },
                            ofDoorway("hinge",
                                      [](const DoorwaySpec& d) {
                                        return InForce{d.hinges.rule, {}};
                                      })),
                        hingeRuleWords()));
  keys.push_back(ranged(row(
                            Type::Whole, "hinge.count", "count of hinges", "by hinge.rule",
                            "the rule's author", "the outer two by the rule, the others evenly between them",
                            [](GivenDoorway& g, const GivenValue& v) { g.hingeCount = v.whole(); },
                            ofDoorway("hinge",
                                      [](const DoorwaySpec& d) {
                                        return InForce{static_cast<double>(d.hinges.centres.size()), {}};
                                      })),
                        2, 8));
  keys.push_back(places());
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* source,
                  const char* about, double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, source, about), least, most));
  };
  keys.push_back(listedTable("hinge.size", "of a plate"));
  size(
      [](auto& d) -> auto& { return d.hinges.height; }, "hinge.size.height", "height of the hinges", "100",
      kHouseHinge, "along the stile", 20, 400);
  size(
      [](auto& d) -> auto& { return d.hinges.width; }, "hinge.size.width", "width of a plate",
      "35, less in a leaf too thin for it", kCommon, "from the pin's axis to its edge", 8, 200);
  size(
      [](auto& d) -> auto& { return d.hinges.plate; }, "hinge.plate", "thickness of a plate", "2.5", kCommon,
      "of each plate", 0.5, 10);
  size(
      [](auto& d) -> auto& { return d.hinges.pin; }, "hinge.pin_diameter", "diameter of the pin", "3.5",
      kCommon, "in the knuckles", 1, 20);
  size(
      [](auto& d) -> auto& { return d.hinges.proud; }, "hinge.pin_proud", "projection of the pin", "5",
      kCommon, "its centre in front of the leaf's face", 0, 100);
  keys.push_back(told("hinge.barrel", "both plates and the gap between them", "arithmetic",
                      "diameter of the knuckles",
                      [](const DoorSetSpec& s) { return inForce(s.doorway->hinges.barrel); }));
  keys.push_back(whole(&HingeSpec::knuckles, "hinge.knuckles", "count of knuckles", "5",
                       "an odd number; the jamb has the outer ones", 3, 15));
  keys.push_back(whole(&HingeSpec::screws, "hinge.screws", "count of screws", "5", "in each plate", 2, 12));
  addScrewKeys(keys);
  keys.push_back(
      worded(row(
                 Type::Word, "hinge.pin", "pin", "fixed", kCommon,
                 "fixed in the knuckles, or loose: drawn to lift the leaf off",
                 [](GivenDoorway& g, const GivenValue& v) { g.spec.hinges.loosePin = v.word() == "loose"; },
                 ofDoorway("hinge",
                           [](const DoorwaySpec& d) {
                             return InForce{std::string(d.hinges.loosePin ? "loose" : "fixed"), {}};
                           })),
             {"fixed", "loose"}));
  keys.push_back(letIn());
  keys.push_back(told("hinge.let_in_jamb", "what the stile leaves of both plates", "arithmetic",
                      "depth let into the jamb",
                      [](const DoorSetSpec& s) { return inForce(s.doorway->hinges.jambLetIn); }));
}

void addLockKeys(std::vector<DoorSetKey>& keys) {
  keys.push_back(
      table("lock", Type::Table, "a mortise lock; left out: none", [](GivenDoorway& g, const GivenValue& v) {
        g.lock = true;
        g.spec.lock->where = v.where;
      }));
  auto size = [&](auto of, const char* path, const char* what, const char* standard, const char* about,
                  double least, double most) {
    keys.push_back(ranged(doorwaySize(of, path, what, standard, kCommon, about), least, most));
  };
  size(
      [](auto& d) -> auto& { return d.lock->height; }, "lock.height", "height of the lock", "1050",
      "middle of the case, above the leaf's bottom", 1, 5000);
  keys.push_back(listedTable("lock.case", "its case"));
  size(
      [](auto& d) -> auto& { return d.lock->caseHeight; }, "lock.case.height", "height of the case", "70",
      "along the stile", 10, 400);
  size(
      [](auto& d) -> auto& { return d.lock->caseDepth; }, "lock.case.depth", "depth of the case", "64",
      "into the stile, from its edge", 10, 300);
  size(
      [](auto& d) -> auto& { return d.lock->caseThickness; }, "lock.case.thickness", "thickness of the case",
      "14", "through the leaf's thickness", 3, 60);
  size(
      [](auto& d) -> auto& { return d.lock->backset; }, "lock.backset", "backset", "44",
      "from the closing edge to the spindle", 10, 300);
  size(
      [](auto& d) -> auto& { return d.lock->spindle; }, "lock.spindle", "hole of the spindle", "16",
      "its diameter, through the stile", 4, 60);
  keys.push_back(listedTable("lock.forend", "the plate in the closing edge"));
  size(
      [](auto& d) -> auto& { return d.lock->forendHeight; }, "lock.forend.height", "height of the forend",
      "100", "along the stile", 10, 600);
  size(
      [](auto& d) -> auto& { return d.lock->forendWidth; }, "lock.forend.width", "width of the forend", "22",
      "through the leaf's thickness", 3, 100);
  size(
      [](auto& d) -> auto& { return d.lock->forendThickness; }, "lock.forend.thickness",
      "thickness of the forend", "3", "let in flush", 0.5, 10);
  keys.push_back(listedTable("lock.keep", "the plate in the jamb"));
  size(
      [](auto& d) -> auto& { return d.lock->keepHeight; }, "lock.keep.height", "height of the keep", "100",
      "along the jamb", 10, 600);
  size(
      [](auto& d) -> auto& { return d.lock->keepWidth; }, "lock.keep.width", "width of the keep", "22",
      "through the wall", 3, 100);
  size(
      [](auto& d) -> auto& { return d.lock->keepThickness; }, "lock.keep.thickness", "thickness of the keep",
      "3", "let in flush", 0.5, 10);
}

}  // namespace dryfit::doorsetkeys
