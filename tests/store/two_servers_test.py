"""Two servers on one PostgreSQL database, through and through: what is posted at one reaches a
page that listens at the other within a second, both show the same house, and when one is killed
while it is posted to, nothing that it acknowledged is missing at the other. Then the commands
for such a house: an officer admitted, its books read, a backup moved to a folder.

    two_servers_test.py PROGRAM
"""

import http.client
import json
import pathlib
import subprocess
import sys
import tempfile
import threading
import time

import running

PROGRAM = sys.argv[1]
FAULTS = []


def hold(what, holds):
    if not holds:
        FAULTS.append(what)


class Page:
    """An open event stream: when it heard of which place in the journal."""

    def __init__(self, port):
        self.heard = {}
        self.http = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        self.http.request("GET", "/api/v1/events", headers={"Origin": f"http://127.0.0.1:{port}"})
        self.stream = self.http.getresponse()
        self.first = threading.Event()
        self.thread = threading.Thread(target=self.listen, daemon=True)
        self.thread.start()
        hold("a page is told where the journal stands", self.first.wait(20))

    def listen(self):
        try:
            while line := self.stream.readline():
                if line.startswith(b"id:"):
                    self.heard.setdefault(int(line[3:]), time.monotonic())
                    self.first.set()
        except (OSError, ValueError):
            pass

    def wait_for(self, place, patience=20):
        """When it heard of `place` or a later one."""
        until = time.monotonic() + patience
        while time.monotonic() < until:
            times = [at for heard, at in list(self.heard.items()) if heard >= place]
            if times:
                return min(times)
            time.sleep(0.001)
        return None


def states(line):
    """What the pages show of the house and of every batch."""
    texts = [line.ask("GET", path)[1] for path in ("/house", "/lots")]
    for one in json.loads(texts[0])["batches"]:
        texts.append(line.ask("GET", f"/batches/{one['batch']}")[1])
    return texts


def travel(one, other):
    """Posted at one, heard of at the other, each way."""
    batch = running.new_id()
    longest = 0.0
    for here, there in ((one, other), (other, one)):
        page, line, place = Page(there.port), here.line(), len(here.line().ids())
        for _ in range(10):
            line.keep(running.temperature(batch))
            kept = time.monotonic()
            place += 1
            heard = page.wait_for(place)
            hold(f"entry {place} reached the other server", heard is not None)
            if heard:
                longest = max(longest, heard - kept)
    hold(f"within a second: it took {longest:.3f} s", longest < 1.0)
    hold("both servers show the same", states(one.line()) == states(other.line()))
    print(f"20 entries, each at the other server within {longest * 1000:.0f} ms")


def killed(one, other):
    """One is killed while four post to it."""
    acknowledged, batch = [], running.new_id()
    before = len(other.line().ids())

    def post():
        line = one.line()
        try:
            while True:
                acknowledged.extend(line.keep(running.temperature(batch)))
        except (OSError, http.client.HTTPException):
            pass  # it is dead: what was on its way was not acknowledged

    posting = [threading.Thread(target=post) for _ in range(4)]
    for thread in posting:
        thread.start()
    until = time.monotonic() + 60
    while len(acknowledged) < 100 and time.monotonic() < until:
        time.sleep(0.005)
    one.kill()
    for thread in posting:
        thread.join()
    there = other.line().ids()
    lost = set(acknowledged) - set(there)
    hold("it was killed under load", len(acknowledged) >= 100)
    hold(f"{len(lost)} acknowledged entries are lost", not lost)
    hold("no entry is there twice", len(there) == len(set(there)))
    hold("the other server goes on", len(other.line().keep(running.temperature(batch))) == 1)
    print(f"killed while posted to: {len(acknowledged)} entries acknowledged, {len(lost)} lost, "
          f"{len(there) - before - len(acknowledged)} kept that nobody had been told of")


def lynearm(*words):
    done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def commands(database, other):
    """The house while it is served: its officer, its books, its backup."""
    officer, keeper = database.uri("officer"), database.uri()
    hold("an officer is a stranger before", lynearm("export", "--store", officer)[0] == 2)
    status, _, told = lynearm("admit", "nobody", "--store", keeper)
    hold("a role that is none is refused", status == 2 and 'ROLE is "nobody"' in told)
    status, _, told = lynearm("admit", "keeper", "--store", keeper)
    hold("the house's own role is no officer", status == 2 and "this one may write" in told)
    status, _, told = lynearm("admit", "officer", "--store", officer)
    hold("nobody admits himself", status == 2)
    status, told, _ = lynearm("admit", "officer", "--store", keeper)
    hold("an officer is admitted", status == 0 and told.startswith("officer may read"))
    status, journal, _ = lynearm("export", "--store", officer)
    served = other.line().ask("GET", "/journal")[1].decode()
    hold("the officer reads the journal that is served", status == 0 and journal == served)
    line = pathlib.Path(journal_of(journal))
    hold("the officer keeps nothing", lynearm("import", line, "--store", officer)[0] == 2)
    line.unlink()

    with tempfile.TemporaryDirectory() as folder:
        backup, house = folder + "/backup", folder + "/house"
        hold("a backup beside the server", lynearm("backup", backup, "--store", keeper)[0] == 0)
        hold("restored to a folder", lynearm("restore", backup, "--data", house)[0] == 0)
        hold("the same journal", lynearm("export", "--data", house)[1] == journal)
        status, _, told = lynearm("restore", backup, "--store", keeper)
        hold("but not over a house", status == 2 and "a house without entries" in told)
        hold("the place is told", "--store is \"postgresql://" in told)


def journal_of(text):
    with tempfile.NamedTemporaryFile("w", suffix=".jsonl", delete=False) as file:
        file.write(text)
        return file.name


def main():
    if running.Postgresql.programs() is None:
        print("this machine has no PostgreSQL")
        return 77
    with running.Postgresql() as database:
        one = running.Served(PROGRAM, "--store", database.uri())
        other = running.Served(PROGRAM, "--store", database.uri())
        try:
            travel(one, other)
            killed(one, other)
            commands(database, other)
            hold("it stops well", other.stop() == 0)
        finally:
            for served in (one, other):
                if served.process.poll() is None:
                    served.kill()
    print("\n".join(FAULTS) or "all of it holds")
    return 1 if FAULTS else 0


if __name__ == "__main__":
    sys.exit(main())
