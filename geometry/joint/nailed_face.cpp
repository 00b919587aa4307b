// Kind "nailed-face": a piece planted with a flat side on another one's flat side, held by nails or pins: a
// stop, a batten, a moulding with its back edge against the framing.
//
// Which sides meet follows from where the two stand. The nails run square to the meeting plane, from the far
// side of the piece through it into the other one, in a row along the middle of what they share, heads
// punched below the surface. They bore what they enter. Until they are in the piece is free to leave; then it
// is held.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/tolerance.h"
#include "joint/flat_contact.h"
#include "joint/kinds.h"
#include "joint/tenon_joint.h"
#include "joint/unit_work.h"
#include "settingout/dowel_rules.h"
#include "settingout/moulding_profiles.h"

namespace dryfit {

namespace {

constexpr double kTiny = 1e-6;
constexpr double kWoodBeside = 1;    // least beside a nail: nearer the edge splits
constexpr double kLeastHold = 5;     // least of a nail in what it holds to
constexpr double kSteelKgM3 = 7850;  // EN 1991-1-1, table A.4, from memory: 77 to 78.5 kN/m3
constexpr double kPitch = 300;       // most between nails: common practice

Result<Announcement> announce(const JointContext& context) {
  if (context.mark.word("piece") == context.mark.word("to"))
    return jointFault(context, "to",
                      "\"" + context.mark.word("to").value_or("") + "\" cannot be nailed to itself",
                      "name two members");
  return Announcement{};
}

/// The side of `to` that `piece` lies against.
Result<FlatContact> findContact(const JointContext& context) {
  auto found = flatContact(context, "piece", "to");
  if (found && found.value().pieceSide.axis == 0)
    return jointFault(context, "piece",
                      found.value().piece.id() + " stands on " + found.value().to.id() + " with its end",
                      "a nail along the grain does not hold: turn it, or use another joint");
  return found;
}

struct Layout {
  FlatContact contact;
  bool pieces = false;  ///< nails are pieces of the work, not only listed
  double diameter = 2.5, length = 0, punch = 2, pitch = 0;
  double through = 0;        ///< wood of the piece that they pass, mm
  std::vector<Vec3> places;  ///< on the meeting plane, in the frame of `to`
  std::string joint;

