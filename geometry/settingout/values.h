// Private to the reader: values of a TOML file taken out one by one, each fault told with its place and key.
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/units.h"

namespace dryfit::reading {

/// What one run of the reader knows and has found.
struct ReadState {
  std::string file;
  LengthUnit bare = LengthUnit::Millimetre;
  std::vector<Diagnostic> faults;
};

/// A value and the path of its key, "member[2].section".
struct Slot {
  const toml::node* node = nullptr;
  std::string path;
  ReadState* state = nullptr;
};

/// Inclusive bounds.
struct Range {
  double least = 0, most = 0;
};

/// Sizes of timber: nothing thinner than a shaving, nothing longer than any timber merchant's longest.
inline constexpr Range kSizeMm{0.1, 20000};
/// Lengths that may be none at all.
inline constexpr Range kMarginMm{0, 20000};
inline constexpr Range kPlaceMm{-100000, 100000};

/// The text as a tree, looked over first so that no text can harm the parser.
/// Fails: BadInput, what checkText() finds, or the first thing that is not TOML.
Result<toml::table> parseText(std::string_view text, const std::string& fileName);

/// Faults in the order of the file, the rest of very many left out.
std::vector<Diagnostic> inOrder(std::vector<Diagnostic> faults, const std::string& file);

SourcePlace placeOf(const toml::source_region& region, const std::string& file);
void fault(const Slot& at, std::string message, std::string hint = "");
/// The value as given, for a message: -95, "oak", (a list of 3), (a table).
std::string given(const toml::node& node);
/// "did you mean "section"?", or else all that is allowed, or `others` when that would be long.
std::string nameHint(std::string_view given, const std::vector<std::string>& names,
                     const std::string& others = "");

// Each takes a value of one type out, or tells the fault and gives nothing. `what`: the value's name in the
// message.
std::optional<std::string> textOf(const Slot& at, const std::string& what);
std::optional<std::string> choiceOf(const Slot& at, const std::string& what,
                                    const std::vector<std::string>& words);
std::optional<bool> flagOf(const Slot& at, const std::string& what);
std::optional<double> numberOf(const Slot& at, const std::string& what, Range range);
std::optional<double> wholeOf(const Slot& at, const std::string& what, Range range);
/// mm, from a bare number or text.
std::optional<double> lengthOf(const Slot& at, const std::string& what, Range rangeMm);
/// The elements of a list of `least` to `most` values.
std::optional<std::vector<Slot>> listOf(const Slot& at, const std::string& what, size_t least, size_t most);
/// Text that says `word`.
bool says(const Slot& at, const char* word);

/// A table of the file whose keys are all known beforehand.
class TableReader {
 public:
  /// Keys not looked at.
  TableReader(const toml::table& table, std::string path, ReadState& state)
      : table_(table), path_(std::move(path)), state_(state) {}
  /// Tells every key that is not among `known`.
  TableReader(const toml::table& table, std::string path, ReadState& state,
              const std::vector<std::string>& known);

  std::optional<Slot> find(const std::string& key) const;
  /// Tells when the key is missing, unless a misspelt one was told that seems to be it.
  std::optional<Slot> need(const std::string& key, const std::string& hint) const;
  /// The table itself, for faults about it.
  Slot self() const { return {&table_, path_, &state_}; }
  SourcePlace where() const { return placeOf(table_.source(), state_.file); }
  ReadState& state() const { return state_; }

 private:
  const toml::table& table_;
  std::string path_;
  ReadState& state_;
  std::vector<std::string> meant_;  ///< known keys nearest to the unknown ones
};

/// One [[name]] of the file.
struct TableEntry {
  const toml::table* table = nullptr;
  std::string path;  ///< "member[2]"
};

/// All [[name]] of the file; tells when they are written as something else or are more than `most`.
std::vector<TableEntry> tablesOf(const toml::table& root, const std::string& name, size_t most,
                                 ReadState& state);

}  // namespace dryfit::reading
