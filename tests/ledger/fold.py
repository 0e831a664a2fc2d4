"""The state of a project, folded from its log by the rules of the file format: slow, plain, and on its own. Long: a whole
ledger again, which must share nothing with the one it is held against.

A strand is a list of pieces, each with the ball it comes from and its length; what is worked is a length along the
strand in the work, counted from its beginning. Everything is added up afresh whenever it is asked for. Only for
projects whose stitches and ball band are told, and whose gauge is too, at first or later, or whose yarn is in stitches.
"""

import math

import yaml

from strand import HAIR, Piece, Strand

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
CM = {"mm": 0.1, "cm": 1, "m": 100, "in": 2.54, "ft": 30.48, "yd": 91.44}
# Each way to join: what it usually takes, in cm or `stitches` of the work; in a yarn counted in stitches; whether it
# comes apart when the work is ravelled past it.
METHODS = {
    "felted": {"usual": 8, "counted": 4},
    "threaded": {"usual": 10, "counted": 5},
    "doubled": {"usual": 6, "stitches": True, "counted": 6, "apart": True},
    "woven": {"usual": 25, "counted": 12, "apart": True},
    "knotted": {"usual": 20, "counted": 10},
}
# A plain ball whose length nobody told is reckoned with as this long, and what would be left of it is not told.
UNTOLD = 1e7


class Refused(Exception):
    """An entry that doesn't fit what stands before it."""


