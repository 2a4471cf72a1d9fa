"""clang-tidy over our own sources, two or more at once, remembering what was clean.

A source is clean as long as nothing it was judged by changed: its text, the text of each
of our headers it includes (also through others), its compiler options, .clang-tidy and
clang-tidy itself. The key is a hash over those with the clone's own folder taken out, so
another clone profits too. Only clean results are remembered.

Nine tenths of a source's time go to the library's headers, so sources with the same options are
judged a dozen together, as one that includes them all; those whose unnamed namespaces share a name
in different groups. A group that is not clean, or whose sources do not go together after all, is
halved; a source alone has the last word. Two checks, of names brought in and never used, see only a source that stands alone: one
whose text uses such a name nowhere else is judged alone from the start.

Use: tools/tidy.py [--jobs N] [--no-cache] [--all] BUILD_FOLDER...   (a source counts once, in the
first folder whose compile_commands.json has it)
"""

import argparse
import concurrent.futures
import functools
import hashlib
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile
import time

from compiled import compiled_by

ROOT = pathlib.Path(__file__).resolve().parent.parent
OURS = ("src", "tests", "bench", "fuzz")
INCLUDE = re.compile(rb'^\s*#\s*include\s*[<"]([^">]+)[">]', re.MULTILINE)
BROUGHT_IN = re.compile(rb"^\s*(?:using [\w:]+::(\w+);|namespace (\w+) =)", re.MULTILINE)
# Of an unnamed namespace, what begins at the margin: roughly, and rather a name too many.
UNNAMED = re.compile(rb"^namespace \{$(.*?)^\}", re.MULTILINE | re.DOTALL)
NAMED = re.compile(rb"^(?!using [\w:]+;)[a-zA-Z][^\n=({;]*?(\w+)\s*(?:\[.*?)?[=({;\n]", re.MULTILINE)
TOGETHER = 12
CACHE = pathlib.Path(os.environ.get("XDG_CACHE_HOME") or pathlib.Path.home() / ".cache")
CACHE = CACHE / "lynearm" / "tidy"


def sources(folders, tops):
    """{source: (build folder, compiler options)} for each of our own sources."""
    found = {}
    for folder in folders:
        database = folder / "compile_commands.json"
        if not database.exists():
            continue
        for entry in json.loads(database.read_text(encoding="utf-8")):
            for file in compiled_by(pathlib.Path(entry["file"])):
                inside = file.is_relative_to(ROOT) and file.relative_to(ROOT).parts[0] in tops
                if inside and file.exists():
                    found.setdefault(file, (folder, options(entry["command"])))
    return found


@functools.lru_cache(maxsize=None)
def text(file):
    return file.read_bytes()


@functools.lru_cache(maxsize=None)
def is_file(file):
    return file.is_file()


def ours_included(source, include_folders):
    """The source and each header under the clone that it includes, in order of first meeting."""
    order, waiting = [], [source]
    seen = {source}
    while waiting:
        file = waiting.pop()
        order.append(file)
        for name in INCLUDE.findall(text(file)):
            for folder in (file.parent, *include_folders):
                header = pathlib.Path(os.path.normpath(folder / name.decode()))
                if header.is_relative_to(ROOT) and is_file(header):
                    if header not in seen:
                        seen.add(header)
                        waiting.append(header)
                    break
    return order


