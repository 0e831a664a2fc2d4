"""Joins as they are made on the real strands, recorded with the program, and judged by what only the crafter's maker
knows."""

from beside import nearest
from ends import ends_at
from program import Unexpected


class Joining:
    """Part of a crafter."""

    def _join(self, advice, old, strand, new, ball):
        """The join as it is made, recorded and judged. `ball` is the fresh one, or None at a knot."""
        ends = ends_at(self.yarn, self.strand, strand, old, new, self.allowance)
        clash = strand.way != self.strand.way
        record = {"knot": ball is None, "settled": advice is not None, "clash": clash, "method": self.method,
                  "tolerance": self.tolerance, "stitch": self.per_stitch, "repeat": self.yarn.total,
                  "comparable": not clash and not self.kept and ball is not None, "sparing": self.sparing}
        allowed = max(0.0, self.tolerance - 1.5)
        if not clash:
            record["least"] = ends.least_within(allowed) if self.sparing else ends.least_in_step(allowed)
            record["least_at_all"] = ends.least_within(self.tolerance)
            record["eye"], record["anywhere"] = ends.by_eye(self.rng), ends.anywhere(self.rng)
        if advice is None:
            self._by_eye(record, ball, strand)
        elif advice["cut"] is None:
            record["left"] = True
            record["shift"] = nearest(ends.as_they_are() - self.allowance, self.yarn.total) if not clash else None
            record.update(sure=advice["told"]["sureness"], planned=advice["told"]["joins"][0]["shift"],
                          asked=advice["asked"])
            self._record(advice)
            self._continue(strand, 0.0, 0.0, 0.0)
        else:
            self._cut_as_advised(advice, ends, record, strand)
        if advice is not None and not clash:
            self._judge_places(advice, ends, old, new, record)
        self.result["joins"].append(record)
        self.last_join = self.join_lies
        if ball is not None:
            self.ball, self.strands_left = ball, ball.strands[1:]

    def _record(self, advice):
        """The line of check with join in its place; where the program must be told where that is, what was cut."""
        join, cut = advice["told"]["joins"][0], advice["cut"]
        code, told = self.program.run("join", *advice["line"], codes=(0, 2))
        if code == 2:
            if self.shows_hook or "tell where the hook is with --row and --stitch" not in told:
                raise Unexpected(f"check advised a cut and join refused it: {told}")
            row, stitch = self.hook
            trims = ["--trim-old", f"{cut.trim_old:.1f}cm", "--trim-new", f"{cut.trim_new:.1f}cm"] if cut else []
            line = [word for word in advice["line"] if word != "--sparing"]
            if "--knot" not in line and "--ball" not in line:
                line += ["--ball", advice["told"]["ball"]]
            self.program.run("join", *line, *trims, "--row", str(row), "--stitch", str(stitch))
            return
        if cut is not None:
            for key in ("trim_old", "trim_new"):
                if abs(told["entry"][key] - join[key]) > 0.01:
                    raise Unexpected(f"join records {key} {told['entry'][key]}, check advised {join[key]}")

    def _continue(self, strand, trim_old, trim_new, allowance):
        """The new strand is on: both lie beside each other for the allowance, and what was cut off is gone."""
        self.join_lies = self.used + self.loose - trim_old - allowance
        self.strand_zero = self.join_lies - trim_new
        self.strand = strand
        self.trimmed += trim_old + trim_new
        self.in_joins += allowance

    def _cut_as_advised(self, advice, ends, record, strand):
        cut, join = advice["cut"], advice["told"]["joins"][0]
        record["asked"] = advice["asked"]
        record["sure"], record["planned"] = advice["told"]["sureness"], join["shift"]
        record["trimmed"] = cut.trim_old + cut.trim_new
        record["told_trim"] = join["discard"]
        if not record["clash"]:
            record["shift"] = ends.shift(cut.i, cut.used, cut.j, cut.kept)
            by_repeat = self.yarn.between(ends.old[cut.i][0], ends.new[cut.j][0], ends.way)
            record["by_repeat"] = nearest(by_repeat - (cut.used + cut.kept - self.allowance), self.yarn.total)
        if join["row"] is not None and self.shows_hook:
            middle = self.used + self.loose - cut.trim_old - self.allowance / 2
            row, stitch = self.work.at(middle)
            record["lands_off"] = ((join["row"] - row) * self.stitches + join["stitch"] - stitch)
        self._record(advice)
        self._continue(strand, cut.trim_old, cut.trim_new, self.allowance)

    def _by_eye(self, record, ball, strand):
        """Nothing settles it: what a crafter without the program does, recorded as it was cut."""
        judged = record.get("eye")
        trim = judged[1] if judged else 0.0
        name = (ball or self.ball).name
        row, stitch = self.hook
        self.program.run("join", "--ball", name, "--trim-old", "0", "--trim-new", f"{trim:.1f}cm", "--row", str(row),
                         "--stitch", str(stitch), *(["--knot"] if ball is None else []))
        self._continue(strand, 0.0, trim, self.allowance)

    def _judge_places(self, advice, ends, old, new, record):
        """Whether each end was placed at the change that it really has nearest."""
        told = advice["told"]
        wrong = False
        for end, reading, factor in (("old", old, ends.old_factor), ("new", new, ends.new_factor)):
            section, run = reading.runs[0]
            seen = reading.entries()[0][4]  # so far from the loose end is the first change that was seen
            starts = sum(self.yarn.lengths[:section])
            stops = starts + self.yarn.lengths[section]
            # Worked the other way, a section's start is where the repeat has its end.
            from_start = (end == "old") == (ends.way == +1)
            true = starts + run / factor if from_start else stops - run / factor
            wrong |= abs(nearest(told[end]["place"] - true, self.yarn.total)) > 8 + 0.08 * seen
        record["wrong"] = wrong
