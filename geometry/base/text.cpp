#include "base/text.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>

namespace dryfit {

std::string lowerCase(std::string_view text) {
  std::string small(text);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

std::string upperCase(std::string_view text) {
  std::string capital(text);
  for (char& c : capital)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return capital;
}

int slipsBetween(std::string_view a, std::string_view b) {
  const std::string s = lowerCase(a), t = lowerCase(b);
  const size_t n = t.size();
  std::vector<int> before(n + 1), last(n + 1), row(n + 1);
  for (size_t j = 0; j <= n; ++j) last[j] = static_cast<int>(j);
  for (size_t i = 1; i <= s.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (size_t j = 1; j <= n; ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (s[i - 1] != t[j - 1])});
      if (i > 1 && j > 1 && s[i - 1] == t[j - 2] && s[i - 2] == t[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[n];
}

namespace {

/// None in a word of one or two letters ("cm" is not "mm"), one in a short word, up to three in a long one:
/// more and the guess is a different word.
int allowedSlips(size_t letters) {
  return static_cast<int>(std::min<size_t>(letters / 3, 3));
}

bool beginsAWord(const std::string& in, const std::string& with) {
  for (size_t at = in.find(with); at != std::string::npos; at = in.find(with, at + 1))
    if (at == 0 || !std::isalnum(static_cast<unsigned char>(in[at - 1]))) return true;
  return false;
}

}  // namespace

std::optional<std::string> nearestName(std::string_view given, const std::vector<std::string>& candidates) {
  const int allowed = allowedSlips(given.size());
  int best = allowed + 1;
  std::optional<std::string> found;
  for (const std::string& c : candidates) {
    const size_t longer = std::max(c.size(), given.size()), shorter = std::min(c.size(), given.size());
    if (longer - shorter > static_cast<size_t>(allowed)) continue;
    const int slips = slipsBetween(given, c);
    if (slips < best) best = slips, found = c;
  }
  if (found || given.size() < 3 || given.size() > 60) return found;
  const std::string small = lowerCase(given);
  for (const std::string& c : candidates)
    if (beginsAWord(lowerCase(c), small)) return c;
  return std::nullopt;
}

std::string plainNumber(double value) {
  char text[64];
  if (!std::isfinite(value) || std::abs(value) >= 1e15) {
    std::snprintf(text, sizeof text, "%g", value);
    return text;
  }
  std::snprintf(text, sizeof text, "%.3f", value);
  std::string out = text;
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

std::string quoted(std::string_view text) {
  constexpr size_t most = 60;
  std::string out = "\"";
  size_t letters = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0) != 0x80 && ++letters > most) {
      out += "...";
      break;
    }
    char hex[8];
    std::snprintf(hex, sizeof hex, "\\x%02X", byte);
    byte < 0x20 || byte == 0x7F ? out += hex : out += c;
  }
  return out + "\"";
}

std::string anyOf(const std::vector<std::string>& words) {
  std::string out;
  for (size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += quoted(words[i]);
  }
  return out;
}

std::string spokenName(const std::string& name, const std::string& id, bool alone) {
  const bool path = name == id && id.find('.') != std::string::npos;
  if (name.empty() || path || !alone) return id;
  const bool numbered = name.back() >= '0' && name.back() <= '9';
  return numbered ? name : "the " + name;
}

}  // namespace dryfit
