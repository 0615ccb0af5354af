# What GDAL makes of drawings: one JSON object a file, by name. GDAL turns
# arcs into short chords; the step is set so that an area errs by under 1e-6.
import json
import sys

from osgeo import gdal, ogr

gdal.UseExceptions()
ogr.UseExceptions()
gdal.SetConfigOption("OGR_ARC_STEPSIZE", "0.1")


def look(path):
    ds = ogr.Open(path)
    out = {"counts": {}, "rings": {}, "comments": 0}
    edges = {}
    box = None
    for f in ds.GetLayer(0):
        layer, g = f.GetField("Layer"), f.GetGeometryRef()
        g = ogr.ForceToLineString(g.Clone()) if g.GetGeometryName() != "LINESTRING" else g.Clone()
        out["counts"][layer] = out["counts"].get(layer, 0) + 1
        e = g.GetEnvelope()
        b = [e[0], e[2], e[1], e[3]]
        box = b if box is None else [min(box[0], b[0]), min(box[1], b[1]), max(box[2], b[2]), max(box[3], b[3])]
        if layer not in ("MARKS", "BENDS"):
            edges.setdefault(layer, ogr.Geometry(ogr.wkbGeometryCollection)).AddGeometry(g)
        if f.GetField("Text"):
            raise ValueError("text in the drawing")
    for layer, es in edges.items():
        # Closed rings made of edges whose ends meet within 1e-7; that they are
        # not closed to the last bit is no more than a warning, kept quiet.
        gdal.PushErrorHandler("CPLQuietErrorHandler")
        poly = ogr.BuildPolygonFromEdges(es, 0, 0, 1e-7)
        gdal.PopErrorHandler()
        if poly is None:
            raise ValueError(path + ": " + layer + " does not close")
        poly.CloseRings()
        areas = []
        for ring in poly:
            p = ogr.Geometry(ogr.wkbPolygon)
            p.AddGeometry(ring)
            areas.append(p.Area())
        out["rings"][layer] = sorted(areas)
    out["box"] = box
    return out


json.dump({p: look(p) for p in sys.argv[1:]}, sys.stdout)
