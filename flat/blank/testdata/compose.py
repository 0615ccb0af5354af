# Plates put together by Shapely: one area for each line of standard input, a JSON
# list of [step, shape, numbers...]. Discs are polygons of 2048 corners.
import json
import sys

from shapely.affinity import rotate, translate
from shapely.geometry import Point, box


def shape(kind, v):
    if kind == "disc":
        return Point(v[0], v[1]).buffer(v[2] / 2, resolution=512)
    if kind == "rectangle":
        x, y, w, h, r = v
        core = box(x - w / 2 + r, y - h / 2 + r, x + w / 2 - r, y + h / 2 - r)
        return core.buffer(r, resolution=512) if r > 0 else core
    if kind == "slot":
        x, y, length, width, r, angle = v
        s = box(-length / 2, -width / 2, length / 2, width / 2)
        k = r / 2 ** 0.5
        for sx in (-1, 1):
            for sy in (-1, 1):
                s = s.union(Point(sx * (length / 2 - k), sy * (width / 2 - k)).buffer(r, resolution=512))
        return translate(rotate(s, angle, origin=(0, 0)), x, y)
    raise ValueError(kind)


for line in sys.stdin:
    plate = None
    for step, kind, *v in json.loads(line):
        s = shape(kind, v)
        plate = s if plate is None else plate.union(s) if step == "add" else plate.difference(s)
    # Where arcs of one circle fall on each other their polygons leave slivers.
    pieces = [p for p in getattr(plate, "geoms", [plate]) if p.area > 1e-2]
    if len(pieces) == 1:
        plate = pieces[0]
    print(json.dumps([plate.area, plate.length, len(getattr(plate, "interiors", [])), plate.geom_type]))