  double inPiece() const { return through - punch; }
  double hold() const { return length - inPiece(); }
};

std::string figure(double v) {
  return fmt::format("{:.4g}", v);
}

double sizeAlong(const MemberView& m, int axis) {
  return axis == 0 ? m.length() : axis == 1 ? m.width() : m.thickness();
}

/// Wood of the piece where the nails pass, from their heads to the meeting plane; nothing where a section has
/// a valley there, so that they would pass through air.
std::optional<double> woodPassed(const FlatContact& c, double diameter) {
  const auto& run = c.piece.member->profile;
  if (!run) return sizeAlong(c.piece, c.pieceSide.axis);
  const Vec3 middle = c.whereInPiece().centre();
  const double r = diameter / 2;
  if (c.pieceSide.axis == 1) {
    const double up = middle.z + c.piece.thickness() / 2;
    if (!isOneDeepBetween(run->path, up - r, up + r)) return std::nullopt;
    return depthBetween(run->path, up - r, up + r);
  }
  const double across = c.piece.width() / 2 + (run->backAtHighEdge ? -middle.y : middle.y);
  if (!isOneHighBetween(run->path, across - r, across + r)) return std::nullopt;
  return heightBetween(run->path, across - r, across + r);
}

Result<bool> sizeNails(const JointContext& context, Layout& out) {
  const JointMark& mark = context.mark;
  const FlatContact& c = out.contact;
  out.pieces = mark.word("nails").value_or("listed") == "pieces";
  out.diameter = mark.number("diameter").value_or(nailDiameterFor(woodPassed(c, 0).value_or(0)));
  const auto passed = woodPassed(c, out.diameter);
  if (!passed)
    return jointFault(context, "piece",
                      "the section of " + c.piece.id() + " has a valley where the nails would pass",
                      "another section, or nails through a part without one");
  out.through = *passed;
  out.punch = mark.number("punch").value_or(2);
  if (out.through < 1 + kTiny)
    return jointFault(context, "piece",
                      fmt::format("{} is only {} thick where the nails pass: they would hold nothing",
                                  c.piece.id(), figure(out.through)),
                      "thicker stuff, or another section");
  if (out.punch > out.through - 1)
    return jointFault(
        context, "punch",
        fmt::format("nails punched {} below the surface of {}, {} thick there, would hold nothing",
                    figure(out.punch), c.piece.id(), figure(out.through)),
        fmt::format("at most {}", figure(out.through - 1)));
  const double least = out.inPiece() + kLeastHold, most = out.inPiece() + sizeAlong(c.to, c.toSide.axis) - 1;
  const double whole = std::min(nailLengthFor(out.through), std::floor(most + kTiny));
  out.length = mark.number("length").value_or(whole < least ? std::min(least, most) : whole);
  if (out.length < least - kTiny)
    return jointFault(context, "length",
                      fmt::format("a nail of {} reaches {} into {}", figure(out.length),
                                  figure(std::max(out.hold(), 0.0)), c.to.id()),
                      fmt::format("at least {}", figure(least)));
  if (out.length > most + kTiny)
    return jointFault(context, "length",
                      fmt::format("a nail of {} would come out of {}", figure(out.length), c.to.id()),
                      fmt::format("at most {}", figure(most)));
  return true;
}

/// True when a groove of `to` runs where a nail would enter.
bool inGroove(const FlatContact& c, Vec3 at, double radius) {
  const Vec3 reach{radius, radius, radius};
  return grooveIn(c.to, c.toSide, Box3{at - reach, at + reach}) > 0;
}

/// A mitred end of the piece.
struct MitredEnd {
  Towards end, inner;  ///< the edge that is shorter by the piece's width
};

std::vector<MitredEnd> mitresOf(const MemberView& m) {
  std::vector<MitredEnd> ends;
  for (Towards end : {Towards::Low, Towards::High})
    if (const auto inner = m.laid->endSlants[end == Towards::Low ? 0 : 1]) ends.push_back({end, *inner});
  return ends;
}

/// How far the piece goes on beyond the meeting plane at one of its ends.
double beyondContact(const FlatContact& c, Towards end) {
  const Box3 where = c.whereInPiece();
  const double half = c.piece.length() / 2;
  return end == Towards::High ? half - where.high.x : half + where.low.x;
}

Result<bool> placeNails(const JointContext& context, Layout& out) {
  const JointMark& mark = context.mark;
  const FlatContact& c = out.contact;
  const int u = c.axisAlong(0), v = c.axisAlong(1);
  const Vec3 size = c.where.size();
  const int along = size[u] >= size[v] ? u : v, across = along == u ? v : u;
  // A nail must not come out at a mitre, which takes as much of the length as the piece is wide.
  const double clear = c.piece.width() + out.diameter / 2 + kWoodBeside;
  double margin = mark.number("margin").value_or(std::min(25.0, size[along] / 4));
  for (const MitredEnd& mitred : mitresOf(c.piece))
    if (const double least = clear - beyondContact(c, mitred.end); margin < least - kTiny) {
      if (mark.find("margin"))
        return jointFault(context, "margin",
                          fmt::format("nails {} from the ends would come out at the mitre of {}, {} wide",
                                      figure(margin), c.piece.id(), figure(c.piece.width())),
                          fmt::format("at least {}", figure(least)));
      margin = least;
    }
  const double between = size[along] - 2 * margin, most = mark.number("pitch").value_or(kPitch);
  if (between < -kTiny || margin < out.diameter / 2 + kWoodBeside ||
      size[across] < out.diameter + 2 * kWoodBeside)
    return jointFault(
        context, mark.find("margin") ? "margin" : "piece",
        fmt::format("nails of {}, {} from the ends, find no room where {} and {} meet over {} by {}",
                    figure(out.diameter), figure(margin), c.piece.id(), c.to.id(), figure(size[along]),
                    figure(size[across])),
        fmt::format("at least {} of wood beside each", figure(kWoodBeside)));
  const int steps = std::max(1, static_cast<int>(std::ceil(between / most - kTiny)));
  out.pitch = between / steps;
  if (out.pitch < out.diameter + 2 * kWoodBeside)
    return jointFault(
        context, mark.find("pitch") ? "pitch" : "piece",
        fmt::format("nails of {} would stand {} apart", figure(out.diameter), figure(out.pitch)),
        fmt::format("at least {}", figure(out.diameter + 2 * kWoodBeside)));
  for (int i = 0; i <= steps; ++i) {
    Vec3 at = c.where.centre();
    at[along] = c.where.low[along] + margin + out.pitch * i;
    if (inGroove(c, at, out.diameter / 2 + kWoodBeside))
      return jointFault(context, "to", "the nails would go into the groove of " + c.to.id(),
                        "move the piece clear of the groove");
    out.places.push_back(at);
  }
  return true;
}

struct Maker {
  const JointContext& context;
  const Layout& l;
  JointWork work{};
  std::vector<std::string> nails{};

