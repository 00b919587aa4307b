// Writes the sample work's STEP file where its first argument says: another process for the test that bytes
// repeat.
#include <fstream>

#include "support/step_sample.h"

int main(int argumentCount, char** arguments) {
  if (argumentCount != 2) return 2;
  const dryfit::Result<std::string> bytes = dryfit::stepBytes(dryfit::tests::stepSample());
  if (!bytes) return 1;
  std::ofstream out(arguments[1], std::ios::binary);
  out << bytes.value();
  return out.flush() ? 0 : 3;
}
