"""Finds what a template carries on its rendered pages.

In: pages (PGM paths), dpi, radii of hole circles, radius of the circles on
overlap marks, length of check bars, and where a page's layout has its height
line, the line measured from and the arrow's tip. Out, a page: circles with
their crosses, joins, bars, centre (x of the dashed line), level and across
(y of the lines that are found there), arrow (its axis, its tip), mm.
"""

import json
import sys

import numpy as np

from printed import Page, bars, circles

task = json.load(sys.stdin)


def centre_line(page):
    """Dashed in each of two bands, between which other upright lines end."""
    dark = page.dark > 0.3
    share = np.ones(dark.shape[1])
    for top, foot in [(57, 89), (100, 185)]:
        band = dark[int(top * page.per_mm):int(foot * page.per_mm)].mean(0)
        share = np.minimum(share, np.where(band < 0.97, band, 0))
    best = int(np.argmax(share))
    if share[best] < 0.6:
        return None
    from_, to = best - 4, best + 5
    weight = page.dark[:, from_:to].sum(0)
    return float(((np.arange(from_, to) + 0.5) * weight).sum() / weight.sum() / page.per_mm)


def lying(page, y, beside):
    """Middle of a line from edge to edge that is looked for at y."""
    width = page.size()[0]
    found = []
    for x in np.linspace(40, width - 20, 25):
        if any(abs(x - place) < reach for place, reach in beside):
            continue
        off = page.stroke(x, y, 0, 1, 0.7)
        if off is not None:
            found.append(y + off)
    # A line that is not there from edge to edge is none.
    return float(np.median(found)) if len(found) > 8 else None


def cross(page, hole):
    """Where the arms beyond the circle meet."""
    x, y, r = hole["x"], hole["y"], hole["r"]
    upright = [page.stroke(x, y + s * (r + d), 1, 0, 0.7) for s in (-1, 1) for d in (2.0, 3.0, 4.0)]
    level = [page.stroke(x + s * (r + d), y, 0, 1, 0.7) for s in (-1, 1) for d in (2.0, 3.0, 4.0)]
    if None in upright or None in level:
        return None
    return {"x": float(x + np.mean(upright)), "y": float(y + np.mean(level))}


def arrow(page, x, y):
    """Axis and tip of a head that widens downward by 1 mm a mm."""
    sides = []
    # Above the line that is measured from, which may run across its foot.
    for down in (3.0, 6.0):
        left = x - down / 2 + page.edge(x - down / 2, y + down, 1, 0, 0.6)
        right = x + down / 2 + page.edge(x + down / 2, y + down, 1, 0, 0.6)
        sides.append((y + down, left, right))
    (y1, l1, r1), (y2, l2, r2) = sides
    # Straight sides meet at the tip.
    grows = ((r2 - l2) - (r1 - l1)) / (y2 - y1)
    tip = y1 - (r1 - l1) / grows if grows > 0.1 else None
    return {"x": (l1 + r1 + l2 + r2) / 4, "y": tip}


out = []
for path, layout in zip(task["pages"], task["layouts"]):
    page = Page(path, task["dpi"])
    holes = [dict(circle, asked=radius) for radius in task["radii"] for circle in circles(page, radius)]
    beside = [(hole["x"], hole["r"] + 8) for hole in holes]
    for hole in holes:
        hole["cross"] = cross(page, hole)
    across = layout["across"]
    out.append({
        "level": lying(page, layout["level"], beside),
        "across": None if across is None else lying(page, across, []),
        "arrow": arrow(page, *layout["arrow"]),
        "size": page.size(),
        "circles": holes,
        "joins": circles(page, task["join_radius"]),
        "bars": bars(page, task["bar"], 0.8),
        "centre": centre_line(page),
    })
json.dump(out, sys.stdout)
