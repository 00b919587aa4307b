#include "cli/section_option.h"

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "cli/picture_names.h"
#include "scene/names.h"

namespace dryfit::cli {

namespace {

using scene::SectionPlace;
using scene::SectionWay;

constexpr const char* kOption = "--section";
constexpr const char* kAllowed =
    "plan=Z, height=X or across=Y with a length; \"through ID\" of a piece or joint; \"plan through ID\"";
const std::string kThrough = "through ";

std::string trimmed(const std::string& text) {
  const size_t first = text.find_first_not_of(" \t"), last = text.find_last_not_of(" \t");
  return first == std::string::npos ? "" : text.substr(first, last - first + 1);
}

std::optional<SectionWay> wayCalled(const std::string& name) {
  for (const auto& [known, way] : scene::sectionWays())
    if (known == name) return way;
  return {};
}

Diagnostic notASection(const std::string& text, const std::string& first) {
  std::vector<std::string> names{"through"};
  for (const auto& way : scene::sectionWays()) names.push_back(way.first);
  const auto nearest = first.empty() ? std::nullopt : nearestName(first, names);
  const bool meant = nearest && *nearest != first;
  return {Fault::BadInput,
          kOption,
          dryfit::quoted(text) + " is not a section",
          (meant ? "did you mean " + *nearest + "? " : std::string()) + kAllowed,
          {}};
}

/// One piece or joint.
std::optional<Diagnostic> setThrough(SectionPlace& place, const std::string& id, const CutWork& work) {
  if (id.find('+') != std::string::npos) {
    const Result<int> joint = jointNamed(kOption, id, work);
    if (!joint) return joint.faults().front();
    place.joint = joint.value();
    return {};
  }
  const Result<std::vector<int>> pieces = piecesNamed(kOption, id, work);
  if (!pieces) return pieces.faults().front();
  if (pieces.value().size() > 1)
    if (const auto joint = scene::jointCalled(work, id)) {
      place.joint = joint;
      return {};
    }
  const auto idAt = [&](size_t i) { return work.pieces[static_cast<size_t>(pieces.value()[i])].id; };
  if (const size_t count = pieces.value().size(); count > 1)
    return Diagnostic{Fault::BadInput,
                      kOption,
                      dryfit::quoted(id) + " is " + std::to_string(count) + " pieces",
                      "name one, as " + idAt(0) + " or " + idAt(1),
                      {}};
  place.piece = pieces.value().front();
  return {};
}

Result<SectionPlace> throughSomething(const std::string& text, const CutWork& work) {
  SectionPlace place;
  place.name = text;
  const size_t at = text.rfind(kThrough, 0) == 0 ? 0 : text.find(" " + kThrough) + 1;
  if (at > 0) {
    const std::string first = trimmed(text.substr(0, at));
    place.way = wayCalled(first);
    if (!place.way) return notASection(text, first);
  }
  if (auto fault = setThrough(place, trimmed(text.substr(at + kThrough.size())), work)) return *fault;
  return place;
}

Result<SectionPlace> atLength(const std::string& text, size_t equals, LengthUnit unit) {
  SectionPlace place;
  const std::string first = trimmed(text.substr(0, equals));
  place.way = wayCalled(first);
  if (!place.way) return notASection(text, first);
  const Result<double> at = lengthFromText(text.substr(equals + 1), unit);
  if (!at) {
    Diagnostic fault = at.faults().front();
    fault.subject = kOption;
    return fault;
  }
  place.atMm = at.value();
  place.name = first + " at " + lengthText(place.atMm, unit);
  return place;
}

}  // namespace

Result<SectionPlace> sectionPlace(const std::string& given, const CutWork& work) {
  const std::string text = trimmed(given);
  const size_t equals = text.find('=');
  if (equals != std::string::npos) return atLength(text, equals, work.lengths);
  if (text.rfind(kThrough, 0) == 0 || text.find(" " + kThrough) != std::string::npos)
    return throughSomething(text, work);
  return notASection(text, text.substr(0, text.find(' ')));
}

}  // namespace dryfit::cli
