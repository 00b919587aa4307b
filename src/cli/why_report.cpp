#include "cli/why_report.h"

#include <fmt/format.h>

#include "base/text.h"
#include "cli/help.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

constexpr int kIndent = 5;

/// "  1. " before the first of the lines.
std::string numbered(size_t n, const std::string& paragraph) {
  std::string text = wrapped(paragraph, kIndent);
  const std::string number = fmt::format("{:3}. ", n);
  text.replace(0, std::min<size_t>(kIndent, text.size()), number);
  return text;
}

std::string stepLine(const OrderOfWork& work, size_t place) {
  return numbered(place + 1, work.steps.at(place).text);
}

/// The steps of the two in the order in which they come.
std::string orderLines(const WhyAnswer& answer, const WhyOrder& order, const std::string& how) {
  const bool asAsked = order.first < order.then;
  const std::string& who = asAsked ? answer.first : answer.then;
  return "\n" +
         wrapped("With " + who + " first" + how + ", of " +
                     counted(order.work.steps.size(), "step", "steps") + ":",
                 0) +
         stepLine(order.work, std::min(order.first, order.then)) +
         stepLine(order.work, std::max(order.first, order.then));
}

Diagnostic sameThing(const std::string& word) {
  return {Fault::BadInput,
          "--why",
          "both names mean one and the same thing, " + dryfit::quoted(word),
          "name two pieces or units",
          {}};
}

}  // namespace

OptionSpec whyOption() {
  OptionSpec option;
  option.names = "--why";
  option.value = "A B";
  option.about =
      "tell why A goes in before B, or B before A, or that either may; A and B are ids or names of "
      "pieces, or names of units";
  option.texts = &Arguments::why;
  option.atOnce = 2;
  return option;
}

std::string whyText(const WhyAnswer& answer) {
  std::string out = wrapped(answer.text, 0);
  if (!answer.chain.empty()) out += "\n";
  for (size_t i = 0; i < answer.chain.size(); ++i)
    out +=
        answer.chain.size() == 1 ? wrapped(answer.chain[i].text, 0) : numbered(i + 1, answer.chain[i].text);
  for (const std::string& note : answer.notes) out += "\n" + wrapped(note, 0);
  for (const WhyOrder& order : answer.orders) {
    const bool byShape = answer.kind == WhyAnswer::Kind::ByRule && &order == &answer.orders.back();
    out += orderLines(answer, order, byShape ? ", by shape alone" : "");
  }
  for (const WhyOrder& order : answer.elsewhere) out += orderLines(answer, order, ", by shape alone");
  return out;
}

namespace {

/// What two words mean, and the answer to them; no answer where there are faults.
struct Asked {
  std::vector<Diagnostic> faults;
  std::optional<WhyAnswer> answer;
  bool noOrder() const { return answer && answer->kind == WhyAnswer::Kind::NoOrder; }
};

Asked ask(const Assembly& assembly, const std::vector<std::string>& words) {
  Asked asked;
  std::vector<WorkThing> things;
  for (const std::string& word : words) {
    const Result<WorkThing> thing = thingNamed(assembly, "--why", word);
    if (thing)
      things.push_back(thing.value());
    else
      asked.faults.insert(asked.faults.end(), thing.faults().begin(), thing.faults().end());
  }
  if (!asked.faults.empty()) return asked;
  if (things.at(0) == things.at(1))
    asked.faults = {sameThing(words[1])};
  else
    asked.answer = why(assembly, things[0], things[1]);
  return asked;
}

}  // namespace

Outcome whyOutcome(const Assembly& given, const Arguments& arguments) {
  Asked asked = ask(given, arguments.why);
  std::optional<Assembly> madeUp;
  // A name that nothing has may be that of a unit made up first.
  if (asked.noOrder() || !asked.faults.empty()) madeUp = planInHands(given).madeUp;
  if (madeUp) asked = ask(*madeUp, arguments.why);
  if (!asked.faults.empty()) return failed(std::move(asked.faults));
  const WhyAnswer& answer = *asked.answer;
  const int status = asked.noOrder() ? 1 : 0;
  return {
      arguments.json ? printed(whyJson(madeUp ? *madeUp : given, arguments.why, answer)) : whyText(answer),
      status,
      {}};
}

}  // namespace dryfit::cli
