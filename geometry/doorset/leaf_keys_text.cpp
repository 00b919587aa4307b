// What the table of keys says of a key, as values and as text.
#include <charconv>

#include "base/text.h"
#include "doorset/leaf_keys.h"
#include "timber/species.h"

namespace dryfit {

namespace {

std::optional<double> numberIn(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

bool isWord(const LeafKey& key, const std::string& text) {
  for (const std::string& word : key.words)
    if (word == text) return true;
  return false;
}

std::string span(const LeafKey& key) {
  return plainNumber(key.least) + " to " + plainNumber(key.most);
}

std::string words(const LeafKey& key) {
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

std::optional<LeafValue> standardValue(const LeafKey& key) {
  const std::string& text = key.standard;
  switch (key.type) {
    case LeafKeyType::Length:
    case LeafKeyType::Number:
    case LeafKeyType::Whole:
      if (const auto number = numberIn(text)) return LeafValue(*number);
      return std::nullopt;
    case LeafKeyType::Flag:
      if (text == "true" || text == "false") return LeafValue(text == "true");
      return std::nullopt;
    case LeafKeyType::Word:
    case LeafKeyType::Section:
      if (isWord(key, text)) return LeafValue(text);
      return std::nullopt;
    case LeafKeyType::Species:
      if (findSpecies(text)) return LeafValue(text);
      return std::nullopt;
    case LeafKeyType::Range: {
      const size_t to = text.find(" to ");
      const auto low = numberIn(text.substr(0, to));
      const auto high = to == std::string::npos ? std::nullopt : numberIn(text.substr(to + 4));
      if (low && high) return LeafValue(std::array{*low, *high});
      return std::nullopt;
    }
    default:
      return std::nullopt;
  }
}

std::string unitOf(const LeafKey& key) {
  switch (key.type) {
    case LeafKeyType::Table:
      return "table";
    case LeafKeyType::Tables:
      return "tables";
    case LeafKeyType::Length:
      return "mm or in";
    case LeafKeyType::Number:
      return key.unit;
    case LeafKeyType::Whole:
      return "count";
    case LeafKeyType::Flag:
      return "yes or no";
    case LeafKeyType::Word:
      return "word";
    case LeafKeyType::Text:
      return "text";
    case LeafKeyType::Species:
      return "species";
    case LeafKeyType::Range:
      return "two of " + key.unit;
    case LeafKeyType::Section:
      return "word, or points and arcs";
  }
  return "";
}

std::string rangeOf(const LeafKey& key) {
  switch (key.type) {
    case LeafKeyType::Length:
      return span(key) + " mm" + (key.words.empty() ? "" : ", " + words(key));
    case LeafKeyType::Number:
    case LeafKeyType::Whole:
    case LeafKeyType::Range:
      return span(key);
    case LeafKeyType::Flag:
      return "true, false";
    case LeafKeyType::Word:
      return words(key);
    case LeafKeyType::Section:
      return words(key) + ", [[across, height], ...]";
    case LeafKeyType::Species:
      return "a name of the timber table";
    default:
      return "";
  }
}

std::string leafKeysTable(const std::vector<LeafKey>& keys) {
  std::string out =
      "| key | unit | range | default | source | what it is |\n| --- | --- | --- | --- | --- | --- |\n";
  for (const LeafKey& key : keys) {
    const std::string standard = key.example.empty() ? key.standard : "needed";
    out += "|" + cell("`" + key.path + "`") + cell(unitOf(key)) + cell(rangeOf(key)) + cell(standard) +
           cell(key.source) + cell(key.about) + "\n";
  }
  return out;
}

}  // namespace dryfit
