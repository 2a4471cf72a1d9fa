"""Entries of the demo journal: their ids, their times, and readings made from true figures.

For make_demo_journal.py only. The same calls give the same bytes.
"""

import bisect
import datetime
import hashlib

STILLMAN, APPRENTICE = "the stillman", "the apprentice"


def moment(text):
    """Of "2026-11-17 09:30", island time, which is UTC."""
    return datetime.datetime.fromisoformat(text).replace(tzinfo=datetime.timezone.utc)


def after(start, minutes):
    return start + datetime.timedelta(seconds=round(minutes * 60))


class Journal:
    def __init__(self):
        self.entries = []
        self.batch = None

    def new_id(self, at, kind):
        """A minute's third after it happened: so long it takes to write it down."""
        made = int(at.timestamp() * 1000) + 20_000 + len(self.entries)
        seed = hashlib.sha256(f"tern island {len(self.entries)} {kind}".encode()).digest()
        value = made << 80 | int.from_bytes(seed[:10], "big")
        value = value & ~(0xF << 76) | 7 << 76
        value = value & ~(0x3 << 62) | 2 << 62
        digits = f"{value:032x}"
        cuts = [0, 8, 12, 16, 20, 32]
        return "-".join(digits[a:b] for a, b in zip(cuts, cuts[1:]))

    def add(self, at, stage, kind, body, who=STILLMAN, typed="", corrects=None, written=None):
        """Appends an entry; returns its id. `written`: when, if later than it happened."""
        if isinstance(at, str):
            at = moment(at)
        entry = {"id": self.new_id(written or at, kind)}
        if self.batch:
            entry["batch"] = self.batch
        entry.update(
            stage=stage, kind=kind, version=1, at=at.strftime("%Y-%m-%dT%H:%M:%S.000Z")
        )
        entry.update(clock_ahead_ms=0, who=who)
        if corrects:
            entry["corrects"] = corrects
        if typed:
            entry["typed"] = typed
        entry["body"] = body
        self.entries.append(entry)
        return entry["id"]

    def begin(self, at, name, remark):
        self.batch = self.new_id(moment(at), "batch " + name)
        self.add(at, "mash bill", "batch begun", dict(name=name, remark=remark, invented=True))

    def note(self, at, stage, text, who=STILLMAN):
        self.add(at, stage, "note", {"text": text}, who)

    def done(self, at, stage, step, who=STILLMAN):
        self.add(at, stage, "step marked", {"step": step, "done": True}, who)

    def warmth(self, rows, who=APPRENTICE):
        for at, celsius in rows:
            self.add(at, "mash", "mash temperature", {"temperature_C": celsius}, who)

    def wort(self, at, drawn_from, litres, gravity, celsius):
        """Volume as it stands, hot; gravity of a sample cooled to 20 °C."""
        body = {"from": drawn_from, "volume": volume(litres, celsius), "gravity": sg(gravity, 20.0)}
        self.add(at, "mash", "wort drawn", body)

    def ferment(self, rows):
        for at, gravity, celsius in rows:
            body = {"temperature_C": celsius}
            if gravity:
                body["gravity"] = sg(gravity, celsius)
            self.add(at, "ferment", "ferment read", body, APPRENTICE)

    def read(self, run, at, stage, who=APPRENTICE, typed="", **reading):
        return self.add(at, stage, "run read", {"run": run, **reading}, who, typed)


def sg(figure, celsius):
    return {"reading": figure, "scale": "specific_gravity", "at_C": celsius}


def volume(litres, celsius=20.0):
    return {"volume_L": litres, "at_C": celsius}


# What an alcoholmeter shows too much per kelvin over 20 °C, %vol, at true strengths. Rough, and
# enough to invent readings with; what they truly mean is spirit/'s work.
PER_KELVIN = [(8, 0.16), (27, 0.39), (40, 0.40), (55, 0.36), (71, 0.32), (80, 0.30)]


def along(table, x, column=1):
    """Straight between the rows of a table; held at its ends."""
    places = [row[0] for row in table]
    i = min(max(bisect.bisect_right(places, x), 1), len(table) - 1)
    a, b = table[i - 1], table[i]
    share = min(max((x - a[0]) / (b[0] - a[0]), 0.0), 1.0)
    return a[column] + share * (b[column] - a[column])


def alcoholmeter(percent, celsius=20.0):
    """The reading that a true strength gives at a temperature."""
    shown = percent + along(PER_KELVIN, percent) * (celsius - 20.0)
    return {"reading": round(shown, 1), "scale": "percent_vol", "at_C": celsius}


def spout(percent, celsius):
    read = alcoholmeter(percent, celsius)
    return {
        "spout": {"reading": read["reading"], "scale": "percent_vol"},
        "spout_temperature_C": celsius,
    }


def lot(entry, kind):
    return {"entry": entry, "kind": kind}


def part(entry, kind, litres):
    return {"lot": lot(entry, kind), "volume_L_20C": litres}
