"""The examples are right by the JSON Schemas in docs/schema, and planted mistakes are not.

Needs the Debian package python3-jsonschema; without it the test is skipped.
"""

import copy
import json
import pathlib
import sys
import tomllib

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)


def main():
    root = pathlib.Path(sys.argv[1])
    faults, looked_at = [], 0
    for kind in ("recipe", "kit"):
        schema = json.loads((root / "docs" / "schema" / f"{kind}.schema.json").read_text("utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        validator = jsonschema.Draft202012Validator(schema)
        for file in sorted(root.glob(f"examples/*/{kind}.toml")):
            text = tomllib.loads(file.read_text("utf-8"))
            looked_at += 1
            for error in validator.iter_errors(text):
                where = ".".join(str(step) for step in error.absolute_path)
                faults.append(f"{file.relative_to(root)}: {where}: {error.message}")
            for what, wrong in planted(kind, text):
                if validator.is_valid(wrong):
                    faults.append(f"{file.relative_to(root)}: a planted mistake passes: {what}")
    if looked_at < 6:
        faults.append(f"only {looked_at} examples were found")
    if faults:
        sys.exit("\n".join(faults))
    print(f"{looked_at} examples are right by their schemas")


def planted(kind, text):
    def with_change(change):
        wrong = copy.deepcopy(text)
        change(wrong)
        return wrong

    yield "an unknown key", with_change(lambda t: t.update(nonsense="1 kg"))
    yield "no name", with_change(lambda t: t.pop("name"))
    if kind == "recipe":
        yield "a mass in litres", with_change(lambda t: t["mash_bill"][0].update(mass="4 L"))
        yield "a bare mass", with_change(lambda t: t["mash_bill"][0].update(mass=4))
        yield "a bare per cent", with_change(lambda t: t["strip"].update(stop="10 %"))
        yield "an unknown yeast", with_change(lambda t: t["ferment"].update(yeast="wild"))
        yield "a key misspelt", with_change(lambda t: t["bottle"].update(sise="1 L"))
    else:
        yield "a power in kilograms", with_change(lambda t: t["boiler"].update(power="3 kg"))
        yield "an unknown wall", with_change(lambda t: t["boiler"].update(wall="tin"))
        yield "no vessels", with_change(lambda t: t.update(vessel=[]))


if __name__ == "__main__":
    main()
