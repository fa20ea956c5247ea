"""Reference answers for the nearest mixture of oils, by scipy, and the time that scipy takes for them.

Problem: minimise |A x - b|^2 over x >= 0, sum x = 1, x <= cap, cox.x <= most; A are the typical fatty acids of
src/facts/data/fats.csv in per cent (16 acids and the rest), b a target, cox the oxidizability of each oil.

    python tests/vectors/swap.py           writes swap.json beside this file (numpy and scipy needed)
    python tests/vectors/swap.py --time    prints the median time of SLSQP in microseconds on the timed instances

SLSQP does not always arrive, so it is started from up to eight places; an optimum is accepted only if the Frank-Wolfe
gap g.x - min g.y over the feasible set (scipy.optimize.linprog), which bounds the distance to the optimum, is small.
"""

import csv
import itertools
import json
import os
import pathlib
import sys
import time

# More threads than one only get in each other's way on matrices of this size.
os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np
from scipy.optimize import linprog, minimize

HERE = pathlib.Path(__file__).parent
ACIDS = "8:0 10:0 12:0 14:0 16:0 16:1 18:0 18:1 18:2 18:3a 18:3g 20:0 20:1 22:0 22:1 ricinoleic other".split()


def table():
    ids, columns, cox = [], [], []
    with open(HERE / "../../src/facts/data/fats.csv", newline="") as file:
        for row in csv.DictReader(file):
            if row["type"]:
                continue
            column = [float((row[acid] or "0").split(" ")[0]) for acid in ACIDS]
            ids.append(row["id"])
            columns.append(column)
            cox.append((column[7] + 10.3 * column[8] + 21.6 * (column[9] + column[10])) / 100)
    return ids, np.array(columns), np.array(cox)


IDS, A, COX = table()


def solve(columns, target, cap, cox, most, start=None, tight=1e-15):
    n = len(columns)
    limits = [{"type": "eq", "fun": lambda x: x.sum() - 1, "jac": lambda x: np.ones(n)}]
    if most is not None:
        limits.append({"type": "ineq", "fun": lambda x: most - cox @ x, "jac": lambda x: -cox})
    found = minimize(
        lambda x: ((x @ columns - target) ** 2).sum(),
        np.full(n, 1 / n) if start is None else start,
        jac=lambda x: 2 * columns @ (x @ columns - target),
        bounds=[(0, cap)] * n,
        constraints=limits,
        method="SLSQP",
        options={"ftol": tight, "maxiter": 1000},
    )
    return found.x, found.fun


def corner(cost, n, cap, cox, most):
    rows = {} if most is None else {"A_ub": [cox], "b_ub": [most]}
    return linprog(cost, A_eq=[np.ones(n)], b_eq=[1], bounds=[(0, cap)] * n, method="highs", **rows)


def optimum(columns, target, cap, cox, most):
    """The least squared distance; None if no mixture is within the limits."""
    n = len(columns)
    first = corner(np.zeros(n), n, cap, cox, most)
    if first.status == 2:
        return None
    best = None
    least = None if most is None else corner(cox, n, cap, cox, most).x
    starts = [None, first.x] + list(np.random.default_rng(1).dirichlet(np.ones(n), 6))
    for start in starts:
        if best is not None and best[1] < 1e-7:
            break
        x, _ = solve(columns, target, cap, cox, most, start)
        # SLSQP keeps limits to about 1e-9 only; these small steps make them exact.
        x = np.clip(x, 0, cap)
        x = x / x.sum() if x.sum() > 1 else x + (1 - x.sum()) * (cap - x) / max((cap - x).sum(), 1e-300)
        if most is not None and cox @ x > most and cox @ least < most:
            x += (cox @ x - most) / (cox @ x - cox @ least) * (least - x)
        if x.max() > cap + 1e-12 or abs(x.sum() - 1) > 1e-12 or (most is not None and cox @ x > most + 1e-12):
            continue
        f = ((x @ columns - target) ** 2).sum()
        slope = 2 * columns @ (x @ columns - target)
        lowest = corner(slope / max(np.abs(slope).max(), 1e-9), n, cap, cox, most)
        if lowest.status != 0:
            continue
        gap = slope @ x - slope @ lowest.x
        if best is None or f < best[0]:
            best = (f, gap)
    return best


