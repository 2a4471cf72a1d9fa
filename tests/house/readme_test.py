"""The README shows what the program really prints: each marked block is made again and
compared. LYNEARM_RENEW=1 writes the blocks anew.

    readme_test.py SOURCE_FOLDER BUILD_FOLDER
"""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

SOURCE, BUILD = (pathlib.Path(p).resolve() for p in sys.argv[1:3])
PROGRAM = BUILD / "lynearm"


def lynearm(arguments, folder):
    return subprocess.run([PROGRAM, *arguments], cwd=folder, capture_output=True, text=True,
                          env={**os.environ, "NO_COLOR": "1"}, check=False)


def plan_of(example):
    ran = lynearm(["plan", f"examples/{example}/recipe.toml", "--kit",
                   f"examples/{example}/kit.toml"], SOURCE)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout.split("\n")


def index(lines, start, after=-1):
    """The first line after `after` that begins with `start`, leading blanks aside."""
    return next(i for i, line in enumerate(lines) if i > after and line.lstrip().startswith(start))


def plan_block():
    """The top of the plan, and from each kind of part one piece."""
    lines = plan_of("tern-8")
    mash = lines.index("Mash")
    cook = index(lines, "Cook water", mash)
    cook_end = next(i for i, line in enumerate(lines) if i > cook and not line.strip())
    cues = index(lines, "collected", cook_end)
    cues_end = index(lines, "tails end", cues)
    ledger = lines.index("Ledger")
    timeline = lines.index("Timeline")
    return [*lines[:mash], "Mash", "  ...", *lines[cook:cook_end], "  ...", "", "Spirit run",
            "  ...", *lines[cues:cues_end + 1], "  ...", "", *lines[ledger:timeline]]


def mistakes_block():
    """A recipe with three mistakes of the kind that happen."""
    text = (SOURCE / "examples/tern-8/recipe.toml").read_text(encoding="utf-8")
    for right, wrong in [("rest_temperature", "rest_temprature"),
                         ('ingredient = "rye-malt"', 'ingredient = "rye-mallt"'),
                         ('pitch = "0.5 g/L"', 'pitch = "3 kg"')]:
        assert right in text, right
        text = text.replace(right, wrong)
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "my-recipe.toml").write_text(text, encoding="utf-8")
        kit = (SOURCE / "examples/tern-8/kit.toml").read_text(encoding="utf-8")
        (pathlib.Path(folder) / "my-kit.toml").write_text(kit, encoding="utf-8")
        ran = lynearm(["plan", "my-recipe.toml", "--kit", "my-kit.toml"], folder)
    assert ran.returncode == 2 and ran.stdout == "", (ran.returncode, ran.stdout)
    return ran.stderr.split("\n")


def findings_block():
    lines = plan_of("ill-fitting")
    first = index(lines, "Findings")
    last = next(i for i, line in enumerate(lines) if i > first and not line.strip())
    return lines[first:last]


def main():
    readme = SOURCE / "README.md"
    text = readme.read_text(encoding="utf-8")
    faults = []
    for name, block in [("plan", plan_block()), ("mistakes", mistakes_block()),
                        ("findings", findings_block())]:
        wanted = "\n".join(["```", "\n".join(block).rstrip(), "```"])
        marked = re.compile(f"(<!-- {name} -->\n)(.*?)(\n<!-- /{name} -->)", re.DOTALL)
        found = marked.search(text)
        if not found:
            faults.append(f"README.md lacks the block between <!-- {name} --> and <!-- /{name} -->")
        elif found.group(2) != wanted:
            faults.append(f"README.md: the block \"{name}\" is not what the program prints; "
                          "LYNEARM_RENEW=1 writes it anew")
            text = marked.sub(lambda m, w=wanted: m.group(1) + w + m.group(3), text)
    if faults and os.environ.get("LYNEARM_RENEW"):
        readme.write_text(text, encoding="utf-8")
        return 0
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
