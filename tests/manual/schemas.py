"""The JSON Schemas of profiles/schema/ against the files that go with the program, and against the program itself.

    schemas.py PROGRAM

Every profile, the demo's projects and the files of the manual are valid, by a public validator (jsonschema, JSON Schema
2020-12); what a schema refuses the program refuses too, or tells of where it can do without; each key that the readers know stands in the schema, and each word and
unit that the program would take: it names them where it is given another.
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
        YARN + "units: IN\n",
        YARN.replace("length: 75", "length: far"),
        YARN.replace("colour: a", "colour: 'a, b'"),
        *(YARN.replace("colour: a", f"colour: {odd}") for odd in ("hook", "' Hook '", "teal 2", "no. 7", "2 teal")),
        YARN.replace("length: 75", "length: 65,4 cm"),
        YARN + "ball: {length: 125,5 m}\n",
        YARN.replace("length: 75", "length: 75, shade: '#12'"),
        YARN + "felts: perhaps\n",
        YARN + "units: m\n",
        YARN + "ball: 50 g\n",
        YARN + "ball_plus_minus: 0.5\n",
        YARN + "ball_plus_minus: 16 %\n",
        YARN + "ball_plus_minus: 0.2 \n",
        YARN + "ball_plus_minus: '0.16'\n",
        YARN.replace("length: 75", "length: 0"),
        YARN.replace("length: 75", "length: 0.0 cm"),
        *(YARN.replace("length: 75", f"length: {odd}") for odd in (
            "3 parsec", "5 %", "5 g", "15 16", "15 16 cm", ".5 cm", "5. cm", "1e1", "3 - 4 cm", "1yd 6", "-5 cm")),
        *(YARN + f"ball: {{mass: {odd}}}\n" for odd in ("3 cm", "0", "0 g", "1lb 4", "-1", "five g")),
        YARN + "ball: {length: 0 m}\n",
    ],
    "project": [
        PROJECT,
        PROJECT + "units: km\nlog: []\n",
        PROJECT + "piece: {worked: spirals}\nlog: []\n",
        PROJECT + "piece: {stitches: 0}\nlog: []\n",
        PROJECT + "piece: {yarn_per_stitch: 2,1 cm}\nlog: []\n",
        PROJECT + "join: {allowance: 8,5 cm}\nlog: []\n",
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
        *(LOG + f"did: join, ball: A, shift: {odd}}}\n" for odd in ("3 ells", "+-3 cm", "3 kg")),
        LOG + "did: ball, ball: B, mass: 5, scale: 0}\n",
        LOG + "did: weigh, ball: A, mass: 5 cm}\n",
        PROJECT + "join: {allowance: 8 kg}\nlog: []\n",
    ],
}

# Files that both take: ways to write a length, a mass, a share and a truth that a pattern easily forgets.
TAKEN = {
    "yarn": [
        *(YARN.replace("length: 75", f"length: {odd}").replace("length: 40", "length: 40 cm") for odd in (
            "75", "75cm", "75 CM", " 75.5 cm ", "3 1/2in", "3½ in", "3 ½in", "½ m", "1/2 m", "1yd 6in", "2ft", "750 mm",
            "7⁄8 m", "2 yd 1 ft 6 1/2 in")),
        *(YARN.replace("75", odd).replace("40", odd) for odd in ("7 st", "7 Stitches", "1 stitch")),
        *(YARN + f"ball: {{mass: {odd}}}\n" for odd in ("50", "50g", "1 3/4 oz", "1lb 4oz", "0.05 KG", "½ kg")),
        *(YARN + f"ball_plus_minus: {odd}\n" for odd in ("2 %", "2%", "0.02", "15 %", "15.0%", "'0.15'", "1 1/2 %", "0", "½%",
                                                       "0 %", "14.9 %", "'0.149'", "'0.1'", "'0.150'", "1/10", "3/20", "1\u20448",
                                                       "0 1/10", "\u2152", "0 \u2152", "' 1/10 '")),
        *(YARN + f"felts: {odd}\n" for odd in ("true", "yes", "No", "FALSE")),
        YARN.replace("{colour: b", "{colour: true, length: 5}, {colour: b"),
    ],
    "project": [
        *(LOG + f"did: join, ball: A, shift: {odd}}}\n" for odd in ("3", "-3", "+3 cm", "'- 3 1/2 in'", "'+3'", "0")),
        *(LOG + f"did: weigh, ball: A, mass: {odd}}}\n" for odd in ("0", "0 g", "1 oz")),
        PROJECT + "join: {allowance: 0 cm}\nlog: []\n",
        *(PROJECT + f"piece: {{stitches: {odd}, rows: {odd}}}\nlog: []\n" for odd in ("7", "' 7 '", "'7'", "007", "1000000")),
        *(LOG + f"did: row, row: {odd}}}\n" for odd in ("' 7 '", "'7'", "7, stitch: ' 0 '")),
        *(LOG + f"did: cancel, entry: {odd}}}\n" for odd in ("1", "' 1 '")),
        LOG.replace("n: 2,", "n: ' 2 ',") + "did: begin, ball: A}\n",
        *(LOG + f"did: gauge, rows_in_10cm: {odd}}}\n" for odd in ("7.5", "' 7.5 '", "7 1/2", "7\u00bd")),
        *(LOG + f"did: ball, ball: B, dye_lot: {odd}}}\n" for odd in ("17", "true", "a b")),
        LOG + "did: note, text: true}\n",
        *(LOG.replace("19:20:00Z, did: ball", f"19:20:00{odd}, did: ball") + "did: note, text: a}\n"
          for odd in ("+01:00", "+0100", "z")),
        PROJECT.replace("colour: a", "colour: true") + "log: []\n",
    ],
}
for some in TAKEN.values():
    start = YARN if some is TAKEN["yarn"] else PROJECT
    for measured in ("", "{}", "{strands: }", "{before: }", "{strands: [a 10]}", f"{{before: {PAIR}}}"):
        some.append(start.replace(f"repeat: {PAIR}", f"repeat: {PAIR}, measured: {measured}") + "log: []\n"
                    if start is PROJECT else start + f"measured: {measured}\n")

# Files that a schema refuses, of which the program tells what it can't read there, and does without: the reason it gives.
TOLD = {
    "yarn": [(YARN + f"measured: {odd}\n", said) for odd, said in (
        ("5", "measured is not"), ("[a]", "measured is not"), ("{strands: 5}", "strands is not"), ("{strands: [5]}", "no strand"),
        ("{strands: ['']}", "no strand"), ("{strands: [{a: 1}]}", "a strand is a single value"), ("{before: 3}", "repeat is not"),
        ("{before: [{colour: a}]}", "repeat has 1 section"))],
    "project": [
        (PROJECT.replace(f"repeat: {PAIR}", f"repeat: {PAIR}, measured: 5") + "log: []\n", "measured is not"),
        *((LOG + f"did: ball, ball: B, outside: {odd}}}\n", "outside end, entry 1") for odd in ("-1", "0", "true")),
        (LOG + "did: join, ball: A, old: 0}\n", "old, entry 1"),
        (LOG + "did: gauge, rows_in_10cm: 2000}\n", "rows_in_10cm is out of reach"),
        (LOG + "did: gauge, stitches_in_10cm: 0.05}\n", "stitches_in_10cm is out of reach"),
        (LOG + "did: row, row: 7, seen: [5]}\n", "seen"),
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


def program_says(program, kind, text):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "it.yaml"
        path.write_text(text)
        command = ["place", "--yarn", "it.yaml", "--new", "a 10, b"] if kind == "yarn" else ["log", "it.yaml"]
        return subprocess.run([program, *command], cwd=folder, capture_output=True, check=False, text=True)


def program_refuses(program, kind, text):
    return program_says(program, kind, text).returncode == 2


def enums(node, path=()):
    """(where, its words) for each choice of words in a schema."""
    if isinstance(node, dict):
        if "enum" in node:
            yield path, set(node["enum"])
        for key, value in node.items():
            yield from enums(value, (*path, key))


def words_offered(program, kind, text):
    """What the program would have in place of the odd word in a file."""
    first = program_says(program, kind, text).stderr.split("\n")[0]
    offered = re.search(r"; write (.*?)(?:; did you mean .*)?$|: write (.*)$", first)
    return set(re.split(r", | or ", offered.group(1) or offered.group(2))) if offered else set()


def odd_word(path):
    """A file with a word that nothing knows where the schema has a choice."""
    keys = [key for key in path if key not in ("properties", "$defs")]
    if keys == ["units"] or keys == ["yarn", "units"]:
        return "units: qq\n"
    if keys == ["entry", "did"]:
        return LOG + "did: qq}\n"
    if keys[0] in ("ball", "join", "note") and path[0] == "$defs":
        needed = {"ball": "ball: B", "join": "ball: A", "note": "text: a"}[keys[0]]
        return LOG + f"did: {keys[0]}, {needed}, {keys[1]}: qq}}\n"
    return PROJECT + f"{keys[0]}: {{{keys[1]}: qq}}\nlog: []\n"


def wrong_words(program):
    """Choices of the schemas that aren't the program's, and units."""
    wrong, count = [], 0
    for kind, schema in SCHEMAS.items():
        for path, words in enums(schema):
            count += 1
            text = odd_word(path)
            if text.startswith("units"):
                text = YARN + text if kind == "yarn" else text + PROJECT + "log: []\n"
                if path[:3] == ("properties", "yarn", "properties"):
                    text = PROJECT.replace("{name", "{units: qq, name") + "log: []\n"
            known = words_offered(program, kind, text)
            if words != known:
                wrong.append(f"{kind}, {'/'.join(path)}: the schema has {sorted(words)}, the program {sorted(known)}")
        for measure, key in (("length", "length: 1 qq"), ("mass", "mass: 1 qq")):
            text = f"format: ballchange yarn 1\nname: Pair\nball: {{{key}}}\nrepeat: {PAIR}\n"
            if kind == "project":
                text = PROJECT.replace("{name", f"{{ball: {{{key}}}, name") + "log: []\n"
            for unit in sorted(words_offered(program, kind, text)) or ["(none is named)"]:
                count += 1
                taken = text.replace("1 qq", f"1 {unit}").replace("length: 75", f"length: 75 {unit}").replace(
                    "length: 40", f"length: 40 {unit}") if measure == "length" else text.replace("1 qq", f"1 {unit}")
                wrong += [f"{measure} in {unit}: {fault}" for fault in faults(kind, taken)]
    if count < 34:
        wrong.append(f"only {count} choices and units were found to compare")
    return wrong


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
        for text in TAKEN[kind]:
            wrong += [f"the schema refuses what it should take:\n{text}{fault}" for fault in faults(kind, text)]
            if program_refuses(program, kind, text):
                wrong.append(f"the program refuses what the schema takes:\n{text}")
        for text, reason in TOLD[kind]:
            said = program_says(program, kind, text)
            if not faults(kind, text):
                wrong.append(f"the schema takes what it should refuse:\n{text}")
            if said.returncode == 2 or reason not in said.stderr:
                wrong.append(f"'{reason}' is not told of:\n{text}{said.stderr}")
    count = 0
    for name, text in shipped():
        count += 1
        wrong += [f"{name}: {fault}" for fault in faults(kind_of(yaml.load(text, Loader)), text)]
    wrong += wrong_words(program)
    parts = 0
    for part, keys in keys_in_source():
        parts += 1
        if keys != keys_in_schema(part):
            wrong.append(f"{part}: the readers know {sorted(keys)}, the schema {sorted(keys_in_schema(part))}")
    if count < 12 or parts < 14:
        wrong.append(f"only {count} files and {parts} parts were found to compare")
    print("\n".join(wrong) or f"{count} files are valid, {sum(map(len, REFUSED.values()))} are refused by both and "
          f"{sum(map(len, TAKEN.values()))} taken, {sum(map(len, TOLD.values()))} told of, {parts} parts have the same keys")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(str(pathlib.Path(sys.argv[1]).resolve())))