  const std::string& piece() const { return l.contact.piece.id(); }
  const std::string& to() const { return l.contact.to.id(); }
  Vec3 inward() const { return -l.contact.outward(); }

  void contact() {
    const FlatContact& c = l.contact;
    work.contacts.push_back(liesAgainst(c, l.joint));
    addFlushSides(c, {c.axisAlong(0), c.axisAlong(1)}, l.joint, work);
  }

  /// The holes: one feature through the piece, one into what it is nailed to.
  void bore(const std::string& role, Vec3 at) {
    const FlatContact& c = l.contact;
    Vec3 inPiece = c.inPiece(at), inTo = at;
    inPiece[c.pieceSide.axis] = 0;
    inTo[c.toSide.axis] = 0;
    const double r = l.diameter / 2;
    work.features.push_back(
        {c.piece.index,
         {RoundHole{role, c.pieceSide.axis, opposite(c.pieceSide.side), inPiece, r, {}}, {}, {}}});
    work.features.push_back(
        {c.to.index, {RoundHole{role, c.toSide.axis, c.toSide.side, inTo, r, l.hold()}, {}, {}}});
  }

  void nail(size_t index) {
    const FlatContact& c = l.contact;
    const std::string number = std::to_string(index + 1), role = "nail." + number;
    bore(role, l.places[index]);
    OwnPiece p;
    p.id = ownId(context, "nail", piece(), to(), number);
    p.name = "nail";
    p.material = "steel";
    p.fastening = true;
    p.densityKgM3 = kSteelKgM3;
    p.recipe.blank = RodBlank{l.length, l.diameter};
    p.recipe.blankRoles[0] = "head";
    p.recipe.blankRoles[1] = "point";
    p.worldFromPiece.xAxis = inward();
    p.worldFromPiece.zAxis = c.toSide.axis == 0 ? c.to.frame.zAxis : c.to.frame.xAxis;
    p.worldFromPiece.yAxis = cross(p.worldFromPiece.zAxis, p.worldFromPiece.xAxis);
    p.worldFromPiece.origin = c.to.frame.point(l.places[index]) + inward() * ((l.hold() - l.inPiece()) / 2);
    const double round = planningPerimeter(l.diameter / 2);
    work.contacts.push_back({l.joint, {p.id, "side"}, {piece(), role}, round * l.inPiece()});
    work.contacts.push_back({l.joint, {p.id, "side"}, {to(), role}, round * l.hold()});
    work.contacts.push_back(
        {l.joint, {p.id, "point"}, {to(), role + ".bottom"}, planningArea(l.diameter / 2)});
    nails.push_back(p.id);
    work.pieces.push_back(std::move(p));
  }

  std::string nailsTold() const {
    return fmt::format(
        "Nails {} by {}, at most {} apart, {}", figure(l.diameter), figure(l.length),
        figure(context.mark.number("pitch").value_or(kPitch)),
        l.punch > 0 ? "heads punched " + figure(l.punch) + " below the surface" : "heads flush");
  }
  std::string sentence() const {
    return fmt::format(
        "Nail {} to {}: {} nails, {} by {}, {} apart{}.", called(context.work, *l.contact.piece.member),
        called(context.work, *l.contact.to.member), l.places.size(), figure(l.diameter), figure(l.length),
        figure(l.pitch), l.punch > 0 ? ", heads punched " + figure(l.punch) + " below the surface" : "");
  }

