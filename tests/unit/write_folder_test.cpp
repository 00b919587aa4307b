#include "cli/write_folder.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "unit/temporary_folder.h"

namespace dryfit::cli {
namespace {

std::vector<std::string> sorted(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  return names;
}
std::vector<std::string> namesIn(const std::filesystem::path& folder) {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    out.push_back(entry.path().filename());
  return sorted(out);
}

TEST(WriteFolder, IsMadeWhenMissingAndKeepsWhatIsThere) {
  const TemporaryFolder folder;
  for (const std::string& path : {folder.file("new"), folder.file("new"), folder.file("slashed/")}) {
    EXPECT_FALSE(writeFolder(path, {{"a.png", "A"}, {"page.md", "P"}}));
    EXPECT_EQ(namesIn(path), (std::vector<std::string>{"a.png", "page.md"}));
    EXPECT_EQ(contentOf(path + "/a.png"), "A");
  }
  put(folder.file("new/mine.txt"), "mine");
  EXPECT_FALSE(writeFolder(folder.file("new"), {{"a.png", "B"}}));
  EXPECT_EQ(contentOf(folder.file("new/a.png")), "B");
  EXPECT_EQ(contentOf(folder.file("new/mine.txt")), "mine");
}

TEST(WriteFolder, AFileInTheWayOrNoParentIsToldBeforeAnythingIsMade) {
  const TemporaryFolder folder;
  put(folder.file("file"), "old");
  const auto file = folderFault(folder.file("file")), parent = folderFault(folder.file("no/such"));
  ASSERT_TRUE(file && parent);
  EXPECT_EQ(toText(*file), "cannot write " + folder.file("file") + ": Not a directory");
  EXPECT_EQ(toText(*parent), "cannot write " + folder.file("no/such") + ": No such file or directory");
  EXPECT_EQ(file->fault, Fault::SystemFault);
  EXPECT_TRUE(folderFault(folder.file("file/below")));
  EXPECT_TRUE(folderFault(""));
  EXPECT_FALSE(folderFault(folder.file("to-be-made")));
  EXPECT_TRUE(writeFolder(folder.file("file"), {{"a", "A"}}));
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"file"}));
  EXPECT_EQ(contentOf(folder.file("file")), "old");
}

TEST(WriteFolder, WhatAFailedCallHasNewlyMadeIsTakenAway) {
  const TemporaryFolder folder;
  std::filesystem::create_directories(folder.file("there/page.md"));  // a folder where the page should be
  put(folder.file("there/b.png"), "old");
  EXPECT_TRUE(writeFolder(folder.file("there"), {{"a.png", "A"}, {"b.png", "B"}, {"page.md", "P"}}));
  EXPECT_EQ(namesIn(folder.file("there")), (std::vector<std::string>{"b.png", "page.md"}));
  const std::string tooLong(300, 'n');  // over the file system's 255
  EXPECT_TRUE(writeFolder(folder.file("new"), {{"a.png", "A"}, {tooLong, "B"}}));
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"there"}));
}

}  // namespace
}  // namespace dryfit::cli
