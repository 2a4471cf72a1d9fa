"""The rows of src/delimited are those of Python's csv module, which is not ours.

Tables written by csv.writer in each of its ways of quoting come back whole. Of any text, what
ours reads without a fault Python reads the same, and what Python refuses ours refuses too;
the other way round ours is the stricter (a quote mark inside a plain cell, a CR alone).
"""

import csv
import io
import os
import random
import subprocess
import sys

SEED = 4180
TABLES, TEXTS = (20000, 200000) if os.environ.get("LYNEARM_FULL") else (2000, 20000)
CELL_LETTERS = "ab ,\"\n\r;'\t\u00b0"
TEXT_LETTERS = "aaab,,,\"\"\"\n\n\r "


def written(source, table):
    out = io.StringIO(newline="")
    quoting = source.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL, csv.QUOTE_NONNUMERIC])
    ends = ["\n", "\r\n"]
    if quoting == csv.QUOTE_MINIMAL and any("\r" in cell for row in table for cell in row):
        ends = ["\r\n"]  # a CR that is no part of a line end it would leave without quote marks
    csv.writer(out, quoting=quoting, lineterminator=source.choice(ends)).writerows(table)
    text = out.getvalue()
    if source.random() < 0.2:
        text = "\ufeff" + text
    return text.rstrip("\r\n") if source.random() < 0.2 else text


def python_rows(text):
    """The rows, or None where Python refuses the text; empty lines are no rows."""
    try:
        return [row for row in csv.reader(io.StringIO(text, newline=""), strict=True) if row]
    except csv.Error:
        return None


def our_rows(program, texts, source):
    fed = b"".join(b"%d %d\n%b" % (len(text), source.choice([1, 2, 7, 4096]), text)
                   for text in (text.encode() for text in texts))
    ran = subprocess.run([program], input=fed, capture_output=True, check=True)
    found = ran.stdout.decode().split("\x1d")
    assert found.pop() == "" and len(found) == len(texts), "a text got lost"
    return [[None if row == "\x15" else row.split("\x1f")[:-1]
             for row in text.split("\x1e")[:-1]] for text in found]


def main():
    source = random.Random(SEED)

    def word(letters, most):
        return "".join(source.choices(letters, k=source.randint(0, most)))

    tables = [[[word(CELL_LETTERS, 6) for _ in range(source.randint(1, 5))] + ["end"]
               for _ in range(source.randint(1, 6))] for _ in range(TABLES)]
    faults = []
    for table, ours in zip(tables, our_rows(sys.argv[1], [written(source, t) for t in tables],
                                            source)):
        if ours != table:
            faults.append(f"a table came back changed: {table!r} as {ours!r}")

    texts = [word(TEXT_LETTERS, 24) for _ in range(TEXTS)]
    compared = refused = 0
    for text, ours in zip(texts, our_rows(sys.argv[1], texts, source)):
        theirs = python_rows(text)
        if theirs is None:
            refused += 1
            if None not in ours:
                faults.append(f"Python refuses what we read: {text!r} as {ours!r}")
        elif None not in ours:
            compared += 1
            if ours != theirs:
                faults.append(f"read differently: {text!r} as {ours!r}, by Python {theirs!r}")
    if compared < TEXTS // 10 or refused < TEXTS // 10:
        faults.append(f"too few texts meant something: {compared} read, {refused} refused")
    if faults:
        sys.exit("\n".join(faults[:20]))
    print(f"{len(tables)} tables and {compared} texts read as Python reads them, "
          f"{refused} refused as it does")


if __name__ == "__main__":
    main()
