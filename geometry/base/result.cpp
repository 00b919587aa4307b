#include "base/result.h"

namespace dryfit {

std::string toText(const Diagnostic& d) {
  std::string text;
  if (!d.where.file.empty()) {
    text += d.where.file;
    if (d.where.line > 0) text += ":" + std::to_string(d.where.line) + ":" + std::to_string(d.where.column);
    text += ": ";
  }
  if (!d.subject.empty()) text += d.subject + ": ";
  text += d.message;
  if (!d.hint.empty()) text += "; " + d.hint;
  return text;
}

}  // namespace dryfit
