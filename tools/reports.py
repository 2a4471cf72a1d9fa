"""Counts what a ctest run tested, GoogleTest case by case.

ctest knows programs; a GoogleTest program writes its cases to <program>.xml beside
ctest's own report. A program that died, or that failed after its cases had passed (a leak
found at exit), counts as one more failure: nothing that went wrong is lost in the counting.
"""

import dataclasses
import pathlib
import xml.etree.ElementTree as ET


@dataclasses.dataclass
class Count:
    passed: int = 0
    failed: int = 0
    skipped: int = 0
    faults: list = dataclasses.field(default_factory=list)  # (name, what was said)

    def add(self, other):
        self.passed += other.passed
        self.failed += other.failed
        self.skipped += other.skipped
        self.faults += other.faults

    def fail(self, name, said):
        self.failed += 1
        self.faults.append((name, said))

    def line(self):
        skipped = f", {self.skipped} skipped" if self.skipped else ""
        return f"{self.passed} passed, {self.failed} failed{skipped}"


def cases(path, count, prefix):
    """Adds the cases of one GoogleTest report; says whether it could be read."""
    try:
        root = ET.parse(path).getroot()
    except (OSError, ET.ParseError):
        return False
    for suite in root.iter("testsuite"):
        for case in suite.findall("testcase"):
            name = f"{prefix}: {case.get('classname')}.{case.get('name')}"
            said = [f.get("message") or f.text or "" for f in case.findall("failure")]
            if said:
                count.fail(name, "\n".join(said))
            elif case.get("status") == "notrun" or case.get("result") in ("skipped", "suppressed"):
                count.skipped += 1
            else:
                count.passed += 1
    return True


def tail(text, lines=40):
    return "\n".join((text or "").rstrip().splitlines()[-lines:])


def skip_reason(program):
    """Why ctest did not run a program: asked for (SKIP_...), or not found, which is a failure."""
    skipped = program.find("skipped")
    return skipped.get("message", "") if skipped is not None else ""


def of_ctest(folder):
    """Counts the run whose reports are in `folder`: ctest.xml and a file a GoogleTest program."""
    count = Count()
    for _, own in each_program(folder):
        count.add(own)
    return count


def passed_programs(folder):
    """The names of the programs of a run that passed whole."""
    if not (pathlib.Path(folder) / "ctest.xml").exists():
        return []
    return [name for name, own in each_program(folder) if own.passed and not own.failed]


def each_program(folder):
    folder = pathlib.Path(folder)
    for program in ET.parse(folder / "ctest.xml").getroot().findall("testcase"):
        name, status = program.get("name"), program.get("status")
        output = program.findtext("system-out")
        own = Count()
        if not cases(folder / f"{name}.xml", own, name):
            if status == "run":
                own.passed += 1
            elif status == "disabled" or skip_reason(program).startswith("SKIP_"):
                own.skipped += 1
            else:
                own.fail(name, skip_reason(program) or tail(output))
        elif status != "run" and own.failed == 0:
            own.fail(name, tail(output))
        yield name, own
