#include "gl/scene_buffers.h"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace dryfit::gl {

namespace {

using scene::Item;
using scene::Shape;
using scene::Shown;

void put(float (&out)[3], Vec3 v) {
  out[0] = static_cast<float>(v.x);
  out[1] = static_cast<float>(v.y);
  out[2] = static_cast<float>(v.z);
}

void attribute(GLuint place, int size, size_t stride, size_t offset) {
  glEnableVertexAttribArray(place);
  glVertexAttribPointer(place, size, GL_FLOAT, GL_FALSE, static_cast<GLsizei>(stride),
                        reinterpret_cast<const void*>(offset));
}
void wholeAttribute(GLuint place, size_t stride, size_t offset) {
  glEnableVertexAttribArray(place);
  glVertexAttribIPointer(place, 1, GL_UNSIGNED_INT, static_cast<GLsizei>(stride),
                         reinterpret_cast<const void*>(offset));
}

/// There is no first instance in OpenGL 3.3: the attributes begin at `first` instead.
void pointAtEdges(int first) {
  const size_t start = static_cast<size_t>(first) * sizeof(EdgeRecord);
  const size_t fields[] = {offsetof(EdgeRecord, from), offsetof(EdgeRecord, to), offsetof(EdgeRecord, left),
                           offsetof(EdgeRecord, right)};
  GLuint place = 0;
  for (const size_t field : fields) attribute(place++, 3, sizeof(EdgeRecord), start + field);
  wholeAttribute(place++, sizeof(EdgeRecord), start + offsetof(EdgeRecord, item));
  wholeAttribute(place, sizeof(EdgeRecord), start + offsetof(EdgeRecord, runsOn));
  for (GLuint i = 0; i <= place; ++i) glVertexAttribDivisor(i, 1);
}

template <class T>
void fill(GLenum target, const Buffer& buffer, const std::vector<T>& data) {
  glBindBuffer(target, buffer.name());
  glBufferData(target, static_cast<GLsizeiptr>(data.size() * sizeof(T)), data.data(), GL_DYNAMIC_DRAW);
}

void addFaces(const Shape& shape, std::uint32_t item, std::vector<FaceVertex>& out) {
  for (const Shape::Triangle& t : shape.triangles)
    for (size_t k = 0; k < 3; ++k) {
      FaceVertex v{};
      put(v.at, shape.points[static_cast<size_t>(t.points[k])]);
      put(v.normal, t.normals[k]);
      v.item = item;
      out.push_back(v);
    }
}

EdgeRecord edgeOf(Vec3 from, Vec3 to, Vec3 left, Vec3 right, std::uint32_t item, bool runsOn) {
  EdgeRecord e{};
  put(e.from, from);
  put(e.to, to);
  put(e.left, left);
  put(e.right, right);
  e.item = item;
  e.runsOn = runsOn ? 1 : 0;
  return e;
}

void addEdges(const Shape& shape, std::uint32_t item, std::vector<EdgeRecord>& out) {
  const auto point = [&](int i) { return shape.points[static_cast<size_t>(i)]; };
  for (const Shape::Edge& e : shape.edges)
    out.push_back(edgeOf(point(e.from), point(e.to), e.normalLeft, e.normalRight, item, e.smooth));
}

/// Solid 0, solid and marked 1, see-through 2, outline 3.
int rankOf(const Item& item) {
  if (item.shown == Shown::Solid) return item.mark == scene::Mark::None ? 0 : 1;
  return item.shown == Shown::SeeThrough ? 2 : 3;
}

std::vector<int> drawingOrder(const scene::Scene& scene) {
  std::vector<int> order(scene.items.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return rankOf(scene.items[static_cast<size_t>(a)]) < rankOf(scene.items[static_cast<size_t>(b)]);
  });
  return order;
}

Vec3 partsOf(scene::Colour c) {
  return {c.red, c.green, c.blue};
}

/// Fittings are small: with the lines of timber they would be ink alone.
constexpr scene::Colour kMetalEdge = scene::rgb(0x3F4448);
constexpr double kMetalWidth = 0.55;

/// As shaders/items.glsl reads it.
void addTexels(const Item& item, scene::Ground ground, std::vector<float>& out) {
  const auto texel = [&](Vec3 v, double w) {
    for (const double part : {v.x, v.y, v.z, w}) out.push_back(static_cast<float>(part));
  };
  const Placement& p = item.worldFromPiece;
  for (int row = 0; row < 3; ++row) texel({p.xAxis[row], p.yAxis[row], p.zAxis[row]}, p.origin[row]);
  const scene::Surface& s = item.surface;
  texel(partsOf(s.early), static_cast<double>(s.substance));
  texel(partsOf(s.late), s.coursing.courseMm);
  texel({s.grain.pithYMm, s.grain.pithZMm, s.grain.ringMm}, s.grain.tilt);
  const Vec3 size = item.shape->box.size();
  texel({static_cast<double>(s.grain.seed & 0xFFFF), std::min(size.y, size.z), s.coursing.lengthMm},
        s.coursing.upright ? 1 : 0);
  const bool metal = s.substance == scene::Substance::Metal;
  const bool plain = item.mark == scene::Mark::None;
  texel(partsOf(metal && plain ? kMetalEdge : colourOf(item.mark, ground)),
        widthFactor(item.mark) * (metal && plain ? kMetalWidth : 1));
}

}  // namespace

Geometry::Geometry()
    : faces_(Buffer::make()),
      edges_(Buffer::make()),
      faceArray_(VertexArray::make()),
      edgeArray_(VertexArray::make()) {}

