# What ezdxf makes of drawings: one JSON object a file, by name.
import json
import math
import sys

import ezdxf


def piece(e):
    """Start, end, centre, radius and signed sweep of a line or an arc."""
    if e.dxftype() == "LINE":
        return (tuple(e.dxf.start)[:2], tuple(e.dxf.end)[:2], None, 0.0, 0.0)
    sweep = (e.dxf.end_angle - e.dxf.start_angle) % 360.0
    return (tuple(e.start_point)[:2], tuple(e.end_point)[:2],
            tuple(e.dxf.center)[:2], e.dxf.radius, math.radians(sweep))


def back(p):
    return (p[1], p[0], p[2], p[3], -p[4])


def walk(pieces, tol=1e-7):
    """Joins pieces in order into loops; gives (area, largest gap) of each."""
    loops, i = [], 0
    while i < len(pieces):
        best = None
        for first in (pieces[i], back(pieces[i])):
            run, gap, j = [first], 0.0, i + 1
            while j < len(pieces) and math.dist(run[-1][1], run[0][0]) > tol:
                p = pieces[j]
                if math.dist(p[0], run[-1][1]) > math.dist(p[1], run[-1][1]):
                    p = back(p)
                gap = max(gap, math.dist(p[0], run[-1][1]))
                run.append(p)
                j += 1
            gap = max(gap, math.dist(run[-1][1], run[0][0]))
            if best is None or gap < best[1]:
                best = (run, gap, j)
        loops.append((abs(area(best[0])), best[1]))
        i = best[2]
    return loops


def area(run):
    ox, oy = run[0][0]
    total = 0.0
    for a, b, _, r, sweep in run:
        total += ((a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy)) / 2
        total += r * r * (sweep - math.sin(sweep)) / 2
    return total


def extend(box, p):
    box[0], box[1] = min(box[0], p[0]), min(box[1], p[1])
    box[2], box[3] = max(box[2], p[0]), max(box[3], p[1])


def bound(box, p):
    a, b, c, r, sweep = p
    extend(box, a)
    extend(box, b)
    if c is None:
        return
    start = math.atan2(a[1] - c[1], a[0] - c[0])
    for k in range(4):
        turn = (k * math.pi / 2 - start) % (2 * math.pi)
        if sweep < 0:
            turn = -((start - k * math.pi / 2) % (2 * math.pi))
        if abs(turn) <= abs(sweep):
            extend(box, (c[0] + r * math.cos(k * math.pi / 2), c[1] + r * math.sin(k * math.pi / 2)))


def look(path):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    out = {
        "version": doc.dxfversion,
        "errors": [str(e.message) for e in audit.errors],
        "fixes": [str(e.message) for e in audit.fixes],
        "blocks": len(doc.blocks),
        "paper": len(doc.layout("Layout1") if "Layout1" in doc.layout_names() else doc.layouts.get(doc.layout_names()[-1])),
        "extents": list(doc.header["$EXTMIN"])[:2] + list(doc.header["$EXTMAX"])[:2],
        "units": doc.header.get("$INSUNITS", 0) if doc.dxfversion != "AC1009" else 0,
        "measurement": doc.header.get("$MEASUREMENT", 0) if doc.dxfversion != "AC1009" else 0,
        "layers": sorted(l.dxf.name for l in doc.layers),
        "counts": {}, "circles": [], "loops": {},
    }
    box = [math.inf, math.inf, -math.inf, -math.inf]
    pieces = {}
    for e in doc.modelspace():
        key = e.dxf.layer + " " + e.dxftype()
        out["counts"][key] = out["counts"].get(key, 0) + 1
        kind = e.dxftype()
        if kind == "CIRCLE":
            c, r = e.dxf.center, e.dxf.radius
            out["circles"].append([e.dxf.layer, c[0], c[1], r])
            extend(box, (c[0] - r, c[1] - r))
            extend(box, (c[0] + r, c[1] + r))
            continue
        parts = list(e.virtual_entities()) if "POLYLINE" in kind else [e]
        parts = [piece(p) for p in parts]
        for p in parts:
            bound(box, p)
        if "POLYLINE" in kind:
            loops = walk(parts)
            if not e.is_closed or len(loops) != 1:
                raise ValueError("polyline is not one closed loop")
            out["loops"].setdefault(e.dxf.layer, []).extend(loops)
        elif e.dxf.layer not in ("MARKS", "BENDS"):
            pieces.setdefault(e.dxf.layer, []).extend(parts)
    for layer, ps in pieces.items():
        out["loops"].setdefault(layer, []).extend(walk(ps))
    out["box"] = box
    return out


json.dump({p: look(p) for p in sys.argv[1:]}, sys.stdout)
