"""What the tests of whole servers share: the program serving a house, entries to send it, and a
PostgreSQL cluster of the test's own. Python's standard library only."""

import http.client
import json
import os
import pathlib
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
import uuid


class Served:
    """`lynearm serve` at a port that was free. `places` tells the house: --data or --store."""

    def __init__(self, program, *places):
        self.process = subprocess.Popen(
            [program, "serve", *places, "--port", "0", "--for", "20 min"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.port = None
        for line in self.process.stdout:
            if line.startswith("The workbench: "):
                self.port = int(line.rsplit(":", 1)[1].strip().rstrip("/"))
            if line.startswith("Stop it"):
                break
        if self.port is None:
            raise RuntimeError(f"{program} did not start: {self.process.wait()}")

    def line(self):
        return Line(self.port)

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        self.process.stdout.close()

    def stop(self):
        self.process.terminate()
        status = self.process.wait(timeout=60)
        self.process.stdout.close()
        return status

    def resident_kB(self, key="VmHWM"):
        """VmHWM: the most it ever held."""
        for row in pathlib.Path(f"/proc/{self.process.pid}/status").read_text().splitlines():
            if row.startswith(key + ":"):
                return int(row.split()[1])
        return 0


class Line:
    """One connection, used by one thread. An answer that did not come whole raises OSError or
    HTTPException."""

    def __init__(self, port):
        self.http = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
        self.origin = f"http://127.0.0.1:{port}"

    def ask(self, method, path, body=None, kind="application/json"):
        headers = {"Origin": self.origin}
        if body is not None:
            headers["Content-Type"] = kind
            body = body if isinstance(body, (bytes, str)) else json.dumps(body)
        self.http.request(method, "/api/v1" + path, body, headers)
        answer = self.http.getresponse()
        return answer.status, answer.read()

    def keep(self, *entries):
        """The ids that were acknowledged: only those are promised."""
        status, body = self.ask("POST", "/entries", {"entries": list(entries)})
        if status != 200:
            raise RuntimeError(f"{status}: {body[:300]!r}")
        return [one["id"] for one in json.loads(body)["kept"]]

    def ids(self):
        """Of every entry in the journal."""
        status, body = self.ask("GET", "/journal")
        if status != 200:
            raise RuntimeError(f"{status}: {body[:300]!r}")
        return [json.loads(line)["id"] for line in body.splitlines()]

    def close(self):
        self.http.close()


def new_id():
    """A UUIDv7 of now."""
    number = (int(time.time() * 1000) << 80) | int.from_bytes(os.urandom(10), "big")
    number = number & ~(0xF << 76) | (7 << 76)
    number = number & ~(0x3 << 62) | (2 << 62)
    return str(uuid.UUID(int=number))


def now():
    return time.strftime("%Y-%m-%dT%H:%M:%S.000Z", time.gmtime())


def entry(stage, kind, body, batch=None):
    told = {"id": new_id(), "stage": stage, "kind": kind, "version": 1, "at": now(),
            "clock_ahead_ms": 0, "who": "the still hand", "body": body}
    if batch:
        told["batch"] = batch
    return told


def temperature(batch):
    return entry("mash", "mash temperature", {"temperature_C": 65.9}, batch)


class Postgresql:
    """A cluster in a temporary folder, reached by a socket in it, run as the user "postgres" when
    the test runs as root (which PostgreSQL refuses). Roles: keeper, officer."""

    @staticmethod
    def programs():
        """Its newest folder of programs; nothing when this machine has none."""
        found = sorted(pathlib.Path("/usr/lib/postgresql").glob("*/bin/initdb"))
        if not found or (os.geteuid() == 0 and not Postgresql.user()):
            return None
        return found[-1].parent

    @staticmethod
    def user():
        if os.geteuid() != 0:
            return None
        return next((one.pw_name for one in pwd.getpwall() if one.pw_name == "postgres"), None)

    def __enter__(self):
        self.folder = tempfile.mkdtemp(prefix="lynearm-servers-")
        if self.user():
            shutil.chown(self.folder, self.user())
        self.bin, data = self.programs(), self.folder + "/data"
        self.run("initdb", "-D", data, "-U", "postgres", "--auth=trust", "-E", "UTF8",
                 "--locale=C.UTF-8", "--no-sync")
        self.server = subprocess.Popen(
            [self.bin / "postgres", "-D", data, "-k", self.folder, "-c", "listen_addresses="],
            user=self.user(), cwd="/", stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        until = time.monotonic() + 60
        while self.run("pg_isready", "-h", self.folder, "-q", check=False) != 0:
            if time.monotonic() > until:
                raise RuntimeError("the database does not answer")
            time.sleep(0.03)
        self.sql("CREATE ROLE keeper LOGIN; CREATE ROLE officer LOGIN")
        self.sql("CREATE DATABASE house OWNER keeper")
        return self

    def __exit__(self, *_):
        self.server.send_signal(signal.SIGQUIT)
        self.server.wait(timeout=60)
        shutil.rmtree(self.folder, ignore_errors=True)

    def run(self, program, *words, check=True):
        return subprocess.run([self.bin / program, *words], user=self.user(), cwd="/",
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              check=check).returncode

    def sql(self, text):
        self.run("psql", "-h", self.folder, "-U", "postgres", "-v", "ON_ERROR_STOP=1", "-c", text)

    def uri(self, role="keeper"):
        return f"postgresql:///house?host={self.folder}&user={role}"
