"""No source is forgotten: every src/**/*.cpp, bench/**/*.cpp and tests/**/*_test.cpp is built.

Sources are listed in CMake files, not globbed, so a file can lie there untested. This holds
the tree against build/compile_commands.json. fuzz/ has a preset of its own: there it is enough
that its CMake file names the source.
"""

import json
import pathlib
import sys
import tempfile

import tree


def faults_of(root, built):
    found = []
    for top, pattern in (("src", "*.cpp"), ("tests", "*_test.cpp"), ("bench", "*.cpp")):
        for file in sorted((root / top).rglob(pattern)):
            if file.resolve() not in built:
                found.append(f"{file.relative_to(root)}: in no CMakeLists.txt that is built")
    for file in sorted((root / "fuzz").rglob("*.cpp")):
        lists = root / "fuzz" / "CMakeLists.txt"
        if not lists.exists() or file.stem not in lists.read_text(encoding="utf-8"):
            found.append(f"{file.relative_to(root)}: not in fuzz/CMakeLists.txt")
    # A test whose name does not end as the others' would slip through the line above.
    for file in sorted((root / "tests").rglob("*.cpp")):
        if file.resolve() not in built and not file.name.endswith("_test.cpp"):
            found.append(f"{file.relative_to(root)}: in no CMakeLists.txt that is built")
    return found


def prove_itself():
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder).resolve()
        for name in ("src/spirit/a.cpp", "tests/spirit/a_test.cpp", "tests/spirit/b_test.cpp"):
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text("")
        all_of_them = set(root.rglob("*.cpp"))
        tree.prove(faults_of(root, all_of_them) == [], "it finds fault with a clean tree")
        for name in ("src/spirit/a.cpp", "tests/spirit/b_test.cpp"):
            tree.prove(len(faults_of(root, all_of_them - {root / name})) == 1, f"unlisted {name} passes")


def main():
    root, build = map(pathlib.Path, sys.argv[1:3])
    sys.path.insert(0, str(root / "tools"))
    from compiled import compiled_by

    prove_itself()
    entries = json.loads((build / "compile_commands.json").read_text(encoding="utf-8"))
    built = {source.resolve() for e in entries
             for source in compiled_by(pathlib.Path(e["directory"]) / e["file"])}
    tree.tell(faults_of(root.resolve(), built), f"{len(built)} sources are built, none is forgotten")


if __name__ == "__main__":
    main()
