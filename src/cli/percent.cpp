#include "cli/percent.h"

#include <charconv>

#include "base/text.h"

namespace dryfit::cli {

Result<double> shareOf(const std::string& option, const std::string& text) {
  double percent = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, percent, std::chars_format::fixed);
  // from_chars reads "nan" and "-0" too.
  const bool number = read.ec == std::errc() && read.ptr == end && text[0] >= '0' && text[0] <= '9';
  if (number && percent >= 0 && percent <= 100) return percent / 100;
  return Diagnostic{Fault::BadInput,
                    "",
                    option + " " + dryfit::quoted(text) + " is no percentage",
                    "a number from 0 (home) to 100 (all apart), such as " + option + " 70",
                    {}};
}

}  // namespace dryfit::cli
