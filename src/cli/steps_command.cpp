#include "cli/command.h"
#include "cli/load_work.h"
#include "cli/make_picture.h"
#include "cli/picture_options.h"
#include "cli/steps_page.h"
#include "cli/table.h"
#include "cli/write_folder.h"
#include "paper/png.h"

namespace dryfit::cli {

namespace {

/// All files of the folder, the page last; `told` gets a line for each step whose words found no room.
Result<std::vector<NamedBytes>> drawSteps(PictureMaker& maker, PictureOptions options, std::string& told) {
  std::vector<NamedBytes> out;
  const size_t count = maker.order().steps.size();
  for (size_t i = 0; i < count; ++i) {
    options.step = static_cast<int>(i);
    const Result<Picture> picture = maker.makePicture(options);
    if (!picture) return picture.faults();
    auto bytes = paper::pngBytes(picture.value().image);
    if (!bytes) return bytes.faults();
    out.push_back({stepPictureName(i + 1, count), std::move(bytes).value()});
    if (!picture.value().leftOut.empty())
      told += "step " + std::to_string(i + 1) + ": " + roomText(picture.value());
  }
  out.push_back({"steps.md", stepsPage(maker.assembly(), maker.order())});
  return out;
}

Outcome run(const Arguments& arguments) {
  if (const auto fault = folderFault(arguments.out)) return failed({*fault});
  const Result<CutWork> work = loadWork(arguments.file);
  if (!work) return failed(work.faults());
  const Result<PictureOptions> options = pictureOptions(arguments, work.value());
  if (!options) return failed(options.faults());
  auto made = PictureMaker::of(work.value(), true);
  if (!made) return failed(made.faults());
  PictureMaker maker = std::move(made).value();
  std::string told;
  const auto files = drawSteps(maker, options.value(), told);
  if (!files) return failed(files.faults());
  if (const auto fault = writeFolder(arguments.out, files.value())) return failed({*fault});
  return {"wrote " + arguments.out + ": steps.md and " +
              counted(files.value().size() - 1, "picture", "pictures") + "\n" + told,
          0,
          {}};
}

std::vector<OptionSpec> options() {
  std::vector<OptionSpec> out = pictureOptionSpecs();
  out.insert(out.begin(), {"-o,--output", "FOLDER", "the folder to write into; made when it is missing", true,
                           nullptr, &Arguments::out});
  return out;
}

}  // namespace

const Command& stepsCommand() {
  static const Command command = {
      "steps",
      {"draw every step of the order of work",
       {"Finds the order of work and draws each of its steps: what stands by then, what goes in now and "
        "which "
        "way, the setting-out lines of what is still to come on the same bench. Beside the pictures it "
        "writes "
        "a page, steps.md (Markdown), with the texts, cautions and reasons that dryfit order prints. All "
        "steps of a unit are seen from one place, so that pictures can be laid over each other; only what is "
        "planted on the back is seen from behind.",
        "All pictures are drawn before anything is written; the page is written last. Files of other names "
        "in the folder stay."},
       {"One line: the folder, how many pictures. With --labels or --sizes those that found no room, under "
        "the number of their step."},
       "a piece cannot be cut, or the pieces lock each other; nothing was written",
       "$ dryfit steps corner.toml -o corner-steps --labels\n"
       "wrote corner-steps: steps.md and 7 pictures\n"},
      options(),
      run};
  return command;
}

}  // namespace dryfit::cli
