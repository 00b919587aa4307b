// What `explain` says of sizes and of what depends on them, worked out by hand.
#include "explain_measure.h"

#include <gtest/gtest.h>

namespace dryfit::cli {
namespace {

/// The leaf of two panels that no keys at all give, but without mouldings: few enough pieces to work by hand.
const std::string kPlain = "title = \"T\"\n[leaf.moulding]\nkind = \"none\"\n";

// Cases worked by hand.

/// The middle rail's place: the openings above and below it, so the panels in them; the stiles' mortises lie
/// elsewhere; the rail and its wedges only move. Its own joints, widths and the other rails stay.
TEST(Dependents, OfARailsPlace) {
  const Explanation all = explained(kPlain, "leaf.rail.middle.top_edge");
  ASSERT_EQ(all.sizes.size(), 1u);
  const Explained& size = all.sizes[0];
  EXPECT_EQ(size.sizes, (Names{"leaf.row.1.height", "leaf.row.2.height", "leaf.panel.1.1.length",
                               "leaf.panel.2.1.length"}));
  EXPECT_EQ(size.pieces,
            (Names{"leaf.stile.hanging", "leaf.panel.1.1", "leaf.panel.2.1", "leaf.stile.closing"}));
  ASSERT_EQ(size.moved.size(), 1u + 8u);  // a pair of tenons at each end, two wedges each
  EXPECT_EQ(size.moved[0], "leaf.rail.middle");
  for (size_t i = 1; i < size.moved.size(); ++i)
    EXPECT_TRUE(begins(size.moved[i], "leaf.wedge.rail.middle.")) << size.moved[i];
}

/// The leaf's width: rails' lengths, panels' widths and with them what they swell; the stiles only stand
/// elsewhere, and the wedges with them. Heights and joints stay.
TEST(Dependents, OfTheLeafsWidth) {
  const Explanation all = explained(kPlain, "leaf.width");
  const Explained& size = all.sizes.at(0);
  EXPECT_EQ(size.sizes,
            (Names{"leaf.panel.clearance_across", "leaf.rail.top.length", "leaf.rail.middle.length",
                   "leaf.rail.bottom.length", "leaf.panel.1.1.width", "leaf.panel.2.1.width"}));
  EXPECT_EQ(size.pieces, (Names{"leaf.rail.top", "leaf.rail.middle", "leaf.rail.bottom", "leaf.panel.1.1",
                                "leaf.panel.2.1"}));
  EXPECT_EQ(size.moved.size(), 2u + 20u);  // two stiles; 4 + 8 + 8 wedges
}

/// The floor's gap lifts all and changes nothing.
TEST(Dependents, OfTheGapUnderTheLeaf) {
  const Explanation all = explained(kPlain, "leaf.gap_floor");
  EXPECT_EQ(all.sizes.at(0).sizes, Names{});
  EXPECT_EQ(all.sizes.at(0).pieces, Names{});
  EXPECT_EQ(all.sizes.at(0).moved, all.pieces);
}

/// The groove's depth: haunches project as deep, tenons of a rail lose a groove at an edge, and the panels
/// grow with it. The top rail's tenon is half its width whatever the groove, so its haunch takes the rest.
TEST(Dependents, OfTheGroovesDepth) {
  const Explanation all = explained(kPlain, "leaf.groove.depth");
  const Explained& size = all.sizes.at(0);
  const std::set<std::string> sizes(size.sizes.begin(), size.sizes.end());
  for (const char* one :
       {"leaf.tenon.haunch_projection", "leaf.rail.top.haunch_width", "leaf.rail.middle.tenon_width.1",
        "leaf.panel.1.1.length", "leaf.panel.1.1.width", "leaf.panel.2.1.length"})
    EXPECT_TRUE(sizes.count(one)) << one;
  for (const char* one : {"leaf.rail.top.tenon_width", "leaf.rail.top.length", "leaf.row.1.height",
                          "leaf.stile.hanging.width", "leaf.panel.1.1.thickness"})
    EXPECT_FALSE(sizes.count(one)) << one;
}

/// Turned about: what a panel's length follows from.
TEST(Dependents, OfNothingAreToldWhatTheyFollowFrom) {
  const Explanation all = explained(kPlain, "leaf.panel.2.1.length");
  EXPECT_EQ(all.sizes.at(0).follows,
            (Names{"leaf.rail.middle.width", "leaf.rail.bottom.width", "leaf.rail.middle.top_edge",
                   "leaf.rail.bottom.top_edge", "leaf.row.1.height", "leaf.row.2.height", "leaf.panel.grain",
                   "leaf.groove.depth", "leaf.panel.clearance_along"}));
  EXPECT_EQ(all.sizes.at(0).setBy, Names{});
}

TEST(Explain, TellsWhereASizeComesFrom) {
  const Explanation all = explained(
      "title = \"T\"\n[leaf]\nwidth = 800\nstile = 100\n[[leaf.rail]]\nname = \"top\"\n[[leaf.rail]]\nname = "
      "\"bottom\"\nwidth = 180\n"
      "[leaf.rail.tenon]\nproud = 6\n[leaf.groove]\ndepth = 10\n[timber]\nleaf = \"Cedar, western red\"\n");
  const Explained& width = sizeOf(all, "leaf.width");
  EXPECT_EQ(width.from, Size::From::Given);
  EXPECT_EQ(width.where.line, 3);
  const Explained& height = sizeOf(all, "leaf.height");
  EXPECT_EQ(height.from, Size::From::Default);
  EXPECT_EQ(height.source, "a traditional height, 6 ft 6 in");
  const Explained& stile = sizeOf(all, "leaf.stile.closing");
  EXPECT_EQ(stile.from, Size::From::Given);
  EXPECT_EQ(stile.setBy, Names{"leaf.stile"});
  EXPECT_EQ(sizeOf(all, "leaf.rail.top.width").from, Size::From::Default);
  const Explained& edge = sizeOf(all, "leaf.rail.bottom.top_edge");
  EXPECT_EQ(edge.from, Size::From::Rule);
  EXPECT_EQ(edge.rule, "the bottom rail's edge is the leaf's");
  const Explained& proud = sizeOf(all, "leaf.rail.bottom.proud");
  EXPECT_EQ(proud.from, Size::From::Given);
  EXPECT_EQ(proud.setBy, Names{"leaf.rail[2].tenon.proud"});
  EXPECT_EQ(std::get<double>(proud.value), 6);
  EXPECT_EQ(std::get<double>(sizeOf(all, "leaf.rail.top.proud").value), 10);
  EXPECT_EQ(sizeOf(all, "leaf.groove.depth").from, Size::From::Given);
  EXPECT_EQ(sizeOf(all, "leaf.panel.step").source, "common practice");
  const Explained& panels = sizeOf(all, "timber.leaf.panels");
  EXPECT_EQ(std::get<std::string>(panels.value), "Cedar, western red");
  const Explained& length = sizeOf(all, "leaf.rail.top.length");
  EXPECT_EQ(length.from, Size::From::Rule);
  EXPECT_EQ(length.setBy, Names{});
}

/// The plain defaults of keys handed on to joints are what the joints have in force.
TEST(Explain, DefaultsOfJointsKeysAreInForce) {
  const Explanation all = explained("title = \"T\"\n");
  int checked = 0;
  for (const DoorSetKey& key : doorSetKeys(keysOf(standardJoints()))) {
    const auto standard = standardValue(key);
    if (key.kind.empty() || !standard || key.path.find("[]") != std::string::npos) continue;
    const auto found = std::find_if(all.sizes.begin(), all.sizes.end(),
                                    [&](const Explained& e) { return e.key == key.path; });
    if (found == all.sizes.end()) continue;  // pins of a wedged leaf
    EXPECT_EQ(found->value, *standard) << key.path;
    EXPECT_EQ(found->from, Size::From::Default) << key.path;
    EXPECT_EQ(found->source, key.source) << key.path;
    ++checked;
  }
  EXPECT_GE(checked, 8);
}

TEST(Explain, PrintsLengthsInTheFilesUnit) {
  const std::string text =
      "title = \"T\"\nunit = \"in\"\n[leaf]\nwidth = \"2 ft 8 in\"\nheight = 80\nthickness = 1.75\n";
  const std::string said = explainText(explained(text, "leaf.thickness"));
  EXPECT_NE(said.find("\nleaf.thickness = 1 3/4 in\n"), std::string::npos) << said;
  EXPECT_NE(explainText(explained(text, "leaf.width")).find("\nleaf.width = 32 in\n"), std::string::npos);
  EXPECT_NE(explainText(explained(kPlain, "leaf.width")).find("\nleaf.width = 762 mm\n"), std::string::npos);
}

TEST(Explain, TakesAKeyOrHowKeysBegin) {
  const std::string text = "title = \"T\"\n";
  const Explanation rail = explained(text, "leaf.rail.top");
  EXPECT_GE(rail.sizes.size(), 6u);
  for (const Explained& size : rail.sizes) EXPECT_TRUE(begins(size.key, "leaf.rail.top.")) << size.key;
  const Explanation count =
      explained(text, "leaf.tenon.count");  // by the file's key, whatever each is called
  EXPECT_EQ(count.sizes.size(), 3u);
  const Explanation widths = explained(text, "leaf.rail[].width");
  EXPECT_EQ(widths.sizes.size(), 3u);
  EXPECT_EQ(explained(text, "leaf.rail[2].width").sizes.size(), 3u);
}

/// An author's rule is named as the source of what it may have decided.
TEST(Explain, NamesTheAuthorWhoseRuleIsInForce) {
  const Explanation all = explained("title = \"T\"\n[leaf.tenon]\nrule = \"noyes\"\n", "leaf.rail.top");
  const Explained& width = sizeOf(all, "leaf.rail.top.tenon_width");
  EXPECT_EQ(std::get<double>(width.value), 95.0 / 2 - 12);  // Noyes, Handwork in Wood: half less the groove
  EXPECT_EQ(width.source, "Noyes, Handwork in Wood, 1910");
  EXPECT_NE(width.rule.find("rule noyes"), std::string::npos) << width.rule;
}

/// Dowels stand in the place of tenons: the word that put them there is told, and what it changes.
TEST(Explain, TellsAWordThatPutAnotherJointInPlace) {
  const Explanation all = explained("title = \"T\"\n[leaf.tenon]\nfixing = \"dowelled\"\n", "leaf.tenon");
  const Explained& fixing = sizeOf(all, "leaf.tenon.fixing");
  EXPECT_EQ(std::get<std::string>(fixing.value), "dowelled");
  EXPECT_EQ(fixing.from, Size::From::Given);
  EXPECT_EQ(fixing.where.line, 3);
  EXPECT_NE(std::find(fixing.sizes.begin(), fixing.sizes.end(), "leaf.rail.top.length"), fixing.sizes.end());
  EXPECT_EQ(std::get<double>(sizeOf(all, "leaf.tenon.dowel_diameter").value), 10);
}

TEST(Explain, SaysWhyASizeCannotBeChangedAlone) {
  const Explained size = explained("title = \"T\"\n", "leaf.tenon.thickness").sizes.at(0);
  EXPECT_EQ(size.alone,
            "a millimetre more, and the tenon is 15 thick and out of line with the groove; tenon, haunch and "
            "groove are equally thick and run in line");
  EXPECT_EQ(size.pieces, Names{});
}

TEST(Explain, TakesAWorkFileToo) {
  const std::string text = contentOf(DRYFIT_ROOT "/assets/works/practice-corner.toml");
  const Explanation all = explained(text);
  EXPECT_EQ(std::get<double>(sizeOf(all, "stile.length").value), 400);  // 440 less the horn of 40
  const Explained& width = sizeOf(all, "rail.width");
  EXPECT_EQ(width.from, Size::From::Given);
  EXPECT_EQ(width.setBy, Names{"member[2].section"});
  EXPECT_EQ(width.sizes, (Names{"rail.tenon_width", "rail.haunch_width"}));  // half the rail, and the rest
  const Explained& tenon = sizeOf(all, "rail.tenon_width");
  EXPECT_EQ(std::get<double>(tenon.value), 45);
  EXPECT_EQ(tenon.setBy, Names{"joint[1].tenon_width"});
}

size_t linesIn(const std::string& text) {
  return static_cast<size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// What is alike is told once, what the file gives first; worked out by hand for two panels.
TEST(Explain, TellsAlikeSizesTogetherAndWhatIsGivenFirst) {
  const std::string text = kPlain + "[leaf.groove]\nthickness = 14\n[leaf.panel]\nplay = 0.5\n";
  EXPECT_EQ(explainText(explained(text, "leaf.panel.play")),
            "T: 1 size in force\n"
            "\n"
            "leaf.panel.play = 0.5 mm\n"
            "    tongue thinner than the groove, in all\n"
            "    given in line 7\n"
            "    pieces cut by it: leaf.panel.* (2)\n");
  const std::string panels = explainText(explained(text, "leaf.panel"));
  const std::string given = "Given in the file\n-----------------\n\nleaf.panel.play = 0.5 mm\n";
  const size_t at = panels.find(given), defaults = panels.find("\nDefaults\n"),
               rules = panels.find("\nBy rule, "), follows = panels.find("\nWhat follows, ");
  EXPECT_LT(at, defaults) << panels;
  EXPECT_LT(defaults, rules);
  EXPECT_LT(rules, follows);
  EXPECT_NE(panels.find("\nleaf.panel.*.thickness (2) = 32 mm\n"
                        "    by rule: what its joints ask for\n"
                        "    it follows from: leaf.thickness, leaf.panel.kind\n"),
            std::string::npos)
      << panels;
  EXPECT_EQ(panels.find("leaf.panel.1.1.thickness"), std::string::npos);
}

/// The whole text. Heights and widths are those of the key table; 2081 = 1981 + 2 horns of 50; ten of the
/// twenty wedges stand on either side.
TEST(Explain, TellsASmallSelectionAParagraphASize) {
  const std::string text = "title = \"T\"\n[leaf]\nhorns = 50\n[leaf.moulding]\nkind = \"none\"\n";
  const std::string expected =
      "T: 8 sizes in force\n"
      "\n"
      "Defaults\n"
      "--------\n"
      "\n"
      "leaf.stile.hanging = 95 mm\n"
      "    the stile that carries the hinges\n"
      "    default (old BS 459-1, from memory: 95 ex 100, 195 ex 200)\n"
      "    sizes that depend on it: leaf.panel.clearance_across,\n"
      "    leaf.rail.*.tenon_length (3), leaf.rail.*.wedge_length (3),\n"
      "    leaf.rail.*.wedging_allowance (3), leaf.stile.hanging.width,\n"
      "    leaf.panel.*.width (2)\n"
      "    pieces cut by it: leaf.stile.hanging, leaf.rail.* (3), leaf.panel.* (2),\n"
      "    leaf.wedge.*.hanging.* (10)\n"
      "\n"
      "leaf.stile.closing = 95 mm\n"
      "    the stile that takes the lock\n"
      "    default (old BS 459-1, from memory: 95 ex 100, 195 ex 200)\n"
      "    sizes that depend on it: leaf.panel.clearance_across,\n"
      "    leaf.rail.*.tenon_length (3), leaf.rail.*.wedge_length (3),\n"
      "    leaf.rail.*.wedging_allowance (3), leaf.panel.*.width (2),\n"
      "    leaf.stile.closing.width\n"
      "    pieces cut by it: leaf.rail.* (3), leaf.panel.* (2), leaf.stile.closing,\n"
      "    leaf.wedge.*.closing.* (10)\n"
      "\n"
      "What follows, and no key sets\n"
      "-----------------------------\n"
      "\n"
      "leaf.stile.*.length (2) = 2081 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: wall.kind, leaf.height, leaf.horns\n"
      "\n"
      "leaf.stile.*.width (2) = 95 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: leaf.stile.hanging, leaf.stile.closing\n"
      "\n"
      "leaf.stile.*.thickness (2) = 44 mm\n"
      "    by rule: set out from the leaf's sizes\n"
      "    it follows from: leaf.thickness\n";
  EXPECT_EQ(explainText(explained(text, "leaf.stile")), expected);
}

/// Sixteen planted mouldings, 156 sizes: few enough lines to be read, none longer than a terminal's.
TEST(Explain, TellsAWholeLeafInFewLines) {
  const std::string oars = tests::withoutDoorway(contentOf(DRYFIT_ROOT "/assets/doorsets/oar-store.toml"));
  const Explanation all = explained(oars);
  EXPECT_EQ(all.keys.size(), all.sizes.size());
  const std::string text = explainText(all);
  EXPECT_LT(linesIn(text), 250u);
  EXPECT_NE(text.find("\nleaf.moulding.*.width (16) = 20 mm; from "), std::string::npos) << text;
  EXPECT_EQ(text.find("dry"), std::string::npos);
  for (size_t from = 0; from < text.size(); from = text.find('\n', from) + 1)
    EXPECT_LE(text.find('\n', from) - from, 80u) << text.substr(from, 100);
  // One side of one moulding is told by itself when it is asked for.
  const std::string one = explainText(explained(oars, "leaf.moulding.1.1.front.top.length"));
  EXPECT_EQ(one.find("Oar store door: 1 size in force\n\nleaf.moulding.1.1.front.top.length = 636 mm\n"), 0u)
      << one;
  EXPECT_NE(one.find("it follows from: leaf.width, "), std::string::npos) << one;
}

TEST(Explain, ThePagesExampleIsWhatItPrints) {
  const std::string text = contentOf(DRYFIT_ROOT "/assets/doorsets/oar-store.toml");
  const std::string& example = explainCommand().page.example;
  EXPECT_EQ(example.substr(example.find('\n') + 1), explainText(explained(text, "leaf.panel.play")));
  const std::string& keys = keysCommand().page.example;
  EXPECT_EQ(keys.substr(keys.find('\n') + 1), runCommandLine({"keys", "leaf.gap"}).out);
}

}  // namespace
}  // namespace dryfit::cli
