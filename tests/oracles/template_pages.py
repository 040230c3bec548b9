"""Finds what a template carries on its rendered pages.

In: pages (PGM paths), dpi, radii of hole circles, radius of the circles on
overlap marks, length of check bars. Out, a page: circles, joins, bars,
centre (x of the dashed line), mm.
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


out = []
for path in task["pages"]:
    page = Page(path, task["dpi"])
    holes = [dict(circle, asked=radius) for radius in task["radii"] for circle in circles(page, radius)]
    out.append({
        "size": page.size(),
        "circles": holes,
        "joins": circles(page, task["join_radius"]),
        "bars": bars(page, task["bar"], 0.8),
        "centre": centre_line(page),
    })
json.dump(out, sys.stdout)
