#include "exchange/detail/step_share.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace dryfit::detail {

namespace {

/// How statements begin that say a value and are nobody, up to their first list: geometry, units, styles.
const std::set<std::string_view> kValues{"CARTESIAN_POINT(",
                                         "DIRECTION(",
                                         "VECTOR(",
                                         "AXIS2_PLACEMENT_3D(",
                                         "LINE(",
                                         "CIRCLE(",
                                         "ELLIPSE(",
                                         "PLANE(",
                                         "CYLINDRICAL_SURFACE(",
                                         "CONICAL_SURFACE(",
                                         "(LENGTH_UNIT(",
                                         "(MASS_UNIT(",
                                         "(NAMED_UNIT(",
                                         "DERIVED_UNIT_ELEMENT(",
                                         "DERIVED_UNIT(",
                                         "UNCERTAINTY_MEASURE_WITH_UNIT(",
                                         "COLOUR_RGB(",
                                         "DRAUGHTING_PRE_DEFINED_CURVE_FONT(",
                                         "CURVE_STYLE(",
                                         "FILL_AREA_STYLE_COLOUR(",
                                         "FILL_AREA_STYLE(",
                                         "SURFACE_STYLE_FILL_AREA(",
                                         "SURFACE_SIDE_STYLE(",
                                         "SURFACE_STYLE_USAGE(",
                                         "PRESENTATION_STYLE_ASSIGNMENT("};

std::string_view beginning(const Statement& statement) {
  const std::string_view words = statement.words;
  return words.substr(0, words.find('(', 1) + 1);
}

/// Representations of any kind and transformations.
bool holdsItems(const Statement& statement) {
  constexpr std::string_view kRepresentation = "REPRESENTATION(";
  const std::string_view begins = beginning(statement);
  return begins == "ITEM_DEFINED_TRANSFORMATION(" ||
         (begins.size() >= kRepresentation.size() &&
          begins.substr(begins.size() - kRepresentation.size()) == kRepresentation);
}

class Sharer {
 public:
  explicit Sharer(std::vector<Statement>& statements) : statements_(statements) {
    for (size_t i = 0; i < statements.size(); ++i)
      if (statements[i].number) place_[statements[i].number] = i;
    for (const Statement& s : statements)
      if (holdsItems(s))
        for (int item : referencesOf(s.words)) items_.insert(item);
  }

  void run() {
    for (const Statement& s : statements_)
      if (s.number) instead(s.number);
    std::erase_if(statements_,
                  [&](const Statement& s) { return s.number && instead_.at(s.number) != s.number; });
    std::unordered_map<int, int> anew;
    for (const Statement& s : statements_)
      if (s.number) anew.emplace(s.number, static_cast<int>(anew.size()) + 1);
    for (Statement& s : statements_) {
      s.words = renumbered(s.words, [&](int number) { return anew.at(instead_.at(number)); });
      if (s.number) s.number = anew.at(s.number);
    }
  }

 private:
  /// The instance that stands for this one: itself or an equal one met before. Values refer to nothing but
  /// values, a few deep.
  int instead(int number) {
    if (const auto known = instead_.find(number); known != instead_.end()) return known->second;
    const Statement& statement = statements_[place_.at(number)];
    int first = number;
    if (kValues.count(beginning(statement)) && !items_.count(number))
      first = firstOf_.try_emplace(renumbered(statement.words, [&](int n) { return instead(n); }), number)
                  .first->second;
    instead_[number] = first;
    return first;
  }

  std::vector<Statement>& statements_;
  std::unordered_map<int, size_t> place_;
  std::set<int> items_;
  std::unordered_map<int, int> instead_;
  std::unordered_map<std::string, int> firstOf_;  ///< by their words, in terms of the first of each
};

}  // namespace

void shareEqual(std::vector<Statement>& statements) {
  Sharer(statements).run();
}

}  // namespace dryfit::detail