def key(source, words, judge_of_all):
    folders = [pathlib.Path(w[2:]) for w in words if w.startswith("-I")]
    folders += [pathlib.Path(b) for a, b in zip(words, words[1:]) if a == "-isystem"]
    digest = hashlib.sha256(judge_of_all)
    digest.update("\n".join(words).replace(str(ROOT), "").encode())
    digest.update(text(ROOT / ".clang-tidy"))
    for file in ours_included(source, folders):
        content = text(file)
        digest.update(f"{file.relative_to(ROOT)} {len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()


def brings_in_in_vain(source):
    """Whether a using declaration or an alias of it names what its text does not use again."""
    names = (a or b for a, b in BROUGHT_IN.findall(text(source)))
    return any(len(re.findall(rb"\b%s\b" % name, text(source))) < 2 for name in names)


def own_names(source):
    """What the source names in its unnamed namespaces."""
    return {name for inside in UNNAMED.findall(text(source)) for name in NAMED.findall(inside)}


def apart(sources, most):
    """The sources in groups of at most so many, no two of a group with a name of their own in common."""
    found = []
    for source in sources:
        names = own_names(source)
        place = next((one for one in found if len(one[0]) < most and not names & one[1]), None)
        if place is None:
            found.append(place := ([], set()))
        place[0].append(source)
        place[1].update(names)
    return [group for group, _ in found]


def options(command):
    """The compiler options of a command, without the compiler, the source and the output."""
    words = shlex.split(command)
    words = words[next(i for i, w in enumerate(words) if w.startswith("-")):]
    own = {i for name in ("-o", "-c", "-MF", "-MT") if name in words
           for i in (words.index(name), words.index(name) + 1)}
    return tuple(w for i, w in enumerate(words) if i not in own)


def groups(todo, jobs):
    """The sources to judge together, and their options; the longest groups first, so that no core
    waits at the end."""
    alike = {}
    for source, (folder, words, _) in todo.items():
        alone = source if brings_in_in_vain(source) else None
        alike.setdefault((words, folder, alone), []).append(source)
    found = []
    for (words, folder, _), sources_alike in alike.items():
        most = max(1, min(TOGETHER, -(-len(sources_alike) // jobs)))
        found += [(group, folder, words) for group in apart(sources_alike, most)]
    return sorted(found, key=lambda group: -sum(len(text(s)) for s in group[0]))


def tidy(source, folder, words):
    done = subprocess.run(
        ["clang-tidy", "--quiet", "--warnings-as-errors=*", f"--config-file={ROOT}/.clang-tidy",
         f"--header-filter=^{re.escape(str(ROOT))}/({'|'.join(OURS)})/", str(source), "--", *words],
        stdin=subprocess.DEVNULL, capture_output=True, text=True, cwd=folder)
    said = done.stdout.strip()
    if done.returncode and not said:
        said = done.stderr.strip()
    return done.returncode == 0, said


def judge(group, folder, words, scratch):
    """[(sources, clean, what is said of them, seconds)]: a source that is not clean stands alone."""
    start = time.monotonic()
    if len(group) == 1:
        return [(group, *tidy(group[0], folder, words), time.monotonic() - start)]
    with tempfile.NamedTemporaryFile("w", suffix=".cpp", dir=scratch, delete=False) as all_of_it:
        for source in group:
            all_of_it.write(f'#include "{source}"  // NOLINT(bugprone-suspicious-include)\n')
    # One source may hide a name of another, which each alone does not: its own build says that.
    clean, _ = tidy(all_of_it.name, folder, (*words, "-Wno-shadow"))
    if clean:
        return [(group, True, "", time.monotonic() - start)]
    half = len(group) // 2
    return [one for part in (group[:half], group[half:])
            for one in judge(part, folder, words, scratch)]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 2)
    parser.add_argument("--no-cache", action="store_true")
    parser.add_argument("--all", action="store_true", help="tests, bench and fuzz as well as src")
    parser.add_argument("--only", default="", help="sources whose path holds this text")
    parser.add_argument("folders", nargs="+", type=lambda f: pathlib.Path(f).resolve())
    asked = parser.parse_args()

    version = subprocess.run(["clang-tidy", "--version"], capture_output=True, check=True).stdout
    judge_of_all = version + pathlib.Path(__file__).read_bytes()
    CACHE.mkdir(parents=True, exist_ok=True)

    tops = OURS if asked.all else OURS[:1]
    found = {s: e for s, e in sources(asked.folders, tops).items() if asked.only in str(s)}
    if not found:
        print("no source found: configure a build first")
        return 1
    todo = {}
    for source, (folder, words) in sorted(found.items()):
        mark = CACHE / key(source, words, judge_of_all)
        if mark.exists() and not asked.no_cache:
            mark.touch()
        else:
            todo[source] = (folder, words, mark)
    print(f"{len(found)} sources, {len(found) - len(todo)} known to be clean", flush=True)

    bad = 0
    with tempfile.TemporaryDirectory() as scratch, \
            concurrent.futures.ThreadPoolExecutor(asked.jobs) as pool:
        waiting = [pool.submit(judge, *group, scratch) for group in groups(todo, asked.jobs)]
        for done in concurrent.futures.as_completed(waiting):
            for judged, clean, said, seconds in done.result():
                more = f" and {len(judged) - 1} more" if len(judged) > 1 else ""
                print(f"{'clean' if clean else 'FAULT'} {seconds:5.1f} s  "
                      f"{judged[0].relative_to(ROOT)}{more}", flush=True)
                if clean:
                    for source in judged:
                        todo[source][2].touch()
                else:
                    bad += 1
                    print(said.replace(f"{ROOT}/", ""), flush=True)

    month_ago = time.time() - 30 * 86400
    for mark in CACHE.iterdir():
        if mark.stat().st_mtime < month_ago:
            mark.unlink(missing_ok=True)
    print(f"{bad} of {len(found)} sources with faults")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
