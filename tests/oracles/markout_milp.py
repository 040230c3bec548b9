"""Mark-out as a mixed integer programme, solved by scipy.optimize.milp (HiGHS).

Standard input: a JSON list of tasks, as the library stores them. Standard
output: for every task `{"values": null | [[3], [3], [3]], "seconds": s}` with
the ranked objective values of the plans symmetric, even, wide, each the
smaller the better (the width negated).

Written from the rules alone: variables are the places o_i, one binary for
each head and no-drill area (left or right of it), the asymmetry, the least
and the greatest spacing.
"""

import json
import math
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

NEAR = 1e-6


def blocked(task):
    """Widened no-drill areas, open intervals, joined where they overlap."""
    by = task["hole_radius"] + task["limits"]["clearance"]
    areas = sorted(
        (a["from"] - (0 if a["why"] == "face_angle" else by),
         a["to"] + (0 if a["why"] == "face_angle" else by))
        for a in task.get("no_drill", [])
    )
    joined = []
    for low, high in areas:
        if joined and low < joined[-1][1]:
            joined[-1][1] = max(joined[-1][1], high)
        else:
            joined.append([low, high])
    return joined


class Model:
    def __init__(self, task):
        self.n = n = task["heads"]
        limits = task["limits"]
        left, right = task["half_left"], task["half_right"]
        self.areas = blocked(task)
        count = n + n * len(self.areas) + 3
        self.asym, self.least, self.most = count - 3, count - 2, count - 1
        self.count = count
        low, high = np.full(count, 0.0), np.full(count, 1.0)
        low[:n], high[:n] = -math.floor(left), math.floor(right)
        high[-3:] = left + right
        half = n // 2
        high[:half] = np.minimum(high[:half], -1)
        low[n - half:n] = np.maximum(low[n - half:n], 1)
        near_centre = [half] if n % 2 else [half - 1, half]
        for i in near_centre:
            reach = limits["inner"]
            if n % 2:
                reach = min(reach, limits["odd_head_within"])
            low[i], high[i] = max(low[i], -reach), min(high[i], reach)
        low[0] = max(low[0], -left + limits["corner_gap_least"])
        high[n - 1] = min(high[n - 1], right - limits["corner_gap_least"])
        if n > 2:
            high[0] = min(high[0], -left + limits["corner_gap_greatest"])
            low[n - 1] = max(low[n - 1], right - limits["corner_gap_greatest"])
        for lock in task.get("locks", []):
            i = lock["head"]
            low[i], high[i] = max(low[i], lock["at"]), min(high[i], lock["at"])
        # Whole millimetres; the bounds of places are made whole with care.
        low[:n] = np.ceil(low[:n] - NEAR)
        high[:n] = np.floor(high[:n] + NEAR)
        self.empty = bool(np.any(low > high))
        self.low, self.high = low, high
        self.rows, self.row_low, self.row_high = [], [], []
        self.whole = np.zeros(count)
        self.whole[: count - 3] = 1
        for i in range(n - 1):
            gap = {i + 1: 1, i: -1}
            self.row(gap, limits["spacing_least"], limits.get("spacing_greatest") or np.inf)
            self.row({**gap, self.least: -1}, 0, np.inf)
            self.row({**gap, self.most: -1}, -np.inf, 0)
        for i in range(n):
            pair = {i: 1}
            pair[n - 1 - i] = pair.get(n - 1 - i, 0) + 1
            self.row({**pair, self.asym: -1}, -np.inf, 0)
            self.row({**pair, self.asym: 1}, 0, np.inf)
            for k, (a, b) in enumerate(self.areas):
                a, b = math.floor(a + NEAR), math.ceil(b - NEAR)
                if b - a < 2:
                    continue
                side = n + i * len(self.areas) + k
                # side 0: o <= a; side 1: o >= b.
                self.row({i: 1, side: -(high[i] - a)}, -np.inf, a)
                self.row({i: 1, side: -(b - low[i])}, low[i], np.inf)

    def row(self, terms, low, high):
        row = np.zeros(self.count)
        for index, factor in terms.items():
            row[index] = factor
        self.rows.append(row)
        self.row_low.append(low)
        self.row_high.append(high)

    def objective(self, name):
        c = np.zeros(self.count)
        if name == "asym":
            c[self.asym] = 1
        elif name == "spread":
            c[self.most], c[self.least] = 1, -1
        else:
            c[self.n - 1], c[0] = -1, 1
        return c

    def best(self, order):
        """The values of three objectives, one after the other; None when impossible."""
        if self.empty:
            return None
        rows, low, high = list(self.rows), list(self.row_low), list(self.row_high)
        values = []
        for name in order:
            c = self.objective(name)
            found = milp(
                c,
                integrality=self.whole,
                bounds=Bounds(self.low, self.high),
                constraints=LinearConstraint(np.array(rows), low, high),
                options={"mip_rel_gap": 0.0},
            )
            if found.status == 2:
                return None
            if found.status != 0:
                raise SystemExit(f"milp: {found.message}")
            value = round(found.fun)
            if abs(found.fun - value) > 1e-3:
                raise SystemExit(f"milp: {found.fun} is not whole")
            values.append(float(value))
            rows.append(c)
            low.append(-np.inf)
            high.append(value + 1e-4)
        return values


ORDERS = (
    ("asym", "spread", "width"),
    ("spread", "asym", "width"),
    ("width", "asym", "spread"),
)


def solve(task):
    start = time.perf_counter()
    model = Model(task)
    values = []
    for order in ORDERS:
        best = model.best(order)
        if best is None:
            values = None
            break
        values.append(best)
    return {"values": values, "seconds": time.perf_counter() - start}


json.dump([solve(task) for task in json.load(sys.stdin)], sys.stdout)
