"""What passed, remembered by what it is made of: test programs under the sanitizers, and the
program in a browser, with the pictures that were taken of its pages.

What a program does follows from its own bytes, save chance; chance has its turn in the optimised build,
where every program runs every time. Programs of a folder that opens files of the clone or starts
`lynearm` (it includes places.hpp) go by those too.
"""

import functools
import hashlib
import os
import pathlib
import re
import shutil
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
CACHE = pathlib.Path(os.environ.get("XDG_CACHE_HOME") or pathlib.Path.home() / ".cache")
PICTURES = CACHE / "lynearm" / "pictures"
CACHE = CACHE / "lynearm" / "tests"
OPENED = ("data", "docs", "examples", "tests", "web/api", "README.md")
PROGRAM = re.compile(r"^add_test\(\[=\[(\w+)\]=\]", re.MULTILINE)
DAYS = 30


def digest_of(*files):
    digest = hashlib.sha256()
    for file in files:
        content = file.read_bytes()
        digest.update(f"{file.relative_to(ROOT)} {len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()


@functools.lru_cache(maxsize=None)
def clone_and_program(folder):
    tops = [ROOT / top for top in OPENED]
    files = [f for top in tops for f in ([top] if top.is_file() else sorted(top.rglob("*")))]
    return digest_of(folder / "lynearm", *(f for f in files
                                           if f.is_file() and "__pycache__" not in f.parts))


def marks(folder):
    """{program: its mark} for each test program that was built in `folder`."""
    found = {}
    for told in sorted((folder / "tests").glob("*/CTestTestfile.cmake")):
        sources = ROOT / "tests" / told.parent.name
        opens = any(b"places.hpp" in f.read_bytes() for f in sources.glob("*.[ch]pp"))
        for name in PROGRAM.findall(told.read_text(encoding="utf-8")):
            if (folder / name).is_file():
                of = digest_of(folder / name) + (clone_and_program(folder) if opens else "")
                found[name] = CACHE / f"{name}-{hashlib.sha256(of.encode()).hexdigest()}"
    return found


def mark_of_pages(program):
    """The mark of what drives `program` in a browser: by its bytes (the pages are in it), the pages' own,
    the tests', the scripts' and their packages'. The browser and Node are taken as they are."""
    files = [f for top in ("web/e2e", "web/scripts", "web/src")
             for f in sorted((ROOT / top).rglob("*"))]
    of = digest_of(program, ROOT / "web/package-lock.json", *(f for f in files if f.is_file()))
    return {"pages": CACHE / f"pages-{of}"}


def pictures_again(mark, folder):
    """Whether the pictures of what has this mark were kept; they are put in `folder`."""
    kept = PICTURES / mark.name
    if not kept.is_dir():
        return False
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(kept, folder)
    return True


def keep_pictures(mark, folder):
    """Those of the latest pages, and of no earlier ones."""
    shutil.rmtree(PICTURES, ignore_errors=True)
    shutil.copytree(folder, PICTURES / mark.name)


def passed_before(marks_of):
    return sorted(name for name, mark in marks_of.items() if mark.exists())


def remember(marks_of, passed):
    CACHE.mkdir(parents=True, exist_ok=True)
    for name in passed:
        if name in marks_of:
            marks_of[name].touch()
    for mark in CACHE.iterdir():
        if mark.stat().st_mtime < time.time() - DAYS * 86400:
            mark.unlink(missing_ok=True)
