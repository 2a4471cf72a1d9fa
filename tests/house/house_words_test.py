"""What no file of ours holds: a path of one machine, a note of unfinished work, a package host."""

import pathlib
import re
import sys
import tempfile

import tree

# Put together from pieces, so that this file does not hold them itself.
MACHINE = "|".join(["work", "root", "farm", "home", "Users"])
UNFINISHED = "|".join(["TO" + "DO", "FIX" + "ME", "X" + "XX"])
HOSTS = "|".join(["npm", "debian", "pypi", "crates", "yarnpkg"])
RULES = [
    ("a path of one machine", re.compile(rf"(?<![\w.~)}}/-])/(?:{MACHINE})/")),
    ("unfinished work", re.compile(rf"\b(?:{UNFINISHED})\b")),
    ("a package host", re.compile(rf"https?://[^\s\"')]*(?:{HOSTS})")),
]
# Made by a package manager, which writes hosts into it.
MADE = {"package-lock.json"}


def faults_of(root):
    found = []
    for file in tree.files(root):
        text = None if file.name in MADE else tree.text(file)
        for number, line in enumerate((text or "").splitlines(), 1):
            for what, pattern in RULES:
                hit = pattern.search(line)
                if hit:
                    found.append(f"{file.relative_to(root)}:{number}: {what}: {hit.group(0)}")
    return found


def prove_itself():
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        file = root / "a.md"
        # Folders of those names deeper down are nobody's machine.
        file.write_text("".join(f"out/{name}/a, `src/{name}/x`; " for name in
                                ("work", "home", "root")) + "https://example.org/\n")
        tree.prove(faults_of(root) == [], "it finds fault with a clean file")
        for line in ("see /" + "home/me/a.toml", "cd '/" + "work/x'", "// " + "TO" + "DO: later",
                     "from https://deb." + "debian.org/x"):
            file.write_text(line)
            tree.prove(len(faults_of(root)) == 1, f"planted words pass: {line}")


def main():
    root = pathlib.Path(sys.argv[1])
    prove_itself()
    tree.tell(faults_of(root), f"{len(tree.files(root))} files hold none of it")


if __name__ == "__main__":
    main()
