#include "cli/command.h"
#include "cli/load_work.h"
#include "cli/make_picture.h"
#include "cli/picture_options.h"
#include "cli/table.h"
#include "cli/write_file.h"
#include "paper/png.h"

namespace dryfit::cli {

namespace {

Outcome run(const Arguments& arguments) {
  if (const auto fault = overwritesInput(arguments.file, arguments.out)) return failed({*fault});
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Result<PictureOptions> options = pictureOptions(arguments, work.value());
  if (!options) return failed(options.faults());
  auto maker = PictureMaker::of(work.value(), options.value().step.has_value());
  if (!maker) return failed(maker.faults());
  PictureMaker pictures = std::move(maker).value();
  const Result<Picture> picture = pictures.makePicture(options.value());
  if (!picture) return failed(picture.faults());
  const Result<std::string> bytes = paper::pngBytes(picture.value().image);
  if (!bytes) return failed(bytes.faults());
  if (const auto fault = writeFile(arguments.out, bytes.value())) return failed({*fault});
  const scene::Image& image = picture.value().image;
  return {"wrote " + arguments.out + ": " + std::to_string(image.width) + "x" + std::to_string(image.height) +
              " pixels, " + counted(bytes.value().size(), "byte", "bytes") + "\n" + roomText(picture.value()),
          0,
          {}};
}

std::vector<OptionSpec> options() {
  std::vector<OptionSpec> out = onePictureOptionSpecs();
  out.insert(out.begin(), {"-o,--output", "OUT.png", "the file to write", true, nullptr, &Arguments::out});
  return out;
}

}  // namespace

const Command& pictureCommand() {
  static const Command command = {
      "picture",
      {"draw the work",
       {"Draws the work as solid timber with its grain, as it stands when all is done or at a step of the "
        "order of work. It can be stood apart (spread), cut open by up to six sections, seen through, taken "
        "down to one joint, and written with names and sizes. No display is needed, but OpenGL 3.3; the same "
        "picture is the same bytes on one machine.",
        "A section takes away what stands before its plane, on the looker's side. Through a piece it goes "
        "square to the grain in the middle of its length. Through a joint it goes where the joint shows "
        "most: "
        "where faces slope (wedges, dovetails, mitres), so that the slope shows true; where pieces touch "
        "along a run (grooves, planted mouldings), square to the run; else along the front, half-way between "
        "the cheeks. \"plan through\", \"height through\" and \"across through\" choose.",
        "The file is written whole or not at all: when anything fails, an older file stays as it was."},
       {"One line: the file, its size. With --labels or --sizes how many there are, and those that found no "
        "room, a line each."},
       "a piece cannot be cut, or the pieces lock each other and a step was asked for; nothing was written",
       "$ dryfit picture corner.toml -o corner.png --view corner --labels\n"
       "$ dryfit picture corner.toml -o joint.png --joint rail+stile --section \"through rail+stile\" "
       "--sizes\n"
       "$ dryfit picture leaf.toml -o apart.png --spread 100 --size 3840x2160 --ground slate\n"
       "$ dryfit picture leaf.toml -o step-7.png --step 7 --see-through leaf.stile.closing\n"},
      options(),
      run};
  return command;
}

}  // namespace dryfit::cli
