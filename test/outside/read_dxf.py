"""Reads DXF files by ezdxf (Manfred Moitzi, MIT; Debian's python3-ezdxf) and prints what is in them as JSON."""

import json
import math
import sys

import ezdxf
from ezdxf.math import Vec2, bulge_to_arc

PER_ARC = 16


def straight_or_arc(start, end, bulge):
    """Length, twice the area to the origin and points of a segment, from the reader's own arc."""
    start, end = Vec2(start), Vec2(end)
    chord_area = start.x * end.y - start.y * end.x
    if bulge == 0:
        return (end - start).magnitude, chord_area, []
    # Counter-clockwise from one angle to the other, whichever way the segment runs.
    centre, angle_1, angle_2, radius = bulge_to_arc(start, end, bulge)
    sweep = (angle_2 - angle_1) % math.tau
    turn = math.copysign(1.0, bulge)
    segment = radius * radius * (sweep - math.sin(sweep))
    points = [
        (centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))
        for angle in (angle_1 + sweep * (k + 0.5) / PER_ARC for k in range(PER_ARC))
    ]
    return radius * sweep, chord_area + turn * segment, points if turn > 0 else points[::-1]


def polyline(entity):
    vertices = entity.get_points("xyb")
    ends = vertices[1:] + (vertices[:1] if entity.closed else [])
    parts = [straight_or_arc(v[:2], e[:2], v[2]) for v, e in zip(vertices, ends)]
    return {
        "layer": entity.dxf.layer,
        "closed": bool(entity.closed),
        "vertices": len(vertices),
        "length": math.fsum(part[0] for part in parts),
        "area": math.fsum(part[1] for part in parts) / 2,
        "arcs": [part[2] for part in parts],
    }


def read(path):
    drawing = ezdxf.readfile(path)
    audit = drawing.audit()
    entities = list(drawing.modelspace())
    return {
        "errors": [error.message for error in audit.errors],
        "fixes": [fix.message for fix in audit.fixes],
        "units": drawing.units,
        "version": drawing.dxfversion,
        "layers": [layer.dxf.name for layer in drawing.layers],
        "types": [entity.dxftype() for entity in entities],
        "polylines": [polyline(e) for e in entities if e.dxftype() == "LWPOLYLINE"],
        "circles": [
            {"layer": e.dxf.layer, "centre": list(e.dxf.center)[:2], "radius": e.dxf.radius}
            for e in entities
            if e.dxftype() == "CIRCLE"
        ],
    }


json.dump([read(path) for path in sys.argv[1:]], sys.stdout)
