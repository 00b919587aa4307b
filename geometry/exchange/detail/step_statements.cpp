#include "exchange/detail/step_statements.h"

#include <algorithm>
#include <charconv>

namespace dryfit::detail {

namespace {

constexpr size_t kLineLength = 72;

bool isBreak(char c) {
  return c == '\n' || c == '\r';
}

/// The number whose digits begin at `at`, which moves past it.
int numberAt(const std::string& text, size_t& at) {
  int number = 0;
  const char* const end = std::from_chars(text.data() + at, text.data() + text.size(), number).ptr;
  at = static_cast<size_t>(end - text.data());
  return number;
}

/// Past the string that begins at `at`; a doubled apostrophe in it ends one and begins the next, which comes
/// to the same.
size_t pastString(const std::string& words, size_t at) {
  return std::min(words.find('\'', at + 1), words.size() - 1) + 1;
}

/// The next statement's words, `at` moved past its semicolon.
std::string wordsFrom(const std::string& file, size_t& at) {
  std::string words;
  bool inString = false;
  for (; at < file.size(); ++at) {
    const char c = file[at];
    if (c == ';' && !inString) return ++at, words;
    if (c == '\'') inString = !inString;
    if (!isBreak(c) && (inString || c != ' ')) words += c;
  }
  return words;
}

bool isCapital(char c) {
  return c >= 'A' && c <= 'Z';
}

/// Past the next place where a line may end: after a bracket or a comma, between the parts of a complex
/// instance.
size_t pastPart(const std::string& words, size_t at) {
  while (at < words.size()) {
    if (words[at] == '\'') {
      at = pastString(words, at);
      continue;
    }
    const char c = words[at++];
    if (c == ',' || c == '(' || (c == ')' && at < words.size() && isCapital(words[at]))) break;
  }
  return at;
}

/// A new line begins wherever the next part would not fit.
void addLine(std::string& file, const std::string& line) {
  size_t used = 0;
  for (size_t from = 0; from < line.size();) {
    const size_t to = pastPart(line, from);
    if (used > 0 && used + to - from > kLineLength) file += '\n', used = 0;
    file.append(line, from, to - from);
    used += to - from;
    from = to;
  }
  file += '\n';
}

/// Calls `literal(from, to)` and `reference(number)` in turn over all of the words.
template <class Literal, class Reference>
void walk(const std::string& words, const Literal& literal, const Reference& reference) {
  size_t from = 0;
  for (size_t at = 0; at < words.size();) {
    if (words[at] == '\'') {
      at = pastString(words, at);
    } else if (words[at] == '#') {
      literal(from, at);
      reference(numberAt(words, ++at));
      from = at;
    } else {
      ++at;
    }
  }
  literal(from, words.size());
}

}  // namespace

std::vector<Statement> statementsOf(const std::string& file) {
  std::vector<Statement> statements;
  for (size_t at = 0; at < file.size();) {
    Statement next{0, wordsFrom(file, at)};
    if (next.words.empty()) continue;
    if (next.words[0] == '#') {
      size_t equals = 1;
      next.number = numberAt(next.words, equals);
      next.words.erase(0, equals + 1);
    }
    statements.push_back(std::move(next));
  }
  return statements;
}

std::string fileOf(const std::vector<Statement>& statements) {
  std::string file;
  for (const Statement& s : statements)
    addLine(file, (s.number ? "#" + std::to_string(s.number) + "=" : "") + s.words + ";");
  return file;
}

std::string renumbered(const std::string& words, const std::function<int(int)>& numberOf) {
  std::string out;
  out.reserve(words.size());
  walk(
      words, [&](size_t from, size_t to) { out.append(words, from, to - from); },
      [&](int number) { out += "#" + std::to_string(numberOf(number)); });
  return out;
}

std::vector<int> referencesOf(const std::string& words) {
  std::vector<int> numbers;
  walk(
      words, [](size_t, size_t) {}, [&](int number) { numbers.push_back(number); });
  return numbers;
}

}  // namespace dryfit::detail
