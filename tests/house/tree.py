"""What the house checks share: the repository's files, and how a check tells its faults."""

import os
import pathlib
import subprocess
import sys

# Built or fetched, for when there is no git to say so.
NOT_OURS = {".git", "build", "out", "node_modules", "__pycache__", ".cache"}


def files(root):
    """Each file of ours under root: what git tracks, and what it would (not ignored)."""
    root = pathlib.Path(root)
    listed = subprocess.run(
        ["git", "-C", str(root), "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        stdin=subprocess.DEVNULL, capture_output=True, check=False) if (root / ".git").exists() else None
    if listed and listed.returncode == 0:
        names = [name for name in listed.stdout.decode().split("\0") if name]
        return sorted({root / name for name in names if (root / name).is_file()})
    found = []
    for folder, inside, names in os.walk(root):
        inside[:] = [name for name in inside if name not in NOT_OURS]
        found += [pathlib.Path(folder) / name for name in names]
    return sorted(found)


def text(file):
    """The text of a file, or None when it is not text."""
    content = pathlib.Path(file).read_bytes()
    if b"\0" in content:
        return None
    return content.decode("utf-8", errors="replace")


def prove(holds, what):
    """A check proves itself on a planted fault before it is believed."""
    if not holds:
        sys.exit(f"The check does not work: {what}")


def tell(faults, well):
    """Ends the check: with the faults, or with a word on what was looked at."""
    if faults:
        sys.exit("\n".join(faults))
    print(well)
