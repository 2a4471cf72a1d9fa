#!/usr/bin/env python3
"""Writes examples/house/journal.jsonl: two batches of the invented Tern Island still house.

Run by hand when the story or the format of an entry changes; the result is committed, and
tests/station holds it (`--check` tells whether it is what would be written). The same story
gives the same bytes: times are fixed, ids are UUIDs of version 7 made of these times and a hash.
Figures follow the plans of examples/tern-7 and tern-8 with small errors; curves in the tables
below are read off them.
"""

import csv
import json
import pathlib
import sys

from demo_entries import (
    APPRENTICE,
    STILLMAN,
    Journal,
    after,
    alcoholmeter,
    along,
    lot,
    moment,
    part,
    sg,
    spout,
    volume,
)

ROOT = pathlib.Path(__file__).resolve().parent.parent
EXAMPLES = ROOT / "examples"

def text_of(path):
    return (EXAMPLES / path).read_text(encoding="utf-8")


def replaced(text, old, new):
    if text.count(old) != 1:
        sys.exit(f"{old!r} should stand once in the example")
    return text.replace(old, new)


# One strip of each plan: minutes from the first drops; of the distillate by then litres, spout
# %vol, pot °C, head °C.
STRIP_7 = [
    (0.0, 0.0, 54.7, 93.0, 92.7), (6.6, 0.306, 50.7, 93.8, 93.6),
    (15.8, 0.708, 44.3, 95.0, 94.8), (30.7, 1.312, 32.5, 96.7, 96.6),
    (42.9, 1.765, 22.8, 97.9, 97.8), (53.2, 2.133, 15.5, 98.6, 98.6),
    (63.3, 2.477, 10.0, 99.1, 99.1),
]
STRIP_8 = [
    (0.0, 0.0, 53.7, 93.1, 92.9), (7.2, 0.867, 49.5, 94.0, 93.8),
    (16.7, 1.962, 43.2, 95.1, 95.0), (32.4, 3.625, 31.6, 96.8, 96.7),
    (45.0, 4.873, 22.1, 97.9, 97.9), (55.9, 5.893, 15.0, 98.7, 98.6),
    (65.6, 6.778, 10.0, 99.1, 99.1),
]
SPIRIT_7 = [
    (0.0, 0.0, 79.1, 85.6, 84.1), (11.0, 0.359, 78.4, 85.9, 84.4),
    (40.1, 1.278, 76.3, 87.0, 85.4), (63.6, 1.986, 73.9, 88.0, 86.5),
    (90.3, 2.742, 70.1, 89.4, 88.1), (115.2, 3.396, 65.2, 91.0, 89.8),
    (132.8, 3.823, 60.6, 92.2, 91.2), (147.9, 4.168, 55.9, 93.3, 92.4),
    (161.1, 4.453, 51.0, 94.2, 93.5), (185.2, 4.929, 40.7, 95.9, 95.4),
    (203.6, 5.264, 32.0, 97.0, 96.7), (219.6, 5.535, 24.6, 97.9, 97.6),
    (235.0, 5.785, 18.1, 98.5, 98.3), (248.1, 5.988, 13.4, 98.9, 98.8),
    (259.7, 6.165, 10.0, 99.2, 99.1),
]


def strip(journal, at, number, curve, watts, heat_up_min, charge_L, low_wines, left_L, water_C):
    """One strip of a wash, cold to its end; returns the id of that end: the low wines' name."""
    start = moment(at)
    charged = {"run": "strip", "charge": volume(charge_L, 18.0), "wash_L_20C": charge_L}
    run = journal.add(start, "strip", "run begun", {**charged, "power_W": watts})
    slow = 1.0 + 0.01 * (number % 3 - 1)  # no two run quite alike
    collected_L, percent = low_wines  # gauged in a bath at 20 °C
    more = collected_L / curve[-1][1]
    for minutes in (3.0, 17.0, 32.0, 46.0, 57.0, curve[-1][0] - 1.0):
        body = spout(along(curve, minutes, 2), water_C)
        body["head_temperature_C"] = round(along(curve, minutes, 4), 1)
        body["collected_mL"] = round(along(curve, minutes) * more * 100) * 10
        journal.read(run, after(start, (heat_up_min + minutes) * slow), "strip", **body)
    end = after(start, (heat_up_min + curve[-1][0]) * slow + 2.0)
    return journal.add(
        end,
        "strip",
        "run ended",
        {
            "run": run,
            "collected": volume(collected_L),
            "strength": alcoholmeter(percent),
            "left_L": left_L,
        },
    )


