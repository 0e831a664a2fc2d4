"""The JSON Schemas of profiles/schema/ against the files that go with the program, and against the program itself.

    schemas.py PROGRAM

Every profile, the demo's projects and the files of the manual are valid, by a public validator (jsonschema, JSON Schema
2020-12); what a schema refuses the program refuses too; each key that the readers know stands in the schema.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

import yaml
from jsonschema import Draft202012Validator

ROOT = pathlib.Path(__file__).resolve().parents[2]


def once(pairs):
    """A mapping; a key that stands twice is refused, as strict readers do."""
    keys = [key for key, _ in pairs]
    doubled = {key for key in keys if keys.count(key) > 1}
    if doubled:
        raise ValueError(f"keys that stand twice: {sorted(doubled)}")
    return dict(pairs)


SCHEMAS = {kind: json.loads((ROOT / f"profiles/schema/{kind}.schema.json").read_text(), object_pairs_hook=once) for kind in ("yarn", "project")}


class Loader(yaml.SafeLoader):
    """YAML as editors read it: times are text, and only true and false are truths."""


Loader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in rules if not tag.endswith((":timestamp", ":bool"))]
    for first, rules in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile(r"^(?:true|false)$"), list("tf"))

PAIR = "[{colour: a, length: 75}, {colour: b, length: 40}]"
YARN = f"format: ballchange yarn 1\nname: Pair\nrepeat: {PAIR}\n"
PROJECT = f"format: ballchange project 1\nyarn: {{name: Pair, repeat: {PAIR}}}\n"
LOG = PROJECT + "log:\n  - {n: 1, at: 2026-03-02T19:20:00Z, did: ball, ball: A}\n  - {n: 2, at: 2026-03-02T19:20:00Z, "

# Files that both refuse, one for what each schema says beyond which keys there are.
REFUSED = {
    "yarn": [
        YARN.replace("yarn 1", "yarn 2"),
        YARN.replace("name: Pair\n", ""),
        YARN.replace(PAIR, "[{colour: a, length: 75}]"),
        YARN.replace("length: 75", "weight: 75"),
        YARN.replace("length: 75", "length: far"),
        YARN.replace("colour: a", "colour: 'a, b'"),
        YARN.replace("colour: a", "colour: hook"),
        YARN.replace("length: 75", "length: 75, shade: '#12'"),
        YARN + "felts: perhaps\n",
        YARN + "units: m\n",
        YARN + "ball: 50 g\n",
        YARN + "ball_plus_minus: 0.5\n",
    ],
    "project": [
        PROJECT,
        PROJECT + "units: km\nlog: []\n",
        PROJECT + "piece: {worked: spirals}\nlog: []\n",
        PROJECT + "piece: {stitches: 0}\nlog: []\n",
        PROJECT + "piece: {keep: always}\nlog: []\n",
        PROJECT + "join: {method: glued}\nlog: []\n",
        LOG + "did: knit}\n",
        LOG.replace("n: 2, ", "") + "did: begin, ball: A}\n",
        LOG.replace("2026-03-02T19:20:00Z, did: ball", "yesterday, did: ball") + "did: begin, ball: A}\n",
        LOG + "did: begin}\n",
        LOG + "did: row, row: 0}\n",
        LOG + "did: row, row: 1.5}\n",
        LOG + "did: rip, row: -1}\n",
        LOG + "did: cancel}\n",
        LOG + "did: weigh, ball: A}\n",
        LOG + "did: swatch, ball: A}\n",
        LOG + "did: note}\n",
        LOG + "did: gauge, rows_in_10cm: 0}\n",
        LOG + "did: ball, ball: B, from: middle}\n",
        LOG + "did: join, ball: A, knot: perhaps}\n",
    ],
}


def kind_of(document):
    return "project" if str(document.get("format", "")).startswith("ballchange project") else "yarn"


def faults(kind, text):
    validator = Draft202012Validator(SCHEMAS[kind])
    return [f"{'/'.join(map(str, error.path)) or 'the file'}: {error.message}"
            for error in validator.iter_errors(yaml.load(text, Loader))]


def manual_files():
    page = (ROOT / "man/ballchange.5").read_text()
    for name, text in re.findall(r'^\.\\" file: (\S+)\n\.Bd -literal\n(.*?)^\.Ed', page, re.S | re.M):
        yield f"man/ballchange.5: {name}", text.replace("\\-", "-").replace("\\(dq", '"')


def shipped():
    for folder in ("profiles", "demo"):
        for path in sorted((ROOT / folder).glob("*.yaml")):
            yield str(path.relative_to(ROOT)), path.read_text()
    yield from manual_files()


def program_refuses(program, kind, text):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "it.yaml"
        path.write_text(text)
        command = ["place", "--yarn", "it.yaml", "--new", "a 10, b"] if kind == "yarn" else ["log", "it.yaml"]
        return subprocess.run([program, *command], cwd=folder, capture_output=True, check=False).returncode == 2


def keys_in_source():
    """(kind of entry or part, its keys), as the readers have them."""
    text = (ROOT / "src/ledger/did.hpp").read_text()
    for body in re.split(r"^struct ", text, flags=re.M)[1:]:
        name = re.search(r'kName = "(\w+)"', body)
        if name:
            yield name.group(1), set(re.findall(r'visit\("(\w+)"', body))
    known = r"read_%s\(Node .*?known\{([^}]*)\}"
    for part, path in (("piece", "project.cpp"), ("join:", "project.cpp"), ("yarn", "profile.cpp")):
        source = (ROOT / "src/files" / path).read_text()
        found = re.search(known % part.rstrip(":"), source, re.S).group(1)
        yield part, set(re.findall(r'"(\w+)"', found))
    source = (ROOT / "src/files/profile_sections.cpp").read_text()
    yield "section", set(re.findall(r'"(\w+)"', re.search(r"known\{([^}]*)\}", source).group(1)))


def keys_in_schema(part):
    project = SCHEMAS["project"]
    if part in ("piece", "join:"):
        return set(project["properties"][part.rstrip(":")]["properties"])
    if part == "yarn":
        return set(SCHEMAS["yarn"]["properties"])
    return set(project["$defs"][part]["properties"])


def main(program):
    wrong = []
    for kind, schema in SCHEMAS.items():
        Draft202012Validator.check_schema(schema)
        for text in REFUSED[kind]:
            if not faults(kind, text):
                wrong.append(f"the schema takes what it should refuse:\n{text}")
            if not program_refuses(program, kind, text):
                wrong.append(f"the program takes what the schema refuses:\n{text}")
    count = 0
    for name, text in shipped():
        count += 1
        wrong += [f"{name}: {fault}" for fault in faults(kind_of(yaml.load(text, Loader)), text)]
    parts = 0
    for part, keys in keys_in_source():
        parts += 1
        if keys != keys_in_schema(part):
            wrong.append(f"{part}: the readers know {sorted(keys)}, the schema {sorted(keys_in_schema(part))}")
    if count < 12 or parts < 14:
        wrong.append(f"only {count} files and {parts} parts were found to compare")
    print("\n".join(wrong) or f"{count} files are valid, {sum(map(len, REFUSED.values()))} are refused by both, "
          f"{parts} parts have the same keys")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(str(pathlib.Path(sys.argv[1]).resolve())))
