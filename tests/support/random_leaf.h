// Door set files nobody has drawn: a leaf with random sizes, tenons, panels and mouldings.
#pragma once

#include <random>
#include <string>

namespace dryfit::tests {

struct Chance {
  std::mt19937 random;
  int whole(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random); }
  bool oneIn(int n) { return whole(1, n) == 1; }
};

/// How lengths are written: bare millimetres, or inches as text, to every digit.
enum class Written { Millimetres, Inches };

/// Everything of [leaf] after its hand, the same leaf in either unit from the same chance.
std::string randomLeaf(Chance& chance, Written written = Written::Millimetres);

/// The file: title, hand and body.
std::string doorSetOf(const std::string& body, const std::string& hand = "left");

/// How many leaves a test takes: `few`, or what DRYFIT_LEAVES in the environment says.
int leavesAsked(int few);

}  // namespace dryfit::tests
