"""Opens the pages that the program makes as a person would: on a telephone, a tablet, a desk, in light and dark, and on
paper.

    check.py build/ballchange              fails where a page can't be read as it should
    check.py build/ballchange --keep DIR   leaves the pages, pictures of them and PDFs there, to be looked at

Contrast: WCAG 2.2, 1.4.3, 4.5:1 for text. Paper: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in.
Needs Chromium and poppler-utils; without them it says so and is left out, but fails where CI is set.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import chromium

REPO = pathlib.Path(__file__).resolve().parents[2]
WIDTHS = [360, 768, 1280]
PAPERS = {"a4": (210 / 25.4, 297 / 25.4), "letter": (8.5, 11)}
DOTS = 300  # an inch
TOLERANCE_MM = 0.2
# Ball changes with little room: (yarn, old reading, new reading, more options). Dry fits that reach to the left of an
# overlap near the right edge, colours too short for their names beside what comes off, a hook in it, what is left out.
STRANDS = [
    ("orchard", "navy 56.2 cm, moss 14 cm, rust 80 cm", "grey 7.3 cm, plum 92 cm, sand 11 cm", ()),
    ("orchard", "rust 30 cm, sand 11 cm, plum", "plum 15 cm, sand 11 cm, rust 30 cm", ("--method", "felted")),
    ("orchard", "rust 40 cm, sand 11 cm, plum 60 cm, hook", "plum 15 cm, sand 11 cm, rust 30 cm", ("--sparing",)),
    ("farfurrow", "loam 10m, bramble 9m, skyline 75cm", "hedge 5m, skyline 0.75m, bramble 3m", ()),
    ("farfurrow", "barley 347.8 cm, loam", "loam 5341.5 cm, barley 440.5 cm, hedge", ()),
    ("rookwalk", "soot 26.2 cm, madder 21 cm", "cream 4.2 cm, teal 23 cm, cream 15 cm", ("--sparing",)),
    ("rookwalk", "cream 6.1 cm, madder 29.6 cm, soot, hook", "cream 7.6 cm, teal 41.6 cm, soot 10.1 cm, madder", ()),
    ("slowdusk", "mist 20 cm, midnight, dusk, tide 49 cm, denim 40 cm, hook", "haze 40 cm, dove", ()),
    ("slowdusk", "tide 25.8 cm, denim 42.7 cm, steel 50.5 cm, rain 8.5 cm", "haze 28.6 cm, dove 12.5 cm", ()),
    ("tallyrow", "indigo 6.9 st, pine 13.0 st, brick 24.0 st, ecru 4.4 st", "ecru 5.8 st, ochre 29.5 st, ecru", ()),
    ("thumbrope", "frost 36.6 cm, lichen 219.6 cm, bark 144.1 cm, hook",
     "ember 118.7 cm, bark 175 cm, lichen 223.9 cm, frost 30.9 cm", ()),
    ("gatepost", "fern 28.0 cm, straw 5.5 cm, hook", "slate 6.5 cm, umber 85.5 cm, slate 9.8 cm", ()),
]
HOSTILE = "</title><script>alert(1)</script> \"a\" 'b' &amp; {x}"

# Runs in the debugger: what a reader could not read, or not find.
SEEN = r"""
(() => {
  const faults = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth)
    faults.push(`scrolls sideways: ${root.scrollWidth} px on ${root.clientWidth}`);
  if (document.querySelectorAll('h1').length !== 1) faults.push('not one h1');
  let level = 0;
  for (const head of document.querySelectorAll('h1,h2,h3,h4,h5,h6')) {
    const own = Number(head.tagName[1]);
    if (own > level + 1) faults.push(`heading skips a level: ${head.textContent}`);
    level = own;
  }
  if (root.lang !== 'en' || !document.title.trim()) faults.push('no language or no title');
  if (document.querySelector('script,iframe,object,embed,link,form,base')) faults.push('holds what a page must not');
  for (const element of document.querySelectorAll('*')) {
    for (const attribute of element.attributes) {
      if (attribute.name.startsWith('on')) faults.push(`runs a script: ${attribute.name}`);
      const outside = ['href', 'src', 'srcset', 'action'].includes(attribute.name);
      if (outside && !attribute.value.startsWith('#')) faults.push(`leads outside: ${attribute.value}`);
    }
  }
  const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
  if (new Set(ids).size !== ids.length) faults.push('an id twice');
  for (const picture of document.querySelectorAll('body svg, body img')) {
    const told = (picture.getAttribute('aria-labelledby') || '').split(' ').map(id => document.getElementById(id));
    const words = picture.getAttribute('alt') || told.map(e => e ? e.textContent.trim() : '').join('');
    if (picture.getAttribute('role') !== 'img' || !words || told.some(e => !e || !e.textContent.trim()))
      faults.push('a picture without words');
  }
  for (const table of document.querySelectorAll('table'))
    if (table.querySelector('th:not([scope])') || !table.querySelector('th')) faults.push('a table head of nothing');

  const channels = colour => (colour.match(/[\d.]+/g) || []).map(Number);
  const luminance = ([r, g, b]) => [r, g, b].map(c => c / 255)
    .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
    .reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const ratio = (a, b) => {
    const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
    return (x + 0.05) / (y + 0.05);
  };
  const ground = element => {
    for (let e = element; e; e = e.parentElement) {
      const colour = channels(getComputedStyle(e).backgroundColor);
      if (colour.length && (colour.length < 4 || colour[3] > 0)) return colour;
    }
    return [255, 255, 255];
  };
  // Words in a picture lie on their own outline, on the last box drawn below them, or on the ground of the page.
  const inPicture = text => {
    const style = getComputedStyle(text);
    const own = channels(style.fill);
    if (style.stroke !== 'none') return [own, channels(style.stroke)];
    const at = text.getBoundingClientRect();
    const [x, y] = [(at.left + at.right) / 2, (at.top + at.bottom) / 2];
    let below = ground(text.ownerSVGElement);
    for (const box of text.ownerSVGElement.querySelectorAll('rect')) {
      if (box.closest('defs') || !(box.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) continue;
      const edge = box.getBoundingClientRect();
      if (x < edge.left || x > edge.right || y < edge.top || y > edge.bottom) continue;
      const filled = getComputedStyle(box);
      if (Number(filled.fillOpacity) < 0.9 || Number(filled.opacity) < 0.9) continue;
      const pattern = /^url\(["']?#(.*?)["']?\)/.exec(filled.fill);
      const swatch = pattern ? document.getElementById(pattern[1]).querySelector('rect') : box;
      const colour = swatch ? channels(getComputedStyle(swatch).fill) : [];
      if (colour.length >= 3 && (colour.length < 4 || colour[3] > 0.9)) below = colour;
    }
    return [own, below];
  };
  let texts = 0;
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    if (!walker.currentNode.textContent.trim() || ['title', 'desc', 'style'].includes(element.tagName)) continue;
    const svg = element.closest('svg');
    if (svg && element.closest('title,desc,defs')) continue;
    const [ink, paper] = svg ? inPicture(element.closest('text')) : [channels(getComputedStyle(element).color),
                                                                     ground(element)];
    ++texts;
    if (ratio(ink, paper) < 4.5)
      faults.push(`contrast ${ratio(ink, paper).toFixed(2)}: ${walker.currentNode.textContent.trim().slice(0, 40)}`);
  }
  if (texts < 20) faults.push('hardly a word on it');
  return faults;
})()
"""

# The smallest letters of the pictures, in px; figures that are wider than the screen scroll by themselves.
LETTERS = r"""
Math.min(...[...document.querySelectorAll('svg text')].filter(e => !e.closest('defs'))
  .map(e => parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a))
"""
LEAST_LETTERS = 9

# Words of a picture that an upright line crosses, or other words.
STRUCK = r"""
(() => {
  const faults = [];
  for (const picture of document.querySelectorAll('svg')) {
    const drawn = kind => [...picture.querySelectorAll(kind)].filter(e => !e.closest('defs'))
      .map(e => [e, e.getBoundingClientRect()]);
    const texts = drawn('text').filter(([, box]) => box.width > 0);
    const upright = drawn('line,path').filter(([, box]) => box.width < 1.2);
    texts.forEach(([text, box], i) => {
      for (const [, line] of upright) {
        const x = (line.left + line.right) / 2;
        const along = Math.min(box.bottom - 2, line.bottom) - Math.max(box.top + 3, line.top);
        if (x > box.left + 1.5 && x < box.right - 1.5 && along > 3) faults.push(`struck: ${text.textContent}`);
      }
      for (const [other, its] of texts.slice(i + 1)) {
        const across = Math.min(box.right, its.right) - Math.max(box.left, its.left);
        const down = Math.min(box.bottom, its.bottom) - Math.max(box.top, its.top);
        if (across > 1.5 && down > 2) faults.push(`one over the other: ${text.textContent}, ${other.textContent}`);
      }
    });
  }
  return faults;
})()
"""

WORDS = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>')
MM = 25.4 / 72  # a point


def words_of(pdf):
    """Of each page, its words with their boxes in mm: (left, top, right, bottom, word)."""
    text = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, check=True, text=True).stdout
    return [[(*(float(n) * MM for n in found[:4]), found[4]) for found in WORDS.findall(page)]
            for page in text.split("<page ")[1:]]


def raster(pdf, page):
    """Width and the grey rows of one page."""
    out = subprocess.run(["pdftoppm", "-r", str(DOTS), "-gray", "-f", str(page), "-l", str(page), pdf],
                         capture_output=True, check=True).stdout
    _, size, _, dots = out.split(b"\n", 3)
    width, height = map(int, size.split())
    return width, [dots[row * width:(row + 1) * width] for row in range(height)]


def bars(width, rows, top, bottom):
    """Where, in mm, upright lines cross all of that height: the middle of each."""
    dot = 25.4 / DOTS
    band = rows[round(top / dot):round(bottom / dot)]
    dark = [all(row[x] < 128 for row in band) for x in range(width)]
    found, x = [], 0
    while x < width:
        start = x
        while x < width and dark[x]:
            x += 1
        if x > start:
            found.append((start + x) / 2 * dot)
        x += 1
    return found


def check_line(pdf, pages, expected, words):
    """The line left of the words "must be 10 cm", which no full stop follows, is that long."""
    said = ["must", "be", "10", "cm"] if expected == 100 else ["must", "be", "4", "in"]
    for number, page in enumerate(pages, 1):
        at = [page[i] for i in range(len(page)) if [w[4] for w in page[i:i + 4]] == said]
        if not at:
            continue
        left, top, _, bottom, _ = at[0]
        middle = (top + bottom) / 2
        ends = [x for x in bars(*raster(pdf, number), middle - 1.4, middle - 0.8) if x < left]
        if len(ends) != 2:
            return [f"{words}: no check line found"]
        long = ends[1] - ends[0]
        print(f"{words}: check line {long:.2f} mm")
        return [] if abs(long - expected) <= TOLERANCE_MM else [f"{words}: the check line is {long:.2f} mm"]
    return [f"{words}: no check line"]


def strips(pages, step_mm, numbers, words):
    """On every strip's upper ruler two numbers in a row lie as far apart as they say."""
    faults, found = [], 0
    for page in pages:
        for first, second in numbers:
            for left in (w for w in page if w[4] == first):
                for right in (w for w in page if w[4] == second and abs(w[1] - left[1]) < 0.05 and w[0] > left[0]):
                    apart = (right[0] + right[2] - left[0] - left[2]) / 2
                    if apart > 1.5 * step_mm:
                        continue
                    found += 1
                    if abs(apart - step_mm) > TOLERANCE_MM:
                        faults.append(f"{words}: {first} and {second} are {apart:.2f} mm apart")
    print(f"{words}: {found} stretches of the rulers measured")
    return faults if found >= 3 else [*faults, f"{words}: no ruler found"]


def made(program, folder):
    """The pages to look at: name, and what its strips are measured by."""
    def run(*arguments):
        subprocess.run([program, *arguments], cwd=folder, check=True, capture_output=True, timeout=60)

    shutil.copy(REPO / "profiles/orchard.yaml", folder)
    shutil.copy(REPO / "demo/seawall-wrap.yaml", folder)
    text = (REPO / "demo/seawall-wrap.yaml").read_text(encoding="utf-8")
    quoted = HOSTILE.replace('"', '\\"')
    hostile = re.sub(r"^name: .*$", lambda _: f'name: "{quoted}"', text, count=1, flags=re.M)
    (folder / "hostile.yaml").write_text(hostile, encoding="utf-8")
    run("note", "hostile.yaml", "<img src=x onerror=alert(2)> " + "long" * 40)
    run("ball", "hostile.yaml", "--ball", "<b>\"F\"</b>", "--dye-lot", "'><script>", "--mass", "100g")
    run("card", "--yarn", "orchard.yaml", "--method", "felted", "--yarn-per-stitch", "1.85cm", "--out", "card.html")
    run("card", "seawall-wrap.yaml", "--units", "in", "--out", "inches.html")
    run("card", "hostile.yaml", "--out", "hostile-card.html")
    run("report", "seawall-wrap.yaml", "--out", "report.html")
    run("report", "hostile.yaml", "--out", "hostile-report.html")
    run("start", "bare.yaml", "--yarn", "orchard.yaml")
    run("report", "bare.yaml", "--out", "bare-report.html")
    return {"card": (100, 100, [("0", "10"), ("5", "15"), ("20", "30"), ("35", "45")]),
            "inches": (101.6, 101.6, [("0", "4"), ("2", "6"), ("8", "12")]),
            "hostile-card": (100, 100, [("0", "10"), ("5", "15"), ("20", "30"), ("35", "45")]),
            "report": None, "hostile-report": None, "bare-report": None}


def look(browser, folder, name):
    faults = []
    path = folder / f"{name}.html"
    for width in WIDTHS:
        for scheme in ("light", "dark"):
            browser.open(path, width, scheme)
            words = f"{name}, {width} px, {scheme}"
            letters = browser.evaluate(LETTERS)
            if name.endswith("report") and letters < LEAST_LETTERS - 0.01:
                faults.append(f"{words}: letters of {letters:.1f} px in a picture")
            faults += [f"{words}: {fault}" for fault in browser.evaluate(SEEN)]
            faults += [f"{words}: the console says {said}" for said in browser.messages]
            faults += [f"{words}: asks for {url}" for url in browser.requests if url != path.resolve().as_uri()]
            if name in ("card", "report", "hostile-report"):
                browser.screenshot(folder / f"{name}-{width}-{scheme}.png")
    return faults


def drawn(program, folder):
    """The repeat of every shipped yarn as ring and as bar, in centimetres and in inches; ball changes of some."""
    pictures = []
    for profile in sorted((REPO / "profiles").glob("*.yaml")):
        for shape in ([], ["--bar"]):
            for unit in ("cm", "in"):
                out = folder / f"{profile.stem}-{'bar' if shape else 'ring'}-{unit}.svg"
                subprocess.run([program, "draw", "repeat", "--yarn", profile, *shape, "--units", unit, "--out", out],
                               check=True, capture_output=True, timeout=60)
                pictures.append(out)
    return pictures + strands_drawn(program, folder)


def strands_drawn(program, folder):
    """Both strands of the ball changes above, in centimetres and in inches."""
    pictures = []
    for number, (yarn, old, new, more) in enumerate(STRANDS):
        for unit in ("cm", "in"):
            out = folder / f"strands-{number}-{yarn}-{unit}.svg"
            subprocess.run([program, "draw", "strands", "--yarn", REPO / f"profiles/{yarn}.yaml", "--old", old,
                            "--new", new, *more, "--units", unit, "--no-ask", "--out", out],
                           check=True, capture_output=True, timeout=60)
            pictures.append(out)
    return pictures


def readable(browser, path):
    browser.open(path, 1280)
    return [f"{path.name}: {fault}" for fault in browser.evaluate(STRUCK)]


def print_out(browser, folder, name, measured):
    faults = []
    browser.open(folder / f"{name}.html", 1280)
    for paper, (width, height) in PAPERS.items():
        pdf = folder / f"{name}-{paper}.pdf"
        browser.print(pdf, width, height)
        pages = words_of(pdf)
        words = f"{name} on {paper}"
        for page in pages:
            over = [w[4] for w in page if w[0] < 10 or w[2] > width * 25.4 - 10]
            if over:
                faults.append(f"{words}: runs off the paper: {over[:3]}")
        if any(not page for page in pages):
            faults.append(f"{words}: an empty page")
        if measured:
            line, step, numbers = measured
            faults += check_line(pdf, pages, line, words) + strips(pages, step, numbers, words)
    return faults


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    missing = [name for name in ("pdftotext", "pdftoppm") if not shutil.which(name)]
    if chromium.program() is None:
        missing.append("chromium")
    if missing:
        print(f"NOT LOOKED AT: {', '.join(missing)} missing; put in place by tests/packages tests")
        return 1 if os.environ.get("CI") else 77
    keep = pathlib.Path(sys.argv[3]) if sys.argv[2:3] == ["--keep"] else None
    with tempfile.TemporaryDirectory() as temporary:
        folder = keep or pathlib.Path(temporary)
        folder.mkdir(parents=True, exist_ok=True)
        pages = made(program, folder)
        faults = []
        with chromium.Browser() as browser:
            for name, measured in pages.items():
                faults += look(browser, folder, name)
                faults += print_out(browser, folder, name, measured)
                faults += readable(browser, folder / f"{name}.html")
            pictures = drawn(program, folder)
            for picture in pictures:
                faults += readable(browser, picture)
    print("\n".join(faults) or f"{len(pages)} pages, {len(WIDTHS)} widths, light and dark, {len(PAPERS)} papers: "
                               f"as they should be; {len(pictures)} pictures with no word struck")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
