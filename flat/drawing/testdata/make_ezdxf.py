# Makes drawings with ezdxf and tells what ezdxf itself makes of them: one JSON
# object, by file name. Argument: the folder for the drawings.
import json
import math
import os
import random
import sys

import ezdxf
from ezdxf.math import Vec3

FINE = 1e-3  # how far flattened lines may lie from curves, drawing units
VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


def points(e):
    """The entity as runs of points, seen from above."""
    kind = e.dxftype()
    if kind == "INSERT":
        inserts = e.multi_insert() if e.mcount > 1 else [e]
        for i in inserts:
            for v in i.virtual_entities():
                yield from points(v)
    elif kind == "LINE":
        yield [e.dxf.start, e.dxf.end]
    elif kind in ("LWPOLYLINE", "POLYLINE"):
        for v in e.virtual_entities():
            yield from points(v)
    elif kind == "SPLINE":
        # Its test looks at middles alone, so a double bend needs more pieces.
        yield list(e.flattening(FINE, segments=24))
    elif kind in ("CIRCLE", "ARC", "ELLIPSE"):
        yield list(e.flattening(FINE))


def answer(doc, path):
    doc.saveas(path)
    doc = ezdxf.readfile(path)
    runs, ignored = [], {}
    for e in doc.modelspace():
        got = [[[round(p[0], 9), round(p[1], 9)] for p in run] for run in points(e)]
        if not got:
            ignored[e.dxftype()] = ignored.get(e.dxftype(), 0) + 1
        runs += got
    return {"version": doc.acad_release, "runs": runs, "ignored": ignored}


def new(version, units=4):
    doc = ezdxf.new(version)
    doc.header["$INSUNITS"] = units
    doc.header["$MEASUREMENT"] = 0 if units == 1 else 1
    return doc


def simple(msp):
    msp.add_line((0, 0), (120, 10))
    msp.add_circle((30, 40), 12.5)
    msp.add_arc((60, 40), 10, 30, 200)
    msp.add_arc((90, 40), 8, 300, 20)
    msp.add_arc((90, 70), 8, 10, 350)
    msp.add_arc((60, 70), 8, 0, 180)
    msp.add_arc((30, 70), 8, 0, 360)


BULGES = [(0, 0, 0.5), (40, 0, 0), (50, 20, -0.7), (30, 40, 1), (10, 40, 1.8), (-10, 20, -2.5), (-12, 8, 0.1)]


def polylines(doc, msp):
    for close in (False, True):
        for dx in (0, 100):
            pts = [(x + dx, y + 100 * close, b) for x, y, b in BULGES]
            if doc.dxfversion == "AC1009":
                p = msp.add_polyline2d([q[:2] for q in pts], close=close)
                for v, q in zip(p.vertices, pts):
                    v.dxf.bulge = q[2]
            else:
                msp.add_lwpolyline(pts, format="xyb", close=close)
    msp.add_polyline3d([(200, 0, 0), (250, 0, 0), (250, 40, 0)])


def ellipses(msp):
    msp.add_ellipse((0, 0), (50, 0), 0.6)
    msp.add_ellipse((120, 0), (30, 20), 0.3)
    msp.add_ellipse((220, 0), (0, 40), 0.05)
    msp.add_ellipse((300, 0), (20, 0), 1.0)
    msp.add_ellipse((0, 100), (50, 10), 0.6, 0.3, 2.9)
    msp.add_ellipse((120, 100), (50, -10), 0.7, 4.0, 1.0)
    msp.add_ellipse((220, 100), (30, 10), 1.0, 1.0, 5.5)
    msp.add_ellipse((300, 100), (30, 0), 0.5, math.pi, 2 * math.pi)
    msp.add_ellipse((0, 200), (50, 10), 0.6, 0.3, 2.9, dxfattribs={"extrusion": (0, 0, -1)})
    msp.add_ellipse((120, 200), (50, 10), 0.4, dxfattribs={"extrusion": (0, 0, -1)})
    msp.add_ellipse((600, 600), (500, 100), 0.9)
    msp.add_ellipse((0, 300), (0.5, 0), 0.3)


