#include <filesystem>

#include "base/text.h"
#include "cli/command.h"
#include "cli/new_door_set.h"
#include "cli/write_file.h"

namespace dryfit::cli {

namespace {

Outcome run(const Arguments& arguments) {
  const std::string& path = arguments.file;
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored)))
    return failed({Diagnostic{
        Fault::BadInput, "", dryfit::quoted(path) + " is there already", "give a name that is not", {}}});
  if (const auto fault = writeFile(path, newDoorSet(std::filesystem::path(path).stem().string())))
    return failed({*fault});
  return {"wrote " + path + ": a door set to change as you need\n", 0, {}};
}

}  // namespace

std::string newDoorSet(const std::string& title) {
  std::string plain;
  for (const char c : title) plain += c == '"' || c == '\\' || static_cast<unsigned char>(c) < ' ' ? ' ' : c;
  return "title = \"" + (plain.empty() ? std::string("Door") : plain) + R"("
# unit = "in"              # of bare numbers; a text says its own: "1 3/4 in", "6 ft 8 in", "44 mm"

# Every key below is at its usual size: leave it out, or change it. Sizes in mm.
[wall]
kind = "brick"             # brick, block, stud; none: the leaf alone on its bench
thickness = 215            # bare; or up to three measurements: [212, 215, 216]
finish = 19                # on each face; or { inside = 19, outside = 12 }

[floor]
fall = 0                   # over the opening, from the hanging to the closing side

# In place of the leaf's width and height one of these may be given; the leaf follows from it:
# [opening]
# between_rebates = [766, 1989]
# passage = [742, 1977]
# brick = [850, 2031]

[leaf]
width = 762
height = 1981
thickness = 44
hand = "left"              # hanging side seen from the front
gap = 2                    # round the leaf; 6 under it
gap_floor = 6
opens = "inside"           # side of the wall it swings into; or outside
opening_angle = 90
horns = 40                 # left on until the leaf is hung
closing_bevel = 0          # the closing edge's back narrower by this: 2 to 3 eases a thick leaf's swing
stile = 95                 # or { hanging = 95, closing = 110 }

[[leaf.rail]]              # from the top; the first lies at the top, the last at the bottom
name = "top"
width = 95                 # or "fill": what the heights of the openings leave

[[leaf.rail]]
name = "middle"
width = 195
top_edge = 965             # above the leaf's bottom; "equal": panels of equal height

[[leaf.rail]]
name = "bottom"
width = 195

[[leaf.row]]               # what stands between two rails, from the top
muntins = 0                # and height = 921, in place of a top_edge

[[leaf.row]]
muntins = 0                # or [[leaf.row.muntin]] with width and centre, from the hanging edge

[leaf.tenon]
fixing = "wedged"          # wedged, draw-bored, glued, dowelled
proud = 10                 # left long until cleaned off

[leaf.groove]
depth = 12

[leaf.panel]
kind = "raised"            # raised, flat, bead-and-butt
faces = "both"             # both, front, back
grain = "upright"          # upright, across

[leaf.moulding]
kind = "planted"           # planted, none
profile = "ovolo"          # ovolo, ogee, scotia, bead, chamfer, square, or points and arcs:
                           # [[0, 14], [4, 14], { round = 12, to = [16, 2] }, [20, 2], [20, 0]]
width = 20                 # over the panel
thickness = 14             # along the framing's edge
faces = "both"             # both, front, back
pins = "listed"            # in the order of work; or "pieces"

[grounds]
kind = "framed"            # framed, none
width = 76                 # at the room face; as thick as the finish
splay = 5                  # the back's outer arris nearer the opening by this

[backing]
width = 60
thickness = 22
slope = "1:6"
pitch = 600                # at most; one behind each hinge and at the lock

[lining]
thickness = 32
rebate = "double"          # double, single, none: planted stops, [stop]
rebate_depth = 12
head_joint = "trenched"    # trenched, housed, rebated

[hinge]
rule = "british"           # british, us-architectural, us-residential, cpwd; or places = [1779, 279]
size = [100, 35]           # height; from the pin to a plate's edge
pin_proud = 5
pin = "fixed"              # fixed, loose
let_in = "shared"          # shared, stile

# [lock]                   # left out: none
# height = 1050            # middle of the case, above the leaf's bottom
# case = [70, 64, 14]      # height, depth, thickness

[architrave]
profile = "ovolo"
thickness = 22
margin = 6                 # from the lining's arris

[skirting]
height = 145
thickness = 19

[timber]
leaf = "Douglas-fir, coast"   # or { framing = "...", panels = "...", wedges = "..." }
sawn = { framing = "quarter", panels = "plain" }
fitted = 12                # moisture when fitted, %
range = [8, 14]            # and where it will live
)";
}

const Command& newCommand() {
  static const Command command = {"new",
                                  {"write a commented door set file to start from",
                                   {"Writes a file that builds as it stands, each size at its usual value "
                                    "with a word on what it is. A file that is "
                                    "there already is left alone."},
                                   {"One line that says what was written."},
                                   "never",
                                   "$ dryfit new store.toml\n"
                                   "wrote store.toml: a door set to change as you need\n"
                                   "$ dryfit fit store.toml\n"},
                                  {},
                                  run,
                                  "NAME.toml",
                                  true};
  return command;
}

}  // namespace dryfit::cli
