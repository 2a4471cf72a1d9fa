"""The whole server killed over and over while it is posted to: of the entries that it answered
with 200, none may be missing when it is started again. Two hundred kills, of four houses at a time.

    server_kill_test.py PROGRAM
"""

import concurrent.futures
import http.client
import random
import sys
import tempfile
import threading
import time

import running

PROGRAM = sys.argv[1]
HOUSES, KILLS = 4, 50  # so many of each
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


class House:
    """One data folder, whose server is killed and started again and again."""

    def __init__(self, number):
        self.name, self.moments = f"house {number}", random.Random(SEED + number)
        self.batch = running.new_id()
        self.faults, self.acknowledged = [], []
        self.under_load = self.lost = self.unheard = 0

    def look(self, served, when):
        """Whether all that was acknowledged is there, and once."""
        there = served.line().ids()
        lost = set(self.acknowledged) - set(there)
        self.lost += len(lost)
        if lost:
            self.faults.append(f"{self.name}: {len(lost)} acknowledged entries are lost {when}")
            self.acknowledged = [one for one in self.acknowledged if one not in lost]
        if len(there) != len(set(there)):
            self.faults.append(f"{self.name}: an entry is there twice {when}")
        self.unheard = len(there) - len(self.acknowledged)

    def killed(self, served, kill):
        phones = [Phone(served.port, self.batch) for _ in range(POSTING)]
        try:
            for phone in phones:
                phone.start()
            # One in ten dies at any moment of its youth, the others once they are at work.
            until = time.monotonic() + 60
            while kill % 10 and not any(phone.acknowledged for phone in phones):
                if time.monotonic() > until:
                    raise RuntimeError("nothing was acknowledged within a minute")
                time.sleep(0.001)
            time.sleep(self.moments.random() * 0.1)
        finally:
            served.kill()
        for phone in phones:
            phone.join()
            self.acknowledged.extend(phone.acknowledged)
            if phone.fault:
                self.faults.append(f"{self.name}, kill {kill}: {phone.fault}")
        self.under_load += any(phone.acknowledged for phone in phones)

    def live(self):
        with tempfile.TemporaryDirectory(prefix="lynearm-killed-") as folder:
            place = ("--data", folder + "/house")
            for kill in range(1, KILLS + 1):
                served = running.Served(PROGRAM, *place)
                try:
                    self.look(served, f"before kill {kill}")
                except BaseException:
                    served.kill()
                    raise
                self.killed(served, kill)
            served = running.Served(PROGRAM, *place)
            self.look(served, "at the end")
            if served.stop() != 0:
                self.faults.append(f"{self.name} did not stop well")
        return self


def main():
    with concurrent.futures.ThreadPoolExecutor(HOUSES) as at_once:
        houses = list(at_once.map(lambda number: House(number).live(), range(HOUSES)))
    kills = HOUSES * KILLS
    faults = [fault for house in houses for fault in house.faults]
    under_load = sum(house.under_load for house in houses)
    if under_load < kills * 0.85:
        faults.append(f"only {under_load} of {kills} kills were under load")
    print(f"{kills} kills, {under_load} of them under load, "
          f"{sum(len(house.acknowledged) for house in houses)} entries acknowledged, "
          f"{sum(house.lost for house in houses)} lost; "
          f"{sum(house.unheard for house in houses)} kept that nobody had been told of")
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