void Geometry::upload(const std::vector<FaceVertex>& faces, const std::vector<EdgeRecord>& edges) {
  glBindVertexArray(faceArray_.name());
  fill(GL_ARRAY_BUFFER, faces_, faces);
  attribute(0, 3, sizeof(FaceVertex), offsetof(FaceVertex, at));
  attribute(1, 3, sizeof(FaceVertex), offsetof(FaceVertex, normal));
  wholeAttribute(2, sizeof(FaceVertex), offsetof(FaceVertex, item));
  glBindVertexArray(edgeArray_.name());
  fill(GL_ARRAY_BUFFER, edges_, edges);
}

void Geometry::drawFaces(Stretch s) const {
  if (s.count == 0) return;
  glBindVertexArray(faceArray_.name());
  glDrawArrays(GL_TRIANGLES, s.first, s.count);
}

void Geometry::drawEdges(Stretch s) const {
  if (s.count == 0) return;
  glBindVertexArray(edgeArray_.name());
  glBindBuffer(GL_ARRAY_BUFFER, edges_.name());
  pointAtEdges(s.first);
  glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, s.count);
}

SceneBuffers::SceneBuffers() : table_(Buffer::make()), tableView_(Texture::make()) {}

void SceneBuffers::load(const scene::Scene& scene, scene::Ground ground) {
  std::vector<std::uintptr_t> shown;
  for (const Item& item : scene.items)
    shown.insert(shown.end(), {reinterpret_cast<std::uintptr_t>(item.shape.get()),
                               static_cast<std::uintptr_t>(rankOf(item))});
  if (shown != shown_ || kept_.empty()) {
    kept_.clear();
    for (const Item& item : scene.items) kept_.push_back(item.shape);
    shown_ = std::move(shown);
    fillPieces(scene, drawingOrder(scene));
  }
  fillTable(scene, ground);
}

void SceneBuffers::fillPieces(const scene::Scene& scene, const std::vector<int>& order) {
  std::vector<FaceVertex> faces;
  std::vector<EdgeRecord> edges;
  const auto faceCount = [&] { return static_cast<int>(faces.size()); };
  const auto edgeCount = [&] { return static_cast<int>(edges.size()); };
  seeThrough_.clear();
  solidFaces_ = solidEdges_ = outlineEdges_ = {};
  for (const int i : order) {
    const Item& item = scene.items[static_cast<size_t>(i)];
    const int firstFace = faceCount(), firstEdge = edgeCount(), rank = rankOf(item);
    if (rank < 3) addFaces(*item.shape, static_cast<std::uint32_t>(i), faces);
    addEdges(*item.shape, static_cast<std::uint32_t>(i), edges);
    if (rank < 2) {
      solidFaces_.count = faceCount();
      solidEdges_.count = edgeCount();
    } else if (rank == 2) {
      seeThrough_.push_back({i, {firstFace, faceCount() - firstFace}, {firstEdge, edgeCount() - firstEdge}});
    } else {
      if (outlineEdges_.count == 0) outlineEdges_.first = firstEdge;
      outlineEdges_.count = edgeCount() - outlineEdges_.first;
    }
  }
  pieces_.upload(faces, edges);
}

void SceneBuffers::fillTable(const scene::Scene& scene, scene::Ground ground) {
  std::vector<float> texels;
  for (const Item& item : scene.items) addTexels(item, ground, texels);
  if (texels.empty()) texels.resize(4);  // a buffer texture may not be empty
  fill(GL_TEXTURE_BUFFER, table_, texels);
}

void SceneBuffers::bindTable(int unit) const {
  glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
  glBindTexture(GL_TEXTURE_BUFFER, tableView_.name());
  glTexBuffer(GL_TEXTURE_BUFFER, GL_RGBA32F, table_.name());
}

void SceneBuffers::loadCaps(const scene::Scene& scene, const std::vector<scene::CutPlane>& planes) {
  std::vector<FaceVertex> faces;
  std::vector<EdgeRecord> edges;
  capStretches_.clear();
  for (size_t k = 0; k < planes.size(); ++k) {
    CapStretch s{
        static_cast<int>(k), {static_cast<int>(faces.size()), 0}, {static_cast<int>(edges.size()), 0}};
    for (size_t i = 0; i < scene.items.size(); ++i) {
      const Item& item = scene.items[i];
      if (item.shown == Shown::Outline) continue;
      const scene::Cap cap = capOf(*item.shape, item.worldFromPiece, planes[k]);
      const Vec3 normal = inverse(item.worldFromPiece).direction(planes[k].normal);
      if (item.shown == Shown::Solid)
        for (const auto& triangle : cap.triangles)
          for (const Vec3& p : triangle) {
            FaceVertex v{};
            put(v.at, p);
            put(v.normal, normal);
            v.item = static_cast<std::uint32_t>(i);
            faces.push_back(v);
          }
      for (const auto& loop : cap.outlines)
        for (size_t n = 0; n < loop.size(); ++n)
          edges.push_back(edgeOf(loop[n], loop[(n + 1) % loop.size()], normal, -normal,
                                 static_cast<std::uint32_t>(i), false));
    }
    s.faces.count = static_cast<int>(faces.size()) - s.faces.first;
    s.edges.count = static_cast<int>(edges.size()) - s.edges.first;
    capStretches_.push_back(s);
  }
  caps_.upload(faces, edges);
}

}  // namespace dryfit::gl
