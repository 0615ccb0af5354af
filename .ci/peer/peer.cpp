// Times two general-purpose polygon libraries, GEOS and polyclipping, on the
// shapes that the Go benchmarks use, with arcs flattened to a chord tolerance.
// kernel-ratios.sh builds and runs it beside them.
//
//   peer FOLDER TOLERANCE_MM SHAPE...
//
// Prints one line per shape, operation and library: processor time of one call
// in ns, the median of nine rounds of at least 60 ms.
#include <geos_c.h>
#include <polyclipping/clipper.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

namespace {

struct Place { double x, y; };
using Ring = std::vector<Place>;

constexpr double kMove[2] = {7.3, 3.1};  // the copy that booleans are taken with
constexpr double kOffset = 0.75;         // mm
constexpr double kGrid = 1e6;            // polyclipping's whole numbers per mm
constexpr int kQuadrant = 8;             // GEOS's segments per quarter turn

// Appends the vertices of one edge, without its end.
void flattenEdge(Ring& out, Place a, Place b, double bulge, double tolerance) {
  out.push_back(a);
  if (bulge == 0) return;
  const double sweep = 4 * std::atan(bulge);
  const double chord = std::hypot(b.x - a.x, b.y - a.y);
  const double radius = chord / (2 * std::sin(std::abs(sweep) / 2));
  const double step = 2 * std::acos(std::max(-1.0, 1 - tolerance / radius));
  const int pieces = std::max(2, static_cast<int>(std::ceil(std::abs(sweep) / step)));
  const double rise = (1 - bulge * bulge) / (4 * bulge);
  const Place centre{(a.x + b.x) / 2 - rise * (b.y - a.y), (a.y + b.y) / 2 + rise * (b.x - a.x)};
  const double from = std::atan2(a.y - centre.y, a.x - centre.x);
  for (int i = 1; i < pieces; i++) {
    const double at = from + sweep * i / pieces;
    out.push_back({centre.x + radius * std::cos(at), centre.y + radius * std::sin(at)});
  }
}

std::vector<Ring> load(const std::string& file, double tolerance) {
  std::ifstream in(file);
  if (!in) { std::cerr << "cannot read " << file << "\n"; std::exit(1); }
  struct Vertex { Place at; double bulge; };
  std::vector<std::vector<Vertex>> loops(1);
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    Vertex v;
    if (words >> v.at.x >> v.at.y >> v.bulge) loops.back().push_back(v);
    else if (!loops.back().empty()) loops.emplace_back();
  }
  std::vector<Ring> rings;
  for (const auto& loop : loops) {
    if (loop.empty()) continue;
    Ring r;
    for (size_t i = 0; i < loop.size(); i++)
      flattenEdge(r, loop[i].at, loop[(i + 1) % loop.size()].at, loop[i].bulge, tolerance);
    rings.push_back(r);
  }
  return rings;
}

GEOSGeometry* polygon(const std::vector<Ring>& rings, double dx, double dy) {
  std::vector<GEOSGeometry*> g;
  for (const auto& r : rings) {
    auto* s = GEOSCoordSeq_create(r.size() + 1, 2);
    for (size_t i = 0; i <= r.size(); i++)
      GEOSCoordSeq_setXY(s, i, r[i % r.size()].x + dx, r[i % r.size()].y + dy);
    g.push_back(GEOSGeom_createLinearRing(s));
  }
  return GEOSGeom_createPolygon(g[0], g.data() + 1, g.size() - 1);
}

ClipperLib::Paths paths(const std::vector<Ring>& rings, double dx, double dy) {
  ClipperLib::Paths out;
  for (const auto& r : rings) {
    ClipperLib::Path p;
    for (const auto& v : r)
      p.emplace_back(std::llround((v.x + dx) * kGrid), std::llround((v.y + dy) * kGrid));
    out.push_back(p);
  }
  return out;
}

template <class F>
void report(const std::string& shape, const char* op, const char* library, F&& call) {
  call();
  std::vector<double> rounds;
  for (int round = 0; round < 9; round++) {
    const clock_t begin = clock();
    long calls = 0;
    while (clock() - begin < 0.06 * CLOCKS_PER_SEC) { call(); calls++; }
    rounds.push_back(1e9 * double(clock() - begin) / CLOCKS_PER_SEC / calls);
  }
  std::nth_element(rounds.begin(), rounds.begin() + 4, rounds.end());
  std::printf("%s %s %s %.0f\n", shape.c_str(), op, library, rounds[4]);
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) { std::cerr << "usage: peer FOLDER TOLERANCE_MM SHAPE...\n"; return 2; }
  const std::string folder = argv[1];
  const double tolerance = std::atof(argv[2]);
  initGEOS(nullptr, nullptr);
  for (int i = 3; i < argc; i++) {
    const std::string shape = argv[i];
    const auto rings = load(folder + "/" + shape + ".txt", tolerance);
    auto* a = polygon(rings, 0, 0);
    auto* b = polygon(rings, kMove[0], kMove[1]);
    report(shape, "union", "geos", [&] { GEOSGeom_destroy(GEOSUnion(a, b)); });
    report(shape, "difference", "geos", [&] { GEOSGeom_destroy(GEOSDifference(a, b)); });
    report(shape, "offset+0.75", "geos", [&] { GEOSGeom_destroy(GEOSBuffer(a, kOffset, kQuadrant)); });
    report(shape, "offset-0.75", "geos", [&] { GEOSGeom_destroy(GEOSBuffer(a, -kOffset, kQuadrant)); });

    using namespace ClipperLib;
    const Paths p = paths(rings, 0, 0), q = paths(rings, kMove[0], kMove[1]);
    auto clip = [&](ClipType type) {
      Clipper c;
      c.AddPaths(p, ptSubject, true);
      c.AddPaths(q, ptClip, true);
      Paths out;
      c.Execute(type, out, pftEvenOdd, pftEvenOdd);
    };
    auto grow = [&](double d) {
      ClipperOffset o(2, tolerance * kGrid);
      o.AddPaths(p, jtRound, etClosedPolygon);
      Paths out;
      o.Execute(out, d * kGrid);
    };
    report(shape, "union", "polyclipping", [&] { clip(ctUnion); });
    report(shape, "difference", "polyclipping", [&] { clip(ctDifference); });
    report(shape, "offset+0.75", "polyclipping", [&] { grow(kOffset); });
    report(shape, "offset-0.75", "polyclipping", [&] { grow(-kOffset); });
    GEOSGeom_destroy(a);
    GEOSGeom_destroy(b);
  }
  finishGEOS();
}
