"""What compile_commands.json leaves out: the sources that CMake compiles eight together."""

import pathlib
import re

INCLUDED = re.compile(r'^#include "(.+)"$', re.MULTILINE)


def compiled_by(file):
    """The source itself, or those that it includes where CMake made it to compile them together."""
    if file.parent.name != "Unity" or not file.exists():
        return [file]
    return [pathlib.Path(name) for name in INCLUDED.findall(file.read_text(encoding="utf-8"))]
