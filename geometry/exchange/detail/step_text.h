// Text in a Part 21 file is 7-bit; other letters travel as \X2\ and UTF-16 in hexadecimal (ISO
// 10303-21, 6.4.3). The kernel would double those reverse solidi, so it is handed `hhhh` between grave
// accents, changed afterwards.
#pragma once

#include <string>

namespace dryfit::detail {

/// UTF-8 to text the kernel passes through unchanged: printable 7-bit as it is, all else between grave
/// accents. Bytes that are no UTF-8 become U+FFFD.
std::string escaped(const std::string& utf8);

/// A written file with what escaped() marked turned into Part 21's own directives.
std::string withDirectives(const std::string& file);

}  // namespace dryfit::detail
