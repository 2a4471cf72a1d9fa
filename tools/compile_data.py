#!/usr/bin/env python3
"""Turns a table of data/*.toml into rows for a C++ initialiser, or says what is wrong with it.

    compile_data.py --table ingredient --in data/ingredients.toml --out ingredients.inc

A data file has sources and rows:

    [source.trade]
    document = "usual range of maltsters' analyses"
    standing = "common practice"

    [[ingredient]]
    id = "rye-malt"
    extract = { value = 82, low = 80, high = 84, unit = "%", source = "trade" }

Each row becomes `{.id = "rye-malt", .extract = Figure<units::Share>{...}, ...},` with the fields
in the order of TABLES, which must be the order of the C++ struct. The including file brings the
struct, the enumerations and `Figure` (value, low, high, source) into scope.

All faults of a file are told together on standard error, one a line; then the exit status is 2
and nothing is written. To add a table, describe its fields in TABLES.
"""

import argparse
import json
import pathlib
import re
import sys
import tomllib
from dataclasses import dataclass

STANDINGS = {
    "published": "published",
    "common practice": "common_practice",
    "from memory": "from_memory",
    "our estimate": "our_estimate",
}


def literal(text):
    """A C++ string literal."""
    return json.dumps(text, ensure_ascii=False)


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


class Fault(Exception):
    """One mistake in one field."""


@dataclass(frozen=True)
class Text:
    """A non-empty string."""

    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, str) or not value.strip():
            raise Fault(f"is {value!r}; accepted: a non-empty text")
        return literal(value)

    def missing(self):
        return '""'


@dataclass(frozen=True)
class Identifier(Text):
    """Lower-case words joined by hyphens, each row's own."""

    def cpp(self, value, sources):
        if not isinstance(value, str) or not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", value):
            raise Fault(f"is {value!r}; accepted: lower-case words joined by hyphens")
        return literal(value)


@dataclass(frozen=True)
class Choice:
    """One of a few texts, each an enumerator."""

    enum: str
    names: dict
    optional: bool = False

    def cpp(self, value, sources):
        if value not in self.names:
            raise Fault(f"is {value!r}; accepted: {', '.join(self.names)}")
        return f"{self.enum}::{self.names[value]}"


@dataclass(frozen=True)
class Flag:
    """true or false; false when left out."""

    optional: bool = True

    def cpp(self, value, sources):
        if not isinstance(value, bool):
            raise Fault(f"is {value!r}; accepted: true or false")
        return "true" if value else "false"

    def missing(self):
        return "false"


@dataclass(frozen=True)
class Figure:
    """A number with its unit, its range and its source. Left out: std::nullopt."""

    unit: str
    factory: str  # makes the quantity, e.g. "units::Share::percent"; its class is the part before
    least: float
    most: float
    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, dict):
            raise Fault(f"is {value!r}; accepted: {{ value, low, high, unit, source }}")
        keys = {"value", "low", "high", "unit", "source"}
        unknown = sorted(set(value) - keys)
        if unknown:
            raise Fault(f"has unknown keys {', '.join(unknown)}")
        absent = sorted(keys - set(value))
        if absent:
            raise Fault(f"lacks {', '.join(absent)}")
        if value["unit"] != self.unit:
            raise Fault(f"has unit {value['unit']!r}; accepted: {self.unit!r}")
        numbers = [value[key] for key in ("value", "low", "high")]
        if not all(is_number(n) for n in numbers):
            raise Fault("holds a value, low or high that is no number")
        middle, low, high = numbers
        if not self.least <= low <= middle <= high <= self.most:
            raise Fault(
                f"is {low} <= {middle} <= {high}; accepted: rising, "
                f"within {self.least} to {self.most} {self.unit}".rstrip()
            )
        if value["source"] not in sources:
            raise Fault(f"has unknown source {value['source']!r}; known: {', '.join(sources)}")
        kind = self.factory.rsplit("::", 1)[0]
        parts = ", ".join(f"{self.factory}({float(n)!r})" for n in numbers)
        return f"Figure<{kind}>{{{parts}, {sources[value['source']]}}}"

    def missing(self):
        return "std::nullopt"


@dataclass(frozen=True)
class PlainFigure(Figure):
    """A Figure of a bare number, for ratios and for units without a type."""

    factory: str = "double"
    least: float = 0.0
    most: float = 1e9


