#include "order/spoken.h"

#include <gtest/gtest.h>

#include <array>

namespace dryfit::order {
namespace {

Assembly bodiesCalled(const std::vector<std::array<const char*, 2>>& idsAndNames) {
  Assembly assembly;
  for (const auto& [id, name] : idsAndNames) {
    Body body;
    body.id = id;
    body.name = name;
    assembly.bodies.push_back(body);
  }
  return assembly;
}

TEST(Spoken, ByTheNameWhereOneAloneHasIt) {
  const Assembly a = bodiesCalled({{"leaf.rail.top", "top rail"}, {"backing.1", "backing 1"}});
  EXPECT_EQ(called(a, 0), "the top rail");
  EXPECT_EQ(called(a, 1), "backing 1");
}

TEST(Spoken, ElseByWhatItBelongsTo) {
  const Assembly a = bodiesCalled({{"hinge.1.plate.jamb", "jamb's hinge plate"},
                                   {"hinge.2.plate.jamb", "jamb's hinge plate"},
                                   {"hinge.1.screw.1", "screw"},
                                   {"hinge.1.screw.2", "screw"}});
  EXPECT_EQ(called(a, 0), "the jamb's plate of hinge 1");
  EXPECT_EQ(called(a, 1), "the jamb's plate of hinge 2");
  EXPECT_EQ(called(a, 2), "hinge.1.screw.1");  // nothing tells it from the next but its id
}

TEST(Spoken, AlikeOnesTogether) {
  const Assembly a = bodiesCalled({{"b.1", "hanging backing 1"},
                                   {"b.2", "hanging backing 2"},
                                   {"b.3", "hanging backing 3"},
                                   {"b.5", "hanging backing 5"},
                                   {"wall", "wall"},
                                   {"hinge.1.screw.1", "screw"},
                                   {"hinge.1.screw.2", "screw"},
                                   {"hinge.2.screw.1", "screw"},
                                   {"hinge.2.screw.2", "screw"}});
  EXPECT_EQ(listed(namesOf(a, {0, 1, 2, 4})), "hanging backings 1 to 3 and the wall");
  EXPECT_EQ(listed(namesOf(a, {0, 1, 3})), "hanging backings 1, 2 and 5");
  EXPECT_EQ(listed(namesOf(a, {0})), "hanging backing 1");
  EXPECT_EQ(listed(namesOf(a, {5, 6, 7})), "the 2 screws of hinge 1 and hinge.2.screw.1");
}

}  // namespace
}  // namespace dryfit::order
