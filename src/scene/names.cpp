#include "scene/names.h"

#include <algorithm>
#include <sstream>

namespace dryfit::scene {

namespace {

bool isNumber(const std::string& word) {
  return word.find_first_not_of("0123456789.") == std::string::npos;
}

bool beginsWithPart(const std::string& id, const std::string& head) {
  return id.size() > head.size() && id.compare(0, head.size(), head) == 0 && id[head.size()] == '.';
}

template <class Fits>
std::vector<int> piecesWhere(const CutWork& work, Fits fits) {
  std::vector<int> out;
  for (size_t i = 0; i < work.pieces.size(); ++i)
    if (fits(work.pieces[i])) out.push_back(static_cast<int>(i));
  return out;
}

std::string turnedRound(const std::string& id) {
  const size_t plus = id.find('+');
  return plus == std::string::npos ? id : id.substr(plus + 1) + "+" + id.substr(0, plus);
}

}  // namespace

std::string kindOf(const std::string& name) {
  std::istringstream words(name.substr(0, name.find(" of ")));
  std::string kind;
  for (std::string word; words >> word;)
    if (kind.empty() || !isNumber(word)) kind = word;
  return kind.substr(0, kind.find('.'));
}

std::vector<int> piecesCalled(const CutWork& work, const std::string& word) {
  if (word.empty()) return {};
  auto found = piecesWhere(work, [&](const Piece& p) { return p.id == word; });
  if (found.empty()) found = piecesWhere(work, [&](const Piece& p) { return beginsWithPart(p.id, word); });
  if (found.empty())
    found = piecesWhere(work, [&](const Piece& p) {
      const std::string kind = kindOf(p.name);
      return kind == word || kind + "s" == word;
    });
  return found;
}

std::optional<int> jointCalled(const Assembly& assembly, const std::string& id) {
  for (const std::string& one : {id, turnedRound(id)})
    for (size_t i = 0; i < assembly.joints.size(); ++i)
      if (assembly.joints[i].id == one) return static_cast<int>(i);
  return {};
}

std::optional<int> jointCalled(const CutWork& work, const std::string& word) {
  if (const auto found = jointCalled(work.assembly, word)) return found;
  std::optional<int> joint;
  for (const int piece : piecesWhere(work, [&](const Piece& p) { return beginsWithPart(p.id, word); })) {
    const auto brought = jointCalled(work.assembly, work.pieces[static_cast<size_t>(piece)].joint);
    if (!brought || (joint && joint != brought)) return {};
    joint = brought;
  }
  return joint;
}

std::vector<std::string> pieceIds(const CutWork& work) {
  std::vector<std::string> out;
  for (const Piece& piece : work.pieces) out.push_back(piece.id);
  return out;
}

std::vector<std::string> kindsOf(const CutWork& work) {
  std::vector<std::string> out;
  for (const Piece& piece : work.pieces)
    if (const std::string kind = kindOf(piece.name); std::find(out.begin(), out.end(), kind) == out.end())
      out.push_back(kind);
  return out;
}

std::vector<std::string> jointIds(const Assembly& assembly) {
  std::vector<std::string> out;
  for (const auto& joint : assembly.joints) out.push_back(joint.id);
  return out;
}

}  // namespace dryfit::scene
