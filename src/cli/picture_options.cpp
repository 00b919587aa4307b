#include "cli/picture_options.h"

#include <charconv>
#include <cmath>

#include "base/text.h"
#include "cli/percent.h"
#include "cli/picture_names.h"
#include "cli/section_option.h"

namespace dryfit::cli {

namespace {

using scene::View;

constexpr int kLeastSide = 16;
constexpr int kMostPasses = 256;
constexpr int kNoEnd = 1 << 30;

template <class T>
std::optional<T> numberIn(std::string_view text) {
  T value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(static_cast<double>(value)))
    return {};
  return value;
}

struct Range {
  double low = 0, high = 0;
  bool holds(double v) const { return v >= low && v <= high; }
};

/// Reads option after option and keeps what is wrong.
class Reader {
 public:
  explicit Reader(const CutWork& work) : work_(work) {}
  std::vector<Diagnostic> faults;

  void fault(const std::string& option, const std::string& message, const std::string& hint) {
    faults.push_back({Fault::BadInput, option, message, hint, {}});
  }

  scene::PictureSize size(const std::string& text) {
    const size_t cross = text.find('x');
    const auto width = numberIn<int>(text.substr(0, cross));
    const auto height = cross == std::string::npos ? std::nullopt : numberIn<int>(text.substr(cross + 1));
    if (width && height && *width >= kLeastSide && *height >= kLeastSide) return {*width, *height};
    fault("--size", dryfit::quoted(text) + " is not a size",
          "WIDTHxHEIGHT in pixels, each 16 or more, as 1920x1080");
    return {};
  }

  std::optional<View> view(const std::string& text) {
    std::vector<std::string> names;
    for (const View& known : scene::namedViews()) {
      if (known.name == text) return known;
      names.push_back(known.name);
    }
    const size_t comma = text.find(',');
    if (comma == std::string::npos) {
      const auto nearest = nearestName(text, names);
      fault("--view", "there is no view " + dryfit::quoted(text),
            (nearest ? "did you mean " + *nearest + "? " : std::string()) +
                "front, back, side, plan, corner or " + kAngles);
      return {};
    }
    const auto azimuth = numberIn<double>(text.substr(0, comma)),
               elevation = numberIn<double>(text.substr(comma + 1));
    if (azimuth && elevation && Range{-360, 360}.holds(*azimuth) && Range{-90, 90}.holds(*elevation))
      return fromAngles(*azimuth, *elevation);
    fault("--view", dryfit::quoted(text) + " is not two angles", kAngles);
    return {};
  }

  /// A count from 1.
  std::optional<int> count(const std::string& option, const std::string& text, int most,
                           const std::string& allowed) {
    const auto value = numberIn<int>(text);
    if (value && *value >= 1 && *value <= most) return value;
    fault(option, dryfit::quoted(text) + " is not " + allowed, "");
    return {};
  }

  std::optional<double> part(const std::string& option, const std::string& text, const std::string& allowed) {
    const auto value = numberIn<double>(text);
    if (value && Range{0, 1}.holds(*value)) return value;
    fault(option, dryfit::quoted(text) + " is not " + allowed, "");
    return {};
  }

  double share(const std::string& option, const std::string& text) {
    const Result<double> found = shareOf(option, text);
    return take(found) ? found.value() : 0;
  }

  template <class T>
  T word(const std::string& option, const std::string& text,
         const std::vector<std::pair<std::string, T>>& known) {
    std::vector<std::string> names;
    for (const auto& [name, value] : known) {
      if (name == text) return value;
      names.push_back(name);
    }
    fault(option, dryfit::quoted(text) + " is not " + anyOf(names), "");
    return known.front().second;
  }

  std::vector<int> pieces(const std::string& option, const std::vector<std::string>& words) {
    std::vector<int> out;
    for (const std::string& one : words) {
      const Result<std::vector<int>> found = piecesNamed(option, one, work_);
      if (take(found)) out.insert(out.end(), found.value().begin(), found.value().end());
    }
    return out;
  }

  std::vector<scene::SectionPlace> sections(const std::vector<std::string>& texts) {
    std::vector<scene::SectionPlace> out;
    for (const std::string& text : texts) {
      const auto place = sectionPlace(text, work_);
      if (take(place)) out.push_back(place.value());
    }
    if (texts.size() > scene::kMostSections)
      fault("--section", std::to_string(texts.size()) + " sections at once",
            "at most " + std::to_string(scene::kMostSections));
    return out;
  }

  std::optional<int> joint(const std::string& option, const std::string& id) {
    const Result<int> found = jointNamed(option, id, work_);
    return take(found) ? std::optional(found.value()) : std::nullopt;
  }

  void near(const std::vector<std::string>& words, PictureOptions& out) {
    for (const std::string& one : words)
      if (one.find('+') == std::string::npos) {
        const std::vector<int> found = pieces("--near", {one});
        out.near.insert(out.near.end(), found.begin(), found.end());
      } else if (const auto found = joint("--near", one)) {
        out.nearJoints.push_back(*found);
      }
  }

 private:
  static constexpr const char* kAngles =
      "AZ,EL in degrees: 0,0 looks at the front, 90,0 from the right, 0,90 from above (-360 to 360, -90 to "
      "90)";

  template <class T>
  bool take(const Result<T>& result) {
    if (!result) faults.insert(faults.end(), result.faults().begin(), result.faults().end());
    return result.ok();
  }

