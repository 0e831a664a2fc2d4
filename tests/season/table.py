"""All projects of a season in two tables, and what of them must hold, with room for the noise of few projects."""

import math
from dataclasses import dataclass

import numpy as np


@dataclass
class Row:
    what: str
    found: str
    must: str = ""
    holds: bool = True
    count: int | None = None  # what it was found of


def share(flags):
    flags = list(flags)
    return float(np.mean(flags)) if flags else 1.0


def noise(wanted, count):
    """Three standard deviations of a share."""
    return 3 * math.sqrt(wanted * (1 - wanted) / max(1, count))


def percent(value):
    return f"{100 * value:.1f} %"


def at_least(what, flags, wanted, by=None):
    """`by`: how many are independent, where these are not: projects, where one project gives several."""
    flags = list(flags)
    found = share(flags)
    room = noise(wanted, len(flags) if by is None else by)
    return Row(what, percent(found), f"at least {100 * wanted:g} %", found >= wanted - room, len(flags))


def never(what, flags):
    count = sum(bool(flag) for flag in flags)
    return Row(what, str(count), "0", count == 0)


def with_room(bound, count):
    """A bound on what half or nine in ten of so many lie within, and about three standard deviations of that."""
    return bound * (1 + 3 / math.sqrt(max(1, count)))


def half_and_nine(values):
    """Half of them lie within the first, nine in ten within the second."""
    return np.quantile(np.abs(values), [0.5, 0.9]) if len(values) else (0.0, 0.0)


def joins_of(projects):
    return [join for project in projects for join in project["joins"]]


def join_rows(projects):
    joins = joins_of(projects)
    settled = [j for j in joins if j["settled"]]
    known = [j for j in settled if not j["clash"]]
    cut = [j for j in known if "trimmed" in j]
    left = [j["shift"] for j in known if j.get("left")]
    half, nine = half_and_nine([j["shift"] - j["planned"] for j in cut])
    left_half, left_nine = half_and_nine(left)
    clashes = len(settled) - len(known)
    wrong, doubt = sum(j["wrong"] for j in known) + clashes, sum(1 - j["sure"] for j in settled)
    # Besides what is told, one in a thousand may be no more than a long stretch of yarn that is not as the repeat says.
    room = doubt + 3 * math.sqrt(doubt + 1) + 0.001 * len(settled)
    return [
        at_least(f"settled by what a person can measure, of {len(joins)} joins", [j["settled"] for j in joins], 0.995),
        at_least("answered at once, no question asked", [j["asked"]["rounds"] == 1 for j in settled], 0.8),
        Row(f"an end placed wrong though sure, of {len(settled)}; so that both ran opposite ways",
            f"{wrong}; {clashes}", f"told {doubt:.1f}; at most {room:.0f}", wrong <= room),
        Row("true shift less the shift advised: half within; nine in ten within", f"{half:.1f} cm; {nine:.1f} cm",
            "1.5 cm; 4 cm", half <= with_room(1.5, len(cut)) and nine <= with_room(4, len(cut))),
        Row(f"the same of {len(left)} knots that were left", f"{left_half:.1f} cm; {left_nine:.1f} cm", "2 cm; 5 cm",
            left_half <= with_room(2, len(left)) and left_nine <= with_room(5, len(left)), len(left)),
    ]


def beside_rows(projects):
    """The same ball changes, made in several ways: a line of cells each, and what doesn't hold."""
    joins = [j for j in joins_of(projects) if j["settled"] and j["comparable"] and j["eye"] and j["anywhere"]]
    tolerances = np.array([j["tolerance"] for j in joins])

    def measure(what, shifts, trims):
        shifts = np.abs(shifts)
        half, nine = half_and_nine(shifts)
        within, far, trim = share(shifts <= tolerances + 1e-9), share(shifts > 10), float(np.mean(trims))
        return [what, f"{half:.1f} cm", f"{nine:.1f} cm", percent(within), percent(far), f"{trim:.0f} cm"], within, trim

    said, within, trim = measure("as `ballchange` says", [j["shift"] for j in joins], [j["trimmed"] for j in joins])
    known, _, least = measure("reckoned, both places known exactly", np.zeros(len(joins)), [j["least"] for j in joins])
    eye, eye_within, _ = measure("same colour, the rest judged by eye", [j["eye"][0] for j in joins],
                                 [j["eye"][1] for j in joins])
    anywhere, any_within, _ = measure("anywhere in the colour", [j["anywhere"][0] for j in joins],
                                      [j["anywhere"][1] for j in joins])
    bad = []
    if within < 0.92 - noise(0.92, len(joins)):
        bad.append(f"joins in step within two stitches: {percent(within)}, must be at least 92 %")
    # A wrong turn about a whole repeat is seldom, but dear.
    room = 0.01 + 1 / math.sqrt(len(joins)) * 0.6
    if abs(trim / least - 1) > room:
        bad.append(f"cut off a join: {trim:.1f} cm, must be {least:.1f} cm within {percent(room)}")
    if max(eye_within, any_within) > 0.4:
        bad.append(f"by eye {percent(eye_within)} in step, anywhere {percent(any_within)}: this proves too little")
    return [said, known, eye, anywhere], bad


