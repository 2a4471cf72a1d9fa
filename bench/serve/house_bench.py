"""What a maker waits for, through the whole server: the invented house is served, three pages
listen to it and ask again whenever something was recorded, and readings of its live run come in
at 500 a second for 30 s, each acknowledged when it is on the disk. A plan as it is typed, and the
first paint in a browser. Readings one after another, alone and beside fifty open streams that get
each of them and fifty connections that stall in the midst of a request.

    house_bench.py PROGRAM [--parts paint,plans,load,crowd] [--seconds 30] [--rate 500] [--pages 3]
                   [--crowd 50] [--readings 500] [--folder .]

The house lies in --folder, whose disk is what is measured: not one in memory. Python's standard
library only, and for the first paint the browser of web/scripts. Nothing here is a limit; those
stand in docs/speed.md.
"""

import argparse
import asyncio
import json
import multiprocessing
import os
import pathlib
import selectors
import shutil
import socket
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests/store"))
import running  # noqa: E402

POSTING = 16


class Line:
    """One connection that is kept open; one question at a time."""

    def __init__(self, port):
        self.port = port

    async def open(self):
        self.reader, self.writer = await asyncio.open_connection("127.0.0.1", self.port,
                                                                 limit=1 << 26)
        return self

    async def ask(self, method, path, body=None, kind="application/json"):
        head = (f"{method} /api/v1{path} HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\n"
                f"Origin: http://127.0.0.1:{self.port}\r\n")
        data = b"" if body is None else body.encode()
        if body is not None:
            head += f"Content-Type: {kind}\r\nContent-Length: {len(data)}\r\n"
        self.writer.write(head.encode() + b"\r\n" + data)
        top = await self.reader.readuntil(b"\r\n\r\n")
        length = next(int(row.split(b":")[1]) for row in top.split(b"\r\n")
                      if row.lower().startswith(b"content-length:"))
        return int(top.split()[1]), await self.reader.readexactly(length)


def percentile(values, share):
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def told(what, seconds):
    print(f"{what}: half within {percentile(seconds, 0.5) * 1e3:.1f} ms, 99 % within "
          f"{percentile(seconds, 0.99) * 1e3:.1f} ms, the longest {max(seconds) * 1e3:.1f} ms "
          f"({len(seconds)})", flush=True)


class Page:
    """Hears the house and asks again for what it shows, one question at a time, as a page does."""

    def __init__(self, port, *paths):
        self.port, self.paths = port, paths
        self.news, self.asked, self.last = asyncio.Event(), [], 0

    async def hear(self):
        line = await Line(self.port).open()
        line.writer.write(f"GET /api/v1/events HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\n"
                          f"Origin: http://127.0.0.1:{self.port}\r\n\r\n".encode())
        while row := await line.reader.readline():
            if row.startswith(b"id:"):
                self.last = int(row[3:])
                self.news.set()

    async def show(self):
        line = await Line(self.port).open()
        while True:
            await self.news.wait()
            self.news.clear()
            for path in self.paths:
                begun = time.perf_counter()
                status, _ = await line.ask("GET", path)
                self.asked.append(time.perf_counter() - begun)
                if status != 200:
                    print(f"{path}: {status}")


async def post(port, rate, seconds, batch, run):
    """Readings at a steady pace, whoever is free sends the next one."""
    queue, waits, kept = asyncio.Queue(), [], 0
    end = asyncio.get_running_loop().time() + seconds

    async def pace():
        loop, begun = asyncio.get_running_loop(), asyncio.get_running_loop().time()
        number = 0
        while loop.time() < end:
            due = int((loop.time() - begun) * rate)
            while number < due:
                number += 1
                queue.put_nowait((number, time.perf_counter()))
            await asyncio.sleep(0.001)
        for _ in range(POSTING):
            queue.put_nowait(None)

    async def phone():
        nonlocal kept
        line = await Line(port).open()
        while (one := await queue.get()) is not None:
            number, due = one
            reading = running.entry("spirit run", "run read", {
                "run": run, "head_temperature_C": 84.0 + number % 100 / 100,
                "collected_mL": 3000.0 + number / 10}, batch)
            status, body = await line.ask("POST", "/entries", json.dumps({"entries": [reading]}))
            # From when it was due: a queue that grows shows.
            waits.append(time.perf_counter() - due)
            kept += status == 200 and json.loads(body)["kept"][0]["id"] == reading["id"]

    await asyncio.gather(pace(), *[phone() for _ in range(POSTING)])
    return waits, kept


async def under_load(served, asked):
    line = await Line(served.port).open()
    house = json.loads((await line.ask("GET", "/house"))[1])
    batch = next(b["batch"] for b in house["batches"] if b["name"] == "Tern 8")
    whole = json.loads((await line.ask("GET", f"/batches/{batch}"))[1])
    run = next(r["entry"] for r in whole["runs"] if r["run"] == "spirit run")
    pages = [Page(served.port, "/house"), Page(served.port, f"/batches/{batch}"),
             Page(served.port, f"/batches/{batch}", f"/runs/{run}/forecast")][:asked.pages]
    tasks = [asyncio.create_task(work) for page in pages for work in (page.hear(), page.show())]
    await asyncio.sleep(1)
    before = len((await line.ask("GET", "/journal"))[1].splitlines())
    waits, kept = await post(served.port, asked.rate, asked.seconds, batch, run)
    told(f"{asked.rate} readings a second for {asked.seconds} s, from due to acknowledged", waits)
    for page in pages:
        if page.asked:
            told(f"  a page that shows {' and '.join(p.split('/')[1] for p in page.paths)}",
                 page.asked)
    there = len((await line.ask("GET", "/journal"))[1].splitlines())
    print(f"  acknowledged {kept}, in the journal {there - before}")
    print(f"  resident at most {served.resident_kB() / 1024:.0f} MB "
          f"(anonymous now {served.resident_kB('RssAnon') / 1024:.0f} MB)", flush=True)
    for task in tasks:
        task.cancel()
    return whole["plan"]