  /// Square to the work there is no depth to tell; all else is in perspective, as the corner.
  static View fromAngles(double azimuthDeg, double elevationDeg) {
    View out = scene::namedViews().back();
    out.azimuthDeg = azimuthDeg;
    out.elevationDeg = elevationDeg;
    out.name.clear();
    out.parallel = std::fmod(azimuthDeg, 90) == 0 && std::fmod(elevationDeg, 90) == 0;
    return out;
  }

  const CutWork& work_;
};

void readStep(Reader& reader, const PictureWords& words, PictureOptions& out) {
  if (!words.step.empty())
    if (const auto n = reader.count("--step", words.step, kNoEnd, "the number of a step, from 1"))
      out.step = *n - 1;
  if (!words.moving.empty()) {
    out.moving = reader.part("--moving", words.moving, "a part from 0 (outside) to 1 (home)");
    if (words.step.empty()) reader.fault("--moving", "nothing moves without a step", "give --step too");
  }
  out.spread = reader.share("--spread", words.spread);
  if (out.spread > 0 && out.moving && *out.moving < 1)
    reader.fault("--moving", "a spread shows what is home, nothing on its way",
                 "leave --moving or --spread out");
}

}  // namespace

Result<PictureOptions> pictureOptions(const PictureWords& words, const CutWork& work) {
  Reader reader(work);
  PictureOptions out;
  if (!words.size.empty()) out.size = reader.size(words.size);
  if (!words.view.empty()) out.view = reader.view(words.view);
  readStep(reader, words, out);
  out.sections = reader.sections(words.sections);
  out.seeThrough = reader.pieces("--see-through", words.seeThrough);
  if (!words.joint.empty()) out.joint = reader.joint("--joint", words.joint);
  reader.near(words.near, out);
  out.hidden = reader.pieces("--hide", words.hide);
  out.sizes = words.sizes;
  out.labels = words.labels;
  if (!words.ground.empty())
    out.ground = reader.word<scene::Ground>(
        "--ground", words.ground, {{"paper", scene::Ground::Paper}, {"slate", scene::Ground::Slate}});
  out.unit = words.unit.empty()
                 ? work.lengths
                 : reader.word<LengthUnit>("--unit", words.unit,
                                           {{"mm", LengthUnit::Millimetre}, {"in", LengthUnit::Inch}});
  if (!words.passes.empty())
    out.passes =
        reader.count("--passes", words.passes, kMostPasses, "a number of passes from 1 to 256").value_or(1);
  if (!reader.faults.empty()) return reader.faults;
  return out;
}

std::vector<OptionSpec> pictureOptionSpecs() {
  return {
      {"--size", "WxH", "pixels; 1920x1080 unless given", false, nullptr, &Arguments::size},
      {"--view", "VIEW",
       "front, back, side, plan, corner, or two angles AZ,EL in degrees: how far round to the right, how far "
       "up. Corner unless given, and from further round the more a whole set in its wall is spread; with one "
       "section, square on to it",
       false, nullptr, &Arguments::view},
      {"--labels", "", "names of the pieces", false, &Arguments::labels, nullptr},
      {"--sizes", "", "sizes of the pieces and joints that are seen", false, &Arguments::sizes, nullptr},
      {"--unit", "UNIT", "mm or in, of sizes; the file's unless given", false, nullptr, &Arguments::unit},
      {"--ground", "GROUND", "paper (unless given) or slate", false, nullptr, &Arguments::ground},
      {"--passes", "N",
       "light passes, 1 to 256; 16 unless given. 1 is quick and has no soft shade, 64 is smooth", false,
       nullptr, &Arguments::passes},
  };
}

std::vector<OptionSpec> onePictureOptionSpecs() {
  std::vector<OptionSpec> out = pictureOptionSpecs();
  const std::vector<OptionSpec> more = {
      {"--step", "N", "step N of the order of work (dryfit order): what stands by then, what goes in now",
       false, nullptr, &Arguments::step},
      {"--moving", "PART", "of a step: 0 (outside, unless given) to 1 (home)", false, nullptr,
       &Arguments::moving},
      {"--spread", "P",
       "stand the pieces off, P from 0 to 100 (%); a wall is seen through then, unless a section cuts it",
       false, nullptr, &Arguments::spread},
      {"--section", "PLACE",
       "takes away what stands before a plane: plan=Z (level), height=X (upright, front to back), across=Y "
       "(upright, along the front), with lengths in the file's unit or with their own (\"plan=30 1/2 in\"); "
       "or \"through ID\" of a piece (square to its grain) or joint, \"plan through ID\" and so on. Again "
       "for several",
       false, nullptr, nullptr, &Arguments::sections},
      {"--see-through", "ID", "a piece by id, all by the beginning of an id or a kind. Again for several",
       false, nullptr, nullptr, &Arguments::seeThrough},
      {"--joint", "ID",
       "only the pieces of one joint, as rail.top+stile.left, or by what it brings, as hinge.2", false,
       nullptr, &Arguments::joint},
      {"--near", "ID",
       "fill the picture with a piece, all of one beginning or kind, or where the pieces of a joint meet; "
       "the "
       "rest runs out of it. Again for several",
       false, nullptr, nullptr, &Arguments::near},
      {"--hide", "ID",
       "a piece by id, all by the beginning of an id or a kind (\"wedge\"). Again for several", false,
       nullptr, nullptr, &Arguments::hide},
  };
  out.insert(out.begin() + 2, more.begin(), more.end());
  return out;
}

}  // namespace dryfit::cli
