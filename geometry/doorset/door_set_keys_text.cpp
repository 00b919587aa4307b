// What the table of keys says of a key, as values and as text.
#include <charconv>

#include "base/text.h"
#include "base/units.h"
#include "doorset/door_set_keys.h"
#include "timber/species.h"

namespace dryfit {

namespace {

std::optional<double> numberIn(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

bool isWord(const DoorSetKey& key, const std::string& text) {
  for (const std::string& word : key.words)
    if (word == text) return true;
  return false;
}

std::string span(const DoorSetKey& key) {
  return plainNumber(key.least) + " to " + plainNumber(key.most);
}

std::string words(const DoorSetKey& key) {
  std::string out;
  for (const std::string& word : key.words) out += (out.empty() ? "\"" : ", \"") + word + "\"";
  return out;
}

/// In a cell of a Markdown table.
std::string cell(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '|' ? std::string("\\|") : std::string(1, c);
  return " " + out + (out.empty() ? "|" : " |");
}

}  // namespace

std::optional<DoorSetValue> standardValue(const DoorSetKey& key) {
  const std::string& text = key.standard;
  switch (key.type) {
    case DoorSetKeyType::Length:
    case DoorSetKeyType::Number:
    case DoorSetKeyType::Whole:
    case DoorSetKeyType::Lengths:
      if (const auto number = numberIn(text)) return DoorSetValue(*number);
      return std::nullopt;
    case DoorSetKeyType::Slope:
      if (const auto slope = slopeFromText(text)) return DoorSetValue(slope.value());
      return std::nullopt;
    case DoorSetKeyType::Flag:
      if (text == "true" || text == "false") return DoorSetValue(text == "true");
      return std::nullopt;
    case DoorSetKeyType::Word:
    case DoorSetKeyType::Section:
      if (isWord(key, text)) return DoorSetValue(text);
      return std::nullopt;
    case DoorSetKeyType::Species:
      if (findSpecies(text)) return DoorSetValue(text);
      return std::nullopt;
    case DoorSetKeyType::Range: {
      const size_t to = text.find(" to ");
      const auto low = numberIn(text.substr(0, to));
      const auto high = to == std::string::npos ? std::nullopt : numberIn(text.substr(to + 4));
      if (low && high) return DoorSetValue(std::array{*low, *high});
      return std::nullopt;
    }
    default:
      return std::nullopt;
  }
}

std::string unitOf(const DoorSetKey& key) {
  switch (key.type) {
    case DoorSetKeyType::Table:
      return key.listed ? "table, or a list" : "table";
    case DoorSetKeyType::Tables:
      return "tables";
    case DoorSetKeyType::Length:
      return "mm or in";
    case DoorSetKeyType::Number:
      return key.unit;
    case DoorSetKeyType::Whole:
      return "count";
    case DoorSetKeyType::Flag:
      return "yes or no";
    case DoorSetKeyType::Word:
      return "word";
    case DoorSetKeyType::Text:
      return "text";
    case DoorSetKeyType::Species:
      return "species";
    case DoorSetKeyType::Range:
      return "two of " + key.unit;
    case DoorSetKeyType::Section:
      return "word, or points and arcs";
    case DoorSetKeyType::Lengths:
      return "mm or in, or a list";
    case DoorSetKeyType::Slope:
      return "slope";
  }
  return "";
}

std::string rangeOf(const DoorSetKey& key) {
  switch (key.type) {
    case DoorSetKeyType::Length:
      return span(key) + " mm" + (key.words.empty() ? "" : ", " + words(key));
    case DoorSetKeyType::Number:
    case DoorSetKeyType::Whole:
    case DoorSetKeyType::Range:
      return span(key);
    case DoorSetKeyType::Flag:
      return "true, false";
    case DoorSetKeyType::Word:
      return words(key);
    case DoorSetKeyType::Section:
      return words(key) + ", [[across, height], ...]";
    case DoorSetKeyType::Species:
      return "a name of the timber table";
    case DoorSetKeyType::Lengths:
      return span(key) + " mm, up to " + std::to_string(key.mostValues) + " of them";
    case DoorSetKeyType::Slope:
      return "\"1:6\", \"1 in 6\", at most 1:1";
    default:
      return "";
  }
}

std::string doorSetKeysTable(const std::vector<DoorSetKey>& keys) {
  std::string out =
      "| key | unit | range | default | source | what it is |\n| --- | --- | --- | --- | --- | --- |\n";
  for (const DoorSetKey& key : keys) {
    if (key.told) continue;
    const std::string standard = key.example.empty() ? key.standard : "needed";
    out += "|" + cell("`" + key.path + "`") + cell(unitOf(key)) + cell(rangeOf(key)) + cell(standard) +
           cell(key.source) + cell(key.about) + "\n";
  }
  return out;
}

}  // namespace dryfit
