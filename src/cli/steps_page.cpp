#include "cli/steps_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "cli/report.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

std::string part(const std::string& head, const std::string& text) {
  return text.empty() ? "" : "**" + head + "** " + markdownText(text) + "\n\n";
}

}  // namespace

std::string markdownText(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (std::string_view("\\`*_{}[]<>#|&~").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string stepPictureName(size_t step, size_t steps) {
  const size_t digits = std::max<size_t>(2, std::to_string(steps).size());
  return fmt::format("step-{:0{}}.png", step, digits);
}

std::string stepsPage(const Assembly& assembly, const OrderOfWork& order) {
  std::string out = "# " + markdownText(assembly.title) + ": order of work\n\n" +
                    counted(order.steps.size(), "step", "steps") + ".\n\n";
  std::string heading;
  for (size_t i = 0; i < order.steps.size(); ++i) {
    const Step& step = order.steps[i];
    const std::string here = stageHeading(assembly, step);
    if (here != heading) out += "## " + markdownText(here) + "\n\n";
    heading = here;
    const std::string number = std::to_string(i + 1);
    out += "### Step " + number + "\n\n" + markdownText(step.text) + "\n\n";
    out += "![Step " + number + ": " + markdownText(step.text) + "](" +
           stepPictureName(i + 1, order.steps.size()) + ")\n\n";
    out += part("Take care.", step.caution) + part("Why now.", step.why);
  }
  out.pop_back();  // one line end at the end
  return out;
}

}  // namespace dryfit::cli
