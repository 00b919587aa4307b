#include "cli/prove.h"

#include <fmt/format.h>

#include <charconv>

#include "base/text.h"
#include "base/tolerance.h"
#include "cli/help.h"
#include "cli/table.h"

namespace dryfit::cli {

namespace {

constexpr int kMostSamples = 1000;
constexpr size_t kMostTold = 20;

std::optional<int> wholeNumber(std::string_view text, int least, int most) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < least || value > most) return {};
  return value;
}

Diagnostic badOption(const std::string& option, const std::string& given, const std::string& allowed) {
  return {Fault::BadInput, option, dryfit::quoted(given) + " is not understood", "allowed: " + allowed, {}};
}

Result<ProofOptions> optionsOf(const Arguments& arguments, int steps) {
  ProofOptions options;
  options.byShape = arguments.byShape;
  if (!arguments.samples.empty()) {
    const auto samples = wholeNumber(arguments.samples, 1, kMostSamples);
    if (!samples) return badOption("--samples", arguments.samples, fmt::format("1 to {}", kMostSamples));
    options.samples = *samples;
  }
  if (!arguments.steps.empty()) {
    const std::string_view text = arguments.steps;
    const size_t dash = text.find('-');
    const auto first = wholeNumber(text.substr(0, dash), 1, steps);
    const auto last = dash == text.npos ? first : wholeNumber(text.substr(dash + 1), 1, steps);
    if (!first || !last || *first > *last)
      return badOption("--steps", arguments.steps,
                       fmt::format("one step or A-B, from 1 to {}, the first not after the last", steps));
    options.firstStep = *first;
    options.lastStep = *last;
  }
  return options;
}

const char* nameOf(ProofFault::Kind kind) {
  using Kind = ProofFault::Kind;
  switch (kind) {
    case Kind::Passes:
      return "passes";
    case Kind::Overlaps:
      return "overlaps";
    case Kind::Held:
      return "held";
    case Kind::Grows:
      return "grows";
    case Kind::Apart:
      return "apart";
    case Kind::Torn:
      return "torn";
    case Kind::Floats:
      return "floats";
    case Kind::Missing:
      return "missing";
    case Kind::OutOfTurn:
      return "out of turn";
  }
  return "";
}

}  // namespace

Json proofJson(const Assembly& assembly, const Proof& proof) {
  Json faults = Json::array();
  for (const ProofFault& f : proof.faults) {
    Json pieces = Json::array();
    for (int b : f.bodies) pieces.push_back(assembly.bodies.at(static_cast<size_t>(b)).id);
    faults.push_back({{"kind", nameOf(f.kind)},
                      {"step", f.step == 0 ? Json() : Json(f.step)},
                      {"pieces", std::move(pieces)},
                      {"text", f.text}});
  }
  return {{"schema", "dryfit/proof/1"},
          {"holds", proof.holds()},
          {"steps_played", proof.stepsPlayed},
          {"steps_judged", proof.stepsJudged},
          {"places", proof.places},
          {"pairs", proof.pairs},
          {"most_shared_mm3", number(proof.mostMm3)},
          {"faults", std::move(faults)}};
}

std::string proofText(const CutWork& work, const OrderOfWork& order, const Proof& proof) {
  std::string out = work.title + ": proof of the order of work\n\n";
  size_t told = 0;
  for (const ProofFault& f : proof.faults) {
    if (told++ == kMostTold) {
      out += fmt::format("... and {} more\n", proof.faults.size() - kMostTold);
      break;
    }
    const std::string where = f.step == 0 ? "In the end: "
                                          : fmt::format("Step {} ({}): ", f.step,
                                                        order.steps[static_cast<size_t>(f.step - 1)].event);
    out += wrapped(where + f.text + ".", 5);
  }
  if (told > 0) out += "\n";
  out += fmt::format(
      "{} played, {} of them judged with solids: {} on the ways, {} of solids compared.\n"
      "At rest no two that touch share more than {:.1g} mm3 (up to {:.0g} is rounding).\n",
      counted(static_cast<size_t>(proof.stepsPlayed), "step", "steps"), proof.stepsJudged,
      counted(static_cast<size_t>(proof.places), "place", "places"),
      counted(static_cast<size_t>(proof.pairs), "pair", "pairs"), proof.mostMm3, tolerance::kOverlapVolume);
  if (!proof.holds()) return out + "\nproved: no, " + counted(proof.faults.size(), "fault", "faults") + "\n";
  return out +
         "\nproved: yes, nothing passes through anything, every piece is held, every bond touches, all ends "
         "at "
         "home\n";
}

std::optional<Diagnostic> proofWordsFault(const Arguments& arguments) {
  if (arguments.prove || (arguments.samples.empty() && arguments.steps.empty())) return {};
  return Diagnostic{Fault::BadInput,
                    arguments.samples.empty() ? "--steps" : "--samples",
                    "says how an order is proved",
                    "give --prove too",
                    {}};
}

Outcome proved(const CutWork& work, const OrderOfWork& order, const Arguments& arguments) {
  const auto options = optionsOf(arguments, static_cast<int>(order.steps.size()));
  if (!options) return failed(options.faults());
  const auto proof = proveOrder(work, order, options.value());
  if (!proof) return failed(proof.faults());
  return {arguments.json ? printed(proofJson(work.assembly, proof.value()))
                         : proofText(work, order, proof.value()),
          proof.value().holds() ? 0 : 1,
          {}};
}

}  // namespace dryfit::cli