def tern_7(journal):
    recipe, kit = text_of("tern-7/recipe.toml"), text_of("tern-7/kit.toml")
    journal.begin("2026-09-26 18:10", "Tern 7", "Oats and rye, no sugar. Invented.")
    journal.add("2026-09-26 18:12", "mash bill", "batch planned", {"recipe": recipe, "kit": kit})
    journal.note(
        "2026-09-26 18:30", "mash bill",
        "No rice hulls in the store: the bag will drain slowly, as the plan says; "
        "it gets the fifty minutes that are planned.",
    )

    journal.done("2026-09-28 08:28", "mash", "Mill the grain, weigh out, set out the kit")
    journal.add(
        "2026-09-28 09:24", "mash", "mash water", {"volume_L": 28.0, "temperature_C": 69.9}
    )
    journal.done("2026-09-28 09:38", "mash", "Stir in the malts at 69.8 °C; it settles at 64.0 °C")
    journal.warmth([
        ("2026-09-28 09:40", 64.3), ("2026-09-28 09:52", 63.8), ("2026-09-28 10:10", 63.1),
        ("2026-09-28 10:30", 62.4), ("2026-09-28 10:50", 61.5), ("2026-09-28 11:08", 60.9),
    ])
    journal.add("2026-09-28 11:09", "mash", "mash checked", {"iodine": "unchanged"}, APPRENTICE)
    journal.wort("2026-09-28 11:58", "first runnings", 24.6, 1.0835, 56.0)
    journal.wort("2026-09-28 12:36", "sparge 1", 6.9, 1.0440, 65.0)
    journal.wort("2026-09-28 13:18", "sparge 2", 5.7, 1.0290, 66.0)
    journal.note("2026-09-28 13:20", "mash", "It drained as slowly as the plan feared.", APPRENTICE)
    journal.add(
        "2026-09-28 14:45", "ferment", "pitched",
        {"volume": volume(39.9, 24.0), "gravity": sg(1.0617, 24.0),
         "yeast": "distillers-dry", "mass_g": 24.0},
    )
    journal.ferment([
        ("2026-09-29 15:00", 1.0585, 19.5), ("2026-09-30 15:10", 1.0335, 21.0),
        ("2026-10-01 14:50", 1.0095, 20.5), ("2026-10-02 15:20", 0.9985, 19.5),
        ("2026-10-03 15:00", 0.9980, 19.0), ("2026-10-04 15:05", 0.9980, 18.5),
    ])
    journal.note(
        "2026-10-04 15:10", "ferment",
        "Two equal readings a day apart: dry. Left on the yeast to clear. Aired the room "
        "before we went in.",
    )
    journal.add(
        "2026-10-06 08:50", "ferment", "racked", {"clear": volume(38.7, 18.0), "lees_L": 1.2}
    )

    low_wines = [(2.43, 33.3), (2.41, 33.4), (2.44, 33.1), (2.42, 33.2)]
    strips = [
        strip(journal, at, i, STRIP_7, 2000.0, 38.0, 9.65, low_wines[i], 7.2, 19.5 + 0.5 * i)
        for i, at in enumerate(
            ["2026-10-06 10:00", "2026-10-06 12:45", "2026-10-06 15:30", "2026-10-07 08:15"]
        )
    ]
    journal.note(
        "2026-10-06 10:40", "strip",
        "Foams, as oats do: the first quarter hour gently. Half a hand of room in the head was"
        " enough.",
    )
    feints = journal.add(
        "2026-10-07 10:35", "spirit run", "lot brought",
        {"name": "feints of Tern 6", "kind": "feints",
         "volume": volume(1.5), "strength": alcoholmeter(30.0)},
    )
    jars = spirit_run_7(journal, strips, feints, low_wines)
    finish_7(journal, jars, recipe, kit)
    return jars["allotted"]