  void fasten() {
    JointOperation op;
    op.kind = Operation::Kind::Fasten;
    // Nails that are pieces of the work are driven joint by joint, each joint its own way.
    const std::string group = l.pieces ? "" : context.mark.group;
    op.key = "nail:" + (group.empty() ? l.joint : group);
    op.pieces = nails;
    op.way = inward();
    op.after = {piece(), to()};
    op.joint = l.joint;
    std::vector<std::string> held{piece(), to()};
    held.insert(held.end(), nails.begin(), nails.end());
    op.bonds.push_back({"nail", held});
    op.text = group.empty() ? sentence() : context.mark.groupText + " " + nailsTold() + ".";
    op.caution =
        "Wear eye protection. Near an edge or an end bore for the nail first, or the wood splits; keep "
        "fingers "
        "clear of the hammer.";
    work.operations.push_back(std::move(op));
    if (!context.mark.flag("planted").value_or(true)) return;
    work.planted.push_back(l.contact.piece.index);
    work.rules.push_back(plantOnFinishedWork(context.unit, piece()));
  }

  JointWork make() {
    contact();
    if (l.pieces)
      for (size_t i = 0; i < l.places.size(); ++i) nail(i);
    fasten();
    auto tell = [&](const char* name, const char* key, double value) {
      work.sizes.push_back({piece(), l.joint, name, key, value});
    };
    tell("nail_diameter", "diameter", l.diameter);
    tell("nail_length", "length", l.length);
    tell("nail_punch", "punch", l.punch);
    work.paths.push_back(comesAway(l.contact, l.joint));
    std::vector<std::string> all{piece(), to()};
    all.insert(all.end(), nails.begin(), nails.end());
    work.joints.push_back({l.joint, all});
    return std::move(work);
  }
};

Result<JointWork> make(const JointContext& context) {
  auto contact = findContact(context);
  if (!contact) return contact.faults();
  Layout layout;
  layout.contact = std::move(contact).value();
  for (auto* step : {&sizeNails, &placeNails})
    if (auto done = (*step)(context, layout); !done) return done.faults();
  layout.joint = context.nameJoint(layout.contact.piece.id(), layout.contact.to.id());
  return Maker{context, layout}.make();
}

KindSpec spec() {
  KindSpec k;
  k.name = "nailed-face";
  k.about = "A piece laid with a flat side on another's flat side and nailed or pinned: a stop, a batten.";
  auto length = [&](const char* name, const char* standard, const char* about, double least, double most,
                    const char* source) {
    k.keys.push_back({name, KeyType::Length, false, standard, about, least, most, {}, source});
  };
  k.keys.push_back(
      {"piece", KeyType::Member, true, "", "the member that is planted on the other", 0, 0, {}, ""});
  k.keys.push_back({"to", KeyType::Member, true, "", "the member it is nailed to", 0, 0, {}, ""});
  k.keys.push_back({"nails",
                    KeyType::Word,
                    false,
                    "listed",
                    "nails told in the order of work only, or pieces of the work",
                    0,
                    0,
                    {"listed", "pieces"},
                    "common practice"});
  length("diameter", "1.6 through up to 15, else 2.5", "", 0.8, 12, "common practice");
  length("length", "two and a half times the piece's thickness there, down to the next 5", "", 5, 300,
         "a timber yards' rule of thumb");
  length("pitch", "300", "at most this between nails; they stand evenly", 5, 2000, "common practice");
  length("margin", "25, at most a quarter of the length", "from the ends of the contact to the outer nails",
         2, 500, "common practice");
  length("punch", "2", "heads below the surface", 0, 20, "common practice");
  k.keys.push_back({"planted",
                    KeyType::Flag,
                    false,
                    "true",
                    "it goes on finished work; false: it is part of the work, as grounds and linings are",
                    0,
                    0,
                    {},
                    "common practice"});
  return k;
}

}  // namespace

JointKind nailedFace() {
  return {spec(), announce, make};
}

}  // namespace dryfit