class Fold:
    def __init__(self, project):
        piece, self.habit = project["piece"], project.get("join") or {}
        self.yarn, self.band = project["yarn"]["repeat"], project["yarn"]["ball"]
        self.stitches, self.planned = piece["stitches"], piece.get("rows")
        self.skipped = []
        log = project["log"] or []
        cancelled = self.cancelled(log)
        self.open_gauge(piece, [e for e in log if e["did"] == "gauge" and e["n"] not in cancelled])
        self.at = self.told = None
        self.balls, self.joins = {}, []
        self.work, self.loose = None, []
        self.weighings = []
        self.rips = 0
        self.first_trim, self.begun_with, self.swatched = 0, None, []
        self.offcuts = {}
        self.sightings, self.corrected = [], 0
        self.plain_told_anew = self.no_longer_dyed = self.weighed_across = 0
        self.unlike_at_once = False
        for entry in log:
            if entry["n"] in cancelled:
                continue
            try:
                getattr(self, "do_" + entry["did"])(entry)
            except Refused:
                self.skipped.append(entry["n"])

    def cancelled(self, log):
        """Numbers of the entries that count for nothing; among cancels, the later has the word."""
        gone, useless = {}, []
        for entry in reversed(log):
            if entry["did"] != "cancel" or entry["n"] in gone:
                continue
            if not 1 <= entry["entry"] < entry["n"]:
                useless.append(entry["n"])
                continue
            if entry["entry"] in gone:
                useless.append(gone[entry["entry"]])
            gone[entry["entry"]] = entry["n"]
        self.skipped += useless
        return gone

    def open_gauge(self, piece, gauges):
        """The first yarn per stitch told holds from the beginning, and the yarn per turn told till then."""
        stitch, turn = piece.get("yarn_per_stitch"), piece.get("yarn_per_turn")
        for entry in gauges:
            if stitch is None:
                stitch, turn = entry.get("yarn_per_stitch"), entry.get("yarn_per_turn") if turn is None else turn
        self.late = stitch is not None and "yarn_per_stitch" not in piece
        self.counted = self.yarn[0]["length"].endswith(" st")
        # Without it, a yarn told in stitches is reckoned in them.
        self.in_stitches = stitch is None
        w = 1 if self.in_stitches else self.length(stitch, None)

        def told(text):
            try:
                return 0 if text is None else self.length(text, w)
            except Refused:
                return 0

        self.gauges = [((1, 0), (w, told(turn)))]
        self.foundation, self.edging = told(piece.get("foundation")), told(piece.get("edging"))

    # Measures

    def length(self, text, stitch):
        number, _, unit = str(text).partition(" ")
        if self.in_stitches and unit != "st":
            raise Refused
        return float(number) * (stitch if unit == "st" else CM[unit or "cm"])

    def by_now(self, text):
        """A length by the yarn per stitch in force."""
        return self.length(text, self.gauges[-1][1][0])

    def told_length(self, entry, key):
        return self.by_now(entry[key]) if key in entry else 0

    @property
    def sections(self):
        return [(s["colour"], self.by_now(s["length"])) for s in self.yarn]

    @property
    def repeat(self):
        return sum(length for _, length in self.sections)

    def between(self, a, b, gauge):
        w, v = gauge
        return (b[0] - a[0]) * (self.stitches * w + v) + (b[1] - a[1]) * w

    def used(self, at):
        """Yarn in the work at a place, stretch by stretch."""
        if at is None:
            return 0
        total = self.foundation
        for i, (start, gauge) in enumerate(self.gauges):
            end = self.gauges[i + 1][0] if i + 1 < len(self.gauges) else at
            if start >= at:
                break
            total += self.between(start, min(end, at), gauge)
        return total

    def grams(self, text):
        return float(str(text).split()[0])

    def place(self, row, stitch):
        if stitch is not None and stitch > self.stitches:
            raise Refused
        return (row, self.stitches if stitch is None else stitch)

    # Entries

    def ravel(self, at):
        self.sightings = [s for s in self.sightings if s[0] <= at]
        now = self.gauges[-1][1]
        self.gauges = [g for g in self.gauges if g[0] < at or g[0] == (1, 0)]
        self.change_gauge(at, now)

    def change_gauge(self, at, gauge):
        self.gauges = [g for g in self.gauges if g[0] != at] + [(at, gauge)]

    def do_row(self, entry):
        at = self.place(entry["row"], entry.get("stitch"))
        if self.told and at < self.told:
            raise Refused
        if self.at and at < self.at:
            self.ravel(at)
        self.at = self.told = at
        for text in entry.get("seen", []):
            self.see(text.split(), entry)

    def do_rip(self, entry):
        back = (1, 0) if entry["row"] == 0 else (entry["row"], self.stitches)
        if self.at is None or back >= self.at:
            raise Refused
        self.rips += 1
        self.ravel(back)
        self.at = self.told = back
        if self.work is None:
            return
        for k in reversed(range(self.work.passed(self.used(back)), len(self.work.joins))):
            join = self.joins[self.work.joins[k]]
            if METHODS[join["method"]].get("apart"):
                self.part(k, "apart", join["allowance"] / 2)

    def part(self, k, how, back):
        """Parts the strand in the work at join k; either side gets that much back."""
        self.joins[self.work.joins[k]]["held"] = how
        tail = self.work.split(k)
        self.work.pieces[-1].length += back
        tail.pieces[0].length += back
        self.loose.append(tail)

    def see(self, words, told):
        """A change of colours, or the stitches of a joined section; what is no such thing is passed over."""
        row, stitch = (int(words[words.index(key) + 1]) if key in words else None for key in ("row", "stitch"))
        here, shows = told["row"], told.get("stitch", self.stitches) + (words[-1] == "begins")
        if row is not None and (row > here or row == here and (shows < stitch if stitch else told.get("stitch") == 0)):
            return
        if words[-1] != "stitches":
            done = self.stitches // 2 if stitch is None else stitch - (words[-1] == "begins")
            self.sightings.append(((row, done), words[-1], words[-2], stitch))
            self.sightings.sort(key=lambda s: s[0])
            return
        landed = self.work.joins[: self.work.passed(self.used(self.at))] if self.work else []
        if not landed:
            return
        nearest = len(landed) - 1
        if row is not None:

            def away(k):
                place = self.lies(k)
                if place is None:
                    return 1e12
                near = place[1] if stitch is None else stitch
                return 1e6 * abs(place[0] - row) + abs(place[1] - near)

            nearest = min(range(len(landed)), key=away)
        join = self.joins[landed[nearest]]
        count, middle = float(words[-2]), self.lies(nearest)
        w, v = self.gauges[-1][1]  # told last; no other size is taken up here
        turns = 0
        if middle:
            turns = sum((middle[1] + sign * count / 2) // self.stitches * sign for sign in (1, -1))
        join["seen"] = (words[-3], count * w + turns * v)

    def lies(self, k):
        """Where join k of the work lies: as told, or where its strand has moved to since, to the stitch."""
        place, where = self.joins[self.work.joins[k]]["place"], self.work.reach(k + 1)
        if place is None or abs(self.used(place) - where) < 1e-6:
            return place
        start, (w, v) = [g for g in self.gauges if self.used(g[0]) <= where or g[0] == (1, 0)][-1]
        past = start[1] * w + where - self.used(start)
        rows = max(0, math.floor(past / (self.stitches * w + v) + 1e-9))
        stitch = math.floor((past - rows * (self.stitches * w + v)) / w + 0.5)
        return (start[0] + rows, min(max(stitch, 0), self.stitches))

    def gauge_at(self, at):
        return [gauge for start, gauge in self.gauges if start <= at or start == (1, 0)][-1]

    def shift(self, join, at, all_at):
        """By what was seen of the section the join lies in, otherwise as recorded."""
        seen = join["seen"] or self.around(at, all_at)
        if seen is None:
            return join["shift"]
        most = [(length, length - seen[1]) for colour, length in self.sections if colour == seen[0]]
        ways = [way for length, way in most if seen[1] <= 2 * length + 1e-6]
        if not ways or (join["shift"] is None and len(ways) > 1):
            return join["shift"]
        self.corrected += 1
        recorded = 0 if join["shift"] is None else join["shift"]
        return self.wrapped(min(ways, key=lambda way: abs(self.wrapped(way - recorded))))

    def wrapped(self, shift):
        return shift - self.repeat * math.ceil(shift / self.repeat - 0.5)

    def around(self, at, all_at):
        """The colour and the yarn between the changes seen before and behind a join, where they bound one section."""
        before = [s for s in self.sightings if self.used(s[0]) < at]
        after = [s for s in self.sightings if self.used(s[0]) >= at]
        if not before or not after or before[-1][3] is None or after[0][3] is None:
            return None
        first, second = before[-1], after[0]
        begin, end = self.used(first[0]), self.used(second[0])
        stitch = self.gauge_at((second[0][0], second[3]))[0] - 1e-6
        if at - begin < stitch or end - at < stitch:
            return None
        if sum(begin + 1e-6 < other < end - 1e-6 for other in all_at) != 1:
            return None
        names = [colour for colour, _ in self.sections]

        def starts(seen, k):
            return seen[2] == names[k if seen[1] == "begins" else k - 1]

        for k, name in enumerate(names):
            if starts(first, k) and starts(second, (k + 1) % len(names)):
                return name, end - begin
        if first[1] == "begins" and second[1] == "ends" and first[2] == second[2]:
            return first[2], end - begin
        return None

    def do_gauge(self, entry):
        w, v = self.gauges[-1][1]
        if "yarn_per_stitch" in entry:
            w_told = self.length(entry["yarn_per_stitch"], None)
        else:
            w_told = w
        if "yarn_per_turn" in entry:
            v = self.told_length(entry, "yarn_per_turn")
        self.change_gauge(self.at or (1, 0), (w_told, v))

    def do_cancel(self, entry):
        pass

    def do_note(self, entry):
        if {"offcut", "cut_from"} & set(entry):
            piece = self.offcut(entry)
            piece["use"], piece["used"] = "used-up", piece["length"]

    def keep(self, entry, end, length, cause, ball):
        if length > 0:
            self.offcuts[entry["n"], end] = {"length": length, "cause": cause, "use": "kept", "used": 0, "of": ball}

    def offcut(self, entry):
        """The piece that was cut off at that entry, from that end, and that nothing was made of yet."""
        ends = [end for n, end in self.offcuts if n == entry.get("offcut")]
        if len(ends) == 2 or "cut_from" in entry:
            ends = [end for end in ends if end == entry.get("cut_from")]
        if not ends or self.offcuts[entry["offcut"], ends[0]]["use"] != "kept":
            raise Refused
        return self.offcuts[entry["offcut"], ends[0]]

    def whole(self, mass):
        """By the ball band."""
        band = self.by_now(self.band["length"])
        return band if mass is None else band * mass / self.grams(self.band["mass"])

    def hold(self, ball, told):
        """What the ball holds: as just told, otherwise by the band, which says nothing of another yarn."""
        if told is not None:
            ball["told"] = told
        if ball["plain"]:
            ball["length"] = UNTOLD if ball["told"] is None else ball["told"]
        else:
            ball["length"] = self.whole(ball["mass"]) if told is None else told

    def dyed(self, but=None):
        """The first ball of the yarn itself, but that one."""
        return next((name for name, ball in self.balls.items() if not ball["plain"] and name != but), None)

    def strand_of(self, ball):
        """The loose strand that begins with the ball; of several, the one laid down last."""
        return next((s for s in reversed(self.loose) if s.pieces[0].ball == ball), None)

    def far_piece(self, ball):
        """The piece at the ball's own end, if that is not joined to anything."""
        ends = [s.pieces[-1] for s in self.loose + ([self.work] if self.work else []) if s.pieces[-1].ball == ball]
        return max(ends, key=lambda piece: piece.part, default=None)

    def known(self, ball):
        if ball not in self.balls:
            raise Refused

    def do_ball(self, entry):
        name = entry["ball"]
        keys = ("mass", "length", "dye_lot", "outside", "inside", "from", "plain")
        news = {k: v for k, v in entry.items() if k in keys}
        mass = self.grams(entry["mass"]) if "mass" in entry else None
        told = self.told_length(entry, "length") if "length" in entry else None
        plain = entry.get("plain", False)
        of_offcut = {"offcut", "cut_from"} & set(entry)
        if name not in self.balls and of_offcut:
            piece = self.offcut(entry)
            length = piece["length"] if told is None else told
            if mass is not None or plain or length > piece["length"] + 1e-3:
                raise Refused
            length = min(length, piece["length"])
            piece["use"], piece["used"] = "ball", length
            self.balls[name] = {"mass": None, "length": length, "offcut": True, "plain": False, "told": None}
            self.balls[name]["from"] = entry.get("from", "outside")
            self.loose.append(Strand([Piece(name, length)]))
            return
        if name not in self.balls:
            ball = {"mass": mass, "offcut": False, "plain": plain, "told": None, "from": entry.get("from", "outside")}
            self.hold(ball, told)
            self.balls[name] = ball
            self.loose.append(Strand([Piece(name, ball["length"])]))
            return
        if not news or of_offcut:
            raise Refused
        ball = self.balls[name]
        loose = self.strand_of(name) is not None
        turned = entry.get("from", ball["from"]) != ball["from"]
        measured = mass is not None or told is not None or plain and not ball["plain"]
        if not loose and (turned or measured) or measured and ball["offcut"]:
            raise Refused
        if mass is not None and any(w["grams"] > mass + self.step(w["grams"], mass) for w in self.weighed(name)):
            raise Refused
        ball["from"] = entry.get("from", ball["from"])
        if measured:
            self.tell_anew(name, ball["mass"] if mass is None else mass, told, plain)

    def tell_anew(self, name, mass, told, plain):
        """A ball is what was last said of it, by its band or on the scale, less what was taken from it since."""
        ball = self.balls[name]
        known = not self.untold(name) and (self.scale_tells(name) or not self.weighed(name))
        no_longer_dyed = plain and not ball["plain"]
        ball["plain"] = ball["plain"] or plain
        said = lambda: self.weighed(name)[-1]["left"] if self.weighed(name) else ball["length"]
        before = said()
        taken = []  # between one word and the next
        last = ball["length"]
        for w in self.weighed(name):
            taken.append(last - w["expected"])
            last = w["left"]
        ball["mass"] = mass
        self.hold(ball, told)
        last = ball["length"]
        for w, gone in zip(self.weighed(name), taken):
            w["expected"] = last - gone
            last = w["left"] = self.by_scale(name, w["grams"], w["expected"])
        far = self.far_piece(name)
        if far:
            far.length += said() - before
        if ball["plain"]:
            self.plain_told_anew += 1
            self.no_longer_dyed += no_longer_dyed
            without_length = told is None and no_longer_dyed
            weighed_in_vain = bool(self.weighed(name)) and not self.scale_tells(name)
            taken_unknown = far is not None and (far.ended or not known and abs(far.length - said()) > 1e-6)
            self.unlike_at_once |= without_length or weighed_in_vain or taken_unknown

    def weighed(self, name):
        return [w for w in self.weighings if w["ball"] == name]

    def scale_tells(self, name):
        """Of a plain ball only where its mass and its length were told."""
        ball = self.balls[name]
        return not ball["plain"] or bool(ball["mass"]) and ball["told"] is not None

    def by_scale(self, name, grams, expected):
        """What so many grams of the ball hold; as expected, where the scale doesn't tell."""
        ball = self.balls[name]
        if not self.scale_tells(name):
            return expected
        return ball["length"] * grams / ball["mass"] if ball["mass"] else self.whole(grams)

    def untold(self, name):
        return self.balls[name]["plain"] and self.balls[name]["told"] is None

    def step(self, *masses):
        """The coarser step of a scale by which masses are written, in tenths of a gram here."""
        return 1 if any(abs(m - round(m)) < 1e-4 for m in masses) else 0.1

    def begin(self, ball, trim):
        self.work = self.strand_of(ball)
        self.loose.remove(self.work)
        self.work.pieces[0].length -= trim

    def do_begin(self, entry):
        self.known(entry["ball"])
        if self.work:
            raise Refused
        self.first_trim, self.begun_with = self.told_length(entry, "trim_new"), entry["ball"]
        self.begin(entry["ball"], self.first_trim)
        self.keep(entry, "new", self.first_trim, "begin", entry["ball"])

    def do_weigh(self, entry):
        ball = entry["ball"]
        self.known(ball)
        far = self.far_piece(ball)
        if far is None:
            raise Refused
        if self.too_heavy(ball, self.grams(entry["mass"])):
            raise Refused
        if self.work is None and self.at and ball == self.dyed():
            self.begin(ball, 0)
        grams = self.grams(entry["mass"])
        expected = self.on_scale(ball, far)
        left = self.by_scale(ball, grams, expected)
        self.weighings.append(
            {"ball": ball, "grams": grams, "rips": self.rips, "expected": expected, "left": left, "ended": far.ended,
             "beyond": far.beyond}
        )
        far.length += left - expected
        far.beyond = False

    def on_scale(self, ball, far):
        """All of a ball's yarn that hangs together with its own end, from the hook on: of a knot both strands of it."""
        strand = next(s for s in [self.work, *self.loose] if s and s.pieces[-1] is far)
        first = strand.passed(self.used(self.at)) if strand is self.work else 0
        hangs = far.length
        k = len(strand.joins)
        while k > first and strand.pieces[k - 1].ball == ball:
            k -= 1
            hangs += strand.pieces[k].length + self.joins[strand.joins[k]]["allowance"]
        self.weighed_across += k < len(strand.joins)
        if strand is self.work and k == first:
            hangs -= max(0, self.used(self.at) - strand.reach(first))
        return hangs

    def too_heavy(self, name, grams):
        """Heavier than it was, though nothing was ravelled since."""
        since = [w["grams"] for w in self.weighed(name)][-1:]
        if since and self.weighed(name)[-1]["rips"] < self.rips or not since:
            since = [self.balls[name]["mass"]] if self.balls[name]["mass"] is not None else []
        return any(grams > before + self.step(grams, before) + 1e-9 for before in since)

    def do_swatch(self, entry):
        self.known(entry["ball"])
        far = self.far_piece(entry["ball"])
        if far is None:
            raise Refused
        length = self.told_length(entry, "length")
        far.length -= length
        self.swatched.append((entry["ball"], length))

    def left_alone(self, entry):
        return entry.get("knot", False) and not {"method", "allowance", "trim_old", "trim_new"} & set(entry)

    def allowance(self, entry, method):
        if "allowance" in entry:
            return self.told_length(entry, "allowance")
        if self.left_alone(entry):
            return 0
        if "allowance" in self.habit and self.habit.get("method", "threaded") == method:
            return self.told_length(self.habit, "allowance")
        if self.in_stitches:
            return METHODS[method]["counted"]
        return METHODS[method]["usual"] * (self.gauges[-1][1][0] if METHODS[method].get("stitches") else 1)

    def do_join(self, entry):
        ball, knot = entry["ball"], entry.get("knot", False)
        self.known(ball)
        alone = self.left_alone(entry)
        method = entry.get("method", "knotted" if alone else self.habit.get("method", "threaded"))
        join = {
            "new": ball, "knot": knot, "left": alone, "method": method, "held": "in-work",
            "allowance": self.allowance(entry, method),
            "trim_old": self.told_length(entry, "trim_old"), "trim_new": self.told_length(entry, "trim_new"),
            "shift": self.told_length(entry, "shift") if "shift" in entry else None,
        }
        if {"stitch", "at_least"} & set(entry) and "row" not in entry:
            raise Refused
        middle = self.place(entry["row"], entry.get("stitch")) if "row" in entry else self.at
        join.update(place=middle, seen=None, at_least=entry.get("at_least", False))
        at = max(filter(None, (self.at, middle)), default=None)
        where = self.used(middle)
        self.check_join(ball, knot, where, self.used(at))
        self.at = at
        if self.work is None:
            old = ball if knot else self.dyed()
            if not knot and old == ball:
                old = None
            if old is None:
                self.work = Strand([Piece(None, 0)])
            else:
                self.begin(old, 0)
        self.make_join(join, ball, where, self.used(at))
        for end in ("old", "new"):
            self.keep(entry, end, join["trim_" + end], "knots" if knot else "step", join[end])

    def check_join(self, ball, knot, where, worked):
        fresh = self.strand_of(ball)
        if self.work is None:
            if fresh is None:
                raise Refused
            return
        passed = self.work.passed(worked)
        current = self.work.pieces[passed].ball
        if knot:
            if current != ball:
                raise Refused
        elif fresh is None:
            ahead = self.work.pieces[passed + 1].ball if passed < len(self.work.joins) else None
            if current == ball or ahead != ball:
                raise Refused
        if passed and where + HAIR < self.work.reach(passed):
            raise Refused

    def make_join(self, join, ball, where, worked):
        passed = self.work.passed(worked)
        if passed < len(self.work.joins):
            ahead = self.joins[self.work.joins[passed]]
            self.part(passed, "cut-out", -ahead["allowance"] / 2)
        old = self.work.pieces[-1]
        join["old"] = old.ball or ""
        half = join["allowance"] / 2
        fresh = self.strand_of(ball)
        if fresh is None:
            rest = self.work.reach(len(self.work.pieces)) - where - join["trim_old"] - half
            fresh = Strand([Piece(ball, rest, old.part + 1, old.ended)])
        else:
            self.loose.remove(fresh)
        cut = join["trim_new"] + half
        while fresh.joins and cut >= fresh.pieces[0].length:
            cut -= fresh.pieces[0].length
            self.joins[fresh.joins[0]]["held"] = "cut-out"
            fresh = fresh.split(0)
        fresh.pieces[0].length -= cut
        if not join["knot"]:
            old.beyond = self.is_beyond(join, old, where)
        old.length, old.ended = where - self.work.reach(len(self.work.pieces) - 1), True
        self.work.joins += [len(self.joins)] + fresh.joins
        self.work.pieces += fresh.pieces
        self.joins.append(join)

    def is_beyond(self, join, old, where):
        """More than half a ball further than the old one reaches, which did not begin "there or later"."""
        if old.ball is None or self.untold(old.ball):
            return False
        later = any(j["new"] == old.ball and j["at_least"] and not j["knot"]
                    and j["held"] in ("in-work", "ahead") for j in self.joins)
        over = where + join["trim_old"] + join["allowance"] / 2 - self.work.reach(len(self.work.pieces))
        whole = max(self.balls[old.ball]["length"], self.whole(None))
        return not later and over > whole / 2

    # The state

    def tell_balls(self):
        rank = ["used-up", "ahead", "fresh", "working"]
        self.overdrawn = self.may_be_overdrawn = 0
        told = {name: ["used-up", 0] for name in self.balls}

        def count(piece, left, use):
            if piece.ball is not None:
                ball = told[piece.ball]
                ball[0] = max(ball[0], use, key=rank.index)
                ball[1] += max(0, left)

        if self.work:
            worked = self.used(self.at)
            passed = self.work.passed(worked)
            start = self.work.reach(passed)
            rest = start + self.work.pieces[passed].length - max(start, worked)
            count(self.work.pieces[passed], rest, "working")
            working = self.work.pieces[passed].ball
            if working is not None:
                # Nothing is told of an end that is not known.
                self.overdrawn = 0 if self.work.pieces[passed].beyond else max(0, -rest)
                # A share of who knows what can't be allowed.
                self.may_be_overdrawn = 0 if self.untold(working) else 0.05 * self.balls[working]["length"]
            for piece in self.work.pieces[passed + 1 :]:
                count(piece, piece.length, "ahead")
        for strand in self.loose:
            for k, piece in enumerate(strand.pieces):
                count(piece, piece.length, "ahead" if k else "fresh")
        # What ended at a join is known; not what lies at the far end of who knows how much.
        far = {name: self.far_piece(name) for name in told if self.untold(name)}
        unknown = {name for name, piece in far.items() if piece and not piece.ended}
        hanging = [p for strand in self.loose for p in strand.pieces]
        hanging += self.work.pieces[self.work.passed(self.used(self.at)) :] if self.work else []
        unknown |= {piece.ball for piece in hanging if piece.beyond}
        return [[name, use, None if name in unknown else left] for name, (use, left) in told.items()]

    def tell_joins(self):
        running, shifts, places = 0, {}, {}
        if self.work:
            passed = self.work.passed(self.used(self.at))
            all_at = [self.work.reach(k + 1) for k in range(passed)]
            for k, index in enumerate(self.work.joins):
                join = self.joins[index]
                join["held"] = "in-work" if k < passed else "ahead"
                places[index] = self.work.reach(k + 1)
                if k >= passed:
                    continue
                shift = self.shift(join, places[index], all_at)
                if running is not None:
                    running = None if shift is None else running + shift
                if running is not None and abs(running) > self.repeat / 2:
                    running -= self.repeat * math.ceil(running / self.repeat - 0.5)
                shifts[index] = running
        for strand in self.loose:
            for index in strand.joins:
                self.joins[index]["held"] = "ahead"
        told = [[j["old"], j["new"], j["held"], places.get(i), shifts.get(i)] for i, j in enumerate(self.joins)]
        return told, running

    def tell_weighings(self):
        told = []
        for w in self.weighings:
            unknown = w["beyond"] or self.untold(w["ball"]) and not w["ended"]
            expected = None if unknown else w["expected"]
            told.append([w["ball"], expected, w["left"] if self.scale_tells(w["ball"]) else None])
        return told

    def swatched_while_dyed(self):
        """Whether a swatch was made of a ball that was told to be plain only later: counted while it was still dyed."""
        return self.no_longer_dyed and any(length and self.balls[ball]["plain"] for ball, length in self.swatched)

    def state(self):
        if self.work is None and self.at and self.dyed():
            self.begin(self.dyed(), 0)
        balls = self.tell_balls()
        joins, running = self.tell_joins()
        plain = {name for name, ball in self.balls.items() if ball["plain"]}
        trims = [sum(j["trim_" + end] for end in ("old", "new") if j[end] not in plain) for j in self.joins]
        dyed = [sum(j[end] not in plain for end in ("old", "new")) / 2 for j in self.joins]
        taken = [0 if j["held"] == "apart" else j["allowance"] * share for j, share in zip(self.joins, dyed)]
        knots = [j["knot"] for j in self.joins]
        cut_off = [o for o in self.offcuts.values() if o["of"] not in plain]
        back = {cause: sum(o["used"] for o in cut_off if o["cause"] == cause) for cause in ("begin", "step", "knots")}
        first_trim = 0 if self.begun_with in plain else self.first_trim
        discard = first_trim + sum(trims) - sum(back.values())
        swatches = sum(length for name, length in self.swatched if name not in plain)
        waste = discard + sum(taken) + swatches
        bought = sum(b["length"] for b in self.balls.values() if not b["offcut"] and not b["plain"])
        each = [b[2] for b in balls if b[0] not in plain]
        left = None if None in each else sum(each)
        w, v = self.gauges[-1][1]
        row = self.stitches * w + v
        enough = needed = None
        if self.planned:
            need = self.foundation + self.planned * row
            if self.at:
                need = max(0, self.between(self.at, (self.planned, self.stitches), (w, v)))
            needed = need + self.edging
            # Where far more was worked from a ball than it held, a join is missing, and nothing can be said.
            if left is not None and self.overdrawn <= self.may_be_overdrawn:
                enough = left + 1e-9 >= need + self.edging
        return {
            "skipped": sorted(self.skipped), "at": list(self.at) if self.at else None, "used": self.used(self.at),
            "joins_counted": sum(j["held"] in ("in-work", "ahead") and not j["left"] for j in self.joins),
            "knots_left": sum(j["held"] in ("in-work", "ahead") and j["left"] for j in self.joins),
            "discard": discard, "allowance": sum(taken), "waste": waste, "running_shift": running,
            "begin": first_trim - back["begin"],
            "step": sum(t for t, k in zip(trims, knots) if not k) - back["step"],
            "joining": sum(t for t, k in zip(taken, knots) if not k),
            "knots": sum(t + a for t, a, k in zip(trims, taken, knots) if k) - back["knots"], "swatches": swatches,
            "waste_mass": waste / self.by_now(self.band["length"]) * self.grams(self.band["mass"]),
            "waste_share": waste / bought if bought else None,
            "left": left,
            "rows": None if left is None else math.floor(
                max(0, left - (0 if self.at else self.foundation)) / row + 1e-9),
            "enough": enough, "needed": needed, "weighings": self.tell_weighings(), "balls": balls, "joins": joins,
            "offcuts": [[n, end, o["length"], o["use"], o["used"]] for (n, end), o in self.offcuts.items()],
            "offcuts_used": sum(o["used"] for o in cut_off if o["use"] == "used-up"),
        }


def fold_file(path):
    with open(path, "rb") as file:
        return Fold(yaml.load(file, LOADER))
