"""Includes go one way: a room's files include only rooms that its CMake target uses.

build/room_uses.txt, written when CMake runs, says which room uses which. This holds it
against what a room may use at all (FLOORS), holds the includes against it, and keeps each
library in the rooms named for it (LIBRARIES).
"""

import pathlib
import re
import sys
import tempfile

import tree

# A room may use any room above it, save where a set says exactly which.
ORDER = ["base", "units", "numeric", "delimited", "spirit", "wort", "vapour", "mash", "ferment",
         "still", "wood", "record", "plan", "recipe", "journal", "wire", "sheet", "store", "serve", "station", "cli"]
FLOORS = {
    "units": {"base"},
    "numeric": {"base"},
    "delimited": {"base"},
    "spirit": {"base", "units", "numeric"},
    # A fermented wash holds ethanol, whose density and strength are spirit's.
    "wort": {"base", "units", "numeric", "spirit"},
    # Beside the fermenter stands a wort, not a vapour; beside the stills no mash.
    "ferment": {"base", "units", "numeric", "spirit", "wort"},
    "mash": {"base", "units", "numeric", "spirit", "wort", "vapour"},
    "still": {"base", "units", "numeric", "spirit", "wort", "vapour"},
    "wood": {"base", "units", "numeric", "spirit", "wort", "vapour"},
    # The log of a run, read: it knows what is read beside a still, and text.
    "record": {"base", "units", "spirit", "still", "delimited"},
    "journal": set(ORDER[:ORDER.index("plan") + 1]),
    "sheet": set(ORDER[:ORDER.index("plan") + 1]) | {"journal"},
    "wire": set(ORDER[:ORDER.index("plan") + 1]) | {"journal"},
    "store": {"base", "units", "journal", "wire"},
}
# Header prefix: the rooms that may include it; the first that fits counts. What is not named here
# is free.
LIBRARIES = {
    "boost/asio": {"serve"},
    "boost/beast": {"serve"},
    "boost/": {"numeric"},
    "openssl/": {"serve"},
    "sodium": {"serve", "store"},
    "sqlite3.h": {"store"},
    "libpq-fe.h": {"store"},
    "spdlog/": {"serve"},
    "qrencode.h": {"serve"},
    "Eigen/": {"numeric"},
    "toml++/": {"recipe"},
    "toml.hpp": {"recipe"},
    "nlohmann/": {"wire"},
    "CLI/": {"cli"},
    "gtest/": set(),
    "gmock/": set(),
    "rapidcheck": set(),
    "benchmark/": set(),
}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^">]+)[">]', re.MULTILINE)


def may_use(room):
    return FLOORS.get(room, set(ORDER[:ORDER.index(room)]))


def read_uses(text):
    uses = {}
    for line in text.splitlines():
        room, colon, used = line.partition(":")
        if colon:
            uses[room.strip()] = set(used.split())
    return uses


def faults_of(source_folder, uses):
    found = []
    for room, used in uses.items():
        if room not in ORDER:
            found.append(f"{room}: not among the rooms known to tests/house/room_uses_test.py")
            continue
        for other in sorted(used - may_use(room)):
            found.append(f"src/{room}/CMakeLists.txt: {room} may not use {other}")
    for folder in sorted(p for p in source_folder.iterdir() if p.is_dir()):
        room = folder.name
        sources = sorted([*folder.rglob("*.hpp"), *folder.rglob("*.cpp")])
        if not sources:
            continue
        # The command line is a program, and may use everything.
        used = uses.get(room, may_use("cli") if room == "cli" else None)
        if used is None:
            found.append(f"src/{room}: in no build (no lynearm_room({room} ...))")
            continue
        for file in sources:
            where = f"src/{file.relative_to(source_folder)}"
            for mark, name in INCLUDE.findall(tree.text(file)):
                first, slash, _ = name.partition("/")
                if mark == '"':
                    if not slash or first.startswith("."):
                        found.append(f'{where}: "{name}" does not name the room it takes from')
                    elif first != room and first not in used:
                        found.append(f'{where}: "{name}", but {room} does not use {first}')
                elif first in uses and slash:
                    found.append(f"{where}: <{name}> is ours: use quotes")
                rooms = next((r for p, r in LIBRARIES.items() if name.startswith(p)), {room})
                if room not in rooms:
                    home = ", ".join(sorted(rooms)) or "tests and bench"
                    found.append(f"{where}: <{name}> belongs into {home} only")
    return found


def prove_itself():
    uses = {"base": set(), "units": {"base"}, "spirit": {"units"}, "plan": {"spirit"}}
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder)
        for room in uses:
            (source / room).mkdir()
            (source / room / "a.hpp").write_text('#include <vector>\n#include "base/a.hpp"\n'
                                                 if room == "units" else "#include <vector>\n")
        tree.prove(faults_of(source, uses) == [], "it finds fault with a clean tree")
        for planted, line in (("upward", '#include "plan/a.hpp"\n'),
                              ("not listed", '#include "base/a.hpp"\n'),
                              ("room not named", '#include "a.hpp"\n'),
                              ("out of the folder", '#include "../units/a.hpp"\n'),
                              ("foreign library", "  #  include <boost/math/tools/roots.hpp>\n")):
            file = source / "spirit" / "b.cpp"
            file.write_text(line)
            tree.prove(len(faults_of(source, uses)) == 1, f"a planted include passes: {planted}")
            file.unlink()
        tree.prove(len(faults_of(source, dict(uses, spirit={"units", "plan"}))) == 1,
                   "a use of a room below passes")
        (source / "vapour").mkdir()
        (source / "vapour" / "a.cpp").write_text("")
        tree.prove(len(faults_of(source, uses)) == 1, "a room in no build passes")


def main():
    root, build = map(pathlib.Path, sys.argv[1:3])
    prove_itself()
    uses = read_uses((build / "room_uses.txt").read_text(encoding="utf-8"))
    tree.tell(faults_of(root / "src", uses), f"{len(uses)} rooms, each include goes one way")


if __name__ == "__main__":
    main()
