"""Reads mark cards off their rendered sheets.

In: pages (PGM paths), dpi, cards: for each page the middles of the codes
(x, y) where they should be, line: where the check line should be. Out, a
page: for each card the code's 36 bits as a number (rows from the top, first
bit highest, white is 1), whether its border is all black, the middle and
side of the code, the four crosses and the pointer's tip against where they
should be; the check line's ends. mm, y downward.
"""

import json
import sys

import numpy as np

from printed import Page

task = json.load(sys.stdin)
MODULE = 4.5
HALF = 4 * MODULE


def code(page, x, y):
    """Black border: each side's edge, seen at the middle of border modules."""
    inset = HALF - MODULE / 2
    along = np.linspace(-inset, inset, 9)
    left = np.mean([page.edge(x - HALF, y + a, 1, 0, 1.5) for a in along])
    right = np.mean([page.edge(x + HALF, y + a, -1, 0, 1.5) for a in along])
    top = np.mean([page.edge(x + a, y - HALF, 0, 1, 1.5) for a in along])
    low = np.mean([page.edge(x + a, y + HALF, 0, -1, 1.5) for a in along])
    middle = (x + (left - right) / 2, y + (top - low) / 2)
    bits, border = 0, True
    for row in range(8):
        for column in range(8):
            mx = middle[0] - HALF + MODULE * (column + 0.5)
            my = middle[1] - HALF + MODULE * (row + 0.5)
            dark = float(page.at(mx, my))
            assert dark < 0.1 or dark > 0.9
            if 0 < row < 7 and 0 < column < 7:
                bits = bits << 1 | (dark < 0.5)
            else:
                border &= dark > 0.5
    return {
        "bits": int(bits),
        "border": bool(border),
        "middle": middle,
        "sides": [2 * HALF - left - right, 2 * HALF - top - low],
    }


def cross(page, x, y):
    """Where four cells meet: the mean of the edges on both arms."""
    up = [page.edge(x + a, y, 0, np.sign(-a), 1.5) * np.sign(-a) for a in (-6, -4, 4, 6)]
    across = [page.edge(x, y + a, np.sign(-a), 0, 1.5) * np.sign(-a) for a in (-6, -4, 4, 6)]
    return float(np.mean(across)), float(np.mean(up))


def tip(page, x, y):
    """Where both flanks of the pointer meet; y is the tip's place. A line is
    fitted to each flank, seen in every other row of pixels: a place along the
    tip is four times less sharp than one across."""
    rows = np.arange(4.0, 21.0, 0.17)
    left = [-12 / 48 * r + page.edge(x - 12 / 48 * r, y - r, 1, 0, 0.6) for r in rows]
    right = [12 / 48 * r - page.edge(x + 12 / 48 * r, y - r, -1, 0, 0.6) for r in rows]
    (a, b), (c, d) = np.polyfit(rows, left, 1), np.polyfit(rows, right, 1)
    up = (d - b) / (a - c)
    return float(a * up + b), float(-up)


out = []
for path, cards in zip(task["pages"], task["cards"]):
    page = Page(path, task["dpi"])
    line = task["line"]
    ends = []
    for x in (line["from"], line["to"]):
        offs = [page.stroke(x, line["y"] + a, 1, 0, 0.8) for a in (-1.6, -1.2, 1.2, 1.6)]
        ends.append(x + float(np.mean(offs)))
    out.append({
        "cards": [
            dict(
                code(page, x, y),
                crosses=[cross(page, x + dx, y + dy) for dx in (-34, 34) for dy in (-34, 34)],
                tip=tip(page, x, y + 50),
            )
            for x, y in cards
        ],
        "line": ends,
    })
json.dump(out, sys.stdout)
