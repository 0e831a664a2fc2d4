#!/usr/bin/env python3
"""moments.py PROBE: points in time as ISO 8601 writes them, held against Python's datetime."""

import datetime
import random
import subprocess
import sys

SEED = 1
EPOCH = datetime.datetime(1970, 1, 1, tzinfo=datetime.timezone.utc)
SECOND = datetime.timedelta(seconds=1)


def written(rng):
    """A date and time as people and programs write it."""
    year = rng.choice([1, 4, 100, 400, 1600, 1899, 1900, 1970, 1999, 2000, 2024, 2026, 2100, 9999, rng.randint(1, 9999)])
    day = datetime.date(year, rng.choice([1, 2, 3, 12, rng.randint(1, 12)]), 1) + datetime.timedelta(
        days=rng.choice([0, 27, rng.randint(0, 27)]))
    text = f"{day.isoformat()}{rng.choice('TTTt ')}{rng.randint(0, 23):02}:{rng.randint(0, 59):02}"
    if rng.random() < 0.8:
        text += f":{rng.randint(0, 59):02}"
        if rng.random() < 0.2:
            text += f".{rng.randint(0, 999999):06}"
    zone = f"{rng.choice('+-')}{rng.randint(0, 23):02}"
    return text + rng.choice(["Z", "Z", "z", zone, f"{zone}{rng.randint(0, 59):02}", f"{zone}:{rng.randint(0, 59):02}"])


def damaged(rng, text):
    at = rng.randrange(len(text))
    return rng.choice([text[:at] + text[at + 1 :], text[:at] + rng.choice("0123456789-+:.TZ ") + text[at + 1 :],
                       text[:at] + rng.choice("0139-+:.") + text[at:]])


def expected(text):
    """Seconds since 1970, or None where datetime does not read it or it leaves the years 1 to 9999."""
    try:
        moment = datetime.datetime.fromisoformat(text.strip().upper().replace(" ", "T"))
        if moment.tzinfo is None:
            return None
        utc = moment.astimezone(datetime.timezone.utc)
    except (ValueError, OverflowError):
        return None
    return (utc - EPOCH) // SECOND


def main():
    rng = random.Random(SEED)
    good = [written(rng) for _ in range(20000)]
    bad = [damaged(rng, text) for text in good]
    lines = good + bad
    told = subprocess.run([sys.argv[1], "moments"], input="\n".join(lines) + "\n", capture_output=True, text=True, check=True)
    answers = told.stdout.splitlines()
    if len(answers) != len(lines):
        sys.exit(f"{len(lines)} lines, {len(answers)} answers")
    faults, read = [], 0
    for i, (text, answer) in enumerate(zip(lines, answers)):
        want = expected(text)
        if answer == "refused":
            # Ours is the stricter reader: of what is written well it refuses nothing.
            if i < len(good) and want is not None:
                faults.append(f"{text!r}: refused, datetime reads {want}")
            continue
        read += 1
        seconds, again = answer.split()
        if want is None or int(seconds) != want:
            faults.append(f"{text!r}: read as {seconds}, datetime says {want}")
        elif again != (EPOCH + want * SECOND).strftime("%Y-%m-%dT%H:%M:%SZ").rjust(20, "0"):
            faults.append(f"{text!r}: written as {again}")
    print(f"seed {SEED}: {len(lines)} texts, {read} read, {len(faults)} differ")
    print(*faults[:10], sep="\n")
    if faults or read < 20000:
        sys.exit(1)


if __name__ == "__main__":
    main()
