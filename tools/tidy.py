"""clang-tidy over our own sources, two or more at once, remembering what was clean.

A source is clean as long as nothing it was judged by changed: its text, the text of each
of our headers it includes (also through others), its compiler options, .clang-tidy and
clang-tidy itself. The key is a hash over those with the clone's own folder taken out, so
another clone profits too. Only clean results are remembered.

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
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
OURS = ("src", "tests", "bench", "fuzz")
INCLUDE = re.compile(rb'^\s*#\s*include\s*[<"]([^">]+)[">]', re.MULTILINE)
CACHE = pathlib.Path(os.environ.get("XDG_CACHE_HOME") or pathlib.Path.home() / ".cache")
CACHE = CACHE / "lynearm" / "tidy"


def sources(folders, tops):
    """{source: (build folder, compile command)} for each of our own sources."""
    found = {}
    for folder in folders:
        database = folder / "compile_commands.json"
        if not database.exists():
            continue
        for entry in json.loads(database.read_text(encoding="utf-8")):
            file = pathlib.Path(entry["file"])
            inside = file.is_relative_to(ROOT) and file.relative_to(ROOT).parts[0] in tops
            if inside and file.exists():
                found.setdefault(file, (folder, entry["command"]))
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


def key(source, command, judge):
    words = shlex.split(command)
    folders = [pathlib.Path(w[2:]) for w in words if w.startswith("-I")]
    folders += [pathlib.Path(b) for a, b in zip(words, words[1:]) if a == "-isystem"]
    digest = hashlib.sha256(judge)
    digest.update(command.replace(str(ROOT), "").encode())
    for config in source.parent.relative_to(ROOT).parents:  # .clang-tidy files on the way up
        extra = ROOT / config / ".clang-tidy"
        if is_file(extra):
            digest.update(text(extra))
    extra = source.parent / ".clang-tidy"
    if is_file(extra):
        digest.update(text(extra))
    for file in ours_included(source, folders):
        content = text(file)
        digest.update(f"{file.relative_to(ROOT)} {len(content)}\n".encode())
        digest.update(content)
    return digest.hexdigest()


def judge_one(source, folder):
    start = time.monotonic()
    done = subprocess.run(
        ["clang-tidy", "--quiet", "-p", str(folder), "--warnings-as-errors=*",
         f"--header-filter=^{re.escape(str(ROOT))}/({'|'.join(OURS)})/", str(source)],
        stdin=subprocess.DEVNULL, capture_output=True, text=True, cwd=ROOT)
    said = done.stdout.strip()
    if done.returncode and not said:
        said = done.stderr.strip()
    return done.returncode == 0, said, time.monotonic() - start


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 2)
    parser.add_argument("--no-cache", action="store_true")
    parser.add_argument("--all", action="store_true", help="tests, bench and fuzz as well as src")
    parser.add_argument("--only", default="", help="sources whose path holds this text")
    parser.add_argument("folders", nargs="+", type=lambda f: pathlib.Path(f).resolve())
    asked = parser.parse_args()

    version = subprocess.run(["clang-tidy", "--version"], capture_output=True, check=True).stdout
    judge = version + pathlib.Path(__file__).read_bytes()
    CACHE.mkdir(parents=True, exist_ok=True)

    found = {s: e for s, e in sources(asked.folders, OURS if asked.all else OURS[:1]).items() if asked.only in str(s)}
    if not found:
        print("no source found: configure a build first")
        return 1
    todo = {}
    for source, (folder, command) in sorted(found.items()):
        mark = CACHE / key(source, command, judge)
        if mark.exists() and not asked.no_cache:
            mark.touch()
        else:
            todo[source] = (folder, mark)
    print(f"{len(found)} sources, {len(found) - len(todo)} known to be clean", flush=True)

    # The longest first, so that no core waits at the end.
    bad = 0
    with concurrent.futures.ThreadPoolExecutor(asked.jobs) as pool:
        waiting = {pool.submit(judge_one, s, todo[s][0]): s
                   for s in sorted(todo, key=lambda s: -len(text(s)))}
        for done in concurrent.futures.as_completed(waiting):
            source = waiting[done]
            clean, said, seconds = done.result()
            print(f"{'clean' if clean else 'FAULT'} {seconds:5.1f} s  {source.relative_to(ROOT)}",
                  flush=True)
            if clean:
                todo[source][1].touch()
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