def spirit_run_7(journal, strips, feints, low_wines):
    parts = [part(run, "low wines", low[0]) for run, low in zip(strips, low_wines)]
    start = moment("2026-10-07 11:05")
    run = journal.add(
        start, "spirit run", "run begun",
        {
            "run": "spirit run", "charge": volume(12.3, 18.0), "strength": alcoholmeter(29.9, 18.0),
            "lots": [*parts, part(feints, "feints", 1.5)], "power_W": 2000.0,
        },
    )
    first_drops = 43.5
    journal.read(run, after(start, first_drops - 1.5), "spirit run", STILLMAN, power_W=1200.0)
    for i, minutes in enumerate(range(4, 260, 16)):
        body = spout(along(SPIRIT_7, minutes, 2), 20.5 + 0.5 * (i % 3))
        if i % 2 == 0:
            body["pot_temperature_C"] = round(along(SPIRIT_7, minutes, 3) + 0.1, 1)
        body["head_temperature_C"] = round(along(SPIRIT_7, minutes, 4) - 0.1, 1)
        body["collected_mL"] = round(along(SPIRIT_7, minutes) * 100) * 10
        journal.read(run, after(start, first_drops + minutes), "spirit run", **body)
    journal.note(
        "2026-10-07 12:52", "spirit run",
        "Knocked the coil with the ladder: the spout spat, and jar 8 has a smell "
        "of it.", APPRENTICE,
    )

    rows = list(csv.DictReader(text_of("tern-7/jars.csv").splitlines()))
    by_litres = [(row[1], row[0]) for row in SPIRIT_7]
    filled_L = 0.0
    for row in rows:
        warm_mL = round(float(row["volume_mL"]) * 1.004)
        filled_L = min(filled_L + warm_mL / 1000.0, SPIRIT_7[-1][1])
        body = {"run": run, "jar": int(row["jar"]), "volume_mL": float(warm_mL)}
        at = after(start, first_drops + along(by_litres, filled_L))
        journal.add(at, "spirit run", "jar filled", body, APPRENTICE)
    journal.add("2026-10-07 16:13", "spirit run", "run ended",
                {"run": run, "collected": volume(6.15), "left_L": 6.4})

    # Aired a day under a cloth; gauged in a bath at 20 °C.
    for i, row in enumerate(rows):
        at = after(moment("2026-10-09 09:00"), 3.0 * i)
        jar = int(row["jar"])
        gauged = {
            "volume": volume(float(row["volume_mL"]) / 1000.0),
            "strength": alcoholmeter(float(row["strength_percent_vol"])),
        }
        journal.add(at, "jars", "jar gauged", {"run": run, "jar": jar, **gauged}, APPRENTICE)
        words = WORDS.get(jar, [])
        body = {"run": run, "jar": jar, "words": words}
        if row["fault"]:
            body["fault"] = float(row["fault"])
        if jar == 8:
            body["text"] = "the coil was knocked"
        if words or row["fault"]:
            journal.add(after(at, 90.0), "jars", "jar noted", body)

    pours = []
    for row in rows:
        jar, held = int(row["jar"]), float(row["volume_mL"])
        share = dict.fromkeys(("foreshots", "hearts", "feints", "apart"), 0.0)
        if jar == 15:
            share.update(hearts=120.0, feints=held - 120.0)
        elif jar == 1:
            share.update(foreshots=held)
        elif jar == 2:
            share.update(apart=held)
        else:
            share.update({"hearts" if jar < 15 and jar != 8 else "feints": held})
        pours.append({"jar": jar, **{f"{name}_mL_20C": mL for name, mL in share.items()}})
    allotted = journal.add(
        "2026-10-09 14:20", "jars", "jars allotted", {"run": run, "jars": pours}
    )
    journal.note(
        "2026-10-09 14:25", "jars",
        "Jar 2 stands apart to be nosed again at Tern 9. Jar 8 goes round once more. Two "
        "fifths of jar 15 for body.",
    )
    journal.add(
        "2026-10-09 14:40", "jars", "lot taken",
        {"lot": lot(allotted, "foreshots"), "volume_L_20C": 0.082, "gone": "destroyed",
         "reason": "poured away, far from food and drink"},
    )
    hearts_mL = sum(pour["hearts_mL_20C"] for pour in pours)
    return {"allotted": allotted, "hearts_L": hearts_mL / 1000.0}


WORDS = {
    2: ["glue", "pear"], 3: ["pear"], 6: ["oat", "cream"], 8: ["wet wool"], 10: ["rye bread"],
    15: ["cardboard"], 16: ["wet cardboard"], 18: ["wet dog"],
}


