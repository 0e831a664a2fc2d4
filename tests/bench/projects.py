"""Projects to measure with, written as the program writes them. Text only: nothing of the program is needed."""

import datetime
import pathlib

PROFILE = pathlib.Path(__file__).resolve().parents[2] / "profiles" / "orchard.yaml"
BEGAN = datetime.datetime(2026, 3, 2, 19, 20)
STITCHES_A_ROW = 60
ROWS_A_BALL = 100  # at most: the yarn of one reaches about 109, and a join past that is remarked on


def head(rows):
    yarn = "".join(f"  {line}\n" for line in PROFILE.read_text(encoding="utf-8").splitlines()
                   if not line.startswith("format:"))
    return ("format: ballchange project 1\nname: Measured\nunits: cm\nyarn:\n" + yarn +
            f"piece: {{worked: rows, stitches: {STITCHES_A_ROW}, rows: {rows}, yarn_per_stitch: 1.85 cm, "
            "yarn_per_turn: 1.2 cm, foundation: 130 cm}\n"
            "join: {method: felted, allowance: 8 cm, tolerance: 2 st}\nlog:\n")


def log(entries):
    lines = []
    for n, entry in enumerate(entries, 1):
        at = (BEGAN + datetime.timedelta(minutes=7 * n)).strftime("%Y-%m-%dT%H:%M:%SZ")
        lines.append(f"  - {{n: {n}, at: {at}, did: {entry}}}\n")
    return "".join(lines)


def ball(number):
    ends = ("plum 15, sand 11, rust 30", "rust 30, moss 14, navy 30", "navy 50, grey 9, plum 30")
    return f'ball, ball: B{number}, mass: 50.2 g, dye_lot: "17", outside: "{ends[number % len(ends)]}"'


def join(number, place):
    return (f'join, ball: B{number}, method: felted, allowance: 8 cm, trim_old: 0 cm, trim_new: 48 cm, {place}, '
            f'shift: 0 cm, old: "rust 30, sand 11, plum", new: "plum 15, sand 11, rust 30"')


def piece(balls, entries):
    """`balls` added first, half of them joined at even distances, and rows (or parts of one) between, so many entries
    in all."""
    joined = balls // 2
    told = [ball(number) for number in range(balls)] + ["begin, ball: B0, trim_new: 250 cm"]
    rest = entries - len(told)
    stitches = min(rest, joined * ROWS_A_BALL) * STITCHES_A_ROW
    for k in range(rest):
        row, stitch = divmod(max(0, (k + 1) * stitches // rest - 1), STITCHES_A_ROW)
        place = f"row: {row + 1}, stitch: {stitch + 1}"
        number = (k + 1) * joined // rest
        told.append(join(number, place) if 0 < number != k * joined // rest else f"row, {place}")
    return head(rest + 100) + log(told)


def ravelled(joins, rips):
    """Felted joins a row apart, then all ravelled and worked again, time after time."""
    told = [ball(number) for number in range(joins + 1)] + ["begin, ball: B0"]
    told += [join(number, f"row: {3 * number}, stitch: 41") for number in range(1, joins + 1)]
    for _ in range(rips):
        told += ["rip, row: 1", f"row, row: {3 * joins + 3}"]
    return head(3 * joins + 100) + log(told)


def weighed(entries):
    """One ball, weighed at every other entry while a hundred rows are worked from it."""
    told = [ball(0), "begin, ball: B0"]
    for k in range(entries - len(told)):
        done = k / entries
        told.append(f"weigh, ball: B0, mass: {50 - 39 * done:.1f} g" if k % 2 else f"row, row: {1 + int(100 * done)}")
    return head(200) + log(told)