async def plans(served, plan):
    """A recipe typed into: no two alike."""
    line = await Line(served.port).open()
    waits = []
    for number in range(100):
        recipe = plan["recipe"].replace('rest_time = "90 min"', f'rest_time = "{60 + number} min"')
        body = json.dumps({"recipe": f"# {number}\n{recipe}", "kit": plan["kit"]})
        begun = time.perf_counter()
        status, _ = await line.ask("POST", "/plan", body)
        waits.append(time.perf_counter() - begun)
        assert status == 200
    told("a plan of an edited recipe, there and back", waits)


def crowd(port, many, ready):
    """A process of its own: pages that hear the house, and connections that stall. The house ends
    a stalled one after a while; another comes."""
    watched = selectors.DefaultSelector()

    def come(first_words):
        connection = socket.create_connection(("127.0.0.1", port))
        connection.sendall(first_words)
        watched.register(connection, selectors.EVENT_READ, first_words)

    hears = (f"GET /api/v1/events HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n"
             f"Origin: http://127.0.0.1:{port}\r\n\r\n").encode()
    for _ in range(many):
        come(hears)
        come(b"POST /api/v1/entries HTTP/1.1\r\nHost: 127.0")
    ready.set()
    while True:
        for key, _ in watched.select():
            if not key.fileobj.recv(1 << 16):
                watched.unregister(key.fileobj)
                key.fileobj.close()
                come(key.data)


def one_by_one(served, readings, batch, run, folder):
    """A reading each 20 ms: how long each waited for its acknowledgement; and beside it, how long the
    disk takes for one synchronisation of a page's bytes, which no acknowledgement is without."""
    line, waits, syncs = served.line(), [], []
    beside = os.open(folder + "/beside", os.O_CREAT | os.O_WRONLY)
    for number in range(readings):
        reading = running.entry("spirit run", "run read", {
            "run": run, "head_temperature_C": 84.0 + number % 100 / 100}, batch)
        begun = time.perf_counter()
        assert line.keep(reading) == [reading["id"]]
        waits.append(time.perf_counter() - begun)
        os.write(beside, bytes(4096))
        os.fsync(beside)
        syncs.append(time.perf_counter() - begun - waits[-1])
        time.sleep(max(0.0, 0.02 - waits[-1] - syncs[-1]))
    line.close()
    os.close(beside)
    return waits, syncs


def beside_a_crowd(served, asked, folder):
    house = json.loads(served.line().ask("GET", "/house")[1])
    batch = next(b["batch"] for b in house["batches"] if b["name"] == "Tern 8")
    whole = json.loads(served.line().ask("GET", f"/batches/{batch}")[1])
    run = next(r["entry"] for r in whole["runs"] if r["run"] == "spirit run")
    waits, syncs = one_by_one(served, asked.readings, batch, run, folder)
    told("a reading alone, acknowledged", waits)
    told("  a synchronisation of the disk between them", syncs)
    ready = multiprocessing.Event()
    others = multiprocessing.Process(target=crowd, args=(served.port, asked.crowd, ready),
                                     daemon=True)
    others.start()
    ready.wait(60)
    time.sleep(0.5)
    waits, syncs = one_by_one(served, asked.readings, batch, run, folder)
    told(f"  beside {asked.crowd} open streams and {asked.crowd} stalled connections", waits)
    told("  a synchronisation of the disk between them", syncs)
    others.terminate()
    others.join()


def first_paint(served):
    """The house's page in a new browser, from the address entered to something to use."""
    done = subprocess.run([ROOT / "tools/with_node", "node", ROOT / "bench/serve/first_paint.mjs",
                           f"http://127.0.0.1:{served.port}/"], capture_output=True, text=True)
    print(done.stdout.strip() or done.stderr.strip()[-500:], flush=True)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--seconds", type=int, default=30)
    parser.add_argument("--rate", type=int, default=500)
    parser.add_argument("--pages", type=int, default=3, help="of the three, how many listen")
    parser.add_argument("--folder", default=".")
    parser.add_argument("--parts", default="paint,plans,load,crowd")
    parser.add_argument("--crowd", type=int, default=50)
    parser.add_argument("--readings", type=int, default=500)
    asked = parser.parse_args()
    print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores", flush=True)
    folder = tempfile.mkdtemp(prefix="house-bench-", dir=asked.folder)
    try:
        served = running.Served(asked.program, "--data", folder + "/house", "--demo")
        try:
            parts = asked.parts.split(",")
            if "paint" in parts:
                first_paint(served)
            print(f"resident at rest {served.resident_kB('VmRSS') / 1024:.0f} MB", flush=True)
            if "plans" in parts:
                asyncio.run(plans(served, plan_of(served)))
            if "crowd" in parts:
                beside_a_crowd(served, asked, folder)
            if "load" in parts:
                asyncio.run(under_load(served, asked))
        finally:
            served.kill()
    finally:
        shutil.rmtree(folder)


def plan_of(served):
    line = served.line()
    house = json.loads(line.ask("GET", "/house")[1])
    batch = next(b["batch"] for b in house["batches"] if b["name"] == "Tern 8")
    return json.loads(line.ask("GET", f"/batches/{batch}")[1])["plan"]


if __name__ == "__main__":
    main()