@dataclass(frozen=True)
class Numbers:
    """Coefficients of one equation, `{ values = [...], source }`. Left out: std::nullopt."""

    count: int
    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, dict) or set(value) != {"values", "source"}:
            raise Fault("is not understood; accepted: { values, source }")
        numbers = value["values"]
        if not isinstance(numbers, list) or len(numbers) != self.count:
            raise Fault(f"accepted: {self.count} values")
        if not all(is_number(n) for n in numbers):
            raise Fault("holds a value that is no number")
        if value["source"] not in sources:
            raise Fault(f"has unknown source {value['source']!r}; known: {', '.join(sources)}")
        listed = ", ".join(repr(float(n)) for n in numbers)
        return f"Numbers<{self.count}>{{{{{listed}}}, {sources[value['source']]}}}"

    def missing(self):
        return "std::nullopt"


@dataclass(frozen=True)
class GroupSize:
    """Volume and surface of a group, `{ r, q, source }`."""

    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, dict) or set(value) != {"r", "q", "source"}:
            raise Fault("is not understood; accepted: { r, q, source }")
        if not (is_number(value["r"]) and is_number(value["q"]) and value["r"] > 0 < value["q"]):
            raise Fault("accepted: r and q above 0")
        if value["source"] not in sources:
            raise Fault(f"has unknown source {value['source']!r}; known: {', '.join(sources)}")
        return f"Size{{{float(value['r'])!r}, {float(value['q'])!r}, {sources[value['source']]}}}"


@dataclass(frozen=True)
class Cited:
    """A place in a source's document, `{ place, source }`, or a word that comes from one."""

    keys: tuple = ("place", "source")
    names: dict = None  # the word is one of these, each an enumerator
    kind: str = "Cited"
    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, dict) or set(value) != set(self.keys):
            raise Fault(f"is not understood; accepted: {{ {', '.join(self.keys)} }}")
        word = value[self.keys[0]]
        if value["source"] not in sources:
            raise Fault(f"has unknown source {value['source']!r}; known: {', '.join(sources)}")
        if self.names is None:
            said = Text().cpp(word, sources)
        else:
            said = Choice("Cereal", self.names).cpp(word, sources)
        return f"{self.kind}{{{said}, {sources[value['source']]}}}"


@dataclass(frozen=True)
class Ids:
    """Ids of rows of another table."""

    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, list) or not value:
            raise Fault("accepted: at least one id")
        return "{" + ", ".join(Identifier().cpp(one, sources) for one in value) + "}"


@dataclass(frozen=True)
class Limit:
    """A bound as a text has it, in the text's own unit, `{ value, unit }`."""

    optional: bool = True

    UNITS = {"%": (0, 100), "%vol": (0, 100), "proof": (0, 200), "L": (1, 1e4), "years": (0, 50)}

    def cpp(self, value, sources):
        if not isinstance(value, dict) or set(value) != {"value", "unit"}:
            raise Fault("is not understood; accepted: { value, unit }")
        if value["unit"] not in self.UNITS:
            raise Fault(f"has unit {value['unit']!r}; accepted: {', '.join(self.UNITS)}")
        least, most = self.UNITS[value["unit"]]
        if not is_number(value["value"]) or not least <= value["value"] <= most:
            raise Fault(f"accepted: a number, {least} to {most}")
        return f"Limit{{{float(value['value'])!r}, {literal(value['unit'])}}}"

    def missing(self):
        return "{}"


@dataclass(frozen=True)
class Maybe(Choice):
    """One of a few texts; the first enumerator when left out."""

    optional: bool = True

    def missing(self):
        return f"{self.enum}{{}}"


@dataclass(frozen=True)
class Groups:
    """How often a molecule has each group, `{ ch3 = 2, ch2 = 1 }`."""

    optional: bool = False

    def cpp(self, value, sources):
        if not isinstance(value, dict) or not value:
            raise Fault("is not understood; accepted: at least one group and its number")
        if not all(is_number(n) and n > 0 and n == int(n) for n in value.values()):
            raise Fault("accepted: whole numbers above 0")
        return "{" + ", ".join(f"{{{literal(key)}, {int(n)}}}" for key, n in value.items()) + "}"


@dataclass(frozen=True)
class VapourPressure:
    """A vapour-pressure equation, `{ equation, values, from, to, source }`; from and to in K."""

    optional: bool = False

    # name in the data file: (enumerator, number of coefficients)
    EQUATIONS = {"Antoine": ("antoine", 3), "DIPPR 101": ("dippr_101", 5)}

    def cpp(self, value, sources):
        keys = {"equation", "values", "from", "to", "source"}
        if not isinstance(value, dict) or set(value) != keys:
            raise Fault("is not understood; accepted: { equation, values, from, to, source }")
        if value["equation"] not in self.EQUATIONS:
            raise Fault(f"has unknown equation; accepted: {', '.join(self.EQUATIONS)}")
        enumerator, count = self.EQUATIONS[value["equation"]]
        numbers = value["values"]
        if not isinstance(numbers, list) or len(numbers) != count:
            raise Fault(f"accepted: {count} values")
        if not all(map(is_number, numbers)):
            raise Fault("holds a value that is no number")
        ends = value["from"], value["to"]
        if not all(map(is_number, ends)) or not ends[0] < ends[1]:
            raise Fault("accepted: from below to, in K")
        if value["source"] not in sources:
            raise Fault(f"has unknown source {value['source']!r}; known: {', '.join(sources)}")
        listed = ", ".join(repr(float(n)) for n in numbers)
        low, high = (f"units::Temperature::kelvins({float(value[k])!r})" for k in ("from", "to"))
        return (
            f"VapourPressure{{VapourPressure::Equation::{enumerator}, {{{listed}}}, "
            f"{low}, {high}, {sources[value['source']]}}}"
        )


