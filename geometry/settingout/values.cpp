#include "settingout/values.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <tuple>

#include "base/text.h"
#include "settingout/check_text.h"

namespace dryfit::reading {

namespace {

constexpr size_t kMostLetters = 200;

/// The shortest text that reads back as the same number.
std::string shortest(double v) {
  char text[64];
  const auto end = std::to_chars(text, text + sizeof text, v).ptr;
  return std::string(text, end);
}

std::string inRange(Range range, const char* unit) {
  return "from " + plainNumber(range.least) + " to " + plainNumber(range.most) + unit;
}

/// "the width -95"; only "-95" when the key's name says enough.
std::string named(const Slot& at, const std::string& what) {
  return (what.empty() ? "" : "the " + what + " ") + given(*at.node);
}

bool isTidy(const std::string& text) {
  for (const char c : text)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) return false;
  return true;
}

std::optional<double> bounded(const Slot& at, const std::string& what, double value, Range range,
                              const char* unit) {
  // What was said in inches or as text is shown in mm too, because the bounds are.
  const bool asGiven = at.node->is_number() && at.node->value<double>() == value;
  const std::string subject =
      named(at, what) + (asGiven || !std::isfinite(value) ? "" : " (" + plainNumber(value) + unit + ")");
  if (!std::isfinite(value))
    fault(at, subject + " is not a finite number", inRange(range, unit));
  else if (value < range.least)
    fault(at, subject + " is too small", inRange(range, unit));
  else if (value > range.most)
    fault(at, subject + " is too large", inRange(range, unit));
  else
    return value;
  return std::nullopt;
}

}  // namespace

namespace {
Diagnostic syntaxFault(const toml::parse_error& error, const std::string& file) {
  const std::string why(error.description());
  Diagnostic d{Fault::BadInput, "", "not TOML: " + why, "", placeOf(error.source(), file)};
  if (why.find("redefine") != std::string::npos && why.find("'unit'") != std::string::npos)
    d.hint = "beside [[unit]], write the unit of lengths as lengths = \"mm\"";
  return d;
}
}  // namespace

Result<toml::table> parseText(std::string_view text, const std::string& fileName) {
  if (auto bad = checkText(text, fileName)) return *bad;
  try {
    return toml::parse(text, fileName);
  } catch (const toml::parse_error& error) {
    return syntaxFault(error, fileName);
  }
}

std::vector<Diagnostic> inOrder(std::vector<Diagnostic> faults, const std::string& file) {
  std::stable_sort(faults.begin(), faults.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tuple(a.where.line, a.where.column) < std::tuple(b.where.line, b.where.column);
  });
  constexpr size_t kMostFaults = 200;
  if (faults.size() <= kMostFaults) return faults;
  const size_t more = faults.size() - kMostFaults;
  faults.resize(kMostFaults);
  faults.push_back(
      {Fault::BadInput, "", "there are " + std::to_string(more) + " more faults", "", {file, 0, 0}});
  return faults;
}

