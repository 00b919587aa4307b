#include "settingout/check_text.h"

#include <algorithm>
#include <cstdio>

namespace dryfit {

namespace {

constexpr size_t kMostBytes = 1'000'000;
constexpr int kMostBrackets = 32;
/// Points of one line outside strings: names "a.b.c" nest a table each, and the parser sets no limit to them.
constexpr int kMostPoints = 200;

SourcePlace placeAt(std::string_view text, size_t at, const std::string& file) {
  const std::string_view before = text.substr(0, at);
  const size_t newline = before.rfind('\n');
  const size_t start = newline == std::string_view::npos ? 0 : newline + 1;
  SourcePlace place{file, 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n')), 1};
  for (size_t i = start; i < at; ++i) place.column += (static_cast<unsigned char>(text[i]) & 0xC0) != 0x80;
  return place;
}

/// Length of the UTF-8 sequence at the front, 0 when it is none (overlong, surrogate, beyond U+10FFFF, cut
/// short).
size_t utf8Length(std::string_view s) {
  auto byte = [&](size_t i) { return i < s.size() ? static_cast<unsigned char>(s[i]) : 0u; };
  auto tail = [&](size_t i) { return (byte(i) & 0xC0) == 0x80; };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return tail(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const bool bad = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xED && byte(1) > 0x9F);
    return !bad && tail(1) && tail(2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const bool bad = (lead == 0xF0 && byte(1) < 0x90) || (lead == 0xF4 && byte(1) > 0x8F);
    return !bad && tail(1) && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

/// First byte that is not UTF-8, or npos.
size_t notUtf8(std::string_view text) {
  for (size_t at = 0; at < text.size();) {
    const size_t n = utf8Length(text.substr(at));
    if (n == 0) return at;
    at += n;
  }
  return std::string_view::npos;
}

/// Just past the string that opens at `at`. One on a single line ends with the line at the latest.
size_t pastString(std::string_view text, size_t at) {
  const char quote = text[at];
  const std::string three(3, quote);
  const bool many = text.substr(at, 3) == three;
  for (size_t i = at + (many ? 3 : 1); i < text.size(); ++i) {
    if (text[i] == '\\' && quote == '"')
      ++i;
    else if (many ? text.substr(i, 3) == three : text[i] == quote)
      return i + (many ? 3 : 1);
    else if (!many && text[i] == '\n')
      return i;
  }
  return text.size();
}

/// First place nested too deep, or npos. Strings and comments are passed over.
size_t tooDeep(std::string_view text) {
  int brackets = 0, points = 0;
  for (size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"' || c == '\'') {
      at = pastString(text, at);
      continue;
    }
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
      continue;
    }
    if (c == '[' || c == '{') ++brackets;
    if ((c == ']' || c == '}') && brackets > 0) --brackets;
    points = c == '\n' ? 0 : points + (c == '.');
    if (brackets > kMostBrackets || points > kMostPoints) return at;
    ++at;
  }
  return std::string_view::npos;
}

}  // namespace

std::optional<Diagnostic> checkText(std::string_view text, const std::string& fileName) {
  constexpr size_t nowhere = std::string_view::npos;
  auto fault = [](SourcePlace place, std::string message, std::string hint) {
    return Diagnostic{Fault::BadInput, "", std::move(message), std::move(hint), std::move(place)};
  };
  if (text.size() > kMostBytes)
    return fault({fileName, 0, 0}, "the file has " + std::to_string(text.size()) + " bytes",
                 "a work file has at most 1 MB (1000000 bytes)");
  if (const size_t at = text.find('\0'); at != nowhere)
    return fault(placeAt(text, at, fileName), "there is a NUL byte", "a work file is plain text in UTF-8");
  if (const size_t at = notUtf8(text); at != nowhere) {
    char hex[8];
    std::snprintf(hex, sizeof hex, "0x%02X", static_cast<unsigned char>(text[at]));
    return fault(placeAt(text, at, fileName), std::string("the byte ") + hex + " is not UTF-8",
                 "save the file as plain text in UTF-8");
  }
  if (const size_t at = tooDeep(text); at != nowhere)
    return fault(placeAt(text, at, fileName), "the brackets or names are nested too deep",
                 "a work file nests three deep at most");
  return std::nullopt;
}

}  // namespace dryfit
