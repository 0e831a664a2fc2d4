"""Asks the program about two ends until it knows where to cut, and answers what it asks as far as a person can."""

from ends import Cut, answer, kind_of, read

ROUNDS = 14  # before the crafter gives up and judges by eye
CAREFUL = 4.0  # cm: a dry fit that is further off is measured again


class Asking:
    """Part of a crafter."""

    def _read_old(self):
        worked = self.used - self.strand_zero
        reach = self.loose + max(0.0, worked - max(0.0, self.joined_at() - self.strand_zero))
        hook = self.loose if self.shows_hook else None
        reading = read(self.yarn, self.strand, "old", self.habits, self.rng, hook, self.per_stitch_now(),
                       min(reach, 6 * self.yarn.total))
        if self.shows_hook:
            reading.reach = max(reading.reach, self.loose)
        elif reading.reach > self.loose:
            reading.reach = self.loose
        return reading

    def _settle(self, old, at_knot, options):
        """Asks until the program knows; None where the crafter gives up."""
        new, named = at_knot, None
        asked = {"rounds": 0, "turned": 0, "no_fit": 0, "dry_fit": 0}
        extra = []
        for _ in range(ROUNDS):
            line = ["--old", old.text(), *options, *extra]
            if new is not None:
                line += ["--new", new.text()]
            if named is not None:
                line += ["--ball", named.name]
            code, told = self._check(line)
            asked["rounds"] += 1
            if code == 3:
                if new is None:  # one ball at a time from here on
                    named = next((b for b in self.fresh if b.name == told["ball"]), self.fresh[0])
                    new = self.readings[named.name]
                if not self._answer(told, old, new, named, extra, asked):
                    break
                continue
            reading = new or self.readings[told["ball"]]
            join = told["joins"][0]
            if join["leave_knot"]:
                return {"told": told, "line": line, "cut": None, "asked": asked}
            cut = Cut(join, old, reading, self.rng)
            fits = cut.found and cut.dry_fit_off(join, self.allowance, self.rng) <= CAREFUL
            if fits or (cut.found and asked["dry_fit"] >= 2):
                return {"told": told, "line": line, "cut": cut, "asked": asked}
            asked["dry_fit"] += 1
            if asked["dry_fit"] > 3:
                break
            named = named or next((b for b in self.fresh if b.name == told["ball"]), None)
            new = reading
            for strand in (old, reading):
                strand.again()
                strand.past_changes(1)
        return None

    def _check(self, line):
        """The advice; where the record can't be squared with the hook, as its text says, told where the hook is."""
        code, told = self.program.run("check", *line, codes=(0, 3))
        if code == 0 and self.shows_hook and told["verdict"] == "cut" and told["joins"][0]["row"] is None:
            self.result["asked_for_hook"] = self.result.get("asked_for_hook", 0) + 1
            row, stitch = self.hook
            line += ["--row", str(row), "--stitch", str(stitch)]
            code, told = self.program.run("check", *line, codes=(0, 3))
        return code, told

    def _answer(self, told, old, new, named, extra, asked):
        """What a person can answer: look again, measure further, turn the ball, or say that it runs the other way."""
        verdict = told["verdict"]
        if verdict == "turn-ball":
            asked["turned"] += 1
            if named is None or asked["turned"] > 2:
                return False
            named.turn(self.yarn)
            again = read(self.yarn, named.strands[0], "new", self.habits, self.rng)
            new.runs, new.reach, new.measured = again.runs, again.reach, again.measured
            new.seen, new.called = again.seen, again.called
            return True
        if verdict == "no-fit":
            asked["no_fit"] += 1
            for end, reading in (("old", old), ("new", new)):
                if told[end]["place"] is None:
                    reading.again()
                    if asked["no_fit"] > 1:
                        reading.past_changes(1)
            return asked["no_fit"] <= 4
        moved = False
        for end, reading in (("old", old), ("new", new)):
            placed = told[end]
            if placed["settled"] and not placed["ask"]:
                continue
            if placed["ask"] and kind_of(placed["ask"]) == "wrong_way":
                # It was written from its loose end, so the balls do run the other way.
                if "--from" not in extra:
                    extra += ["--from", "other"]
                    moved = True
                continue
            moved = answer(placed, reading) or moved
        return moved
