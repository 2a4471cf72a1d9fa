"""What compile_commands.json leaves out: the sources that are compiled eight together."""

import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parent.parent
INCLUDED = re.compile(r'^#include "(.+)"$', re.MULTILINE)


def compiled_by(file):
    """The source itself, or those that it includes where it was made to compile them together
    (cmake/room.cmake)."""
    if file.parent.name != "together" or not file.exists():
        return [file]
    names = INCLUDED.findall(file.read_text(encoding="utf-8"))
    return [next(source for top in ("src", "tests") if (source := ROOT / top / name).exists())
            for name in names]