def percent(least=0.0, most=100.0, optional=False):
    return Figure("%", "units::Share::percent", least, most, optional)


# The main groups of data/unifac_*.toml and their enumerators.
MAIN_GROUPS = {
    name: name.lower()
    for name in (
        "CH2 OH H2O ACH ACCH2 CH3OH CHO CCOO CH2O COOH furfural COO sulphide".split()
    )
}

CEREALS = {
    "any": "any",
    "maize": "maize",
    "barley": "barley",
    "wheat": "wheat",
    "rye": "rye",
    "oats": "oats",
    "rice": "rice",
    "not known": "not_known",
}

# The fields of each table, in the order of the C++ struct.
TABLES = {
    "cereal": {
        "id": Identifier(),
        "cereal": Cited(keys=("is", "source"), names=CEREALS, kind="CerealIs"),
    },
    "class": {
        "id": Identifier(),
        "name": Text(),
        "jurisdiction": Text(),
        "cited": Cited(),
    },
    "rule": {
        "id": Identifier(),
        "of": Ids(),
        "at": Text(),
        "kind": Choice(
            "RuleKind",
            {
                "grain alone": "grain_alone",
                "share at least": "share_at_least",
                "share at most": "share_at_most",
                "malt": "malt",
                "distilled under": "distilled_under",
                "distilled over": "distilled_over",
                "distilled at most": "distilled_at_most",
                "distilled at least": "distilled_at_least",
                "pot still": "pot_still",
                "column still": "column_still",
                "entry at most": "entry_at_most",
                "cask": "cask",
                "cask at most": "cask_at_most",
                "matured at least": "matured_at_least",
                "bottled at least": "bottled_at_least",
                "condition": "condition",
            },
        ),
        "cereal": Maybe("Cereal", CEREALS),
        "made_as": Maybe("MadeAs", {"malted": "malted", "unmalted": "unmalted"}),
        "limit": Limit(),
        "cask": Maybe(
            "CaskKind",
            {
                "wood": "wood",
                "oak": "oak",
                "used oak": "used_oak",
                "new charred oak": "new_charred_oak",
                "used or uncharred oak": "used_or_uncharred_oak",
            },
        ),
        "if_in_wood": Flag(),
        "standing": Choice("base::Standing", STANDINGS),
        "words": Text(optional=True),
    },
    "ingredient": {
        "id": Identifier(),
        "name": Text(),
        "sort": Choice(
            "Sort",
            {
                "raw grain": "raw_grain",
                "gelatinised grain": "gelatinised_grain",
                "malt": "malt",
                "roasted malt": "roasted_malt",
                "sugar": "sugar",
                "honey": "honey",
                "molasses": "molasses",
            },
        ),
        "basis": Choice(
            "ExtractBasis", {"dry, fine grind": "dry_fine_grind", "as is": "as_is"}
        ),
        "extract": percent(),
        "coarse_to_fine": percent(80.0, 100.0),
        "moisture": percent(0.0, 30.0),
        "starch": percent(),
        "free_fermentable": percent(),
        "fermentable": percent(),
        "gelatinisation": Figure("°C", "units::Temperature::celsius", 40.0, 95.0, optional=True),
        "diastatic_power": Figure("Lintner", "units::DiastaticPower::lintner", 0.0, 400.0),
        "absorption": Choice(
            "Absorption", {"none": "none", "husked": "husked", "clinging": "clinging"}
        ),
        "drains_slowly": Flag(),
        "foams": Flag(),
    },
    "yeast": {
        "id": Identifier(),
        "name": Text(),
        "coolest": Figure("°C", "units::Temperature::celsius", 0.0, 45.0),
        "warmest": Figure("°C", "units::Temperature::celsius", 0.0, 45.0),
        "tolerance": Figure("%vol", "units::VolumeStrength::percent", 5.0, 20.0),
        "reach": percent(50.0),
        "attenuation": Text(),
    },
    "wood": {
        "id": Identifier(),
        "name": Text(),
        "lactone": percent(0.0, 500.0),
        "tannin": percent(0.0, 500.0),
        "vanillin": percent(0.0, 500.0),
        "character": Text(),
    },
    "constant": {
        "id": Identifier(),
        "name": Text(),
        "value": percent(0.0, 200.0),
    },
    "toast": {
        "id": Identifier(),
        "name": Text(),
        "surface": Figure("°C", "units::Temperature::celsius", 100.0, 1000.0),
        "time": Figure("min", "units::Duration::minutes", 0.05, 600.0),
        "vanillin": percent(),
        "lactone": percent(),
        "tannin": percent(),
        "colour": percent(),
    },
    "subgroup": {
        "id": Identifier(),
        "main": Choice("MainGroup", MAIN_GROUPS),
        "original": GroupSize(),
        "dortmund": GroupSize(),
    },
    "interaction": {
        "id": Identifier(),
        "first": Choice("MainGroup", MAIN_GROUPS),
        "second": Choice("MainGroup", MAIN_GROUPS),
        "original": Numbers(2, optional=True),
        "dortmund": Numbers(6),
    },
    "congener": {
        "id": Identifier(),
        "name": Text(),
        "cas": Text(),
        "comes": Choice("Comes", {"early": "early", "middle": "middle", "late": "late"}),
        "molar_mass_g_per_mol": PlainFigure("g/mol", most=300.0),
        "boils": Figure("K", "units::Temperature::kelvins", 250.0, 600.0),
        "vapour_pressure": VapourPressure(),
        "dimer": Numbers(2, optional=True),
        "model": Choice("GroupModel", {"original": "original", "Dortmund": "dortmund"}),
        "why": Text(),
        "groups": Groups(),
        "henry_in_water": Figure("Pa", "units::Pressure::pascals", 1.0, 1e8, optional=True),
        "brought": Flag(),
        "spread": PlainFigure("factor", least=1.0, most=5.0),
    },
}


