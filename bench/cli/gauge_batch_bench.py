"""A long table of readings: the program's whole way, from file to corrected file, against
Python's csv module only reading the same file. Both are timed in one run and only their ratio
counts: times differ between machines. The table is invented.

    gauge_batch_bench.py build/lynearm [ROWS]
"""

import csv
import pathlib
import random
import subprocess
import sys
import tempfile
import time

ROUNDS = 3


def write_table(path, rows, stated):
    """stated: each cell with its unit; otherwise the heads have the units."""
    source = random.Random(4180)
    heads = ("reading", "temperature") if stated else ("reading_percent_vol", "temperature_C")
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["jar", *heads, "note"])
        for jar in range(rows):
            reading, at = f"{source.uniform(20, 80):.1f}", f"{source.uniform(5, 35):.1f}"
            if stated:
                reading, at = reading + " %vol", at + " C"
            out.writerow([jar, reading, at, "hearts, clear" if jar % 7 == 0 else "hearts"])


def seconds(work):
    """The best of a few rounds: what else the machine does only ever adds."""
    def once():
        begun = time.perf_counter()
        work()
        return time.perf_counter() - begun
    return min(once() for _ in range(ROUNDS))


def read_only(path):
    with open(path, encoding="utf-8", newline="") as file:
        for _ in csv.reader(file):
            pass


def corrected(program, path, answer):
    with open(answer, "wb") as out:
        subprocess.run([program, "gauge", "--batch", path], stdout=out, check=True)


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    rows = int(sys.argv[2]) if len(sys.argv) > 2 else 1_000_000
    with tempfile.TemporaryDirectory() as folder:
        path, answer = pathlib.Path(folder) / "jars.csv", pathlib.Path(folder) / "answer.csv"
        for what, stated in (("units in the cells", True), ("units in the heads", False)):
            write_table(path, rows, stated)
            ours = seconds(lambda: corrected(program, path, answer))
            theirs = seconds(lambda: read_only(path))
            lines = answer.read_bytes().count(b"\n")
            assert lines == rows + 1, f"{lines} lines of {rows + 1}"
            print(f"{what}: {rows / ours:,.0f} rows/s corrected, {rows / theirs:,.0f} rows/s only "
                  f"read by Python's csv; {ours / theirs:.1f} times as long")


if __name__ == "__main__":
    main()
