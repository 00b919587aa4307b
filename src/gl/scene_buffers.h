// A scene's triangles and edges in buffers, each item a stretch of them, and a table of what each item is
// like. Items stand in drawing order: solid ones, marked ones last; then see-through; then outlines.
#pragma once

#include <cstdint>
#include <vector>

#include "gl/objects.h"
#include "scene/look.h"
#include "scene/scene.h"

namespace dryfit::gl {

struct FaceVertex {
  float at[3], normal[3];  ///< piece frame
  std::uint32_t item;
};
struct EdgeRecord {
  float from[3], to[3], left[3], right[3];  ///< piece frame
  std::uint32_t item, runsOn;
};

struct Stretch {
  int first = 0, count = 0;
  int end() const { return first + count; }
};

/// One array of vertices and one of edges, drawn by stretches.
class Geometry {
 public:
  Geometry();
  void upload(const std::vector<FaceVertex>& faces, const std::vector<EdgeRecord>& edges);
  void drawFaces(Stretch s) const;
  /// Each edge a strip of four corners.
  void drawEdges(Stretch s) const;

 private:
  Buffer faces_, edges_;
  VertexArray faceArray_, edgeArray_;
};

class SceneBuffers {
 public:
  SceneBuffers();
  /// Puts the scene in; triangles and edges anew only where other shapes are shown than the last time.
  void load(const scene::Scene& scene, scene::Ground ground);
  void loadCaps(const scene::Scene& scene, const std::vector<scene::CutPlane>& planes);
  void bindTable(int unit) const;

  const Geometry& pieces() const { return pieces_; }
  const Geometry& caps() const { return caps_; }
  Stretch solidFaces() const { return solidFaces_; }
  Stretch solidEdges() const { return solidEdges_; }
  Stretch outlineEdges() const { return outlineEdges_; }
  struct SeeThrough {
    int item = 0;
    Stretch faces, edges;
  };
  const std::vector<SeeThrough>& seeThrough() const { return seeThrough_; }
  struct CapStretch {
    int plane = 0;
    Stretch faces, edges;
  };
  const std::vector<CapStretch>& capStretches() const { return capStretches_; }

 private:
  void fillPieces(const scene::Scene& scene, const std::vector<int>& order);
  void fillTable(const scene::Scene& scene, scene::Ground ground);

  Geometry pieces_, caps_;
  Buffer table_;
  Texture tableView_;
  std::vector<std::uintptr_t> shown_;  ///< what fillPieces() put in: shapes and how they are shown
  std::vector<std::shared_ptr<const scene::Shape>> kept_;  ///< so that an address in shown_ is not used again
  Stretch solidFaces_, solidEdges_, outlineEdges_;
  std::vector<SeeThrough> seeThrough_;
  std::vector<CapStretch> capStretches_;
};

}  // namespace dryfit::gl
