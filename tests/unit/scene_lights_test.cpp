// The lamps of a still picture: their mean is the same light for every number of passes.
#include "scene/lights.h"

#include <gtest/gtest.h>

namespace dryfit::scene {
namespace {

Camera cornerCamera() {
  return framed({33, 24, false, 20, ""}, {{0, 0, 0}, {600, 44, 900}}, {800, 600}, {});
}

double meanLight(const std::vector<Lamp>& lamps, Vec3 normal) {
  double sum = 0;
  for (const Lamp& lamp : lamps) {
    const double facing = dot(normal, lamp.towards);
    if (facing > 0) sum += lamp.base + lamp.slope * facing;
  }
  return sum / static_cast<double>(lamps.size());
}

TEST(Lamps, PointOutwardsAndShiftWithinAPixel) {
  for (const Lamp& lamp : lampsFor(cornerCamera(), 48)) {
    EXPECT_NEAR(length(lamp.towards), 1, 1e-12);
    EXPECT_LE(std::abs(lamp.shift.x), 0.5);
    EXPECT_LE(std::abs(lamp.shift.y), 0.5);
  }
}

TEST(Lamps, TheirPartsComeToAllTheLight) {
  for (const int passes : {2, 3, 10, 48, 96}) {
    double sum = 0;
    for (const Lamp& lamp : lampsFor(cornerCamera(), passes)) sum += lamp.part;
    EXPECT_NEAR(sum / passes, 1, 1e-12) << passes;
  }
}

TEST(Lamps, OpenSkyGivesWhatTheClosedFormulaSays) {
  // Lambert under a uniform half sphere of directions: the mean cosine of a face square to its middle is 1/2,
  // and of a face square to a horizon 1/4 over half of the directions (integrals of cos over the half
  // sphere).
  const Camera camera = cornerCamera();
  const Vec3 sky = skyDirection(camera), key = keyDirection(camera);
  const auto expected = [&](Vec3 normal) {
    const double cosine = dot(normal, sky), open = (1 + cosine) / 2;
    return kSky * open * (0.25 + 0.75 * 0.5) + kKey * std::max(0.0, dot(normal, key));
  };
  const auto lamps = lampsFor(camera, 4096);
  for (const Vec3& normal : {Vec3{0, 0, 1}, Vec3{0, -1, 0}, Vec3{1, 0, 0}, sky})
    EXPECT_NEAR(meanLight(lamps, normal), expected(normal),
                0.03);  // the lamps leave out the last 2 degrees of horizon
}

TEST(Lamps, FewPassesComeNearManyOnes) {
  const auto few = lampsFor(cornerCamera(), 10), many = lampsFor(cornerCamera(), 4096);
  for (const Vec3& normal : {Vec3{0, 0, 1}, Vec3{0, -1, 0}, Vec3{1, 0, 0}})
    EXPECT_NEAR(meanLight(few, normal), meanLight(many, normal), 0.12 * meanLight(many, normal));
}

}  // namespace
}  // namespace dryfit::scene
