#include "cli/exit_status.h"

namespace dryfit::cli {

int exitStatus(Fault fault) {
  switch (fault) {
    case Fault::WorkFault:
      return 1;
    case Fault::BadInput:
      return 2;
    case Fault::SystemFault:
      return 3;
  }
  return 3;
}

}  // namespace dryfit::cli
