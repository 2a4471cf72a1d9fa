"""The steps of ./check (see ./check --help), timed, and one count over all of them."""

import argparse
import concurrent.futures
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import time

import remembered
import reports

ROOT = pathlib.Path(__file__).resolve().parent.parent
BUILD = ROOT / "build"
LOGS = BUILD / "logs"
REPORTS = BUILD / "reports"
JOBS = str(os.cpu_count() or 2)
FUZZ_SECONDS = 10  # a target, one on each core, once the corpus in fuzz/ was replayed
FUZZ_SECONDS_FULL = 120
# What only repeats a thing often enough to count it says no more in a second build, where it is slow;
# its paths are the other tests'. Whole, it is run there too.
COUNTED_BEFORE = ":".join(("*Statistics.*", "CrashTest.NothingAcknowledged*",
                           "KillTest.NothingAcknowledged*", "PostmasterTest.*"))
OURS = ("src", "tests", "bench", "fuzz", "examples", "tools")

# Another clone, in another folder, finds the objects that this one made.
ENVIRONMENT = dict(os.environ, CCACHE_BASEDIR=str(ROOT), CCACHE_NOHASHDIR="1")


def run(log, *command, **environment):
    """Runs a command with all it says kept in a log; returns whether it went well."""
    with open(LOGS / log, "a", encoding="utf-8") as out:
        out.write(f"$ {' '.join(map(str, command))}\n")
        out.flush()
        done = subprocess.run(list(map(str, command)), cwd=ROOT, stdin=subprocess.DEVNULL,
                              stdout=out, stderr=subprocess.STDOUT,
                              env=dict(ENVIRONMENT, **environment))
    return done.returncode == 0


def one(name, well, log, telling=None, most=40):
    """The count of a step that is one check; of its log, a failure tells the `telling` lines."""
    count = reports.Count()
    if well:
        count.passed += 1
        return count
    lines = (LOGS / log).read_text(encoding="utf-8", errors="replace").splitlines()
    told = [line for line in lines if telling(line)] if telling else []
    told = told[:most] if told else lines[-most:]
    count.fail(name, "\n".join([*told, f"(all of it: build/logs/{log})"]))
    return count


def build(preset, target="all"):
    log = f"build-{preset}.log"
    well = (run(log, "cmake", "--preset", preset)
            and run(log, "cmake", "--build", "--preset", preset, "--target", target, "-j", JOBS,
                    "--", "-k", "0"))
    return one(f"build, preset {preset}", well, log,
               lambda line: re.search(r"error\b|^FAILED:|undefined reference", line, re.I)
               and not line.startswith("ccache "))


def tests(preset, folder, full, *options, without=""):
    out = REPORTS / preset
    shutil.rmtree(out, ignore_errors=True)
    out.mkdir(parents=True)
    environment = {"GTEST_OUTPUT": f"xml:{out}/", "GTEST_COLOR": "no"}
    if without and not full:
        environment["GTEST_FILTER"] = f"-{without}"
    # The same tree answers the same each time; what no case has shown yet is sought under --full.
    environment["RC_PARAMS"] = "max_success=1000" if full else "seed=1"
    if full:
        environment["LYNEARM_FULL"] = "1"
    limit = 7200 if full else 900
    log = f"tests-{preset}.log"
    run(log, "ctest", "--test-dir", folder, "-j", JOBS, "--timeout", limit,
        "--output-on-failure", "--output-junit", out / "ctest.xml", *options, **environment)
    if not (out / "ctest.xml").exists():
        return one(f"ctest, preset {preset}", False, log)
    count = reports.of_ctest(out)
    if count.passed + count.failed == 0:
        count.fail(f"ctest, preset {preset}", "no test was run")
    for fault in range(len(count.faults)):
        name, said = count.faults[fault]
        count.faults[fault] = (f"{preset}: {name}", said)
    return count


def tests_remembered(preset, folder, full, *options, without):
    """tests(), leaving out the programs that passed before and did not change since."""
    marks = {} if full else remembered.marks(folder)
    known = remembered.passed_before(marks)
    if known:
        print(f"    {len(known)} programs passed before and did not change: not run again", flush=True)
        options += ("-E", f"^({'|'.join(known)})$")
    if known and len(known) == len(marks):
        return reports.Count()
    count = tests(preset, folder, full, *options, without=without)
    remembered.remember(marks, [*known, *reports.passed_programs(REPORTS / preset)])
    return count


def formatting():
    files = [f for top in OURS for end in ("*.cpp", "*.hpp") for f in sorted((ROOT / top).rglob(end))]
    well = run("format.log", "clang-format", "--dry-run", "-Werror", *files)
    return one("formatting (mend: clang-format -i)", well, "format.log",
               lambda line: "error:" in line)


def analysis(full):
    """src always; tests, bench and fuzz, which two compilers hold to their warnings, when whole."""
    well = run("tidy.log", sys.executable, "-B", "tools/tidy.py", "--jobs", JOBS,
               *(["--all"] if full else []), "build/asan", "build")
    return one("static analysis (clang-tidy)", well, "tidy.log",
               lambda line: not line.startswith(("clean ", "$ ")))