def finish_7(journal, jars, recipe, kit):
    """The cask leaks, so the spirit goes onto a stave in glass; a little is bottled clear."""
    journal.note(
        "2026-10-10 10:00", "wood",
        "The small cask weeps at the head, and three days of soaking did not mend it. The "
        "spirit goes into glass, "
        "on a stave, at 55; planned anew.",
    )
    recipe = replaced(recipe, 'maturing_strength = "58 %vol"', 'maturing_strength = "55 %vol"')
    recipe = replaced(
        recipe,
        'cask = "small cask"\ntime = "8 months"\n',
        'staves = "for the time"\nspecies = "american-oak"\ntoast = "medium"\ntime = "6 months"\n',
    )
    staves = '[staves]\nlength = "300 mm"\nwidth = "25 mm"\nthickness = "10 mm"\n\n'
    kit = replaced(kit, "[instruments]\n", staves + "[instruments]\n")
    journal.add("2026-10-10 10:20", "wood", "batch planned", {"recipe": recipe, "kit": kit})

    hearts = jars["allotted"]
    clear_L, tasted_L = 0.70, 0.02
    on_wood_L = round(jars["hearts_L"] - clear_L - tasted_L, 3)
    made_L = round(on_wood_L * 1.2905, 2)  # of 71.0 at 55.0, with 0.3045 kg of water a litre
    journal.add(
        "2026-10-10 10:30", "reduce", "lot taken",
        {"lot": lot(hearts, "hearts"), "volume_L_20C": tasted_L, "gone": "tasted",
         "reason": "the blend in the glass, at 25 %vol"},
    )
    reduced = journal.add(
        "2026-10-12 16:00", "reduce", "lot made",
        {"name": "Tern 7 at 55", "lots": [part(hearts, "hearts", on_wood_L)],
         "water_kg": round(on_wood_L * 0.3045, 3),
         "volume": volume(made_L, 18.0), "strength": alcoholmeter(55.0, 18.0)},
    )
    clear = journal.add(
        "2026-10-12 16:30", "reduce", "lot made",
        {"name": "Tern 7, clear", "lots": [part(hearts, "hearts", clear_L)], "water_kg": 0.349,
         "volume": volume(1.04, 18.0), "strength": alcoholmeter(48.0, 18.0)},
    )
    journal.note("2026-10-12 16:35", "reduce", "Water in four parts over two days; it rested clear.")
    wood = journal.add(
        "2026-10-13 08:40", "wood", "wood filled",
        {"from": part(reduced, "spirit", round(made_L - 0.01, 2)), "in": "staves",
         "species": "american-oak",
         "toast": "medium", "staves": 1},
    )
    journal.add(
        "2026-10-19 11:00", "bottle", "bottled",
        {"from": part(clear, "spirit", 1.0), "bottles": 2,
         "size_L": 0.5, "strength_percent_vol": 48.0},
    )
    journal.note(
        "2026-10-19 11:10", "bottle",
        "Labelled: Tern 7, clear, 48.0 %vol, 500 mL. Invented, like all of it.",
    )
    for at, words, text in [
        ("2026-10-16 09:00", ["oat", "cream"], "pale straw; the wood says nothing yet"),
        ("2026-10-24 09:00", ["vanilla"], "straw"),
        ("2026-11-08 09:10", ["vanilla", "toast"], "gold; a little dry at the end, so look again soon"),
    ]:
        body = {"lot": lot(wood, "spirit"), "volume_L_20C": 0.02, "words": words, "text": text}
        journal.add(at, "wood", "wood sampled", body)


