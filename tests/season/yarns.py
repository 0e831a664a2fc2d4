"""The yarn of a project, as its dyer meant it: one of the shipped profiles, or an invented one. Lengths in cm."""

from dataclasses import dataclass

import yaml

COLOURS = {"clay": "#8d5a3b", "fern": "#5f8046", "slate": "#56616b", "straw": "#d3b667", "beet": "#6e1f3a",
           "mint": "#a5d6b7", "coal": "#26262b", "peach": "#f0b48a", "lake": "#1d5f8c", "chalk": "#e8e4d8",
           "rose": "#c8607d", "olive": "#6b6a2d", "violet": "#64468f", "amber": "#d98b1f"}
# Farfurrow's sections are longer than anybody measures, Tallyrow's are in stitches, Deckplank's are no repeat.
SHIPPED = ["orchard", "quickstile", "gatepost", "rookwalk", "slowdusk", "thumbrope"]


@dataclass
class Yarn:
    names: list
    lengths: list
    spreads: list  # one standard deviation, section by section
    stretch: float  # one standard deviation of a ball's factor
    ball_length: float
    ball_mass: float  # g
    felts: bool

    def __post_init__(self):
        self.total = sum(self.lengths)
        self.mirror = self._mirror()

    def _mirror(self):
        """Section k read from the other end is section mirror - k, where that is the same yarn exactly; or None."""
        count = len(self.names)
        for turned in range(count):
            if all(self.names[k] == self.names[turned - k] and self.lengths[k] == self.lengths[turned - k]
                   for k in range(count)):
                return turned
        return None

    def between(self, first, last, way):
        """From where section `first` starts to where `last` ends, working `way` (+1 or -1) round the repeat."""
        length, k = self.lengths[first], first
        while k != last:
            k = (k + way) % len(self.lengths)
            length += self.lengths[k]
        return length

    def profile(self):
        repeat = [{"colour": n, "shade": COLOURS[n], "length": f"{l:g} cm", "plus_minus": f"{s:g} cm"}
                  for n, l, s in zip(self.names, self.lengths, self.spreads)]
        return yaml.safe_dump({"format": "ballchange yarn 1", "name": "Invented", "felts": self.felts,
                               "ball": {"mass": f"{self.ball_mass:g} g", "length": f"{self.ball_length / 100:g} m"},
                               "ball_plus_minus": f"{100 * self.stretch:g} %", "repeat": repeat}, sort_keys=False)


def _number(text, units):
    number, unit = text.split()
    return float(number) * units[unit]


def shipped(path):
    profile = yaml.safe_load(path.read_text())
    cm = {"cm": 1.0, "m": 100.0}
    lengths = [_number(s["length"], cm) for s in profile["repeat"]]
    return Yarn([s["colour"] for s in profile["repeat"]], lengths,
                [_number(s["plus_minus"], cm) for s in profile["repeat"]],
                _number(profile.get("ball_plus_minus", "2 %"), {"%": 0.01}), _number(profile["ball"]["length"], cm),
                _number(profile["ball"]["mass"], {"g": 1.0}), profile.get("felts", False))


def invented(rng):
    """Three to nine sections, long ones and splashes mixed; at times one colour comes back."""
    count = int(rng.integers(3, 10))
    names = [str(name) for name in rng.permutation(list(COLOURS))[:count]]
    lengths = [float(round(rng.uniform(4, 15) if rng.random() < 0.35 else rng.uniform(18, 110))) for _ in names]
    if max(lengths) < 18:
        lengths[0] = 60.0
    # Three other colours that come once each tell which way the yarn runs.
    if count >= 6 and rng.random() < 0.4:
        names[3] = names[0]
    spreads = [round(0.4 + rng.uniform(0.03, 0.08) * length, 1) for length in lengths]
    return Yarn(names, lengths, spreads, float(rng.choice([0.01, 0.02, 0.03])), float(rng.integers(60, 400)) * 100,
                float(rng.choice([50, 100])), bool(rng.random() < 0.5))
