#include "unit/hand_made_work.h"

#include <numbers>

namespace dryfit {

namespace {

constexpr double kQuarter = std::numbers::pi / 2;

FlatFace boxSide(const char* role, Vec3 normal, double offset, std::vector<int> corners) {
  return {role, normal, offset, {std::move(corners)}, {}};
}

PieceState state(const char* name, Shell shell, Blank blank, std::uint64_t hash) {
  auto cut = std::make_shared<CutRecipe>();
  cut->recipe.blank = blank;
  cut->hash = hash;
  cut->shell = std::move(shell);
  cut->mesh = std::make_shared<PlanningMesh>();
  return {name, cut};
}

Piece piece(const char* id, const char* name, int unit, std::vector<PieceState> states) {
  Piece out;
  out.id = id;
  out.name = name;
  out.unit = unit;
  out.material = "beech";
  out.densityKgM3 = 500;
  out.states = std::move(states);
  return out;
}

void addBody(Assembly& assembly, const Piece& piece) {
  Body body;
  body.id = piece.id;
  body.unit = piece.unit;
  body.formed = piece.formed;
  body.worldFromPiece = piece.worldFromPiece;
  for (const PieceState& s : piece.states) body.states.push_back({s.name, s.cut->mesh});
  assembly.bodies.push_back(body);
}

Step step(const char* event, std::vector<int> bodies, std::vector<Move> moves) {
  Step out;
  out.stage = "Framing";
  out.event = event;
  out.bodies = std::move(bodies);
  out.moves = std::move(moves);
  out.text = std::string("Do the ") + event + ".";
  out.why = "It is next.";
  return out;
}

}  // namespace

Shell boxShell(double lengthMm, double widthMm, double thicknessMm) {
  const double x = lengthMm / 2, y = widthMm / 2, z = thicknessMm / 2;
  Shell shell;
  // Corner i: bit 0 is +x, bit 1 is +y, bit 2 is +z.
  for (int i = 0; i < 8; ++i) shell.vertices.push_back({i & 1 ? x : -x, i & 2 ? y : -y, i & 4 ? z : -z});
  shell.flats = {
      boxSide("end.low", {-1, 0, 0}, x, {0, 4, 6, 2}),  boxSide("end.high", {1, 0, 0}, x, {1, 3, 7, 5}),
      boxSide("edge.low", {0, -1, 0}, y, {0, 1, 5, 4}), boxSide("edge.high", {0, 1, 0}, y, {2, 6, 7, 3}),
      boxSide("back", {0, 0, -1}, z, {0, 2, 3, 1}),     boxSide("face", {0, 0, 1}, z, {4, 5, 7, 6})};
  return shell;
}

CutWork handMadeWork() {
  CutWork work;
  work.title = "Post and bar";
  work.pieces = {
      piece("post", "post", 0,
            {state("sawn", boxShell(410, 95, 44), BoxBlank{410, 95, 44}, 0x1),
             state("horns off", boxShell(400, 95, 44), BoxBlank{410, 95, 44}, 0xfedcba9876543210)}),
      piece("bar", "bar", 0, {state("whole", boxShell(300, 60, 20), BoxBlank{300, 60, 20}, 0x2)}),
      piece("peg", "peg", 1, {state("whole", boxShell(100, 10, 10), RodBlank{100, 10}, 0x3)}),
      piece("floor", "floor", 0, {state("whole", boxShell(900, 900, 50), BoxBlank{900, 900, 50}, 0x4)})};
  work.pieces[1].worldFromPiece = translation({150, -0.0, 1.0 / 3}) * rotation({0, 1, 0}, {}, kQuarter);
  work.pieces[3].formed = true;
  work.assembly.title = work.title;
  work.assembly.units = {{"whole", -1, {}}, {"pegs", 0, translation({0, 0, 900})}};
  work.assembly.stages = {{"Framing", 0, {}}, {"Pegging", 1, {}}};
  for (const Piece& p : work.pieces) addBody(work.assembly, p);
  return work;
}

FitReport handMadeFit() {
  FitReport report;
  FitStage stage;
  stage.at = "whole";
  stage.overlaps = {{0, 1, 12.5, {1, 2, 3}}};
  stage.contacts = {{0, 1, "edge.high", "end.low", 1200, 1200, "bar+post", {}},
                    {1, 3, "back", "face", 3.25, 0, "", {}}};
  stage.gaps = {{"bar+post", "clear of the bottom", 0, 1, "a", "b", 2, true, 1.998, {}},
                {"bar+post", "faces flush", 0, 1, "face", "face", 0, false, 0, {}}};
  report.stages = {stage};
  report.faults = {
      {"overlap", 0, 1, "", "", 12.5, {1, 2, 3}, "post and bar share 12.5 mm3."},
      {"unexplained-contact", 1, 3, "back", "face", 3.25, {0, 0, 0}, "bar touches floor; no joint says so."}};
  const SwingPlace near{1, 3, "edge.high", "face", 0.44, 0.06, {1, 2, 3}};
  report.swings = {{"bar", 1.5, near, {}, {}, 704},
                   {"gate", 1.5, {}, SwingStrike{near, 0.37, SwingBevel{0.4, "edge.high", 0.03}}, near, 500}};
  return report;
}

std::vector<BlockRow> handMadeBlocks() {
  Blocking stopped;
  stopped.gapMm = 0.1;
  stopped.freeAfterMm = 95;
  stopped.roleA = "end.low";
  stopped.roleB = "edge.high";
  Blocking never;
  never.freeAfterMm = 30;
  const double s = std::sqrt(0.5);
  return {{1, 0, {-1, -0.0, 0}, stopped}, {1, 0, {s, 0, s}, never}};
}

OrderOfWork handMadeOrder() {
  const Leg in{Leg::Kind::Straight, {-1, 0, 0}, 95, {}, 0};
  const Leg swing{Leg::Kind::Turn, {0, 0, 1}, 0, {10, 20, 30}, kQuarter};
  const Leg screw{Leg::Kind::Screw, {0, -1, 0}, 40, {10, 20, 30}, 20 * kQuarter};
  OrderOfWork order;
  order.steps = {step("fit", {0}, {}),
                 step("fit", {1}, {{{1}, -1, {swing, in}}}),
                 step("fit", {2}, {{{}, 1, {in}}}),
                 step("fasten", {2}, {{{2}, -1, {screw}}}),
                 step("glue", {0, 1}, {}),
                 step("trim", {0}, {}),
                 step("form", {3}, {})};
  order.steps[2].unit = 0;
  order.steps[2].stage = "Pegging";
  order.steps[3].caution = "Mind the grain.";
  order.steps[4].bonds = {{"glue", {0, 1}}};
  order.steps[4].joints = {"bar+post"};
  order.steps[5].changes = {{0, 0}};
  return order;
}

}  // namespace dryfit
