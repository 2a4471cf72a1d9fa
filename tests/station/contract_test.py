"""The server holds to its contract: web/api/openapi.yaml.

The real program, with the invented house in it, is asked every call that the contract names;
each answer's status is one that stands there and its body holds by the schema. Requests are the
contract's own examples, or filled in here from the house. A call that nobody asks is a failure,
so a new one brings its question along. Each body that is answered is then spoilt at every key, and
what is refused of it names field and what is accepted.
"""

import copy
import json
import pathlib
import subprocess
import sys
import tempfile
import urllib.error
import urllib.request

try:
    import jsonschema
    import yaml
except ImportError:
    print("python3-jsonschema or python3-yaml is not there")
    sys.exit(77)

ROOT, PROGRAM = pathlib.Path(sys.argv[1]).resolve(), sys.argv[2]
CONTRACT = ROOT / "web/api/openapi.yaml"
DOCUMENT = yaml.safe_load(CONTRACT.read_text(encoding="utf-8"))
FAULTS = []


def load(uri):
    return yaml.safe_load(pathlib.Path(uri.removeprefix("file://")).read_text(encoding="utf-8"))


RESOLVER = jsonschema.RefResolver(CONTRACT.as_uri(), DOCUMENT, handlers={"file": load})


class House:
    """The program over an empty folder, at a port that was free."""

    def __enter__(self):
        self.folder = tempfile.TemporaryDirectory()
        self.program = subprocess.Popen(
            [PROGRAM, "serve", "--data", self.folder.name + "/house", "--demo", "--port", "0",
             "--lan", "--for", "5 min"],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for line in self.program.stdout:
            if line.startswith("The workbench: "):
                self.address = line.split(": ", 1)[1].strip().rstrip("/")
                return self
        raise RuntimeError(self.program.stderr.read())

    def __exit__(self, *_):
        self.program.terminate()
        if self.program.wait(timeout=30) != 0:
            FAULTS.append("the program did not end well when it was stopped")
        self.folder.cleanup()

    def ask(self, method, path, body=None, kind="application/json"):
        data = None if body is None else (
            body if isinstance(body, bytes) else json.dumps(body).encode())
        request = urllib.request.Request(self.address + path, data=data, method=method)
        request.add_header("Origin", self.address)
        if data is not None:
            request.add_header("Content-Type", kind)
        try:
            with urllib.request.urlopen(request, timeout=120) as answer:
                if answer.headers.get_content_type() == "text/event-stream":
                    return answer.status, answer.headers, b""  # it has no end
                return answer.status, answer.headers, answer.read()
        except urllib.error.HTTPError as error:
            return error.code, error.headers, error.read()


def resolved(node):
    if "$ref" not in node:
        return node
    return RESOLVER.resolve(node["$ref"])[1]


def hold(name, pattern, method, status, headers, body):
    """One answer against the contract."""
    operation = DOCUMENT["paths"][pattern][method.lower()]
    answers = operation["responses"]
    if str(status) not in answers:
        FAULTS.append(f"{name}: {status} is not among {list(answers)}: {body[:300]!r}")
        return
    content = resolved(answers[str(status)]).get("content", {})
    kind = headers.get_content_type()
    if content and kind not in content:
        FAULTS.append(f"{name}: {kind} is not among {list(content)}")
        return
    if kind.endswith("json"):
        validator = jsonschema.Draft202012Validator(content[kind]["schema"], resolver=RESOLVER)
        for error in list(validator.iter_errors(json.loads(body)))[:3]:
            FAULTS.append(f"{name}: {list(error.absolute_path)}: {error.message[:300]}")


def questions(house):
    """(pattern, method, path, body, media type), good ones and bad ones."""
    example = {pattern: operation["post"]["requestBody"]["content"]["application/json"].get("example")
               for pattern, operation in DOCUMENT["paths"].items()
               if "application/json" in operation.get("post", {}).get("requestBody", {}).get("content", {})}
    batches = json.loads(house.ask("GET", "/api/v1/house")[2])["batches"]
    batch = next(b["batch"] for b in batches if b["name"] == "Tern 8")
    whole = json.loads(house.ask("GET", f"/api/v1/batches/{batch}")[2])
    run = next(r["entry"] for r in whole["runs"] if r["run"] == "spirit run")
    matured = next(b["batch"] for b in batches if b["name"] == "Tern 7")
    other = json.loads(house.ask("GET", f"/api/v1/batches/{matured}")[2])
    cut = next(r for r in other["runs"] if r["run"] == "spirit run")
    nobody = "00000000-0000-7000-8000-000000000001"
    plan = {"recipe": whole["plan"]["recipe"], "kit": whole["plan"]["kit"]}
    jars = [{"jar": j["jar"], "foreshots_mL_20C": 0, "hearts_mL_20C": 100, "feints_mL_20C": 0,
             "apart_mL_20C": 0} for j in cut["jars"]]
    line = house.ask("GET", "/api/v1/journal")[2].splitlines()[0]
    code = json.loads(house.ask("POST", "/api/v1/pairing/codes", {})[2])["code"]
    kept = json.loads(house.ask("POST", "/api/v1/attachments", b"words",
                                "application/octet-stream")[2])["attachment"]

    def get(pattern, **names):
        return pattern, "GET", pattern.format(**names), None, ""

    def post(pattern, body, kind="application/json"):
        return pattern, "POST", pattern, body, kind

    yield get("/time")
    yield get("/house")
    yield get("/house/entries")
    yield get("/lots")
    yield get("/tables")
    yield get("/examples")
    yield get("/journal")
    yield get("/events")
    for pattern in ("/batches/{batch}", "/batches/{batch}/entries", "/batches/{batch}/plan",
                    "/batches/{batch}/sheet", "/batches/{batch}/ferment",
                    "/batches/{batch}/wood"):
        yield get(pattern, batch=batch)
        yield get(pattern, batch=nobody)
        yield get(pattern, batch="nonsense")
    yield "/batches/{batch}/plan", "GET", f"/batches/{batch}/plan?members=20", None, ""
    yield "/batches/{batch}/plan", "GET", f"/batches/{batch}/plan?members=many", None, ""
    yield get("/batches/{batch}/wood", batch=matured)
    charge = example["/batches/{batch}/charge"]
    for of, body in ((batch, charge), (batch, dict(charge, run="strip", strength_percent_vol=8)),
                     (batch, {"run": "strip", "volume_L_20C": 3}), (batch, {}),
                     (batch, dict(charge, strength_percent_vol=0)), (nobody, charge)):
        yield "/batches/{batch}/charge", "POST", f"/batches/{of}/charge", body, "application/json"
    for pattern in ("/runs/{run}/forecast", "/runs/{run}/cuts"):
        yield get(pattern, run=run)
        yield get(pattern, run=cut["entry"])
        yield get(pattern, run=nobody)
    yield "/runs/{run}/cuts", "GET", f"/runs/{cut['entry']}/cuts?purpose=loud", None, ""
    yield post("/entries", example["/entries"])
    yield post("/entries", {"entries": [{"id": 4, "body": {}}]})
    yield post("/entries", b"{")
    yield post("/plan", plan)
    yield post("/plan", dict(plan, members=20))
    yield post("/plan", dict(plan, recipe="name = 4"))
    for wish in ({"want": "kit"}, {"want": "spirit", "volume": "5 L", "strength": "110 proof"},
                 {"want": "gravity", "gravity": "1.062"}, {"want": "gravity", "gravity": "heavy"},
                 {"want": "replace", "line": 1, "ingredient": "wheat-malt"},
                 {"want": "replace", "line": 99, "ingredient": "sand"}, {"want": "more"}):
        yield post("/plan/solve", dict(plan, **wish))
    yield post("/pour", {"run": cut["entry"], "jars": jars})
    yield post("/pour", {"run": cut["entry"], "jars": [dict(jars[0], hearts_mL_20C=1e6)]})
    yield post("/pour", {"run": nobody, "jars": []})
    reduce = {"strength_percent_vol": 70, "at_C": 20, "to_percent_vol": 55}
    spirit = dict(reduce, volume_L=4)
    for more in ({"found": {"strength_percent_vol": 56, "mass_kg": 4.6}, "water_at_C": 12},
                 {"found": {"strength_percent_vol": 54.2}},
                 {"found": {"strength_percent_vol": 55, "volume_L_20C": 5}},
                 {"weaker": {"volume_L_20C": 0.5, "strength_percent_vol": 20}},
                 {"tea": {"volume_L_20C": 0.3, "strength_percent_vol": 0, "residue_g_L": 8},
                  "residue_g_L": 1.5}, {"make_L": 5}):
        yield post("/reduce", dict(spirit, **more))
    yield post("/reduce", dict(reduce, make_L=5))
    weaker = {"volume_L_20C": 0.5, "strength_percent_vol": 20}
    yield post("/reduce", dict(reduce, make_L=5, weaker=weaker))
    yield post("/reduce", dict(reduce, make_L=5, weaker=weaker, residue_g_L=6,
                               found={"strength_percent_vol": 54}))
    yield post("/reduce", dict(spirit, residue_g_L=6, found={"strength_percent_vol": 56}))
    for pattern in ("/gauge", "/gravity", "/reduce"):
        yield post(pattern, example[pattern])
        yield post(pattern, {})
    yield post("/gauge", {"reading": 73.1, "scale": "percent_vol", "at_C": 29, "volume_L": 2})
    yield post("/gauge", {"reading": 47.1, "scale": "percent_vol", "at_C": 20, "residue_g_L": 4.6})
    yield post("/gravity", {"reading": 6.2, "scale": "brix", "at_C": 20,
                            "original_specific_gravity": 1.06})
    yield post("/blend", {"parts": [{"volume_L_20C": 1, "strength_percent_vol": 70},
                                    {"volume_L_20C": 2, "strength_percent_vol": 60}]})
    yield post("/blend", {"parts": []})
    for temperature in (67.1, 65.5, 20):
        yield post("/mash-correction", {"batch": batch, "temperature_C": temperature})
    timeline = json.loads(house.ask("GET", f"/api/v1/batches/{batch}/plan")[2])["timeline"]
    mash = [one["what"] for one in timeline["steps"] if one["stage"] == "Mash"]
    for step in mash + ["none", "sing"]:
        for temperature in (75, 62):
            yield post("/mash-correction",
                       {"batch": batch, "temperature_C": temperature, "step": step})
    yield post("/journal", line, "application/jsonl")
    yield post("/journal", b"nonsense\n", "application/jsonl")
    yield post("/attachments", b"words", "application/octet-stream")
    yield get("/attachments/{name}", name=kept)
    yield get("/attachments/{name}", name="nothing")
    yield get("/devices")
    yield get("/devices/this")
    yield post("/pairing/codes", {})
    yield post("/pairing", {"code": code, "name": "the old phone"})
    yield post("/pairing", {"code": "nonsense", "name": "a stranger"})
    yield "/devices/{id}", "DELETE", "/devices/nobody", None, ""


def places(body, place=()):
    """The way to every key of a body; of a list, to its first item."""
    for key in (body if isinstance(body, dict) else range(min(len(body), 1))):
        yield place + (key,)
        if isinstance(body[key], (dict, list)):
            yield from places(body[key], place + (key,))


def spoilt(body):
    """The body with one key gone, unknown, of another kind or far too large, at every place."""
    for place in places(body):
        for value in ("gone", None, "x", "", -1, 1e308, [], {}, {"unknown": 1}, ["x"] * 1001):
            wrong = copy.deepcopy(body)
            at = wrong
            for key in place[:-1]:
                at = at[key]
            if value == "gone":
                del at[place[-1]]
            else:
                at[place[-1]] = value
            yield f"{place} {str(value)[:20]}", wrong
    yield "an unknown key", dict(body, unknown=1)


def refuse(house, answered):
    """The spoilt bodies of each call; how many."""
    count = 0
    for pattern, (path, good) in answered.items():
        for name, body in spoilt(good):
            count += 1
            status, headers, answer = house.ask("POST", "/api/v1" + path, body)
            hold(f"POST {pattern}, {name}", pattern, "POST", status, headers, answer)
            if status != 422:
                continue
            told = json.loads(answer)
            if not told["detail"].endswith(".") or not all(
                    fault["field"] and fault["accepted"] for fault in told["errors"]):
                FAULTS.append(f"POST {pattern}, {name}: no sentence of a field: {answer[:300]!r}")
    return count


def main():
    asked = set()
    answered = {}  # where and with what each call was first answered
    count = 0
    with House() as house:
        for pattern, method, path, body, kind in list(questions(house)):
            status, headers, answer = house.ask(method, "/api/v1" + path, body, kind)
            if status in (200, 201) and isinstance(body, dict) and body:
                answered.setdefault(pattern, (path, body))
            asked.add((pattern, method.lower()))
            count += 1
            if pattern not in DOCUMENT["paths"] or method.lower() not in DOCUMENT["paths"][pattern]:
                FAULTS.append(f"{method} {pattern}: not in the contract")
                continue
            hold(f"{method} {path}", pattern, method, status, headers, answer)
        count += refuse(house, answered)
    for pattern, operations in DOCUMENT["paths"].items():
        for method in operations:
            if method in ("get", "post", "delete") and (pattern, method) not in asked:
                FAULTS.append(f"{method.upper()} {pattern}: nobody asks it")
    for fault in FAULTS:
        print(fault)
    print(f"{count} answers held against the contract, {len(FAULTS)} faults")
    return 1 if FAULTS else 0


if __name__ == "__main__":
    sys.exit(main())