def instances(random, count):
    made = []
    while len(made) < count:
        n = int(random.integers(2, 31))
        chosen = sorted(int(i) for i in random.choice(len(IDS), n, replace=False))
        mixed = int(random.integers(1, 4))
        of = [int(i) for i in random.choice(len(IDS), mixed, replace=False)]
        parts = [round(float(p), 3) for p in random.dirichlet(np.ones(mixed))]
        parts[-1] = round(1 - sum(parts[:-1]), 3)
        cap = float(random.choice([1, 1, 0.7, 0.5, 0.35]))
        most = round(float(random.uniform(0.3, 8)), 2) if random.random() < 0.6 else None
        target = np.array(parts) @ A[of]
        found = optimum(A[chosen], target, cap, COX[chosen], most)
        if found is None and corner(np.zeros(n), n, cap, COX[chosen], most).status != 2:
            continue
        if found is not None and found[1] > 1e-6:
            continue
        made.append({"of": of, "parts": parts, "from": chosen, "cap": cap, "cox": most, "f": found and round(found[0], 9)})
    return made


def few(random, count):
    """At most k oils: every choice of k, each solved by SLSQP."""
    made = []
    while len(made) < count:
        n, k = int(random.integers(4, 8)), int(random.integers(1, 4))
        chosen = sorted(int(i) for i in random.choice(len(IDS), n, replace=False))
        of = int(random.integers(len(IDS)))
        cap = float(random.choice([1, 0.6, 0.45]))
        most = round(float(random.uniform(1, 8)), 2) if random.random() < 0.6 else None
        values = []
        for subset in itertools.combinations(chosen, k):
            subset = list(subset)
            found = optimum(A[subset], A[of], cap, COX[subset], most)
            if found is not None:
                values.append(found[0])
        made.append({"of": [of], "parts": [1], "from": chosen, "cap": cap, "cox": most, "k": k, "f": round(min(values), 9) if values else None})
    return made


def timed():
    """Every tenth oil against all the others, none above 60 %, a little more oxidizable at most."""
    return [
        {"of": [i], "parts": [1], "from": [j for j in range(len(IDS)) if j != i], "cap": 0.6, "cox": round(COX[i] + 0.5, 2)}
        for i in range(1, len(IDS), 10)
    ]


def main():
    if "--time" in sys.argv:
        times = []
        for one in timed():
            chosen = one["from"]
            for _ in range(3):
                start = time.perf_counter()
                solve(A[chosen], A[one["of"][0]], one["cap"], COX[chosen], one["cox"], tight=1e-9)
                times.append(time.perf_counter() - start)
        print(f"{np.median(times) * 1e6:.1f}")
        return
    random = np.random.default_rng(210)
    whole = timed()
    for one in whole:
        chosen = one.pop("from")
        found = optimum(A[chosen], A[one["of"][0]], one["cap"], COX[chosen], one["cox"])
        if found is None:
            sys.exit(f"no optimum found for {IDS[one['of'][0]]}")
        one["f"], one["gap"] = round(found[0], 9), float(f"{found[1]:.1e}")
    answers = {"ids": IDS, "random": instances(random, 200), "few": few(random, 24), "whole": whole}
    lines = [f'"ids": {json.dumps(answers["ids"])}']
    for key in ("random", "few", "whole"):
        rows = ",\n".join(json.dumps(row, separators=(",", ":")) for row in answers[key])
        lines.append(f'"{key}": [\n{rows}\n]')
    (HERE / "swap.json").write_text("{" + ",\n".join(lines) + "}\n")


main()
