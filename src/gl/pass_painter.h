// One pass of a picture: everything in the scene once, under one lamp.
#pragma once

#include <vector>

#include "gl/matrix.h"
#include "gl/program.h"
#include "gl/scene_buffers.h"
#include "gl/targets.h"
#include "scene/camera.h"
#include "scene/lights.h"
#include "scene/look.h"
#include "scene/scene.h"

namespace dryfit::gl {

struct Pass {
  Matrix clip{};
  const scene::Lamp* lamp = nullptr;  ///< null: nothing casts shade
  bool encode = false;                ///< written as the screen wants it, else linear
};

class PassPainter {
 public:
  static constexpr size_t kMostSections = scene::kMostSections;  ///< as the shaders have them

  PassPainter(Program face, Program depth, Program edge, Program bench);
  /// What the following passes are of; must outlive them.
  void load(const scene::Scene& scene, const scene::Look& look, const scene::Camera& camera,
            scene::PictureSize size);
  void draw(const Pass& p, const Target& target);

 private:
  struct Ball {
    Vec3 middle;
    double radiusMm = 1;
  };
  static Ball ballAround(const Box3& box);
  void setCuts(Program& program, int without);
  void noCuts();
  Matrix drawShadow(const scene::Lamp& lamp);
  void setFaceLight(const Pass& p, const Matrix& shadowFromWorld);
  void drawBench(const Pass& p);
  void drawSolid(const Pass& p);
  void drawOutlines();
  void beginEdges(const Pass& p);
  void drawCapEdges();
  void drawSeeThrough(const Pass& p);
  void drawNearestLayer(Stretch faces);
  void drawEdgesSeenThrough(const Pass& p, const SceneBuffers::SeeThrough& s);
  double edgeWidthPx() const;

  Program face_, depth_, edge_, bench_;
  SceneBuffers buffers_;
  ShadowMap shadow_;
  VertexArray nothing_ = VertexArray::make();  ///< for corners made in the vertex shader
  const scene::Scene* scene_ = nullptr;
  const scene::Look* look_ = nullptr;
  const scene::Camera* camera_ = nullptr;
  scene::PictureSize size_;
  Ball ball_;
};

/// Texture units, one for each thing.
inline constexpr int kItemUnit = 0, kShadowUnit = 1, kPictureUnit = 2, kLetterUnit = 3, kShadowDepthUnit = 4;

}  // namespace dryfit::gl