def read_sources(document, faults):
    """The C++ text of each source, by key."""
    sources = {}
    for key, source in document.get("source", {}).items():
        where = f"source.{key}"
        if not isinstance(source, dict) or set(source) != {"document", "standing"}:
            faults.append(f"{where}: accepted: document and standing, nothing else")
        elif not isinstance(source["document"], str) or not source["document"].strip():
            faults.append(f"{where}.document: accepted: a non-empty text")
        elif source["standing"] not in STANDINGS:
            faults.append(
                f"{where}.standing is {source['standing']!r}; accepted: {', '.join(STANDINGS)}"
            )
        else:
            standing = STANDINGS[source["standing"]]
            sources[key] = f"{{{literal(source['document'])}, base::Standing::{standing}}}"
    return sources


def compile_table(table, text):
    """(rows as C++ text, faults). The rows are whole only when there are no faults."""
    fields = TABLES[table]
    faults = []
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        return "", [str(error)]
    for key in document:
        if key not in ("source", table):
            faults.append(f"{key}: unknown; accepted: source and {table}")
    sources = read_sources(document, faults)
    rows = document.get(table, [])
    if not isinstance(rows, list) or not rows:
        faults.append(f"{table}: accepted: at least one [[{table}]]")
        rows = []

    seen, lines, used = set(), [], set()
    for number, row in enumerate(rows):
        row_name = row.get("id") or f"{table}[{number}]"
        for key in row:
            if key not in fields:
                faults.append(f"{row_name}.{key}: unknown; accepted: {', '.join(fields)}")
        if row.get("id") in seen:
            faults.append(f"{row_name}.id: stands twice")
        seen.add(row.get("id"))
        parts = []
        for name, field in fields.items():
            if name not in row:
                if not field.optional:
                    faults.append(f"{row_name}.{name}: missing")
                    continue
                parts.append(f".{name} = {field.missing()}")
                continue
            try:
                parts.append(f".{name} = {field.cpp(row[name], sources)}")
            except Fault as fault:
                faults.append(f"{row_name}.{name}: {fault}")
            if isinstance(row[name], dict):
                used.add(row[name].get("source"))
        lines.append("{" + ",\n ".join(parts) + "},\n")
    for key in sources:
        if key not in used:
            faults.append(f"source.{key}: no figure names it")
    return "".join(lines), faults


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--table", required=True, choices=sorted(TABLES))
    parser.add_argument("--in", dest="source", required=True, type=pathlib.Path)
    parser.add_argument("--out", required=True, type=pathlib.Path)
    options = parser.parse_args()

    rows, faults = compile_table(options.table, options.source.read_text(encoding="utf-8"))
    if faults:
        for fault in faults:
            print(f"{options.source.name}: {fault}", file=sys.stderr)
        return 2
    options.out.parent.mkdir(parents=True, exist_ok=True)
    heading = f"// Made from data/{options.source.name} by tools/compile_data.py; edit that file.\n"
    options.out.write_text(heading + rows, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
