// Options of a picture: what they are read as, and every bad one with its whole message.
#include "cli/picture_options.h"

#include <gtest/gtest.h>

#include <functional>

#include "scene/names.h"
#include "support/works.h"

namespace dryfit::cli {
namespace {

using scene::SectionWay;
using Change = std::function<void(PictureWords&)>;

PictureWords with(const Change& change) {
  PictureWords words;
  change(words);
  return words;
}
const CutWork& frame() {
  static const CutWork work = tests::shippedWork("panel-frame");
  return work;
}
PictureOptions read(const Change& change, const CutWork& work = frame()) {
  const auto options = pictureOptions(with(change), work);
  for (const Diagnostic& fault : options.ok() ? std::vector<Diagnostic>{} : options.faults())
    ADD_FAILURE() << toText(fault);
  return options.value();
}

TEST(PictureOptions, UnlessGiven) {
  const PictureOptions options = read([](PictureWords&) {});
  EXPECT_EQ(options.size, (scene::PictureSize{1920, 1080}));
  EXPECT_FALSE(options.view || options.step || options.moving || options.joint);
  EXPECT_EQ(options.spread, 0);
  EXPECT_EQ(options.passes, 16);
  EXPECT_EQ(options.ground, scene::Ground::Paper);
  EXPECT_EQ(options.unit, LengthUnit::Millimetre);
  EXPECT_TRUE(options.sections.empty() && options.hidden.empty() && options.seeThrough.empty());
}

TEST(PictureOptions, PlainValues) {
  const PictureOptions options = read([](PictureWords& w) {
    w.size = "16x9999";
    w.step = "3";
    w.moving = "0.25";
    w.ground = "slate";
    w.unit = "in";
    w.passes = "256";
    w.labels = true;
  });
  EXPECT_EQ(options.size, (scene::PictureSize{16, 9999}));
  EXPECT_EQ(options.step, 2);
  EXPECT_EQ(options.moving, 0.25);
  EXPECT_EQ(options.ground, scene::Ground::Slate);
  EXPECT_EQ(options.unit, LengthUnit::Inch);
  EXPECT_EQ(options.passes, 256);
  EXPECT_TRUE(options.labels);
  EXPECT_FALSE(options.sizes);
  EXPECT_EQ(read([](PictureWords& w) { w.spread = "70"; }).spread, 0.7);
}

TEST(PictureOptions, ViewsByNameAndAngles) {
  const auto view = [](const std::string& text) {
    return *read([&](PictureWords& w) { w.view = text; }).view;
  };
  for (const char* name : {"front", "back", "side", "plan", "corner"}) EXPECT_EQ(view(name).name, name);
  EXPECT_EQ(view("-30,12.5").azimuthDeg, -30);
  EXPECT_EQ(view("-30,12.5").elevationDeg, 12.5);
  EXPECT_FALSE(view("-30,12.5").parallel);
  EXPECT_TRUE(view("270,0").parallel);  // square to the work
  EXPECT_TRUE(view("0,-90").parallel);
}

TEST(PictureOptions, SectionsInTheFilesUnitOrTheirOwn) {
  const PictureOptions options = read([](PictureWords& w) {
    w.sections = {"plan=100", "height=-1 1/2 in", "across = 4.4 cm", "through rail.top",
                  "plan through stile.left+rail.top"};
  });
  ASSERT_EQ(options.sections.size(), 5u);
  EXPECT_EQ(options.sections[0].way, SectionWay::Plan);
  EXPECT_EQ(options.sections[0].atMm, 100);
  EXPECT_EQ(options.sections[0].name, "plan at 100 mm");
  EXPECT_EQ(options.sections[1].way, SectionWay::Height);
  EXPECT_DOUBLE_EQ(options.sections[1].atMm, -38.1);
  EXPECT_EQ(options.sections[2].way, SectionWay::Across);
  EXPECT_DOUBLE_EQ(options.sections[2].atMm, 44);
  EXPECT_FALSE(options.sections[3].way);
  EXPECT_EQ(options.sections[3].piece, tests::pieceOf(frame(), "rail.top"));
  EXPECT_EQ(options.sections[4].way, SectionWay::Plan);
  EXPECT_EQ(options.sections[4].joint, scene::jointCalled(frame().assembly, "rail.top+stile.left"));
  CutWork inches = frame();
  inches.lengths = LengthUnit::Inch;
  const PictureOptions bare = read([](PictureWords& w) { w.sections = {"plan=2"}; }, inches);
  EXPECT_DOUBLE_EQ(bare.sections[0].atMm, 50.8);
  EXPECT_EQ(bare.unit, LengthUnit::Inch);
}

TEST(PictureOptions, NearPiecesAndJoints) {
  const PictureOptions options = read([](PictureWords& w) {
    w.near = {"wedge", "rail.bottom", "stile.left+rail.top"};
  });
  EXPECT_EQ(options.near.size(), 13u);  // twelve wedges and the rail
  EXPECT_EQ(options.nearJoints,
            std::vector<int>{*scene::jointCalled(frame().assembly, "rail.top+stile.left")});
  PictureWords wrong;
  wrong.near = {"wegde", "stile.left+rail.tip"};
  const auto refused = pictureOptions(wrong, frame());
  ASSERT_FALSE(refused.ok());
  ASSERT_EQ(refused.faults().size(), 2u);
  for (const Diagnostic& fault : refused.faults()) EXPECT_EQ(fault.subject, "--near");
}

TEST(PictureOptions, PiecesByIdBeginningOrKind) {
  const PictureOptions options = read([](PictureWords& w) {
    w.hide = {"wedge", "panel"};
    w.seeThrough = {"stile"};
    w.joint = "stile.left+rail.top";
  });
  EXPECT_EQ(options.hidden.size(), 13u);  // twelve wedges and the panel
  EXPECT_EQ(options.seeThrough, (std::vector<int>{tests::pieceOf(frame(), "stile.left"),
                                                  tests::pieceOf(frame(), "stile.right")}));
  EXPECT_TRUE(options.joint);
}

constexpr const char* kSize = "; WIDTHxHEIGHT in pixels, each 16 or more, as 1920x1080";
constexpr const char* kAngles =
    "AZ,EL in degrees: 0,0 looks at the front, 90,0 from the right, 0,90 from above (-360 to 360, -90 to 90)";
constexpr const char* kSection =
    "plan=Z, height=X or across=Y with a length; \"through ID\" of a piece or joint; \"plan through ID\"";

struct Bad {
  Change change;
  std::string text;
};
void PrintTo(const Bad& bad, std::ostream* out) {
  *out << bad.text;
}
class BadOptions : public testing::TestWithParam<Bad> {};
TEST_P(BadOptions, SayWhatIsAllowed) {
  const auto options = pictureOptions(with(GetParam().change), frame());
  ASSERT_FALSE(options.ok());
  ASSERT_EQ(options.faults().size(), 1u);
  EXPECT_EQ(options.faults()[0].fault, Fault::BadInput);
  EXPECT_EQ(toText(options.faults()[0]), GetParam().text);
}

std::vector<Bad> badSizesAndViews() {
  std::vector<Bad> out;
  for (const char* size : {"1920", "x", "15x100", "100x15", "0x0", "-100x100", "1920X1080", "12.5x100",
                           "1920x1080x3", " 20x20", "99999999999x20"})
    out.push_back({[=](PictureWords& w) { w.size = size; },
                   "--size: \"" + std::string(size) + "\" is not a size" + kSize});
  out.push_back(
      {[](PictureWords& w) { w.view = "frnt"; },
       std::string("--view: there is no view \"frnt\"; did you mean front? front, back, side, plan, "
                   "corner or ") +
           kAngles});
  out.push_back({[](PictureWords& w) { w.view = "underneath"; },
                 std::string("--view: there is no view \"underneath\"; front, back, side, plan, corner or ") +
                     kAngles});
  for (const char* view : {"1,", ",", "a,b", "10,91", "361,0", "10,20,30", "nan,0", "0,inf"})
    out.push_back({[=](PictureWords& w) { w.view = view; },
                   "--view: \"" + std::string(view) + "\" is not two angles; " + kAngles});
  return out;
}
INSTANTIATE_TEST_SUITE_P(SizesAndViews, BadOptions, testing::ValuesIn(badSizesAndViews()));

std::vector<Bad> badNumbersAndWords() {
  std::vector<Bad> out;
  for (const char* step : {"0", "-1", "two", "1.5", "99999999999"})
    out.push_back({[=](PictureWords& w) { w.step = step; },
                   "--step: \"" + std::string(step) + "\" is not the number of a step, from 1"});
  for (const char* moving : {"1.01", "-0.1", "half", "50%"})
    out.push_back({[=](PictureWords& w) {
                     w.step = "1";
                     w.moving = moving;
                   },
                   "--moving: \"" + std::string(moving) + "\" is not a part from 0 (outside) to 1 (home)"});
  for (const char* spread : {"100.5", "-1", "wide", "nan", "70%"})
    out.push_back(
        {[=](PictureWords& w) { w.spread = spread; },
         "--spread: \"" + std::string(spread) +
             "\" is no percentage; a number from 0 (home) to 100 (all apart), such as --spread 70"});
  for (const char* passes : {"0", "257", "1.5", "many"})
    out.push_back({[=](PictureWords& w) { w.passes = passes; },
                   "--passes: \"" + std::string(passes) + "\" is not a number of passes from 1 to 256"});
  out.push_back(
      {[](PictureWords& w) { w.ground = "Paper"; }, "--ground: \"Paper\" is not \"paper\" or \"slate\""});
  out.push_back({[](PictureWords& w) { w.unit = "cm"; }, "--unit: \"cm\" is not \"mm\" or \"in\""});
  out.push_back(
      {[](PictureWords& w) { w.moving = "0.5"; }, "--moving: nothing moves without a step; give --step too"});
  out.push_back(
      {[](PictureWords& w) {
         w.step = "2";
         w.moving = "0.5";
         w.spread = "50";
       },
       "--moving: a spread shows what is home, nothing on its way; leave --moving or --spread out"});
  return out;
}
INSTANTIATE_TEST_SUITE_P(NumbersAndWords, BadOptions, testing::ValuesIn(badNumbersAndWords()));

Bad badSection(const std::string& section, const std::string& text) {
  return {[=](PictureWords& w) { w.sections = {section}; }, "--section: " + text};
}
INSTANTIATE_TEST_SUITE_P(
    Sections, BadOptions,
    testing::Values(
        badSection("middle", std::string("\"middle\" is not a section; ") + kSection),
        badSection("plam=3", std::string("\"plam=3\" is not a section; did you mean plan? ") + kSection),
        badSection("plan", std::string("\"plan\" is not a section; ") + kSection),
        badSection("=3", std::string("\"=3\" is not a section; ") + kSection),
        badSection("heigth through panel",
                   std::string("\"heigth through panel\" is not a section; did you mean height? ") +
                       kSection),
        badSection("throug panel",
                   std::string("\"throug panel\" is not a section; did you mean through? ") + kSection),
        badSection("through rail", "\"rail\" is 2 pieces; name one, as rail.top or rail.bottom"),
        badSection("through rail.tpo",
                   "there is no piece or kind of piece \"rail.tpo\"; did you mean rail.top?"),
        badSection("plan through rail.top+stile.lef",
                   "there is no joint \"rail.top+stile.lef\"; did you mean rail.top+stile.left?")));

INSTANTIATE_TEST_SUITE_P(
    Names, BadOptions,
    testing::Values(Bad{[](PictureWords& w) { w.hide = {"wegde"}; },
                        "--hide: there is no piece or kind of piece \"wegde\"; did you mean wedge?"},
                    Bad{[](PictureWords& w) { w.seeThrough = {"xyzzy"}; },
                        "--see-through: there is no piece or kind of piece \"xyzzy\"; dryfit pieces lists "
                        "ids; kinds here: "
                        "stile, rail, panel, wedge"},
                    Bad{[](PictureWords& w) { w.joint = "xyzzy"; },
                        "--joint: there is no joint \"xyzzy\"; two pieces that meet, as panel+rail.bottom"},
                    Bad{[](PictureWords& w) { w.sections.assign(7, "plan=100"); },
                        "--section: 7 sections at once; at most 6"}));

TEST(PictureOptions, ALengthThatIsNoneIsToldAsInFiles) {
  const auto options = pictureOptions(with([](PictureWords& w) { w.sections = {"plan=3 foo"}; }), frame());
  ASSERT_FALSE(options.ok());
  EXPECT_EQ(toText(options.faults()[0]), "--section: " + toText(lengthFromText("3 foo", {}).faults()[0]));
}

TEST(PictureOptions, AllThatIsWrongIsToldAtOnce) {
  const auto options = pictureOptions(with([](PictureWords& w) {
                                        w.size = "big";
                                        w.passes = "0";
                                        w.hide = {"nothing.like.it", "nor.this.one"};
                                      }),
                                      frame());
  ASSERT_FALSE(options.ok());
  EXPECT_EQ(options.faults().size(), 4u);
}

}  // namespace
}  // namespace dryfit::cli
