"""Boiling point and vapour of ethanol and water: ours against the straightforward way, bracketing
root-finding in SciPy on the same equations.

Use: /usr/bin/python3 bench/vapour/against_scipy.py build/equilibrium_throughput
Needs Debian's python3-scipy. The NRTL parameters are read from src/vapour/activity.hpp and the
vapour pressures from src/vapour/boiling_kernel.hpp, the equations are written here anew. Both
sides solve the same points in one run; only their ratio counts. Ends with status 1 when it is
under 20, ours under 1 million a second, or any two answers part by more than 1e-8 K or 1e-9 in
mole fraction.
"""

import math
import pathlib
import random
import re
import subprocess
import sys
import time

from scipy.optimize import brentq

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
NUMBER = r"([-+0-9.e]+)"


def parameters():
    text = (ROOT / "src/vapour/activity.hpp").read_text(encoding="utf-8")
    block = text[text.index("house_nrtl{"):]
    return [float(re.search(rf"\.{name} = {NUMBER}", block).group(1))
            for name in ("a12", "b12_K", "a21", "b21_K", "alpha")]


def pressures():
    text = (ROOT / "src/vapour/boiling_kernel.hpp").read_text(encoding="utf-8")
    row = r"_pressure\{" + ", ".join([NUMBER] * 4) + r"\}"
    return [[float(v) for v in re.search(name + row, text).groups()]
            for name in ("ethanol", "water")]


A12, B12, A21, B21, ALPHA = parameters()
ETHANOL, WATER = pressures()


def vapour_pressure(c, t):
    return math.exp(c[0] + c[1] / t + c[2] * math.log(t) + c[3] * t * t)


def partial_pressures(x, t):
    w = 1.0 - x
    tau12, tau21 = A12 + B12 / t, A21 + B21 / t
    g12, g21 = math.exp(-ALPHA * tau12), math.exp(-ALPHA * tau21)
    a, b = x + w * g21, w + x * g12
    ethanol = w * w * (tau21 * (g21 / a) ** 2 + tau12 * g12 / b ** 2)
    water = x * x * (tau12 * (g12 / b) ** 2 + tau21 * g21 / a ** 2)
    return (x * math.exp(ethanol) * vapour_pressure(ETHANOL, t),
            w * math.exp(water) * vapour_pressure(WATER, t))


def boil(x, kpa):
    t = brentq(lambda t: sum(partial_pressures(x, t)) - 1e3 * kpa, 300.0, 390.0, xtol=1e-12,
               rtol=1e-14)
    ethanol, water = partial_pressures(x, t)
    return t, ethanol / (ethanol + water)


def main():
    dice = random.Random(1978)
    points = [(dice.random(), dice.uniform(50.0, 110.0)) for _ in range(3000)]
    begun = time.perf_counter()
    theirs = [boil(x, kpa) for x, kpa in points]
    their_rate = len(points) / (time.perf_counter() - begun)
    text = "".join(f"{x:.17g} {kpa:.17g}\n" for x, kpa in points)
    out = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True,
                         check=True).stdout.split()
    our_rate, curves = float(out[0]), float(out[1])
    ours = list(zip(map(float, out[2::2]), map(float, out[3::2]), strict=True))
    worst_t = max(abs(a[0] - b[0]) for a, b in zip(ours, theirs, strict=True))
    worst_y = max(abs(a[1] - b[1]) for a, b in zip(ours, theirs, strict=True))
    ratio = our_rate / their_rate
    print(f"ours {our_rate:,.0f} a second, SciPy {their_rate:,.0f}: {ratio:,.0f} times")
    print(f"worst difference {worst_t:.2g} K, {worst_y:.2g} in mole fraction over {len(points)} "
          "points")
    print(f"a whole boiling curve in {1e6 / curves:.0f} microseconds")
    good = ratio >= 20.0 and our_rate >= 1e6 and worst_t <= 1e-8 and worst_y <= 1e-9
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
