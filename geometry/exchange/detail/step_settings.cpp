#include "exchange/detail/step_settings.h"

#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <utility>

namespace dryfit::detail {

namespace {

std::mutex& kernelStepMutex() {
  static std::mutex mutex;
  return mutex;
}

/// Name and value, as text: the kernel converts.
constexpr std::pair<const char*, const char*> kSettings[] = {
    {"write.step.schema", "AP214IS"},
    {"write.step.unit", "MM"},
    {"write.step.assembly", "1"},
    {"write.step.nonmanifold", "0"},
    {"write.step.vertex.mode", "0"},
    // Curves once, in space: with parameter curves on the faces besides, files are twice as large.
    {"write.surfacecurve.mode", "0"},
    // The accuracy stated in the file: ours, not one found from the shapes at hand.
    {"write.precision.mode", "2"},
    {"write.precision.val", "0.0000001"},
    {"read.step.product.mode", "1"},
    {"xstep.cascade.unit", "MM"},
};

}  // namespace

StepSettings::StepSettings() : lock_(kernelStepMutex()) {
  // Settings made before this call are silently ignored.
  STEPCAFControl_Controller::Init();
  for (const auto& [name, value] : kSettings) {
    if (!Interface_Static::IsPresent(name)) continue;
    before_.emplace_back(name, Interface_Static::CVal(name));
    Interface_Static::SetCVal(name, value);
  }
  const Handle(Message_Messenger)& messenger = Message::DefaultMessenger();
  printers_ = messenger->Printers();
  messenger->ChangePrinters().Clear();
}

StepSettings::~StepSettings() {
  for (const auto& [name, value] : before_) Interface_Static::SetCVal(name.c_str(), value.ToCString());
  Message::DefaultMessenger()->ChangePrinters() = printers_;
}

}  // namespace dryfit::detail
