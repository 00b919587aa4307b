#include "base/units.h"

#include <charconv>
#include <cmath>
#include <optional>
#include <string>

#include "base/text.h"

namespace dryfit {

namespace {

constexpr const char* kLengthHint = "write 44, \"44 mm\", \"1 3/4 in\" or \"2 ft 6 in\"";

/// A quotient, so that 1 3/4 in is multiplied by 127/5 before it is ever rounded.
struct Quotient {
  double over = 0, under = 1;
};

struct UnitName {
  std::string_view name;
  Quotient mm;
};
constexpr UnitName kUnits[] = {{"mm", {1, 1}},   {"cm", {10, 1}},   {"m", {1000, 1}}, {"in", {127, 5}},
                               {"\"", {127, 5}}, {"ft", {1524, 5}}, {"'", {1524, 5}}};

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}
bool isSpace(char c) {
  return c == ' ' || c == '\t';
}

class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  void skipSpaces() {
    while (!rest_.empty() && isSpace(rest_.front())) rest_.remove_prefix(1);
  }
  bool atEnd() {
    skipSpaces();
    return rest_.empty();
  }
  bool startsNumber() const { return !rest_.empty() && (isDigit(rest_.front()) || rest_.front() == '.'); }
  bool take(char c) {
    if (rest_.empty() || rest_.front() != c) return false;
    rest_.remove_prefix(1);
    return true;
  }
  /// Digits with at most one point; no sign, no exponent.
  std::optional<double> number() {
    size_t n = 0;
    while (n < rest_.size() && (isDigit(rest_[n]) || rest_[n] == '.')) ++n;
    double value = 0;
    const auto [end, error] =
        std::from_chars(rest_.data(), rest_.data() + n, value, std::chars_format::fixed);
    if (error != std::errc() || end != rest_.data() + n || !std::isfinite(value)) return std::nullopt;
    rest_.remove_prefix(n);
    return value;
  }
  std::string_view word() {
    size_t n = 0;
    while (n < rest_.size() && !isDigit(rest_[n]) && !isSpace(rest_[n])) ++n;
    const std::string_view found = rest_.substr(0, n);
    rest_.remove_prefix(n);
    return found;
  }

 private:
  std::string_view rest_;
};

bool isWhole(double v) {
  return v == std::floor(v);
}

/// "1.5", "3/4" or "1 3/4".
std::optional<Quotient> amount(Reader& reader) {
  const auto first = reader.number();
  if (!first) return std::nullopt;
  auto over = first;
  double whole = 0;
  if (!reader.take('/')) {
    reader.skipSpaces();
    if (!reader.startsNumber()) return Quotient{*first, 1};
    whole = *first;
    over = reader.number();
    if (!over || !reader.take('/') || !isWhole(whole)) return std::nullopt;
  }
  const auto under = reader.number();
  if (!under || !isWhole(*over) || !isWhole(*under)) return std::nullopt;
  if (whole > 0 && *under > 0 && *over >= *under) return std::nullopt;
  return Quotient{whole * *under + *over, *under};
}

Diagnostic fault(std::string message, std::string hint) {
  return {Fault::BadInput, "", std::move(message), std::move(hint), {}};
}

const UnitName* unitNamed(std::string_view name) {
  for (const UnitName& u : kUnits)
    if (u.name == name) return &u;
  return nullptr;
}

bool isFeet(const UnitName& u) {
  return u.mm.over == 1524;
}
bool isInches(const UnitName& u) {
  return u.mm.over == 127;
}

/// The inches after the feet, added to them; the amount stays in feet.
std::optional<Quotient> plusInches(Reader& reader, Quotient feet) {
  const auto inches = amount(reader);
  if (!inches) return std::nullopt;
  reader.skipSpaces();
  const UnitName* unit = unitNamed(reader.word());
  if (!unit || !isInches(*unit)) return std::nullopt;
  return Quotient{feet.over * 12 * inches->under + inches->over * feet.under,
                  feet.under * inches->under * 12};
}

}  // namespace

double millimetres(double number, LengthUnit unit) {
  return unit == LengthUnit::Inch ? number * 127 / 5 : number;
}

Result<double> lengthFromText(std::string_view text, LengthUnit bare) {
  const Diagnostic notLength = fault(quoted(text) + " is not a length", kLengthHint);
  Reader reader(text);
  reader.skipSpaces();
  const bool negative = reader.take('-');
  if (!negative) reader.take('+');
  reader.skipSpaces();
  auto size = amount(reader);
  if (!size) return notLength;
  reader.skipSpaces();
  const std::string_view name = reader.word();
  const UnitName* unit = name.empty() ? unitNamed(bare == LengthUnit::Inch ? "in" : "mm") : unitNamed(name);
  if (name == "-" || name == ",") return notLength;  // 3-1/2 in, 1,5 mm: a slip of the amount
  if (!unit)
    return fault(quoted(text) + " has the unit " + quoted(name) + ", which is not known",
                 "the units are mm, cm, m, in and ft");
  if (isFeet(*unit) && !reader.atEnd()) size = plusInches(reader, *size);
  if (!size || !reader.atEnd()) return notLength;
  if (size->under == 0) return fault(quoted(text) + " has a fraction over 0", kLengthHint);
  const double mm = size->over * unit->mm.over / (size->under * unit->mm.under);
  if (!std::isfinite(mm)) return notLength;
  return negative && mm > 0 ? -mm : mm;
}

std::string lengthText(double mm, LengthUnit unit) {
  if (unit == LengthUnit::Millimetre) return plainNumber(std::round(mm * 100) / 100) + " mm";
  const double inches = mm * 5 / 127, parts = std::round(std::abs(inches) * 64);
  if (std::abs(std::abs(inches) * 64 - parts) > 1e-7) return plainNumber(inches) + " in";
  int over = static_cast<int>(std::fmod(parts, 64)), under = 64;
  while (over > 0 && over % 2 == 0) over /= 2, under /= 2;
  const double whole = std::floor(parts / 64);
  std::string text = inches < 0 && parts > 0 ? "-" : "";
  if (whole > 0 || over == 0) text += plainNumber(whole) + (over > 0 ? " " : "");
  if (over > 0) text += std::to_string(over) + "/" + std::to_string(under);
  return text + " in";
}

Result<double> slopeFromText(std::string_view text) {
  const Diagnostic notSlope = fault(quoted(text) + " is not a slope", "write \"1:6\" or \"1 in 6\"");
  Reader reader(text);
  reader.skipSpaces();
  const auto rise = reader.number();
  if (!rise) return notSlope;
  reader.skipSpaces();
  if (!reader.take(':') && reader.word() != "in") return notSlope;
  reader.skipSpaces();
  const auto run = reader.number();
  if (!run || !reader.atEnd() || *rise <= 0 || *run <= 0) return notSlope;
  if (*rise > *run) return fault(quoted(text) + " is steeper than 1:1", "write \"1:6\" or \"1 in 6\"");
  return *rise / *run;
}

}  // namespace dryfit
