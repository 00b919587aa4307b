#include "exchange/detail/step_text.h"

#include <cstdint>
#include <cstdio>

namespace dryfit::detail {

namespace {

constexpr char kMark = '`';
constexpr char32_t kReplacement = 0xFFFD;

/// The code point at `i`, which moves past it.
char32_t nextCodePoint(const std::string& s, size_t& i) {
  const auto lead = static_cast<unsigned char>(s[i++]);
  if (lead < 0x80) return lead;
  const int more = lead >= 0xF0 && lead < 0xF5   ? 3
                   : lead >= 0xE0 && lead < 0xF0 ? 2
                   : lead >= 0xC2 && lead < 0xE0 ? 1
                                                 : 0;
  if (more == 0) return kReplacement;
  char32_t code = lead & (0x3F >> more);
  for (int k = 0; k < more; ++k) {
    if (i >= s.size() || (static_cast<unsigned char>(s[i]) & 0xC0) != 0x80) return kReplacement;
    code = (code << 6) | (static_cast<unsigned char>(s[i++]) & 0x3F);
  }
  const bool overlong = (more == 2 && code < 0x800) || (more == 3 && code < 0x10000);
  const bool surrogate = code >= 0xD800 && code < 0xE000;
  return overlong || surrogate || code > 0x10FFFF ? kReplacement : code;
}

void addHex(std::string& out, std::uint32_t unit) {
  char digits[5];
  std::snprintf(digits, sizeof digits, "%04X", static_cast<unsigned>(unit & 0xFFFF));
  out += digits;
}

void addUtf16(std::string& out, char32_t code) {
  if (code < 0x10000) return addHex(out, code);
  addHex(out, 0xD800 + ((code - 0x10000) >> 10));
  addHex(out, 0xDC00 + ((code - 0x10000) & 0x3FF));
}

bool isPlain(char32_t code) {
  return code >= 0x20 && code < 0x7F && code != '\\' && code != kMark;
}

}  // namespace

std::string escaped(const std::string& utf8) {
  std::string out;
  bool marked = false;
  for (size_t i = 0; i < utf8.size();) {
    const char32_t code = nextCodePoint(utf8, i);
    if (isPlain(code) == marked) {
      out += kMark;
      marked = !marked;
    }
    if (marked)
      addUtf16(out, code);
    else
      out += static_cast<char>(code);
  }
  if (marked) out += kMark;
  return out;
}

std::string withDirectives(const std::string& file) {
  std::string out;
  out.reserve(file.size() + file.size() / 64);
  bool marked = false;
  for (char c : file) {
    if (c == kMark) {
      out += marked ? "\\X0\\" : "\\X2\\";
      marked = !marked;
    } else if (!marked || (c != '\n' && c != '\r')) {
      out += c;
    }
  }
  return out;
}

}  // namespace dryfit::detail
