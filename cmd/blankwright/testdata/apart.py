# How far apart the outlines in drawings of sheets lie, as ezdxf and Shapely see
# them: one JSON object a file, by name. Lengths in mm.
import json
import math
import sys

import ezdxf
from shapely.geometry import Point, Polygon

SAG = 0.001  # mm between an arc and its chords


def points(e, k):
    """The points of a line or an arc, in order, in mm."""
    if e.dxftype() == "LINE":
        return [(e.dxf.start[0] * k, e.dxf.start[1] * k), (e.dxf.end[0] * k, e.dxf.end[1] * k)]
    r, a = e.dxf.radius * k, math.radians(e.dxf.start_angle)
    sweep = math.radians((e.dxf.end_angle - e.dxf.start_angle) % 360.0)
    n = max(2, math.ceil(sweep / (2 * math.acos(1 - SAG / r))))
    x, y = e.dxf.center[0] * k, e.dxf.center[1] * k
    return [(x + r * math.cos(a + sweep * i / n), y + r * math.sin(a + sweep * i / n)) for i in range(n + 1)]


def loops(entities, k):
    """Polygons of entities that follow each other round closed lines."""
    run = []
    for e in entities:
        if e.dxftype() == "CIRCLE":
            yield Point(e.dxf.center[0] * k, e.dxf.center[1] * k).buffer(e.dxf.radius * k, 256)
            continue
        p = points(e, k)
        if run and math.dist(run[-1], p[0]) > math.dist(run[-1], p[-1]):
            p.reverse()
        run = run + p[1:] if run else p
        if len(run) > len(p) and math.dist(run[0], run[-1]) < 1e-4:
            yield Polygon(run)
            run = []
    if run:
        raise ValueError("an outline is open")


def look(path):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    k = 25.4 if doc.header["$INSUNITS"] == 1 else 1.0
    parts = list(loops(doc.modelspace().query('*[layer=="OUTLINE"]'), k))
    least = math.inf
    for i, p in enumerate(parts):
        for q in parts[:i]:
            least = min(least, p.distance(q))
    box = [min(p.bounds[0] for p in parts), min(p.bounds[1] for p in parts),
           max(p.bounds[2] for p in parts), max(p.bounds[3] for p in parts)]
    return {"audit": len(audit.errors) + len(audit.fixes), "parts": len(parts), "apart": least if parts[1:] else 0, "box": box,
            "valid": all(p.is_valid for p in parts)}


json.dump({p: look(p) for p in sys.argv[1:]}, sys.stdout)