def tern_8(journal, feints_of_7):
    recipe, kit = text_of("tern-8/recipe.toml"), text_of("tern-8/kit.toml")
    journal.begin(
        "2026-11-15 19:00",
        "Tern 8",
        "Maize, rye and barley, part of the alcohol from sugar. Invented.",
    )
    journal.add("2026-11-15 19:02", "mash bill", "batch planned", {"recipe": recipe, "kit": kit})
    mash_8(journal)
    journal.ferment([
        ("2026-11-18 15:50", 1.0510, 25.0), ("2026-11-19 15:45", 1.0235, 25.5),
        ("2026-11-20 16:00", 1.0030, 25.0), ("2026-11-21 15:40", 0.9940, 25.0),
        ("2026-11-22 15:50", 0.9935, 25.0), ("2026-11-23 15:45", 0.9935, 25.0),
    ])
    journal.note(
        "2026-11-23 15:50", "ferment",
        "Two equal readings a day apart. Held at 25 °C with the coil all week. Door and window"
        " open while it gave gas.",
    )
    journal.add(
        "2026-11-24 08:40", "ferment", "racked", {"clear": volume(105.3, 22.0), "lees_L": 3.1},
    )
    low_wines = [(6.62, 32.5), (6.58, 32.7), (6.65, 32.4), (6.55, 32.6)]
    strips = [
        strip(journal, at, i + 1, STRIP_8, 4000.0, 41.0, 26.3, low_wines[i], 19.9, 19.5 + 0.5 * i)
        for i, at in enumerate(
            ["2026-11-24 09:50", "2026-11-24 12:50", "2026-11-24 15:50", "2026-11-25 08:15"]
        )
    ]
    journal.note("2026-11-24 09:40", "strip", "Stirred until it was still. Water on before the heat.")
    spirit_run_8(journal, strips, low_wines, feints_of_7)


def mash_8(journal):
    journal.done("2026-11-17 08:30", "mash", "Mill the grain, weigh out, set out the kit")
    journal.done("2026-11-17 09:38", "mash", "Heat 36.0 L of water with the grain to cook, stirring")
    journal.done("2026-11-17 10:40", "mash", "Cook the grain at the boil")
    journal.warmth([
        ("2026-11-17 10:41", 99.8), ("2026-11-17 10:53", 93.2), ("2026-11-17 11:04", 80.6),
        ("2026-11-17 11:15", 69.3),
    ])
    journal.done("2026-11-17 11:24", "mash", "Stir in the malts at 68.8 °C; it settles at 65.5 °C")
    wrong = journal.add(
        "2026-11-17 11:27", "mash", "mash temperature", {"temperature_C": 56.1}, APPRENTICE, "56.1",
    )
    journal.add(
        "2026-11-17 11:27", "mash", "mash temperature", {"temperature_C": 66.1}, APPRENTICE, "66.1",
        corrects=wrong, written=moment("2026-11-17 11:29"),
    )
    journal.add(
        "2026-11-17 11:31", "mash", "mash water", {"volume_L": 0.25, "temperature_C": 12.0}
    )
    journal.warmth([
        ("2026-11-17 11:35", 65.8), ("2026-11-17 11:50", 65.2), ("2026-11-17 12:10", 64.5),
        ("2026-11-17 12:30", 63.7), ("2026-11-17 12:45", 63.1), ("2026-11-17 12:58", 62.6),
    ])
    journal.add("2026-11-17 12:59", "mash", "mash checked", {"iodine": "unchanged"}, APPRENTICE)
    # 1.3 L less of the first runnings than planned: the telling gap of this batch.
    journal.wort("2026-11-17 13:26", "first runnings", 31.9, 1.1005, 55.0)
    journal.note(
        "2026-11-17 13:28", "mash",
        "The first runnings are 1.3 L short: the bag tore at the seam, and we could not "
        "squeeze it.",
    )
    journal.wort("2026-11-17 13:47", "sparge 1", 19.0, 1.0370, 64.0)
    journal.wort("2026-11-17 14:09", "sparge 2", 15.4, 1.0180, 66.0)
    journal.done("2026-11-17 13:10", "mash", "Dissolve the sugar in 8.0 L and boil it", APPRENTICE)
    journal.note(
        "2026-11-17 14:10", "mash",
        "The syrup is too heavy for the glass: let down with 20 L of the cold "
        "water that tops up, then read.", APPRENTICE,
    )
    journal.wort("2026-11-17 14:12", "sugar", 31.75, 1.0668, 33.0)
    journal.note(
        "2026-11-17 15:34", "ferment",
        "Topped up by the planned 31.9 L, not to the mark: so it stands 1.3 L lower.", APPRENTICE,
    )
    journal.add(
        "2026-11-17 15:40", "ferment", "pitched",
        {"volume": volume(108.6, 25.0), "gravity": sg(1.0565, 25.0),
         "yeast": "distillers-dry", "mass_g": 55.0},
    )
    journal.add(
        "2026-11-17 15:42", "ferment", "added", {"what": "di-ammonium phosphate", "mass_kg": 0.026},
    )


