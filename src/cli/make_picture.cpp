#include "cli/make_picture.h"

#include <utility>

#include "cli/report.h"
#include "cli/table.h"
#include "gl/context.h"
#include "gl/renderer.h"
#include "scene/layout.h"
#include "scene/staged_picture.h"

namespace dryfit::cli {

namespace {

/// What draws.
struct Studio {
  gl::Context context;
  gl::Renderer renderer;
  scene::Lettering lettering;
};

Result<Studio> openStudio() {
  auto context = gl::Context::withoutDisplay();
  if (!context) return context.faults();
  auto renderer = gl::Renderer::create();
  if (!renderer) return renderer.faults();
  auto lettering = scene::Lettering::load();
  if (!lettering) return lettering.faults();
  return Studio{std::move(context).value(), std::move(renderer).value(), std::move(lettering).value()};
}

}  // namespace

std::string roomText(const Picture& picture) {
  const size_t all = static_cast<size_t>(picture.written) + picture.leftOut.size();
  if (all == 0) return "";
  std::string out = counted(all, "label or size", "labels and sizes");
  if (picture.leftOut.empty()) return out + "\n";
  out += ", " + std::to_string(picture.leftOut.size()) + " found no room:\n";
  for (const std::string& one : picture.leftOut) out += "  " + one + "\n";
  return out;
}

struct PictureMaker::Parts {
  /// `m`: the work with what is made up first, where that is not the one given.
  Parts(const CutWork& w, std::unique_ptr<const CutWork> m, std::optional<OrderOfWork> o)
      : madeUp(std::move(m)),
        work(madeUp ? *madeUp : w),
        order(std::move(o)),
        staging(work, order ? &*order : nullptr) {}

  std::unique_ptr<const CutWork> madeUp;
  const CutWork& work;
  std::optional<OrderOfWork> order;
  scene::Staging staging;
  std::optional<Studio> studio;
};

PictureMaker::PictureMaker(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
PictureMaker::PictureMaker(PictureMaker&&) noexcept = default;
PictureMaker::~PictureMaker() = default;

Result<PictureMaker> PictureMaker::of(const CutWork& work, bool withOrder) {
  if (!withOrder) return PictureMaker(std::make_unique<Parts>(work, nullptr, std::nullopt));
  PlannedWork planned = planInHands(work.assembly);
  if (const auto* locked = std::get_if<Locked>(&planned.order)) return lockedFault(work.assembly, *locked);
  std::unique_ptr<CutWork> more;
  if (planned.madeUp) {
    more = std::make_unique<CutWork>(work);
    more->assembly = std::move(*planned.madeUp);
  }
  return PictureMaker(
      std::make_unique<Parts>(work, std::move(more), std::get<OrderOfWork>(std::move(planned.order))));
}

const OrderOfWork& PictureMaker::order() const {
  REQUIRE(parts_->order.has_value());
  return *parts_->order;
}

const Assembly& PictureMaker::assembly() const {
  return parts_->work.assembly;
}

Result<Picture> PictureMaker::makePicture(const PictureOptions& options) {
  Parts& p = *parts_;
  const auto staged = scene::stagePicture(p.work, p.order ? &*p.order : nullptr, p.staging, options);
  if (!staged) return staged.faults();
  if (!p.studio) {
    auto studio = openStudio();
    if (!studio) return studio.faults();
    p.studio = std::move(studio).value();
  }
  const scene::StagedPicture& s = staged.value();
  const scene::PictureLayout layout =
      scene::layOut(s.scene, s.look, s.camera, options.size, p.work.dimensions, s.ask, p.studio->lettering);
  auto image =
      p.studio->renderer.draw(s.scene, s.look, s.camera, options.size, layout.overlay, p.studio->lettering);
  if (!image) {
    std::vector<Diagnostic> faults = image.faults();
    for (Diagnostic& fault : faults)
      if (fault.fault == Fault::BadInput) fault.subject = "--size";
    return faults;
  }
  Picture out{std::move(image).value(), 0, layout.leftOut};
  for (const scene::PlacedText& text : layout.placed)
    out.written += text.kind != scene::PlacedText::Kind::Words;
  return out;
}

}  // namespace dryfit::cli
