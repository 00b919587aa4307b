// The renderer on an off-screen context: programs compile without a word from the driver, pictures come out
// as asked, the same every time.
#include <gtest/gtest.h>

#include "gl/context.h"
#include "gl/program.h"
#include "gl/renderer.h"
#include "scene/embedded.h"
#include "support/pictures.h"

namespace dryfit::gl {
namespace {

using namespace scene;

class Gl : public testing::Test {
 protected:
  void SetUp() override {
    auto context = Context::withoutDisplay(true);
    ASSERT_TRUE(context.ok()) << toText(context.faults().front());
    context_.emplace(std::move(context).value());
  }
  std::optional<Context> context_;
};

TEST_F(Gl, EveryProgramCompilesWithoutAWord) {
  for (const ProgramFiles& files : programFiles()) {
    const auto program = Program::create(files);
    ASSERT_TRUE(program.ok()) << toText(program.faults().front());
  }
  EXPECT_EQ(context_->takeErrors(), "");
}

TEST_F(Gl, AShaderThatIsMissingIsAFault) {
  const auto program = Program::create({"face.vert", "nowhere.frag"});
  ASSERT_FALSE(program.ok());
  EXPECT_EQ(program.faults().front().fault, Fault::SystemFault);
  EXPECT_NE(toText(program.faults().front()).find("nowhere.frag"), std::string::npos);
}

TEST_F(Gl, IncludesAreThere) {
  const std::string text = shaderText("face.frag");
  EXPECT_EQ(text.rfind("#version 330 core\n", 0), 0u);
  EXPECT_EQ(text.find("#include"), std::string::npos);
  EXPECT_NE(text.find("vec3 timber("), std::string::npos);
}

TEST_F(Gl, TheGroundIsTheTokensColour) {
  for (const Ground ground : {Ground::Paper, Ground::Slate})
    for (const int passes : {1, 2, 5}) {
      const Image image =
          pictures::drawn(*context_, pictures::boxScene({100, 40, 20}), ground, passes, {64, 48});
      const Colour wanted = coloursOf(ground).ground;
      EXPECT_NEAR(image.at(1, 1)[0], wanted.red * 255, 1);
      EXPECT_NEAR(image.at(1, 1)[1], wanted.green * 255, 1);
      EXPECT_NEAR(image.at(1, 1)[2], wanted.blue * 255, 1);
    }
  EXPECT_EQ(context_->takeErrors(), "");
}

TEST_F(Gl, TwoRunsAreAlike) {
  const Scene scene = pictures::boxScene({100, 40, 20});
  const Image first = pictures::drawn(*context_, scene, Ground::Paper, 6, {160, 120});
  const Image second = pictures::drawn(*context_, scene, Ground::Paper, 6, {160, 120});
  EXPECT_EQ(first.rgb, second.rgb);
}

TEST_F(Gl, ASizeBeyondTheMachineIsRefused) {
  auto renderer = Renderer::create();
  ASSERT_TRUE(renderer.ok());
  auto r = std::move(renderer).value();
  const auto lettering = Lettering::load();
  ASSERT_TRUE(lettering.ok());
  const Scene scene = pictures::boxScene({100, 40, 20});
  const int side = r.longestSide() + 1;
  const auto image =
      r.draw(scene, {}, pictures::cameraFor(scene, {10, 10}), {side, 10}, {}, lettering.value());
  ASSERT_FALSE(image.ok());
  const std::string text = toText(image.faults().front());
  EXPECT_NE(text.find(std::to_string(side) + "x10 is more than this machine can draw"), std::string::npos)
      << text;
  EXPECT_EQ(image.faults().front().fault, Fault::BadInput);
}

}  // namespace
}  // namespace dryfit::gl
