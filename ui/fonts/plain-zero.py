"""Makes zero-400.ttf, zero-600.ttf and zero-700.ttf: Atkinson Hyperlegible Next's zero without its slash.

The slash keeps 0 and O apart, which no dial needs; blurred at arm's length it makes 80 read as 88.
Run by hand when the font is upgraded: `pip install fonttools && python3 fonts/plain-zero.py` in ui/.
The font's licence (SIL OFL 1.1, no reserved name) asks that the changed font stays under it: see OFL.txt.
"""

from pathlib import Path

from fontTools.pens.basePen import BasePen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
SOURCE = HERE.parent / "node_modules/@expo-google-fonts/atkinson-hyperlegible-next"
FACES = {400: "400Regular", 600: "600SemiBold", 700: "700Bold"}
STEPS = 12


class Flattener(BasePen):
    """Turns every contour into points, STEPS of them a curve."""

    def __init__(self, glyphs):
        super().__init__(glyphs)
        self.contours = []

    def _moveTo(self, point):
        self.contours.append([point])

    def _lineTo(self, point):
        self.contours[-1].append(point)

    def _qCurveToOne(self, control, end):
        start = self.contours[-1][-1]
        for step in range(1, STEPS + 1):
            t = step / STEPS
            self.contours[-1].append(
                tuple((1 - t) ** 2 * s + 2 * t * (1 - t) * c + t * t * e for s, c, e in zip(start, control, end))
            )


def hull(points):
    """Convex hull, clockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    half = lambda some: [p for p in chain(some)][:-1]
    return (half(ordered) + half(reversed(ordered)))[::-1]


def chain(points):
    kept = []
    for point in points:
        while len(kept) > 1 and cross(kept[-2], kept[-1], point) <= 0:
            kept.pop()
        kept.append(point)
    return kept


def cross(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def area(points):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))) / 2


def without_slash(font, name):
    glyphs = font.getGlyphSet()
    flat = Flattener(glyphs)
    glyphs[name].draw(flat)
    outer, *counters = sorted(flat.contours, key=area, reverse=True)
    if len(counters) != 2:
        raise SystemExit(f"{name}: expected two counters beside a slash, found {len(counters)}")
    pen = TTGlyphPen(glyphs)
    draw(pen, hull(outer))
    draw(pen, hull(mirrored(counters[0] + counters[1], middle(outer)))[::-1])
    return pen.glyph()


def middle(points):
    across = [x for x, _ in points]
    return (min(across) + max(across)) / 2


def mirrored(points, axis):
    """Each half lends the other the curve that the slash cut off."""
    return points + [(2 * axis - x, y) for x, y in points]


def draw(pen, points):
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    pen.closePath()


def make(weight, face):
    font = TTFont(next((SOURCE / face).glob("*.ttf")))
    # The tabular zero is this one moved: it follows by itself.
    font["glyf"]["zero"] = without_slash(font, "zero")
    options = Options(layout_features=["tnum", "pnum"], name_IDs=[0, 13, 14], hinting=False)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[ord("0")])
    subsetter.subset(font)
    font["name"].setName("Holdfast Zero", 1, 3, 1, 0x409)
    font["name"].setName("Holdfast Zero", 4, 3, 1, 0x409)
    font.save(HERE / f"zero-{weight}.ttf")


for weight, face in FACES.items():
    make(weight, face)
