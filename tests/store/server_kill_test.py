"""The whole server killed over and over while it is posted to: of the entries that it answered
with 200, none may be missing when it is started again. Twenty kills; two hundred when LYNEARM_FULL
is set.

    server_kill_test.py PROGRAM
"""

import http.client
import os
import random
import sys
import tempfile
import threading
import time

import running

PROGRAM = sys.argv[1]
KILLS = 200 if os.environ.get("LYNEARM_FULL") else 20
POSTING = 4
SEED = 1126


class Phone(threading.Thread):
    """Posts until the server is gone; keeps what was acknowledged."""

    def __init__(self, port, batch):
        super().__init__()
        self.port, self.batch, self.acknowledged, self.fault = port, batch, [], None

    def run(self):
        line = running.Line(self.port)
        while True:
            try:
                # Now and then several in one call, which are kept together or not at all.
                entries = [running.temperature(self.batch)
                           for _ in range(3 if len(self.acknowledged) % 5 == 0 else 1)]
                self.acknowledged.extend(line.keep(*entries))
            except (OSError, http.client.HTTPException):
                return
            except RuntimeError as fault:
                self.fault = str(fault)
                return


def main():
    moments = random.Random(SEED)
    faults, acknowledged, under_load = [], [], 0
    batch = running.new_id()
    with tempfile.TemporaryDirectory(prefix="lynearm-killed-") as folder:
        place = ("--data", folder + "/house")
        for kill in range(1, KILLS + 1):
            served = running.Served(PROGRAM, *place)
            try:
                there = served.line().ids()
                lost = set(acknowledged) - set(there)
                if lost:
                    faults.append(f"{len(lost)} acknowledged entries are lost before kill {kill}")
                    acknowledged = [one for one in acknowledged if one not in lost]
                if len(there) != len(set(there)):
                    faults.append(f"an entry is there twice before kill {kill}")
                phones = [Phone(served.port, batch) for _ in range(POSTING)]
                for phone in phones:
                    phone.start()
                # One in ten dies at any moment of its youth, the others once they are at work.
                until = time.monotonic() + 60
                while kill % 10 and not any(phone.acknowledged for phone in phones):
                    if time.monotonic() > until:
                        raise RuntimeError("nothing was acknowledged within a minute")
                    time.sleep(0.001)
                time.sleep(moments.random() * 0.1)
            finally:
                served.kill()
            for phone in phones:
                phone.join()
                acknowledged.extend(phone.acknowledged)
                if phone.fault:
                    faults.append(f"kill {kill}: {phone.fault}")
            under_load += any(phone.acknowledged for phone in phones)
        served = running.Served(PROGRAM, *place)
        there = served.line().ids()
        lost = set(acknowledged) - set(there)
        if lost:
            faults.append(f"{len(lost)} acknowledged entries are lost at the end")
        if served.stop() != 0:
            faults.append("it did not stop well")
    if under_load < KILLS * 0.85:
        faults.append(f"only {under_load} of {KILLS} kills were under load")
    print(f"{KILLS} kills, {under_load} of them under load, {len(acknowledged)} entries "
          f"acknowledged, {len(lost)} lost; {len(there) - len(acknowledged)} kept that nobody had "
          "been told of")
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
