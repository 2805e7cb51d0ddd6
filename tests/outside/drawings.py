"""Reads the true-size SVG drawings: lines and paths by group, in millimetres."""
import re
import xml.etree.ElementTree as ElementTree
from fractions import Fraction

SVG = "{http://www.w3.org/2000/svg}"


class Drawing:
    def __init__(self, path):
        root = ElementTree.parse(path).getroot()
        self.title = root.findtext(SVG + "title")
        self.width, self.height = (Fraction(root.get(side).removesuffix("mm")) for side in ("width", "height"))
        self.view_box = [Fraction(value) for value in root.get("viewBox").split()]
        self.groups = {group.get("id"): group for group in root.findall(SVG + "g")}

    def lines(self, group):
        """(x1, y1, x2, y2) of each line of a group."""
        found = self.groups[group].findall(SVG + "line") if group in self.groups else []
        return [tuple(Fraction(line.get(end)) for end in ("x1", "y1", "x2", "y2")) for line in found]

    def rectangles(self, group):
        found = self.groups[group].findall(SVG + "rect")
        return [tuple(Fraction(box.get(side)) for side in ("x", "y", "width", "height")) for box in found]

    def paths(self, group):
        return [path.get("d") for path in self.groups[group].findall(SVG + "path")]


def commands(path):
    """(letter, numbers) of each command of SVG path data."""
    for letter, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        yield letter, [Fraction(value) for value in re.findall(r"-?\d*\.?\d+", numbers)]


def points(path, steps=16):
    """Points along a path of absolute moves, lines and cubic curves, enough to find its bounds."""
    here = start = (Fraction(0), Fraction(0))
    for letter, numbers in commands(path):
        pairs = list(zip(numbers[::2], numbers[1::2]))
        if letter in "ML":
            yield from pairs
            here = pairs[-1]
            start = pairs[0] if letter == "M" else start
        elif letter == "C":
            for first in range(0, len(pairs), 3):
                yield from curve(here, *pairs[first:first + 3], steps)
                here = pairs[first + 2]
        elif letter == "Z":
            here = start
        else:
            raise ValueError(f"command {letter} is not known to this reader")


def curve(start, first, second, end, steps):
    """A cubic curve of Bezier by its Bernstein polynomials."""
    for step in range(1, steps + 1):
        t = Fraction(step, steps)
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3)
        yield tuple(sum(w * p[axis] for w, p in zip(weights, (start, first, second, end))) for axis in (0, 1))


def bounds(path):
    """Left, top, right, bottom."""
    across, down = zip(*points(path))
    return min(across), min(down), max(across), max(down)
