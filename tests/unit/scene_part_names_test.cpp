// What labels say of the shipped works.
#include "scene/part_names.h"

#include <gtest/gtest.h>

#include "picture_judge.h"
#include "support/works.h"

namespace dryfit::scene {
namespace {

std::vector<std::string> said(const CutWork& work, StagingRequest request = {}) {
  Staging staging(work, nullptr);
  std::vector<std::string> out;
  for (const NamedParts& p : namedParts(staging.scene(request), LengthUnit::Millimetre))
    out.push_back(p.name + (p.size.empty() ? "" : " | " + p.size));
  return out;
}

TEST(PartNames, ALeaf) {
  const std::vector<std::string> expected = {"hanging stile | 95 \u00D7 44",
                                             "top rail | 95 \u00D7 44",
                                             "middle rail | 195 \u00D7 44",
                                             "bottom rail | 195 \u00D7 44",
                                             "panel 1.1 | 1001 \u00D7 656.7 \u00D7 32",
                                             "panel 2.1 | 596 \u00D7 656.7 \u00D7 32",
                                             "closing stile | 95 \u00D7 44",
                                             "panel mouldings, 16 pieces | 20 \u00D7 14",
                                             "wedges, 20 pieces | 66.5 \u00D7 5 \u00D7 14"};
  EXPECT_EQ(said(tests::cutFile(DRYFIT_ROOT "/assets/doorsets/oar-store.toml")), expected);
}

TEST(PartNames, AlikeAndNumberedPiecesShareOne) {
  const std::vector<std::string> names = said(tests::shippedWork("hatch-grounds"));
  EXPECT_NE(std::find(names.begin(), names.end(), "left backings | 60 \u00D7 22"), names.end());
  EXPECT_NE(std::find(names.begin(), names.end(), "head backing | 60 \u00D7 22"), names.end());
  EXPECT_NE(std::find(names.begin(), names.end(), "front left jamb ground | 70 \u00D7 19"), names.end());
}

TEST(PartNames, RoundPiecesHaveADiameter) {
  const std::vector<std::string> names = said(tests::shippedWork("boat-chock"));
  EXPECT_NE(std::find(names.begin(), names.end(), "dowels | 75 \u00D7 \u230016"), names.end());
  EXPECT_NE(std::find(names.begin(), names.end(), "nails, 3 pieces | 45 \u00D7 \u23003"), names.end());
}

TEST(PartNames, PinsOfWoodAndOfSteelAreTwoThings) {
  const std::vector<std::string> names =
      said(tests::cutWholeSet(DRYFIT_ROOT "/assets/doorsets/rigging-loft.toml"));
  EXPECT_NE(std::find(names.begin(), names.end(), "draw-bore pins, 10 pieces | 44 \u00D7 \u23009.5"),
            names.end());
  EXPECT_NE(std::find(names.begin(), names.end(), "hinge pins | 100 \u00D7 \u23003.5"), names.end());
}

TEST(PartNames, ASurroundingCutAwayKeepsItsPiecesSizes) {
  Scene scene;
  scene.items = {tests::boxItem("Skirting", {400, 145, 19}, {})};
  scene.items[0].shape = tests::boxItem("Skirting", {400, 20, 19}, {}).shape;
  EXPECT_EQ(namedParts(scene, LengthUnit::Millimetre)[0].size, "400 \u00D7 145 \u00D7 19");
}

TEST(PartNames, WhatIsSeenThroughSaysSo) {
  StagingRequest request;
  request.seeThrough = {0};
  EXPECT_EQ(said(tests::shippedWork("practice-corner"), request)[0], "stile, see-through | 90 \u00D7 44");
}

TEST(PartNames, OutlinesAreNotNamed) {
  Scene scene;
  scene.items = {tests::boxItem("Top rail", {400, 90, 44}, {}), tests::boxItem("Panel", {300, 200, 10}, {})};
  scene.items[1].shown = Shown::Outline;
  const auto names = namedParts(scene, LengthUnit::Inch);
  ASSERT_EQ(names.size(), 1u);
  EXPECT_EQ(names[0].name, "top rail");
  EXPECT_EQ(names[0].size, "\u2248 3 9/16 \u00D7 1 3/4");  // 3.543, 1.732: marked once
}

}  // namespace
}  // namespace dryfit::scene
