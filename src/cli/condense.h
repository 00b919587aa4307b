// Long lists of names for people: what differs among names that are all in the list is written as a star.
#pragma once

#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

namespace dryfit::cli {

struct Term {
  std::string text;
  int count = 1;  ///< names it stands for
};

/// Names are parts joined by "." or "+"; a star stands for one part or several. A star is written only where
/// every name of the whole that it could stand for is in the list.
class Condenser {
 public:
  /// `all`: every name there is. `sizes`: the last word of a name, what it is a size of, is never a star.
  Condenser(const std::vector<std::string>& all, bool sizes);

  /// "leaf.wedge.* (20)", "leaf.width": in the order of the list. Names that are not among all stay as they
  /// are.
  std::vector<Term> terms(const std::vector<std::string>& names) const;

 private:
  using Counts = std::unordered_map<std::uint64_t, int>;
  struct Name {
    std::vector<std::string> parts, joints;  ///< joints[i] stands before parts[i]
    std::vector<std::uint64_t> patterns;     ///< a number for each choice of parts that may be stars
    std::vector<size_t> open;                ///< the parts that may be stars
  };
  Name split(const std::string& name) const;
  std::string written(const Name& name, size_t choice, int count) const;
  size_t broadest(const Name& name, const Counts& here) const;

  bool sizes_;
  std::unordered_map<std::string, Name> names_;
  Counts counts_;  ///< names of the whole that have a pattern
};

/// "a, b.* (3) and 5 more": at most `most` terms, unless only one would be left out; 0: all.
std::string listed(const std::vector<Term>& terms, size_t most = 0);

}  // namespace dryfit::cli