def splines(msp):
    random.seed(7)
    ctrl = [(0, 0), (20, 60), (60, 70), (80, 0), (120, -20), (150, 40), (170, 35)]
    up = lambda dy: [(x, y + dy, 0) for x, y in ctrl]
    for i, degree in enumerate((1, 2, 3, 4, 5)):
        msp.add_open_spline(up(150 * i), degree=degree)
    far = lambda dy: [(x + 300, y + dy, 0) for x, y in ctrl]
    for i, degree in enumerate((2, 3, 4)):
        msp.add_spline().set_closed(far(200 * i), degree=degree)
    weights = [1, 2, 0.5, 3, 1, 1.5, 1]
    msp.add_rational_spline(far(700), weights, degree=3)
    msp.add_spline().set_closed_rational(far(900), weights, degree=3)
    # A corner inside: a knot as often as the degree.
    s = msp.add_spline(degree=3)
    s.control_points = [Vec3(x + 600, y) for x, y in ctrl]
    s.knots = [0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2]
    # A whole circle of four exact quarters, and a straight cubic.
    s = msp.add_spline(degree=2)
    r = math.sqrt(0.5)
    s.control_points = [Vec3(750 + 30 * x, 30 * y) for x, y in
                        [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1), (1, 0)]]
    s.weights = [1, r, 1, r, 1, r, 1, r, 1]
    s.knots = [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4]
    s.closed = True
    msp.add_open_spline([(600, 100), (620, 110), (640, 120), (700, 150)], degree=3)
    # By points on it, with and without directions at its ends.
    msp.add_spline(fit_points=[(600, 200), (640, 260), (700, 240), (720, 300), (800, 310)])
    s = msp.add_spline(fit_points=[(600, 400), (640, 460), (700, 440), (720, 500), (800, 510)])
    s.dxf.start_tangent, s.dxf.end_tangent = Vec3(0, 1), Vec3(1, 1)
    msp.add_spline(fit_points=[(600, 600), (640, 660), (700, 610)])
    # A digitised trace of many points.
    trace = [(x, 900 + 40 * math.sin(x / 30) + random.uniform(-1, 1)) for x in range(600, 900, 4)]
    msp.add_spline_control_frame(trace)


def content(doc, block):
    block.add_line((0, 0), (30, 0))
    block.add_line((30, 0), (30, 15))
    block.add_circle((10, 7), 4)
    block.add_arc((22, 7), 5, 20, 160)
    block.add_arc((22, 7), 6, 200, 100)
    if doc.dxfversion == "AC1009":
        p = block.add_polyline2d([(0, 20), (20, 20), (25, 30)], close=True)
        for v, b in zip(p.vertices, (0.4, -1.5, 0)):
            v.dxf.bulge = b
    else:
        block.add_lwpolyline([(0, 20, 0.4), (20, 20, -1.5), (25, 30, 0)], format="xyb", close=True)
        block.add_ellipse((40, 10), (8, 3), 0.5, 0.5, 4)
        block.add_ellipse((40, 30), (8, 3), 0.5)
        block.add_spline_control_frame([(0, 40), (10, 50), (20, 45), (40, 60)])


