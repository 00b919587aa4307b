#include "cli/picture_names.h"

#include "base/text.h"
#include "scene/names.h"

namespace dryfit::cli {

namespace {

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
  return out;
}

/// Beginnings of ids that stand for several pieces: "leaf.moulding" of "leaf.moulding.1.1.front.top".
std::vector<std::string> withBeginnings(const std::vector<std::string>& ids) {
  std::vector<std::string> out = ids;
  for (const std::string& id : ids)
    for (size_t dot = id.find('.'); dot != std::string::npos; dot = id.find('.', dot + 1))
      out.push_back(id.substr(0, dot));
  return out;
}

}  // namespace

std::string nearestOr(const std::string& given, const std::vector<std::string>& names,
                      const std::string& otherwise) {
  const auto nearest = nearestName(given, names);
  return nearest ? "did you mean " + *nearest + "?" : otherwise;
}

Result<std::vector<int>> piecesNamed(const std::string& option, const std::string& word,
                                     const CutWork& work) {
  std::vector<int> found = scene::piecesCalled(work, word);
  if (!found.empty()) return found;
  const std::vector<std::string> kinds = scene::kindsOf(work);
  std::vector<std::string> names = withBeginnings(scene::pieceIds(work));
  names.insert(names.end(), kinds.begin(), kinds.end());
  return Diagnostic{Fault::BadInput,
                    option,
                    "there is no piece or kind of piece " + dryfit::quoted(word),
                    nearestOr(word, names, "dryfit pieces lists ids; kinds here: " + listed(kinds)),
                    {}};
}

Result<int> jointNamed(const std::string& option, const std::string& id, const CutWork& work) {
  if (const auto found = scene::jointCalled(work, id)) return *found;
  const std::vector<std::string> ids = scene::jointIds(work.assembly);
  const std::string example = ids.empty() ? "this work has none" : "two pieces that meet, as " + ids.front();
  return Diagnostic{
      Fault::BadInput, option, "there is no joint " + dryfit::quoted(id), nearestOr(id, ids, example), {}};
}

}  // namespace dryfit::cli