SourcePlace placeOf(const toml::source_region& region, const std::string& file) {
  return {file, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

void fault(const Slot& at, std::string message, std::string hint) {
  at.state->faults.push_back({Fault::BadInput, at.path, std::move(message), std::move(hint),
                              placeOf(at.node->source(), at.state->file)});
}

std::string given(const toml::node& node) {
  if (const auto* s = node.as_string()) return quoted(s->get());
  if (const auto* i = node.as_integer()) return std::to_string(i->get());
  if (const auto* f = node.as_floating_point()) return shortest(f->get());
  if (const auto* b = node.as_boolean()) return b->get() ? "true" : "false";
  if (const auto* a = node.as_array())
    return a->empty() ? "(an empty list)" : "(a list of " + std::to_string(a->size()) + ")";
  return node.is_table() ? "(a table)" : "(a date or time)";
}

std::string nameHint(std::string_view given, const std::vector<std::string>& names,
                     const std::string& others) {
  if (const auto nearest = nearestName(given, names)) return "did you mean " + quoted(*nearest) + "?";
  if (!others.empty()) return others;
  return names.empty() ? "" : "allowed: " + anyOf(names);
}

std::optional<std::string> textOf(const Slot& at, const std::string& what) {
  const auto* text = at.node->as_string();
  if (!text) {
    fault(at, named(at, what) + " is not text", "write it in quotes");
    return std::nullopt;
  }
  const std::string subject = what.empty() ? "it" : "the " + what;
  if (text->get().find_first_not_of(" \t\r\n") == std::string::npos)
    fault(at, subject + " is empty", "");
  else if (!isTidy(text->get()))
    fault(at, named(at, what) + " has a line break or a control character", "");
  else if (text->get().size() > kMostLetters)
    fault(at, subject + " has " + std::to_string(text->get().size()) + " bytes", "at most 200");
  else
    return text->get();
  return std::nullopt;
}

std::optional<std::string> choiceOf(const Slot& at, const std::string& what,
                                    const std::vector<std::string>& words) {
  const auto* text = at.node->as_string();
  if (text)
    for (const std::string& w : words)
      if (w == text->get()) return w;
  fault(at, named(at, what) + " is not known", nameHint(text ? text->get() : "", words));
  return std::nullopt;
}

std::optional<bool> flagOf(const Slot& at, const std::string& what) {
  if (const auto* b = at.node->as_boolean()) return b->get();
  fault(at, named(at, what) + " is neither true nor false", "write true or false, no quotes");
  return std::nullopt;
}

std::optional<double> numberOf(const Slot& at, const std::string& what, Range range) {
  if (at.node->is_number()) return bounded(at, what, *at.node->value<double>(), range, "");
  fault(at, named(at, what) + " is not a number", inRange(range, ""));
  return std::nullopt;
}

std::optional<double> wholeOf(const Slot& at, const std::string& what, Range range) {
  if (const auto* i = at.node->as_integer())
    return bounded(at, what, static_cast<double>(i->get()), range, "");
  fault(at, named(at, what) + " is not a whole number", inRange(range, ""));
  return std::nullopt;
}

std::optional<double> lengthOf(const Slot& at, const std::string& what, Range rangeMm) {
  if (at.node->is_number())
    return bounded(at, what, millimetres(*at.node->value<double>(), at.state->bare), rangeMm, " mm");
  const auto* text = at.node->as_string();
  if (!text) {
    fault(at, named(at, what) + " is not a length", "write 44, \"44 mm\" or \"1 3/4 in\"");
    return std::nullopt;
  }
  const auto length = lengthFromText(text->get(), at.state->bare);
  if (length.ok()) return bounded(at, what, length.value(), rangeMm, " mm");
  fault(at, (what.empty() ? "" : "the " + what + " ") + length.faults().front().message,
        length.faults().front().hint);
  return std::nullopt;
}

std::optional<std::vector<Slot>> listOf(const Slot& at, const std::string& what, size_t least, size_t most) {
  const std::string wanted = least == most ? std::to_string(least)
                             : most > 1000 ? "at least " + std::to_string(least)
                                           : std::to_string(least) + " to " + std::to_string(most);
  const auto* list = at.node->as_array();
  if (!list) {
    fault(at, named(at, what) + " is not a list", "a list of " + wanted + " in [ ]");
    return std::nullopt;
  }
  if (list->size() < least || list->size() > most) {
    fault(at, list->size() == 1 ? "1 value is given" : std::to_string(list->size()) + " values are given",
          "it takes " + wanted);
    return std::nullopt;
  }
  std::vector<Slot> slots;
  for (const toml::node& element : *list) slots.push_back({&element, at.path, at.state});
  return slots;
}

bool says(const Slot& at, const char* word) {
  const auto* text = at.node->as_string();
  return text && text->get() == word;
}

TableReader::TableReader(const toml::table& table, std::string path, ReadState& state,
                         const std::vector<std::string>& known)
    : TableReader(table, std::move(path), state) {
  for (const auto& [key, node] : table_) {
    const std::string name(key.str());
    bool isKnown = false;
    for (const std::string& k : known) isKnown = isKnown || k == name;
    if (isKnown) continue;
    if (const auto meant = nearestName(name, known)) meant_.push_back(*meant);
    const std::string shown = quoted(name);
    state_.faults.push_back(
        {Fault::BadInput, (path_.empty() ? "" : path_ + ".") + shown.substr(1, shown.size() - 2),
         "there is no such key here", nameHint(name, known), placeOf(key.source(), state_.file)});
  }
}

std::optional<Slot> TableReader::find(const std::string& key) const {
  const toml::node* node = table_.get(key);
  if (!node) return std::nullopt;
  return Slot{node, path_.empty() ? key : path_ + "." + key, &state_};
}

std::optional<Slot> TableReader::need(const std::string& key, const std::string& hint) const {
  auto slot = find(key);
  if (!slot && std::find(meant_.begin(), meant_.end(), key) == meant_.end()) {
    const Slot missing{&table_, path_.empty() ? key : path_ + "." + key, &state_};
    fault(missing, "it is missing", hint);
  }
  return slot;
}

std::vector<TableEntry> tablesOf(const toml::table& root, const std::string& name, size_t most,
                                 ReadState& state) {
  std::vector<TableEntry> entries;
  const toml::node* node = root.get(name);
  if (!node) return entries;
  const Slot slot{node, name, &state};
  const toml::array* list = node->as_array();
  if (!list) {
    fault(slot, "it is " + std::string(node->is_table() ? "a single table" : "not a table"),
          "begin each with a line [[" + name + "]]");
    return entries;
  }
  if (list->size() > most) {
    fault(slot, "there are " + std::to_string(list->size()), "at most " + std::to_string(most));
    return entries;
  }
  for (size_t i = 0; i < list->size(); ++i) {
    const std::string path = name + "[" + std::to_string(i + 1) + "]";
    const toml::node& element = *list->get(i);
    if (const toml::table* table = element.as_table())
      entries.push_back({table, path});
    else
      fault({&element, path, &state}, given(element) + " is not a table",
            "begin each with a line [[" + name + "]]");
  }
  return entries;
}

}  // namespace dryfit::reading