def blocks(doc, msp, uneven):
    one = doc.blocks.new("ONE", base_point=(5, 3))
    content(doc, one)
    two = doc.blocks.new("TWO")
    two.add_blockref("ONE", (100, 0), dxfattribs={"rotation": 30})
    two.add_blockref("ONE", (0, 0), dxfattribs={"xscale": -1, "rotation": 75})
    two.add_circle((50, 50), 9)
    three = doc.blocks.new("THREE", base_point=(-7, 2))
    three.add_blockref("TWO", (10, 10), dxfattribs={"xscale": 0.5, "yscale": -0.5, "zscale": 0.5, "rotation": -20})
    three.add_line((0, 0), (5, 5))
    k = 0
    scales = [(1, 1), (2, 2), (-1, 1), (1, -1), (-1.5, -1.5)]
    if uneven:
        scales = [(2, 1), (0.5, 3), (-2, 1), (1, -0.4)]
    # ezdxf does not scale an inserted block unevenly a second time.
    for name in ("ONE",) if uneven else ("ONE", "TWO", "THREE"):
        for sx, sy in scales:
            msp.add_blockref(name, (400 * (k % 6), 400 * (k // 6)), dxfattribs={
                "xscale": sx, "yscale": sy, "zscale": abs(sx), "rotation": 17 * k})
            k += 1


def arrays(doc, msp):
    one = doc.blocks.new("ONE", base_point=(1, 1))
    one.add_circle((0, 0), 4)
    one.add_line((0, 0), (6, 2))
    msp.add_blockref("ONE", (0, 0), dxfattribs={
        "row_count": 3, "column_count": 4, "row_spacing": 30, "column_spacing": 20, "rotation": 25,
        "xscale": 2, "yscale": 2, "zscale": 2})
    msp.add_blockref("ONE", (300, 0), dxfattribs={
        "row_count": 2, "column_count": 1, "row_spacing": -30, "xscale": -1, "yscale": 1, "zscale": 1})


def extruded(doc, msp):
    down = {"extrusion": (0, 0, -1)}
    msp.add_circle((30, 10), 6, dxfattribs=down)
    msp.add_arc((60, 10), 6, 20, 110, dxfattribs=down)
    msp.add_arc((60, 10), 7, 200, 110, dxfattribs=down)
    msp.add_line((0, 0), (20, 5), dxfattribs=down)
    if doc.dxfversion == "AC1009":
        p = msp.add_polyline2d([q[:2] for q in BULGES], close=True, dxfattribs=down)
        for v, q in zip(p.vertices, BULGES):
            v.dxf.bulge = q[2]
    else:
        msp.add_lwpolyline(BULGES, format="xyb", close=True, dxfattribs=down)
    one = doc.blocks.new("ONE", base_point=(5, 3))
    content(doc, one)
    msp.add_blockref("ONE", (200, 50), dxfattribs=dict(down, rotation=40))
    msp.add_blockref("ONE", (300, 50), dxfattribs=dict(down, rotation=40, xscale=-2, yscale=2, zscale=2))


def leaning(doc, msp):
    msp.add_circle((30, 10, 5), 6, dxfattribs={"extrusion": (0.3, 0.2, 0.9)})
    msp.add_arc((60, 10, 5), 6, 20, 250, dxfattribs={"extrusion": (0.001, 0.002, -1)})
    msp.add_lwpolyline(BULGES, format="xyb", close=True, dxfattribs={"extrusion": (1, 1, 1), "elevation": 4})
    msp.add_ellipse((100, 0, 0), (20, 0, 0), 0.5, dxfattribs={"extrusion": (0, 1, 1)})


def annotated(doc, msp):
    simple(msp)
    msp.add_text("T", dxfattribs={"insert": (5, 5)})
    msp.add_text("T", dxfattribs={"insert": (15, 5)})
    msp.add_point((1, 1))
    if doc.dxfversion != "AC1009":
        msp.add_mtext("M", dxfattribs={"insert": (5, 15)})
        msp.add_hatch().paths.add_polyline_path([(0, 0), (10, 0), (10, 10)])
    msp.add_solid([(0, 0), (1, 0), (0, 1)])


def main(folder):
    out = {}
    for version in VERSIONS:
        jobs = {
            "simple": lambda d, m: simple(m),
            "polylines": polylines,
            "blocks": lambda d, m: blocks(d, m, False),
            "arrays": arrays,
            "extruded": extruded,
            "annotated": annotated,
        }
        if version in ("R12", "R2000", "R2018"):
            jobs["uneven"] = lambda d, m: blocks(d, m, True)
        if version in ("R2000", "R2018"):
            jobs.update({"ellipses": lambda d, m: ellipses(m), "splines": lambda d, m: splines(m), "leaning": leaning})
        for name, job in jobs.items():
            doc = new(version)
            job(doc, doc.modelspace())
            file = "%s-%s.dxf" % (name, version)
            out[file] = answer(doc, os.path.join(folder, file))
    json.dump(out, sys.stdout)


main(sys.argv[1])
