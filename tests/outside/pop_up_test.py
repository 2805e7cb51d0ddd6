"""Boxes that stand up as a card opens, folded here as a linkage of rigid strips.

Seen from the side, back and ground turn about the fold; the top hangs on the back, the front on the ground, and they meet
in a hinge. Where that hinge lies follows from the four lengths alone (two circles). The program says whether the box and
what stands on it close inside the card; here the card is closed step by step.
"""
import os
import random
import subprocess
import tempfile
import unittest
from math import cos, hypot, pi, sin
from pathlib import Path

LEAF = 5.5  # inches, from fold to edge

PROJECT = """<project xmlns="urn:leafwright:project" version="1" id="box" title="Box" units="inch">
  <supplies>
    <stock id="paper" name="Paper" weight="80 lb cover" sheet="letter"/>
    <adhesive id="tape" name="Tape" kind="tape" length="300" width="1/4"/>
  </supplies>
  <card id="box-card" title="Box card" form="top-fold" size="A2" minutes="10">
    <base stock="paper"><pop-up id="box" at="1 1/2" width="1 1/4" height="{height}" depth="{depth}"/></base>
    <panel id="tree" stock="paper" on="box" size="1 x {tall}" at="1/8 from left, 0 from bottom"/>
  </card>
</project>
"""


def hinge(height, depth, angle):
    """The upper front edge, the card open by that angle: `depth` from the back's hinge, `height` from the ground's."""
    back = (height * cos(angle), height * sin(angle))
    ground = (depth, 0.0)
    dx, dy = back[0] - ground[0], back[1] - ground[1]
    apart = hypot(dx, dy)
    along = (height ** 2 - depth ** 2 + apart ** 2) / (2 * apart)
    aside = max(height ** 2 - along ** 2, 0.0) ** 0.5
    foot = (ground[0] + along * dx / apart, ground[1] + along * dy / apart)
    both = [(foot[0] + sign * aside * dy / apart, foot[1] - sign * aside * dx / apart) for sign in (1, -1)]
    return max(both, key=lambda point: hypot(*point))  # away from the fold, not on it


def reach(height, depth, tall, angle):
    """How far from the fold box and layer reach, the layer standing on the foot of the front."""
    x, y = hinge(height, depth, angle)
    share = max(tall / height, 1.0)
    return hypot(depth + (x - depth) * share, y * share)


def findings(height, depth, tall):
    with tempfile.TemporaryDirectory() as folder:
        project = Path(folder) / "project.xml"
        project.write_text(PROJECT.format(height=height, depth=depth, tall=tall), encoding="utf-8")
        run = subprocess.run([os.environ["OUTSIDE_PROGRAM"], "check", str(project)], capture_output=True, text=True,
                             check=False)
        return run.stdout + run.stderr


class PopUps(unittest.TestCase):
    def test_the_hinge_makes_a_parallelogram(self):
        for angle in (pi, 2.0, pi / 2, 1.0, 0.01):
            x, y = hinge(3.0, 1.25, angle)
            self.assertAlmostEqual(x, 1.25 + 3.0 * cos(angle), places=6)
            self.assertAlmostEqual(y, 3.0 * sin(angle), places=6)

    def test_what_the_program_lets_pass_closes_inside_the_card_and_nothing_else_does(self):
        chance = random.Random(5)
        for _ in range(24):
            height, depth = chance.randrange(4, 32) / 8, chance.randrange(4, 24) / 8
            tall = chance.randrange(2, 40) / 8
            with self.subTest(height=height, depth=depth, tall=tall):
                closed = max(reach(height, depth, tall, angle) for angle in (1e-6, 1e-4))
                told = findings(height, depth, tall)
                self.assertEqual(closed > LEAF + 1e-3, "[fit-pop-up" in told, told)


if __name__ == "__main__":
    unittest.main()