def spirit_run_8(journal, strips, low_wines, feints_of_7):
    """As far as minute 170 of examples/tern-8/spirit_run.csv, then stopped."""
    start = moment("2026-11-25 12:00")
    kept_of_last_L = 2.1
    litres = [low[0] for low in low_wines]
    litres[-1] = round(litres[-1] - kept_of_last_L, 2)
    parts = [part(run, "low wines", L) for run, L in zip(strips, litres)]
    parts.append(part(feints_of_7, "feints", 1.2))
    journal.note(
        "2026-11-25 11:30", "spirit run",
        "1.2 L of Tern 7's feints: they hold as much as the 1.5 L planned. Charged at 28, two "
        "under the plan, and "
        "2.1 L of the last low wines kept for the next time.",
    )
    run = journal.add(
        start, "spirit run", "run begun",
        {"run": "spirit run", "charge": volume(30.0, 18.0),
         "strength": alcoholmeter(28.0, 18.0), "lots": parts,
         "power_W": 4000.0},
    )
    rows = list(csv.DictReader(text_of("tern-8/spirit_run.csv").splitlines()))
    stopped_min = 170.0
    course = [(41.6, 0.0)]
    for row in rows:
        if row["collected_mL"]:
            course.append((float(row["minutes"]), float(row["collected_mL"])))
        minutes = float(row["minutes"])
        if minutes == 0.0 or minutes >= stopped_min:
            continue
        body = {
            key: float(row[key])
            for key in ("power_W", "pot_temperature_C", "head_temperature_C",
                        "spout_temperature_C", "collected_mL")
            if row[key]
        }
        if row["spout_percent_vol"]:
            body["spout"] = {"reading": float(row["spout_percent_vol"]), "scale": "percent_vol"}
        journal.read(run, after(start, minutes), "spirit run", **body)
    # Left as it was typed: 73.2 was meant.
    doubted = {"spout": {"reading": 37.2, "scale": "percent_vol"}, "spout_temperature_C": 22.5}
    journal.read(run, after(start, 117.0), "spirit run", typed="37.2", **doubted)

    by_volume = [(mL, minutes) for minutes, mL in course]
    sizes = [150.0] + [500.0] * 17
    filled = 0.0
    for jar, size in enumerate(sizes, 1):
        filled += size
        at = after(start, along(by_volume, filled))
        body = {"run": run, "jar": jar, "volume_mL": size}
        journal.add(at, "spirit run", "jar filled", body, APPRENTICE)
        if jar == 5:
            twice = journal.add(after(at, 0.4), "spirit run", "jar filled", body, APPRENTICE)
            journal.add(
                after(at, 2.0), "spirit run", "struck", {"reason": "pressed twice"}, APPRENTICE,
                corrects=twice,
            )
    journal.add(
        after(start, stopped_min), "spirit run", "run read",
        {"run": run, "event": "stopped", "note": "the well pump fell out: heat off, then the water"},
    )
    journal.note(
        after(start, 182.0), "spirit run",
        "The coolant ran down to a trickle, so heat off first. Nobody left the room until the "
        "pot stood still. "
        "8.9 L are over in 18 jars, jar 19 stands half full. We go on when the pump is mended;"
        " the outlet stays open.",
    )


def main():
    journal = Journal()
    journal.add("2026-09-26 18:00", "kit", "kit stated", {"kit": text_of("tern-8/kit.toml")})
    journal.note(
        "2026-09-26 18:05", "kit",
        "Everything in this house is invented: the island, its still house, its batches and "
        "their figures.",
    )
    feints_of_7 = tern_7(journal)
    tern_8(journal, feints_of_7)
    lines = [json.dumps(e, ensure_ascii=False, separators=(",", ":")) for e in journal.entries]
    text = "\n".join(lines) + "\n"
    path = EXAMPLES / "house" / "journal.jsonl"
    if sys.argv[1:] == ["--check"]:
        if path.read_text(encoding="utf-8") != text:
            sys.exit(f"{path.relative_to(ROOT)} is not what tools/make_demo_journal.py writes")
        return
    path.write_text(text, encoding="utf-8")
    print(f"{len(lines)} entries in {path.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
