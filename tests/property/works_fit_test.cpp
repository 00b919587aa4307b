// Every shipped work fits; a piece shifted by a hair is found, a missing statement and an added contact too.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "fit/fit.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

std::vector<FitFault> faultsOf(const Assembly& assembly) {
  std::vector<FitFault> faults;
  fitBodies(assembly, lastStates(assembly), "test", faults);
  return faults;
}

bool names(const std::vector<FitFault>& faults, int body) {
  return std::any_of(faults.begin(), faults.end(),
                     [&](const FitFault& f) { return f.a == body || f.b == body; });
}

bool holdsAtTheEnd(const Assembly& assembly, const ExpectedContact& contact) {
  const auto states = lastStates(assembly);
  return contact.statesA.holds(states[static_cast<size_t>(contact.a)]) &&
         contact.statesB.holds(states[static_cast<size_t>(contact.b)]);
}

const std::string kLeaf = "bevelled-leaf";

class EveryWork : public testing::TestWithParam<std::string> {
 protected:
  static CutWork load() { return GetParam() == kLeaf ? cutLeafAlone(bevelledLeaf()) : cutFile(GetParam()); }
};

TEST_P(EveryWork, FitsAsItsJointsState) {
  const CutWork work = load();
  const FitReport report = fit(work.assembly);
  for (const FitFault& f : report.faults) ADD_FAILURE() << f.text;
  ASSERT_FALSE(report.stages.empty());
  EXPECT_EQ(report.stages.back().overlaps.size(), 0u);
  EXPECT_GE(report.stages.back().contacts.size(), work.assembly.joints.size());
}

TEST_P(EveryWork, AnyPieceShiftedIsFound) {
  const CutWork work = load();
  int tried = 0;
  for (size_t i = 0; i < work.pieces.size(); ++i)
    for (int axis = 0; axis < 3; ++axis)
      for (double by : {0.05, -0.05, 1.0, -1.0, 10.0, -10.0}) {
        Assembly moved = work.assembly;
        moved.bodies[i].worldFromPiece.origin[axis] += by;
        EXPECT_TRUE(names(faultsOf(moved), static_cast<int>(i)))
            << work.pieces[i].id << " moved " << by << " along axis " << axis << " went unseen";
        ++tried;
      }
  EXPECT_EQ(tried, static_cast<int>(work.pieces.size()) * 18);
}

TEST_P(EveryWork, AnExpectationLeftOutIsFound) {
  const CutWork work = load();
  for (size_t i = 0; i < work.assembly.contacts.size(); ++i) {
    if (!holdsAtTheEnd(work.assembly, work.assembly.contacts[i])) continue;
    Assembly less = work.assembly;
    less.contacts.erase(less.contacts.begin() + static_cast<long>(i));
    const auto faults = faultsOf(less);
    const ExpectedContact& gone = work.assembly.contacts[i];
    EXPECT_TRUE(names(faults, gone.a) && names(faults, gone.b))
        << gone.joint << " " << gone.roleA << " on " << gone.roleB;
  }
}

TEST_P(EveryWork, ASquareMillimetreTooMuchOrTooLittleIsFound) {
  const CutWork work = load();
  for (size_t i = 0; i < work.assembly.contacts.size(); ++i)
    for (double by : {1.0, -1.0}) {
      if (!holdsAtTheEnd(work.assembly, work.assembly.contacts[i])) continue;
      Assembly other = work.assembly;
      other.contacts[i].areaMm2 += by;
      EXPECT_FALSE(faultsOf(other).empty()) << work.assembly.contacts[i].joint << " off by " << by << " mm2";
    }
}

/// The works, and the leaf whose closing edge is bevelled.
std::vector<std::string> works() {
  std::vector<std::string> all = shippedWorks();
  all.push_back(kLeaf);
  return all;
}

INSTANTIATE_TEST_SUITE_P(Works, EveryWork, testing::ValuesIn(works()), [](const auto& info) {
  std::string name = std::filesystem::path(info.param).stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

/// A pad of 1 mm2 on the panel's tongue, as high as the face play, so that it just reaches the groove's
/// cheek.
TEST(AddedContact, OfOneSquareMillimetreOnAPanelIsFound) {
  CutWork work = shippedWork("panel-frame");
  Body& panel = work.assembly.bodies[static_cast<size_t>(pieceOf(work, "panel"))];
  auto mesh = std::make_shared<PlanningMesh>(*panel.states.back().mesh);
  const double z = (14 - 0.3) / 2, top = 7, x = 0, y = 401.0 / 2 - 5;  // inside the groove at its right edge
  const int role = static_cast<int>(mesh->roles.size());
  mesh->roles.push_back("pad");
  auto facet = [&](std::vector<Vec3> p, Vec3 n) { mesh->facets.push_back({std::move(p), n, role}); };
  facet({{x, y, top}, {x + 1, y, top}, {x + 1, y + 1, top}, {x, y + 1, top}}, {0, 0, 1});
  facet({{x, y, z}, {x, y + 1, z}, {x + 1, y + 1, z}, {x + 1, y, z}}, {0, 0, -1});
  facet({{x, y, z}, {x + 1, y, z}, {x + 1, y, top}, {x, y, top}}, {0, -1, 0});
  facet({{x, y + 1, z}, {x, y + 1, top}, {x + 1, y + 1, top}, {x + 1, y + 1, z}}, {0, 1, 0});
  facet({{x, y, z}, {x, y, top}, {x, y + 1, top}, {x, y + 1, z}}, {-1, 0, 0});
  facet({{x + 1, y, z}, {x + 1, y + 1, z}, {x + 1, y + 1, top}, {x + 1, y, top}}, {1, 0, 0});
  panel.states.back().mesh = mesh;
  const auto faults = faultsOf(work.assembly);
  const bool found = std::any_of(faults.begin(), faults.end(), [](const FitFault& f) {
    return f.kind == "unexplained-contact" && (f.roleA == "pad" || f.roleB == "pad") &&
           std::abs(f.figure - 1) < 1e-6;
  });
  EXPECT_TRUE(found);
}

/// Sizes worth drawing, measured between the faces they name.
TEST(Dimensions, AreThoseOfThePieces) {
  int measured = 0;
  for (const std::string& path : shippedWorks()) {
    const CutWork work = cutFile(path);
    for (const Dimension& d : work.dimensions) {
      auto faces = [&](const FaceRef& ref) {
        const Piece& p = work.pieces[static_cast<size_t>(pieceOf(work, ref.id))];
        const PlanningMesh world = placed(*p.last().mesh, p.worldFromPiece);
        std::vector<Facet> all;
        for (const Facet& f : world.facets)
          if (world.roles[static_cast<size_t>(f.role)] == ref.role) all.push_back(f);
        return all;
      };
      bool agrees = false;
      for (const Facet& a : faces(d.from))
        for (const Facet& b : faces(d.to))
          if (length(cross(a.normal, b.normal)) < 1e-9)
            agrees =
                agrees || std::abs(std::abs(dot(a.normal, b.points[0] - a.points[0])) - d.statedMm) < 1e-9;
      EXPECT_TRUE(agrees) << path << ": " << d.joint << " " << d.what << " " << d.from.role << " to "
                          << d.to.role;
      ++measured;
    }
  }
  EXPECT_GE(measured, 100);
}

}  // namespace
}  // namespace dryfit::tests
