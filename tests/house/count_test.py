"""The count at the end of ./check is true: nothing that went wrong gets lost in the counting."""

import pathlib
import sys
import tempfile

import tree

CTEST = """<testsuite>
<testcase name="good_tests" status="run"/>
<testcase name="bad_tests" status="fail"><failure message=""/><system-out>x</system-out></testcase>
<testcase name="dead_tests" status="fail"><failure message=""/><system-out>Segfault</system-out></testcase>
<testcase name="leaky_tests" status="fail"><failure message=""/><system-out>leak</system-out></testcase>
<testcase name="house_x" status="run"/>
<testcase name="house_y" status="fail"><failure message=""/><system-out>y</system-out></testcase>
<testcase name="gone_tests" status="notrun"><skipped message="Unable to find executable"/></testcase>
<testcase name="off_tests" status="disabled"><skipped message="Disabled"/></testcase>
</testsuite>"""
GOOD = """<testsuites><testsuite name="A">
<testcase name="one" classname="A" status="run" result="completed"/>
<testcase name="two" classname="A" status="run" result="completed"/>
<testcase name="three" classname="A" status="run" result="skipped"><skipped/></testcase>
<testcase name="DISABLED_four" classname="A" status="notrun" result="suppressed"/>
</testsuite></testsuites>"""
BAD = """<testsuites><testsuite name="B">
<testcase name="one" classname="B" status="run" result="completed"/>
<testcase name="two" classname="B" status="run" result="completed">
<failure message="first"/><failure message="second"/></testcase>
</testsuite></testsuites>"""


def main():
    root = pathlib.Path(sys.argv[1])
    sys.path.insert(0, str(root / "tools"))
    import reports

    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        (folder / "ctest.xml").write_text(CTEST)
        (folder / "good_tests.xml").write_text(GOOD)
        (folder / "bad_tests.xml").write_text(BAD)
        (folder / "leaky_tests.xml").write_text(GOOD)  # its cases passed, the program failed
        (folder / "dead_tests.xml").write_text("<testsuites><testsuite")  # died while writing
        count = reports.of_ctest(folder)
        well = reports.passed_programs(folder)

    names = sorted(name for name, _ in count.faults)
    faults = []
    for what, got, right in (
            ("passed", count.passed, 2 + 1 + 2 + 1),  # good, bad, leaky, house_x
            ("failed", count.failed, 5),
            ("skipped", count.skipped, 2 + 2 + 1),
            ("faults", names, ["bad_tests: B.two", "dead_tests", "gone_tests", "house_y", "leaky_tests"]),
            ("programs to remember", well, ["good_tests", "house_x"]),
            ("line", count.line(), "6 passed, 5 failed, 5 skipped"),
            ("line", reports.Count(passed=3).line(), "3 passed, 0 failed")):
        if got != right:
            faults.append(f"{what}: {got}, should be {right}")
    tree.tell(faults, "the count is true")


if __name__ == "__main__":
    main()