def ball_rows(projects):
    promises = [p["promise"] for p in projects]
    tight = [p for p in promises if p["tight"]]
    enough, told = share(p["would_do"] for p in promises), float(np.mean([p["chance"] for p in promises]))
    off = max(abs(p["needed_off"]) for p in promises)
    tight_told = float(np.mean([p["chance"] for p in tight])) if tight else 1.0
    return [
        at_least("balls promised at 95 %: enough for the yarn told", [p["would_do"] for p in promises], 0.94),
        at_least(f"the {len(tight)} tightest of them ({percent(tight_told)} promised)",
                 [p["would_do"] for p in tight], 0.94),
        at_least("all others: enough as the hands really worked",
                 [p["enough"] for p in promises if not p["tight"]], 0.94),
        Row("enough against the chances told, all taken together", f"{percent(enough)}; told {percent(told)}",
            "not fewer", enough >= told - noise(told, len(promises)) - 0.003),
        Row("yarn needed, by the estimate and by the piece: apart", f"{off:.2f} cm", "0.1 cm", off <= 0.1),
    ]


def ledger_rows(projects):
    books = [p["ledger"] for p in projects]
    weighed = [w for p in projects for w in p["weighings"]]
    shown = {shows: [[w["in_range"] for w in p["weighings"] if "in_range" in w] for p in projects
                     if p["shows_hook"] == shows] for shows in (True, False)}
    told, really = sum(b["trimmed_told"] for b in books), sum(b["trimmed"] for b in books)
    left = [(b["left_told"] - (b["left"] - b["fresh_unadded"])) / b["ball"]
            for b in books if b["left_told"] is not None]
    left_half, left_nine = half_and_nine(left)
    landed = [j["lands_off"] for j in joins_of(projects) if "lands_off" in j]
    landed_half, landed_nine = half_and_nine(landed)
    in_joins = max(abs(b["in_joins_told"] - b["in_joins"]) for b in books)
    return [
        never("the crafter's own books out of balance", [abs(b["balanced"]) > 0.01 for b in books]),
        never("ledgers with a join too many or too few", [b["joins"] for b in books]),
        never("ledgers with the work at another stitch",
              [(b["at"]["row"], b["at"]["stitch"]) != (b["row"], b["stitch"]) for b in books]),
        Row("trimmed by the ledgers, of what really came off", percent(told / really), "99 % to 101 %",
            abs(told / really - 1) <= 0.01 + 0.03 / math.sqrt(len(books))),
        Row("in the joins by the ledgers: off by up to", f"{in_joins:.1f} cm", "0.1 cm", in_joins <= 0.1),
        Row("left by the ledgers, off by: half; nine in ten", f"{percent(left_half)}; {percent(left_nine)} of a ball",
            "1.5 %; 4.5 %", left_half <= with_room(0.015, len(left)) and left_nine <= with_room(0.045, len(left)), len(left)),
        # One project's are weighed by one crafter, of one yarn that may be heavier or lighter than told: all off, or none.
        at_least("yarn left by the scale, within give or take",
                 [abs(w["left"]) <= w["plus_minus"] for w in weighed], 0.88, sum(bool(p["weighings"]) for p in projects)),
        at_least("a ball's end between the two places told, the hook shown at each join", sum(shown[True], []), 0.9,
                 sum(map(bool, shown[True]))),
        # Where joins were recorded at the least row they can lie in.
        at_least("the same, the hook never shown", sum(shown[False], []), 0.78, sum(map(bool, shown[False]))),
        Row("where a join lands, off by: half; nine in ten", f"{landed_half:.1f} st; {landed_nine:.1f} st",
            "3 st; 9 st", landed_half <= with_room(3, len(landed)) and landed_nine <= with_room(9, len(landed)), len(landed)),
    ]


def creep_rows(projects):
    told = [s for p in projects for s in p["sightings"]]
    return [at_least(f"yarn a stitch within give or take, where {len(told)} pieces told it",
                     [abs(s) <= 1 for s in told], 0.8)]


def show(projects):
    """Prints all; returns what does not hold."""
    count = len(joins_of(projects))
    print(f"{len(projects)} projects, {count} joins, {sum(p['runs'] for p in projects)} commands\n")
    print("| the same ball changes | half within | nine in ten | within two stitches | over 10 cm | cut off |")
    print("|---|---|---|---|---|---|")
    beside, bad = beside_rows(projects)
    for cells in beside:
        print("| " + " | ".join(cells) + " |")
    print("\n| over the season | found | must be, but for noise |\n|---|---|---|")
    for row in join_rows(projects) + ball_rows(projects) + ledger_rows(projects) + creep_rows(projects):
        print(f"| {row.what} | {row.found} | {row.must} |")
        # A row of nothing proves nothing; only few projects may have none of something.
        if row.count == 0 and len(projects) >= 1000:
            bad.append(f"{row.what}: nothing was counted")
        if not row.holds:
            bad.append(f"{row.what}: {row.found}; must be {row.must}")
    return bad
