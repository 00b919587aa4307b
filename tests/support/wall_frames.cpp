#include "support/wall_frames.h"

#include <fmt/format.h>

#include <algorithm>

#include "fit/fit.h"
#include "solid/solid.h"

namespace dryfit::tests {

namespace {

std::string member(const std::string& id, double width, double thickness, double length, Vec3 origin,
                   const std::string& ways, const std::string& more) {
  return fmt::format(
      "[[member]]\nid = \"{}\"\nsection = [{}, {}]\nlength = {}\norigin = [{}, {}, {}]\n{}\n{}", id, width,
      thickness, length, origin.x, origin.y, origin.z, ways, more);
}

}  // namespace

std::string groundsFrame(const GroundsFrame& f) {
  const std::string face = f.backFace ? "face = \"+Y\"" : "face = \"-Y\"";
  const std::string up = "along = \"+Z\"\nwidth_along = \"+X\"\n" + face,
                    level = "along = \"+X\"\nwidth_along = \"+Z\"\n" + face;
  const double y = f.thickness / 2, middle = f.opening / 2 + f.width / 2, top = f.height + f.width;
  auto bevel = [&](const char* edge, const char* worked) {
    return f.splay > 0 ? fmt::format("bevel = {{ edge = \"{}\", back = {}{} }}\n", edge, f.splay, worked)
                       : "";
  };
  const double low = f.feet ? f.horns : 0;
  std::string slope;
  if (f.splay > 0 && f.horns > 0) {
    slope = fmt::format("{{ end = \"high\", back = {} }}", f.splay);
    if (f.feet) slope += fmt::format(", {{ end = \"low\", back = {} }}", f.splay);
    slope = "horn_slope = [" + slope + "]\n";
  }
  std::string text = "title = \"Grounds\"\n";
  for (const char* side : {"left", "right"}) {
    const bool left = std::string(side) == "left";
    text += member(std::string("ground.jamb.") + side, f.width, f.thickness, top + f.horns + low,
                   {left ? -middle : middle, y, (top + f.horns - low) / 2}, up,
                   fmt::format("horns = [{}, {}]\n", low, f.horns) + slope + bevel(left ? "-X" : "+X", ""));
  }
  std::vector<std::pair<std::string, double>> rails{{"ground.head", f.height + f.width / 2}};
  if (f.feet) rails.push_back({"ground.foot", f.width / 2});
  for (const auto& [id, z] : rails) {
    std::string rail = member(id, f.width, f.thickness, 0, {0, y, z}, level,
                              bevel(id == "ground.head" ? "+Z" : "-Z", ", worked = \"first\""));
    rail.replace(rail.find("length = 0"), 10, fmt::format("shoulder = {}", f.opening));
    text += rail;
    for (const char* side : {"left", "right"})
      text += fmt::format(
          "[[joint]]\nkind = \"mortise-and-tenon\"\ntenon = \"{}\"\nmortise = \"ground.jamb.{}\"\ntenons = "
          "1\n"
          "tenon_width = {}\ntenon_thickness = {}\nhaunch_projection = {}\nproud = {}\n",
          id, side, f.width / 2, f.tenon, f.haunch, f.proud);
  }
  // The horns go when the frame is fixed, not on its own bench.
  text +=
      "[[unit]]\nname = \"wall\"\npieces = [\"frame\"]\n[[unit]]\nname = \"frame\"\nkeep_horns = true\n"
      "pieces = [\"ground.jamb.left\", \"ground.jamb.right\", \"ground.head\"" +
      std::string(f.feet ? ", \"ground.foot\"" : "") + "]\n";
  return text;
}

std::string liningFrame(const LiningFrame& f) {
  auto one = [&](const char* edge) {
    return fmt::format("{{ edge = \"{}\", depth = {}, width = {} }}", edge, f.rebateDepth, f.rebateWidth);
  };
  std::string rebate;
  if (f.rebates == "single") rebate = "rebate = " + one("-Y") + "\n";
  if (f.rebates == "double") rebate = "rebate = [" + one("-Y") + ", " + one("+Y") + "]\n";
  const bool housed = f.form == "housed", trenched = f.form == "trenched";
  const double top = f.height + (housed ? f.head + f.horns : f.depth);
  const double reach = rebate.empty() ? f.depth : std::max(f.depth, f.rebateDepth);
  const double over = housed ? reach : f.jamb + (trenched ? f.horns : 0);
  const std::string across = "width_along = \"+Y\"\n";
  std::vector<std::string> members;
  for (const char* side : {"left", "right"}) {
    const bool left = std::string(side) == "left";
    const double x = (f.passage + f.jamb) / 2;
    members.push_back(member(std::string("lining.jamb.") + side, f.width, f.jamb, top,
                             {left ? -x : x, f.width / 2, top / 2},
                             "along = \"+Z\"\n" + across + (left ? "face = \"+X\"" : "face = \"-X\""),
                             rebate + (housed ? fmt::format("horns = [0, {}]\n", f.horns) : "")));
  }
  const std::string head =
      member("lining.head", f.width, f.head, f.passage + 2 * over, {0, f.width / 2, f.height + f.head / 2},
             "along = \"+X\"\n" + across + "face = \"-Z\"",
             rebate + (trenched ? fmt::format("horns = {}\n", f.horns) : ""));
  members.insert(f.headFirst ? members.begin() : members.end(), head);
  std::string text = "title = \"Lining\"\n";
  for (const std::string& m : members) text += m;
  for (const char* side : {"left", "right"})
    text += fmt::format(
        "[[joint]]\nkind = \"lining-head\"\nhead = \"lining.head\"\njamb = \"lining.jamb.{}\"\nform = "
        "\"{}\"\n"
        "depth = {}\n{}",
        side, f.form, f.depth, f.more);
  return text;
}

std::vector<int> statesAt(const Assembly& assembly, int k) {
  std::vector<int> states;
  for (const Body& b : assembly.bodies) states.push_back(std::min(k, static_cast<int>(b.states.size()) - 1));
  return states;
}

int mostStates(const Assembly& assembly) {
  size_t most = 0;
  for (const Body& b : assembly.bodies) most = std::max(most, b.states.size());
  return static_cast<int>(most);
}

std::vector<std::string> faultsInEveryState(const CutWork& work, bool kernelToo) {
  std::vector<std::string> told;
  for (const FitFault& f : fit(work.assembly).faults) told.push_back("at the end: " + f.text);
  auto faultsOf = [](const Assembly& assembly, const std::vector<int>& states) {
    std::vector<FitFault> faults;
    fitBodies(assembly, states, "test", faults);
    return faults;
  };
  for (int k = 0; k < mostStates(work.assembly); ++k) {
    const std::vector<int> states = statesAt(work.assembly, k);
    for (const FitFault& f : faultsOf(work.assembly, states))
      told.push_back(fmt::format("state {}: {}", k, f.text));
    for (size_t i = 0; i < work.pieces.size(); ++i)
      for (int axis = 0; axis < 3; ++axis)
        for (double by : {0.05, -0.05}) {
          Assembly moved = work.assembly;
          moved.bodies[i].worldFromPiece.origin[axis] += by;
          if (faultsOf(moved, states).empty())
            told.push_back(fmt::format("state {}: {} moved {} along axis {} went unseen", k,
                                       work.pieces[i].id, by, axis));
        }
    for (size_t i = 0; kernelToo && i < work.pieces.size(); ++i)
      for (size_t j = i + 1; j < work.pieces.size(); ++j) {
        const Piece &a = work.pieces[i], &b = work.pieces[j];
        const auto solidA = solidFromShell(a.states[static_cast<size_t>(states[i])].cut->shell),
                   solidB = solidFromShell(b.states[static_cast<size_t>(states[j])].cut->shell);
        const auto shared = commonVolume(solidA.value(), a.worldFromPiece, solidB.value(), b.worldFromPiece);
        // Touching faces: the kernel's rounding is under 0.001 mm3.
        if (!shared || shared.value() > 1e-3)
          told.push_back(fmt::format("state {}: the kernel finds {} and {} to share", k, a.id, b.id));
      }
  }
  return told;
}

}  // namespace dryfit::tests
