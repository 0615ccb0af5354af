# Layouts measured by Shapely. Each line of standard input is one layout: its gap,
# margin, the rings of its sheets and, for each placed piece, the sheet it lies on
# and its rings. For each layout one line: the least distance between two pieces
# less the gap, the least distance to an edge of a sheet less the margin, and
# whether some piece overlaps another or leaves its sheet by more than a sliver.
import json
import sys

from shapely.geometry import Polygon

SLIVER = 1e-2  # mm2: what polygons for arcs may cut off

for line in sys.stdin:
    job = json.loads(line)
    sheets = [Polygon(r[0], r[1:]) for r in job["sheets"]]
    near, edge, bad = 1e9, 1e9, False
    for k, sheet in enumerate(sheets):
        pieces = [Polygon(r[0], r[1:]) for s, r in job["pieces"] if s == k]
        rim = sheet.boundary
        for i, p in enumerate(pieces):
            bad = bad or not p.is_valid or p.difference(sheet).area > SLIVER
            edge = min(edge, p.distance(rim) - job["margin"])
            x0, y0, x1, y1 = p.bounds
            for q in pieces[i + 1:]:
                u0, v0, u1, v1 = q.bounds
                if max(u0 - x1, x0 - u1, v0 - y1, y0 - v1) > job["gap"] + 1:
                    continue
                d = p.distance(q)
                near = min(near, d - job["gap"])
                bad = bad or d == 0 and p.intersection(q).area > SLIVER
    print(json.dumps([near, edge, bad]))
