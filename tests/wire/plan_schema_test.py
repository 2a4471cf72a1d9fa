"""A plan's documents, their schema and their page say the same.

Each document holds by docs/schema/plan.schema.json; each key of the schema is met in one of
them; the tables of docs/plan-json.md are made from the schema. After a change of the schema
renew them: LYNEARM_RENEW=1 ctest -R wire_plan_schema.
"""

import copy
import json
import os
import pathlib
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print("python3-jsonschema is not there")
    sys.exit(77)

BEGIN = "<!-- tables: begin, made by tests/wire/plan_schema_test.py -->\n"
END = "<!-- tables: end -->\n"


def resolve(schema, node):
    reference = node.get("$ref")
    return schema["$defs"][reference.rsplit("/", 1)[1]] if reference else node


def keys_of(schema, node, path=""):
    """Each path of keys that the schema describes; lists are passed through."""
    node = resolve(schema, node)
    for key, child in node.get("properties", {}).items():
        yield f"{path}{key}"
        yield from keys_of(schema, child, f"{path}{key}.")
    if "items" in node:
        yield from keys_of(schema, node["items"], path)


def keys_in(value, path=""):
    if isinstance(value, dict):
        for key, child in value.items():
            yield f"{path}{key}"
            yield from keys_in(child, f"{path}{key}.")
    elif isinstance(value, list):
        for child in value:
            yield from keys_in(child, path)


def kind(node):
    if "$ref" in node:
        name = node["$ref"].rsplit("/", 1)[1]
        return f"[{name}](#{name})"
    if "const" in node:
        return f"`\"{node['const']}\"`"
    if "enum" in node:
        return ", ".join(f"`\"{one}\"`" for one in node["enum"])
    if node["type"] == "array":
        return f"list of {kind(node['items'])}"
    return node["type"]


def rows(node, path=""):
    for key, child in node["properties"].items():
        meaning, _, absent = child["description"].partition("; absent ")
        yield f"| `{path}{key}` | {kind(child)} | {meaning} | {absent or 'never'} |"
        inner = child.get("items", child)
        if "properties" in inner and path + key != "figures":
            yield from rows(inner, f"{path}{key}[]." if child.get("type") == "array" else f"{path}{key}.")
        elif path + key == "figures":
            yield from rows(inner, "figures.")


def table(node, path=""):
    return ["| key | value | meaning | absent |", "|---|---|---|---|", *rows(node, path), ""]


def tables(schema):
    lines, plain = [], {}
    for key, child in schema["properties"].items():
        inner = child.get("items", child)
        if "properties" in inner:
            if plain:
                lines += table({"properties": plain})
                plain = {}
            meaning, _, absent = child["description"].partition("; absent ")
            lines += [f"### {key}", "", f"{meaning}." + (f" Absent {absent}." if absent else ""), ""]
            lines += table(inner, f"{key}[]." if child["type"] == "array" else f"{key}.")
        else:
            plain[key] = child
    for name, node in schema["$defs"].items():
        lines += [f"### {name}", "", f"{node['description']}.", "", *table(node)]
    return "\n".join(lines) + "\n"


def faults_of(schema, documents):
    found = []
    validator = jsonschema.Draft202012Validator(schema)
    for number, document in enumerate(documents):
        for error in validator.iter_errors(document):
            path = ".".join(map(str, error.absolute_path))
            found.append(f"document {number}: {path}: {error.message[:300]}")
    described = set(keys_of(schema, schema))
    met = set().union(*(keys_in(document) for document in documents))
    found += [f"{key}: in the schema, in no document" for key in sorted(described - met)]
    found += [f"{key}: in a document, not in the schema" for key in sorted(met - described)]
    return found


def prove_itself(schema, documents):
    """The check finds a key that is not described, one that is missing, and one never met."""
    wrong = copy.deepcopy(documents)
    wrong[0]["bottle"]["colour"] = "amber"
    assert len(faults_of(schema, wrong)) == 2, "a planted key passes"
    wrong = copy.deepcopy(documents)
    del wrong[0]["bottle"]["bottles"]
    assert len(faults_of(schema, wrong)) == 1, "a missing key passes"
    more = copy.deepcopy(schema)
    more["properties"]["label"] = {"type": "string", "description": "label"}
    assert len(faults_of(more, documents)) == 1, "a key that is never written passes"


def page_fault(root, schema):
    page = root / "docs" / "plan-json.md"
    text = page.read_text(encoding="utf-8")
    head, begun, rest = text.partition(BEGIN)
    _, ended, tail = rest.partition(END)
    if not begun or not ended:
        return ["docs/plan-json.md: lacks the markers of its tables"]
    made = head + BEGIN + "\n" + tables(schema) + END + tail
    if os.environ.get("LYNEARM_RENEW") == "1":
        page.write_text(made, encoding="utf-8")
        return []
    return [] if made == text else ["docs/plan-json.md: its tables are not the schema's"]


def main():
    root, program = pathlib.Path(sys.argv[1]), sys.argv[2]
    schema = json.loads((root / "docs/schema/plan.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    printed = subprocess.run([program], stdin=subprocess.DEVNULL, capture_output=True, check=True).stdout
    documents = [json.loads(line) for line in printed.splitlines()]
    found = faults_of(schema, documents) + page_fault(root, schema)
    if found:
        sys.exit("\n".join(found))
    prove_itself(schema, documents)
    print(f"{len(documents)} documents hold by the schema, {len(set(keys_of(schema, schema)))} keys, each met")


if __name__ == "__main__":
    main()
