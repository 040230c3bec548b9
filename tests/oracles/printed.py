"""Measures on rendered pages: grey PGM images, places in millimetres.

Pixel (row, column) covers [column, column + 1) x [row, row + 1); its middle
is half a pixel further. Darkness is 1 for black, 0 for white.
"""

import numpy as np
from scipy import fft


class Page:
    def __init__(self, path, dpi):
        with open(path, "rb") as file:
            kind, width, height, greatest, bytes_ = file.read().split(maxsplit=4)
        # The header ends with one white character, which split may exceed.
        with open(path, "rb") as file:
            bytes_ = file.read()[-int(width) * int(height):]
        assert kind == b"P5" and int(greatest) == 255
        grey = np.frombuffer(bytes_, np.uint8).reshape(int(height), int(width))
        self.dark = 1.0 - grey / 255.0
        self.per_mm = dpi / 25.4

    def size(self):
        rows, columns = self.dark.shape
        return columns / self.per_mm, rows / self.per_mm

    def at(self, x, y):
        """Darkness at places in mm, bilinear."""
        c = np.asarray(x) * self.per_mm - 0.5
        r = np.asarray(y) * self.per_mm - 0.5
        rows, columns = self.dark.shape
        c0 = np.clip(np.floor(c).astype(int), 0, columns - 2)
        r0 = np.clip(np.floor(r).astype(int), 0, rows - 2)
        fc, fr = np.clip(c - c0, 0, 1), np.clip(r - r0, 0, 1)
        d = self.dark
        top = d[r0, c0] * (1 - fc) + d[r0, c0 + 1] * fc
        low = d[r0 + 1, c0] * (1 - fc) + d[r0 + 1, c0 + 1] * fc
        return top * (1 - fr) + low * fr

    def stroke(self, x, y, dx, dy, reach):
        """How far from (x, y) along (dx, dy) the middle of a stroke lies."""
        s = np.linspace(-reach, reach, 401)
        d = self.at(x + s * dx, y + s * dy)
        return float((s * d).sum() / d.sum()) if d.sum() > 3 else None

    def edge(self, x, y, dx, dy, reach):
        """How far from (x, y) along (dx, dy) white and black meet."""
        s = np.linspace(-reach, reach, 401)
        d = self.at(x + s * dx, y + s * dy)
        share = d.mean()
        # From white to black: the black part is at the far end.
        return float(reach - 2 * reach * share) if d[-1] > d[0] else float(2 * reach * share - reach)


def circles(page, radius):
    """Middles and radii of all circles drawn with about this radius.

    Every dark pixel votes for middles on a ring around it (by FFT); the best
    are refined by a least-squares circle through the stroke's middle, away
    from the cross that stands in each.
    """
    # Half the resolution is enough for votes; the refinement uses all of it.
    high, wide = (size // 2 * 2 for size in page.dark.shape)
    halves = page.dark[:high, :wide].reshape(high // 2, 2, wide // 2, 2)
    ink = (halves.max((1, 3)) > 0.4).astype(np.float32)
    per_mm = page.per_mm / 2
    # Room beyond the edges, so that rings do not come in on the other side.
    room = int(2 * radius * per_mm) + 2
    shape = tuple(fft.next_fast_len(size + room, real=True) for size in ink.shape)
    turn = np.arange(0, 2 * np.pi, 0.3 / (radius * per_mm))
    ring = np.zeros(shape, np.float32)
    r = np.round(radius * per_mm * np.sin(turn)).astype(int) % shape[0]
    c = np.round(radius * per_mm * np.cos(turn)).astype(int) % shape[1]
    ring[r, c] = 1.0
    votes = fft.irfft2(fft.rfft2(ink, shape) * np.conj(fft.rfft2(ring)), shape)
    least = 0.6 * ring.sum()
    found = []
    while len(found) < 20:
        r, c = np.unravel_index(np.argmax(votes), votes.shape)
        if votes[r, c] < least:
            break
        near = int(radius * per_mm)
        votes[max(0, r - near):r + near + 1, max(0, c - near):c + near + 1] = 0.0
        circle = refine(page, (c + 0.5) / per_mm, (r + 0.5) / per_mm, radius)
        if circle and abs(circle["r"] - radius) < 0.1:
            found.append(circle)
    return found


def refine(page, x, y, radius):
    for _ in range(3):
        points = []
        for turn in np.radians(np.arange(0, 360, 1.5)):
            # Where the arms of the cross are, the stroke cannot be told apart.
            if min(abs(np.cos(turn)), abs(np.sin(turn))) * radius < 0.9:
                continue
            dx, dy = np.cos(turn), np.sin(turn)
            off = page.stroke(x + radius * dx, y + radius * dy, dx, dy, 0.7)
            if off is not None:
                points.append((x + (radius + off) * dx, y + (radius + off) * dy))
        if len(points) < 60:
            return None
        p = np.array(points)
        a = np.column_stack([2 * p, np.ones(len(p))])
        (x, y, k), *_ = np.linalg.lstsq(a, (p**2).sum(1), rcond=None)
        radius = float(np.sqrt(k + x * x + y * y))
        x, y = float(x), float(y)
    return {"x": x, "y": y, "r": radius}


def runs(line):
    """Stretches of a boolean line: first and behind last."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], line.astype(int), [0]])))
    return edges.reshape(-1, 2)


def bars(page, length, within):
    """Horizontal and vertical bars of about that length between end strokes:
    the distance between the middles of their end strokes."""
    found = {"across": [], "up": []}
    for way, dark in [("across", page.dark), ("up", page.dark.T)]:
        seen = []
        for row in range(dark.shape[0]):
            if (dark[row] > 0.5).sum() < (length - within) * page.per_mm:
                continue
            for first, behind in runs(dark[row] > 0.3):
                run = (behind - first) / page.per_mm
                # An end stroke may reach beyond the run by half its width.
                if abs(run - length) > within:
                    continue
                if any(abs(row - r) < 2 * page.per_mm and abs(first - f) < page.per_mm for r, f in seen):
                    continue
                seen.append((row, first))
                found[way].append(bar(page, way, row, first, behind))
    return found


def bar(page, way, row, first, behind):
    """The bar with its middle line and where its end strokes stand."""
    # Where a run ends, either the end stroke's edge or the tip of another bar.
    y, ends = (row + 0.5) / page.per_mm, []
    for at in (first / page.per_mm, behind / page.per_mm):
        beside = []
        for aside in (-1.6, -1.2, 1.2, 1.6):
            off = page.stroke(at, y + aside, 1, 0, 1.0) if way == "across" else page.stroke(y + aside, at, 0, 1, 1.0)
            if off is not None:
                beside.append(at + off)
        ends.append(float(np.median(beside)) if beside else None)
    return {"line": y, "from": ends[0], "to": ends[1]}
