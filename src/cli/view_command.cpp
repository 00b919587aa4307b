#include <cstdlib>

#include "cli/command.h"
#include "cli/load_work.h"
#include "cli/plan_work.h"
#include "cli/write_file.h"
#include "ui/window.h"

namespace dryfit::cli {

namespace {

Result<std::shared_ptr<const ui::Model>> load(const std::string& path) {
  auto work = loadWork(path);
  if (!work) return work.faults();
  auto model = std::make_shared<ui::Model>();
  model->path = path;
  model->work = std::move(work).value();
  auto order = planWork(model->work);
  if (!order) return order.faults();
  model->order = std::move(order).value();
  model->stages = ui::stagesOf(model->order);
  return std::shared_ptr<const ui::Model>(std::move(model));
}

Outcome run(const Arguments& arguments) {
  if (!arguments.file.empty())
    if (const auto text = readFile(arguments.file); !text) return failed(text.faults());
  const char* record = std::getenv("DRYFIT_RECORD");
  if (auto fault = ui::runWindow({arguments.file, load, record ? record : ""})) return failed({*fault});
  return {};
}

}  // namespace

const Command& viewCommand() {
  static const Command command = {"view",
                                  {"open a window on the work",
                                   {"Opens a window in which the order of work is followed step by step, the "
                                    "pieces are spread, cut by a section "
                                    "and seen through. Without a file it opens empty: drop one on it. A file "
                                    "that is changed while it is open is "
                                    "taken in, and the place in the order is kept."},
                                   {"Nothing; it ends when the window is closed."},
                                   "never: what is wrong with a work is told in the window",
                                   "$ dryfit view assets/doorsets/oar-store.toml\n"},
                                  {},
                                  run,
                                  "FILE",
                                  false};
  return command;
}

}  // namespace dryfit::cli
