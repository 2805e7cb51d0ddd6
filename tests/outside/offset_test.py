"""Mats round shaped layers, against a geometry library that shares no code with the program (GEOS, through shapely)."""
import os
import subprocess
import tempfile
import unittest
from pathlib import Path

try:
    from shapely.geometry import Polygon
except ImportError:  # another python3 than Debian's, before it on the path
    Polygon = None

from drawings import Drawing, points

SHAPES = {
    "star": 'shape="star" points="5" depth="12" size="60 x 60"',
    "oval": 'shape="oval" size="70 x 44"',
    "banner": 'shape="banner" depth="14" size="30 x 80"',
    "scalloped": 'shape="scalloped" radius="4" size="60 x 40"',
    "polygon": 'shape="polygon" points="6" size="50 x 44"',
}
OFFSETS = ("2", "4.5")
# Millimetres. The program's curves and ours are both drawn of short lines.
HAIR = 0.02

PROJECT = """<project xmlns="urn:leafwright:project" version="1" id="mats" title="Mats" units="mm">
  <supplies>
    <stock id="paper" name="Paper" weight="216 gsm" sheet="A4"/>
    <adhesive id="tape" name="Tape" kind="tape" length="9000" width="6"/>
  </supplies>
  <card id="card" title="Card" form="top-fold" size="C6" minutes="10">
    <base stock="paper"/>
    <panel id="mat" stock="paper" on="front" outline-of="label" offset="{offset}" at="centre"/>
    <panel id="label" stock="paper" on="mat" {shape} at="centre"/>
  </card>
</project>
"""


def outlines(shape, offset):
    """The two outlines as the program's true-size drawings show them, the mat first."""
    with tempfile.TemporaryDirectory() as folder:
        project = Path(folder) / "project.xml"
        project.write_text(PROJECT.format(shape=shape, offset=offset), encoding="utf-8")
        subprocess.run([os.environ["OUTSIDE_PROGRAM"], "cutting-plan", str(project), "-o", folder, "--quiet"], check=True,
                       capture_output=True)
        found = {}
        for file in sorted(Path(folder).rglob("*.svg")):
            drawing = Drawing(file)
            for name in ("mat", "label"):
                if name in file.stem:
                    found[name] = Polygon([tuple(map(float, point)) for point in points(drawing.paths("cut")[0], 64)])
        return found["mat"], found["label"]


@unittest.skipIf(Polygon is None, "python3-shapely is not installed for this python3")
class Mats(unittest.TestCase):
    def test_a_mat_is_as_far_outside_its_layer_as_geos_says(self):
        for name, shape in SHAPES.items():
            for offset in OFFSETS:
                with self.subTest(shape=name, offset=offset):
                    mat, label = outlines(shape, offset)
                    wanted = label.buffer(float(offset), 256)  # segments of a quarter circle
                    # Both drawings begin at their own corner.
                    left, top = wanted.bounds[:2]
                    moved = Polygon([(x - left, y - top) for x, y in wanted.exterior.coords])
                    self.assertLess(mat.hausdorff_distance(moved), HAIR)


if __name__ == "__main__":
    unittest.main()