def fuzz(target, seconds):
    name = target.name
    found = target.parent / f"corpus-{name}"
    found.mkdir(exist_ok=True)
    seeds = ROOT / "fuzz" / "corpus" / name.removeprefix("fuzz_")
    log = f"{name}.log"
    well = run(log, target, f"-max_total_time={seconds}", "-timeout=10",
               "-rss_limit_mb=2048", "-max_len=4096", "-print_final_stats=1",
               f"-artifact_prefix={target.parent}/crash-{name}-", found,
               *([seeds] if seeds.is_dir() else []))
    return one(name, well, log)


def fuzzing(full):
    """Each target of the sanitizers' build; whole, of the build that follows comparisons, for long.
    A finding stays beside its target as crash-<target>-..."""
    count = reports.Count()
    preset = "asan"
    if full:
        preset = "fuzz"
        count.add(build(preset, "fuzz_targets"))
        if count.failed:
            return count
    targets = [target for target in sorted((BUILD / preset).glob("fuzz_*"))
               if target.is_file() and os.access(target, os.X_OK)]
    if not targets:
        count.fail("fuzzing", f"no target in build/{preset}")
    seconds = FUZZ_SECONDS_FULL if full else FUZZ_SECONDS
    with concurrent.futures.ThreadPoolExecutor(max_workers=int(JOBS)) as workers:
        for done in workers.map(lambda target: fuzz(target, seconds), targets):
            count.add(done)
    return count


def npm(log, *words):
    return run(log, "tools/with_node", "npm", "--prefix", "web", *words)


def web(full):
    """Formatting, types, unit tests, weight and looks of the pages; pictures in web/shots."""
    count = one("packages of web", run("web-packages.log", "tools/web_packages"),
                "web-packages.log")
    if count.failed:
        return count
    for name, words in (("web: formatting (mend: npm run format:mend)", ["run", "format"]),
                        ("web: types", ["run", "check"])):
        log = f"web-{words[-1]}.log"
        count.add(one(name, npm(log, *words), log))
    count.add(vitest("web: unit tests", "web-test", "test"))
    for name, word in (("web: build", "build"), ("web: weight of the first load", "weigh")):
        count.add(one(name, npm(f"web-{word}.log", "run", word), f"web-{word}.log"))
    lynearm = BUILD / "lynearm"
    program = {} if full or not lynearm.exists() else remembered.mark_of_pages(lynearm)
    count.add(pictures(program))
    if remembered.passed_before(program):
        print("    the program in a browser passed before and did not change: not run again", flush=True)
        return count
    driven = vitest("web: the program in a browser", "web-e2e", "e2e")
    count.add(driven)
    if not driven.failed:
        remembered.remember(program, program)
    return count


def pictures(program):
    """Every page of the demonstration in both sizes and themes, in web/shots."""
    name, shots = "web: every page of the demonstration looked at, with axe", ROOT / "web" / "shots"
    if any(remembered.pictures_again(mark, shots) for mark in program.values()):
        print("    these pages were looked at before: their pictures are put out again", flush=True)
        return reports.Count(passed=1)
    well = npm("web-look.log", "run", "look", "--", "--demo")
    for mark in program.values() if well else ():
        remembered.keep_pictures(mark, shots)
    return one(name, well, "web-look.log")


def vitest(name, report, word):
    """The cases of one npm script that runs tests; that there are none is a failure."""
    out = REPORTS / f"{report}.xml"
    out.unlink(missing_ok=True)
    npm(f"{report}.log", "run", word, "--", "--reporter=junit", f"--outputFile={out}")
    tested = reports.Count()
    if not reports.cases(out, tested, "web") or tested.passed + tested.failed == 0:
        said = (LOGS / f"{report}.log").read_text(encoding="utf-8", errors="replace")
        tested.fail(name, reports.tail(said))
    return tested


def processor_time():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--full", action="store_true")
    asked = parser.parse_args()

    shutil.rmtree(LOGS, ignore_errors=True)
    LOGS.mkdir(parents=True)
    total = reports.Count()
    begun = time.monotonic()

    def step(name, work, *arguments, **named):
        print(f"{name} ...", flush=True)
        start, processor_s = time.monotonic(), processor_time()
        count = work(*arguments, **named)
        total.add(count)
        took_s = time.monotonic() - start
        cores = (processor_time() - processor_s) / max(took_s, 1e-3)
        print(f"    {count.line()}   ({took_s:.0f} s of {cores:.1f} cores)", flush=True)
        return count.failed == 0

    if not asked.quick:
        step("Formatting", formatting)
    if step("Build, GCC optimised", build, "release"):
        step("Tests", tests, "release", BUILD, asked.full)
    if not asked.quick:
        step("Web workbench", web, asked.full)
        if asked.full:
            step("Build, each source by itself", build, "debug")
        if step("Build, Clang with sanitizers", build, "asan"):
            # The house checks look at the repository, which is the same in both.
            step("Tests under sanitizers", tests_remembered, "asan", BUILD / "asan", asked.full, "-LE", "house",
                 without=COUNTED_BEFORE)
            step("Fuzzing", fuzzing, asked.full)
        step("Static analysis", analysis, asked.full)

    for name, said in total.faults:
        print(f"\nFAILED {name}")
        for line in said.splitlines():
            print(f"    {line}")
    print(f"\nIn {(time.monotonic() - begun) / 60:.1f} minutes:")
    print(total.line(), flush=True)
    return 1 if total.failed else 0


if __name__ == "__main__":
    sys.exit(main())
