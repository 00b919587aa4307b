#include "cli/moves_file.h"

#include <gtest/gtest.h>

namespace dryfit::cli {
namespace {

TEST(MovesFile, TakesANameALine) {
  const auto moves =
      readMoves("# my order\n\n  rail.top  # first\r\nfront frame\n\t\n#\nstile", "a/moves.txt");
  ASSERT_TRUE(moves.ok());
  ASSERT_EQ(moves.value().size(), 3u);
  EXPECT_EQ(moves.value()[0].name, "rail.top");
  EXPECT_EQ(moves.value()[0].where, (SourcePlace{"a/moves.txt", 3, 3}));
  EXPECT_EQ(moves.value()[1].name, "front frame");
  EXPECT_EQ(moves.value()[2].name, "stile");
  EXPECT_EQ(moves.value()[2].where.line, 7);
}

TEST(MovesFile, OneWithoutAMoveIsTold) {
  for (const char* text : {"", "\n\n", "# nothing\n"}) {
    const auto moves = readMoves(text, "moves.txt");
    ASSERT_FALSE(moves.ok());
    EXPECT_EQ(toText(moves.faults()[0]),
              "moves.txt: there is no move in this file; a piece or a unit a line");
    EXPECT_EQ(moves.faults()[0].fault, Fault::BadInput);
  }
}

}  // namespace
}  // namespace dryfit::cli
