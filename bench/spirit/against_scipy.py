"""Strength from a hydrometer's reading and the spirit's temperature: ours against the
straightforward way, bracketing root-finding in SciPy on the formula of OIML R 22.

Use: /usr/bin/python3 bench/spirit/against_scipy.py build/gauge_throughput
Needs Debian's python3-scipy. The coefficients are read from tests/published/data/oiml_r22.csv,
not from the program. Both sides solve the same points in one run; only their ratio counts.
Ends with status 1 when it is under 200, ours under 5 million a second, or any two answers part
by more than 1e-9 in mass fraction.
"""

import csv
import pathlib
import random
import subprocess
import sys
import time

from scipy.optimize import brentq

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
GLASS_PER_K = 25e-6


def coefficients():
    a, b, c = {}, {}, {}
    with open(ROOT / "tests/published/data/oiml_r22.csv", encoding="utf-8") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            k, value = int(row["k"]), float(row["value"])
            if row["symbol"].startswith("A"):
                a[k] = value
            elif row["symbol"].startswith("B"):
                b[k] = value
            else:
                c[int(row["i"]), k] = value
    return a, b, c


A, B, C = coefficients()


def density(p, t):
    d = t - 20.0
    rho = sum(value * p ** (k - 1) for k, value in A.items())
    rho += sum(value * d ** k for k, value in B.items())
    return rho + sum(value * p ** k * d ** i for (i, k), value in C.items())


PURE = density(1.0, 20.0)


def strength(reading, t):
    q = reading / 100.0
    marked = brentq(lambda p: p * density(p, 20.0) / PURE - q, 0.0, 1.0, xtol=1e-14, rtol=1e-14)
    wanted = density(marked, 20.0) / (1.0 + GLASS_PER_K * (t - 20.0))
    return brentq(lambda p: density(p, t) - wanted, 0.0, 1.0, xtol=1e-14, rtol=1e-14)


def main():
    dice = random.Random(1973)
    points = [(dice.uniform(12.0, 94.0), dice.uniform(-5.0, 40.0)) for _ in range(3000)]
    begun = time.perf_counter()
    theirs = [strength(reading, t) for reading, t in points]
    their_rate = len(points) / (time.perf_counter() - begun)
    text = "".join(f"{reading:.17g} {t:.17g}\n" for reading, t in points)
    out = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True,
                         check=True).stdout.split()
    our_rate, ours = float(out[0]), [float(p) for p in out[1:]]
    worst = max(abs(a - b) for a, b in zip(ours, theirs, strict=True))
    ratio = our_rate / their_rate
    print(f"ours {our_rate:,.0f} a second, SciPy {their_rate:,.0f}: {ratio:,.0f} times")
    print(f"worst difference {worst:.2g} in mass fraction over {len(points)} points")
    return 0 if ratio >= 200.0 and our_rate >= 5e6 and worst <= 1e-9 else 1


if __name__ == "__main__":
    sys.exit(main())
