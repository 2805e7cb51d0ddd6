"""Every cutting plan of the samples, cut again on paper of our own: rectangles in exact millimetres.

A pattern is good when its pieces lie inside the sheet, do not overlap, and come out by straight cuts from edge to edge
(guillotine cuts: Gilmore and Gomory, Operations Research 13, 1965). The demand is recomputed from the project file.
"""
import unittest
from collections import Counter, defaultdict
from fractions import Fraction
from math import ceil

import documents
from accounts import kits_by_tier
from drawings import Drawing, bounds, commands, points
from project import children
from takings import Kit

# Millimetres are told to six decimals; a curve's bounds are found on points along it.
CURVE = Fraction(1, 50)


def exact(value):
    return Fraction(str(value))


def rectangle(piece):
    """(left, top, right, bottom) of a placed piece or a rest."""
    x, y = exact(piece["x"]), exact(piece["y"])
    return x, y, x + exact(piece["width"]), y + exact(piece["height"])


def overlap(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def separable(boxes):
    """Whether straight cuts from edge to edge part the boxes: some line crosses none of them, and so on in each half."""
    if len(boxes) <= 1:
        return True
    for axis in (0, 1):
        for line in sorted({box[axis + 2] for box in boxes}):
            before = [box for box in boxes if box[axis + 2] <= line]
            after = [box for box in boxes if box[axis] >= line]
            if after and before and len(before) + len(after) == len(boxes):
                return separable(before) and separable(after)
    return False


def cut_apart(sheet, lines):
    """Cuts a sheet along lines, in any order in which each goes from edge to edge of a part. Returns the parts, and the
    lines that never did."""
    parts, waiting = [sheet], list(lines)
    while waiting:
        done = [line for line in waiting if cut_once(parts, line)]
        if not done:
            return parts, waiting
        waiting = [line for line in waiting if line not in done]
    return parts, []


def cut_once(parts, line):
    x1, y1, x2, y2 = line
    for part in parts:
        left, top, right, bottom = part
        if x1 == x2 and left < x1 < right and (y1, y2) == (top, bottom):
            halves = [(left, top, x1, bottom), (x1, top, right, bottom)]
        elif y1 == y2 and top < y1 < bottom and (x1, x2) == (left, right):
            halves = [(left, top, right, y1), (left, y1, right, bottom)]
        else:
            continue
        parts.remove(part)
        parts.extend(halves)
        return True
    return False


def folds(project, card):
    """("across" or "down", distances) of the folds of a base: across the sheet, or down it."""
    width, height = project.closed(card)
    form = card.get("form")
    if form in ("top-fold", "tent"):
        return "across", [height]
    if form == "side-fold":
        return "down", [width]
    if form == "gate":
        return "down", [width / 2, width * 3 / 2]
    if form == "z":
        return "down", [width / 2, width]
    if form == "accordion":
        return "down", [width * leaf for leaf in range(1, int(card.get("leaves")))]
    return None, []


class EachPlan(unittest.TestCase):
    def setUp(self):
        self.plans = [(sample, documents.project(sample), documents.data(sample, "cutting-plan.json"))
                      for sample in documents.IDS]

    def patterns(self):
        """(sample, project, plan's pieces by letters, stock, number of the pattern, pattern)."""
        for sample, project, plan in self.plans:
            kinds = {piece["letters"]: piece for piece in plan["pieces"]}
            for stock in plan["stocks"]:
                for place, pattern in enumerate(stock["patterns"], 1):
                    yield sample, project, kinds, stock["stock"], place, pattern


class Demand(EachPlan):
    def wanted(self, project):
        """{(stock, width, height): [letters, pieces]} from the project: pieces of one size are cut together."""
        run = sum(kits_by_tier(project, project.orders()).values(), Kit())
        wanted = defaultdict(Counter)
        for piece in project.pieces:
            if run.pieces[piece.letter]:
                wanted[piece.stock, piece.cut_width, piece.cut_height][piece.letter] = run.pieces[piece.letter]
        for place, ((stock, width, height), count) in enumerate(run.shares.items(), 1):
            wanted[stock, width, height][f"S{place}"] = count
        return wanted

    def spare(self, project, count):
        """REFERENCE: <run spare spare-pieces>: percent, rounded up, and so many of each size."""
        return ceil(Fraction(project.run.get("spare", "0")) * count / 100) + int(project.run.get("spare-pieces", "0"))

    def test_pieces_are_those_of_the_project(self):
        for sample, project, plan in self.plans:
            told = {(p["stock"], exact(p["width"]), exact(p["height"])): (p["letters"], p["wanted"], p["spare"])
                    for p in plan["pieces"]}
            own = {key: (" ".join(counts), counts.total(), self.spare(project, counts.total()))
                   for key, counts in self.wanted(project).items()}
            self.assertEqual(told, own, sample)

    def test_patterns_give_what_is_wanted_and_no_more(self):
        for sample, _, plan in self.plans:
            cut = Counter()
            for stock in plan["stocks"]:
                for pattern in stock["patterns"]:
                    for piece in pattern["pieces"]:
                        cut[stock["stock"], piece["letters"]] += pattern["sheets"]
            self.assertEqual(cut, Counter({(piece["stock"], piece["letters"]): piece["wanted"] + piece["spare"]
                                           for piece in plan["pieces"]}), sample)

    def test_sheets_are_no_fewer_than_the_area_of_the_pieces(self):
        for sample, project, plan in self.plans:
            for stock in plan["stocks"]:
                area = sum(exact(p["width"]) * exact(p["height"]) * (p["wanted"] + p["spare"])
                           for p in plan["pieces"] if p["stock"] == stock["stock"])
                sheets = [p for p in stock["patterns"] if p["sheet"] != "offcut"]
                offcuts = [p for p in stock["patterns"] if p["sheet"] == "offcut"]
                self.assertEqual(stock["sheets"], sum(p["sheets"] for p in sheets))
                self.assertEqual(stock["offcuts_used"], sum(p["sheets"] for p in offcuts))
                given = sum(exact(p["width"]) * exact(p["height"]) * p["sheets"] for p in sheets + offcuts)
                self.assertLess(abs(stock["used_mm2"] - area), 1, (sample, stock["stock"]))
                self.assertLess(abs(stock["used_mm2"] + stock["waste_mm2"] - given), 2, (sample, stock["stock"]))
                if stock["proven"]:
                    self.assertEqual(stock["at_least"], stock["sheets"])

    def test_sheets_are_sold_or_in_hand(self):
        for sample, project, _, stock, place, pattern in self.patterns():
            size = exact(pattern["width"]), exact(pattern["height"])
            self.assertIn(size, self.sheets(project, stock, pattern["sheet"] == "offcut"), (sample, stock, place))

    @staticmethod
    def sheets(project, stock, offcut):
        if offcut:
            return [project.sides(stored.get("offcut"), None) for stored in children(project.run, "in-hand")
                    if stored.get("item") == stock and stored.get("offcut")]
        return [project.sheet(stock)]

    def test_offcuts_are_no_more_than_lie_in_hand(self):
        for sample, project, plan in self.plans:
            for stock in plan["stocks"]:
                stored = sum(int(hand.get("count", "1")) for hand in children(project.run, "in-hand")
                             if hand.get("item") == stock["stock"] and hand.get("offcut"))
                self.assertLessEqual(stock["offcuts_used"], stored, (sample, stock["stock"]))


class Patterns(EachPlan):
    def test_pieces_have_their_size(self):
        for sample, _, kinds, stock, place, pattern in self.patterns():
            for piece in pattern["pieces"]:
                kind = kinds[piece["letters"]]
                sides = [exact(kind["width"]), exact(kind["height"])]
                told = [exact(piece["width"]), exact(piece["height"])]
                self.assertEqual(told, sides[::-1] if piece["turned"] else sides, (sample, stock, place))
                self.assertEqual(kind["stock"], stock)

    def test_pieces_lie_inside_the_sheet(self):
        for sample, _, _, stock, place, pattern in self.patterns():
            for piece in pattern["pieces"] + pattern["left_over"]:
                left, top, right, bottom = rectangle(piece)
                inside = 0 <= left and 0 <= top and right <= exact(pattern["width"]) and bottom <= exact(pattern["height"])
                self.assertTrue(inside, (sample, stock, place, piece))

    def test_pieces_do_not_overlap(self):
        for sample, _, _, stock, place, pattern in self.patterns():
            boxes = [rectangle(piece) for piece in pattern["pieces"] + pattern["left_over"]]
            for number, box in enumerate(boxes):
                for other in boxes[:number]:
                    self.assertFalse(overlap(box, other), (sample, stock, place, box, other))

    def test_pieces_and_rests_fill_the_sheet(self):
        for sample, _, _, stock, place, pattern in self.patterns():
            boxes = [rectangle(piece) for piece in pattern["pieces"] + pattern["left_over"]]
            area = sum((right - left) * (bottom - top) for left, top, right, bottom in boxes)
            self.assertEqual(area, exact(pattern["width"]) * exact(pattern["height"]), (sample, stock, place))

    def test_straight_cuts_part_the_pieces(self):
        for sample, _, _, stock, place, pattern in self.patterns():
            self.assertTrue(separable([rectangle(piece) for piece in pattern["pieces"]]), (sample, stock, place))

    def test_csv_says_the_same_as_json(self):
        for sample, _, plan in self.plans:
            told = Counter(tuple(row.values()) for row in documents.rows(sample, "cutting-plan.csv"))
            own = Counter()
            for stock in plan["stocks"]:
                for place, pattern in enumerate(stock["patterns"], 1):
                    for piece in pattern["pieces"]:
                        own[self.row(stock["stock"], place, pattern, piece)] += 1
            self.assertEqual(told, own, sample)

    @staticmethod
    def row(stock, place, pattern, piece):
        cells = (stock, place, pattern["sheets"], pattern["sheet"], pattern["width"], pattern["height"], piece["letters"],
                 piece["x"], piece["y"], piece["width"], piece["height"], "yes" if piece["turned"] else "no")
        return tuple(str(cell) for cell in cells)


class Lie(EachPlan):
    """Which way round pieces lie: patterns with a top stay upright, and folds run along the grain."""

    def test_pieces_of_a_paper_with_a_top_are_upright(self):
        for sample, project, _, stock, place, pattern in self.patterns():
            if project.items[stock].get("upright") == "yes":
                self.assertFalse([p for p in pattern["pieces"] if p["turned"]], (sample, stock, place))

    def test_folds_run_along_the_grain(self):
        """Common practice: a fold against the grain cracks. The grain runs along the longer side of the sheet (long) or
        along the shorter one (short); a base with one direction of folds is laid so that they agree."""
        for sample, project, _, stock, place, pattern in self.patterns():
            grain = project.items[stock].get("grain")
            if grain not in ("long", "short") or pattern["sheet"] == "offcut":
                continue
            down = (pattern["height"] > pattern["width"]) == (grain == "long")
            bases = {piece.letter: piece.card for piece in project.pieces if piece.name.endswith(" base")}
            for piece in pattern["pieces"]:
                if piece["letters"] in bases:
                    way, _ = folds(project, project.cards[bases[piece["letters"]] - 1])
                    if way:
                        self.assertEqual((way == "down") != piece["turned"], down, (sample, stock, place, piece["letters"]))

    def test_pieces_lie_as_is_told(self):
        """`lies` says which way round a piece comes, and `may_turn` whether either will do."""
        for sample, _, kinds, stock, place, pattern in self.patterns():
            for piece in pattern["pieces"]:
                kind = kinds[piece["letters"]]
                self.assertIn(kind["lies"], ("upright", "turned", "either"))
                self.assertEqual(kind["may_turn"], kind["lies"] == "either")
                if kind["lies"] != "either":
                    self.assertEqual(piece["turned"], kind["lies"] == "turned", (sample, stock, place, piece["letters"]))


class Trimmer(EachPlan):
    def tool(self, project):
        return next(item for item in children(project.supplies, "tool") if item.get("cut-length"))

    def test_no_cut_is_longer_than_the_trimmer(self):
        for sample, project, _, stock, place, _ in self.patterns():
            longest = project.one_length(self.tool(project).get("cut-length"))
            for x1, y1, x2, y2 in self.drawing(sample, stock, place).lines("cut"):
                self.assertLessEqual(x2 - x1 + y2 - y1, longest, (sample, stock, place))

    def test_listed_cuts_are_the_drawn_ones(self):
        """A numbered cut is `cuts_a_part` cuts of each of `parts` parts, for all sheets of the pattern together."""
        for sample, _, _, stock, place, pattern in self.patterns():
            listed = Counter()
            for cut in pattern["cuts"]:
                listed[cut["along"]] += cut["cuts_a_part"] * cut["parts"]
            drawn = Counter("height" if x1 == x2 else "width"
                            for x1, _, x2, _ in self.drawing(sample, stock, place).lines("cut"))
            self.assertEqual(listed, Counter({way: count * pattern["sheets"] for way, count in drawn.items()}),
                             (sample, stock, place))

    def test_cuts_are_numbered_in_order_and_stacks_fit(self):
        for sample, _, _, stock, place, pattern in self.patterns():
            cuts = pattern["cuts"]
            self.assertEqual([cut["number"] for cut in cuts], list(range(1, len(cuts) + 1)), (sample, stock, place))
            for cut in cuts:
                self.assertTrue(1 <= cut["stack"] <= cut["parts"], (sample, stock, place, cut))

    def drawing(self, sample, stock, place):
        return Drawing(documents.folder(sample) / "true-size" / f"{stock}-{place}.svg")


class TrueSize(EachPlan):
    def drawings(self):
        for sample, project, kinds, stock, place, pattern in self.patterns():
            file = documents.folder(sample) / "true-size" / f"{stock}-{place}.svg"
            yield (sample, stock, place), project, pattern, Drawing(file)

    def test_the_page_is_the_sheet(self):
        for where, _, pattern, drawing in self.drawings():
            size = [0, 0, exact(pattern["width"]), exact(pattern["height"])]
            self.assertEqual([0, 0, drawing.width, drawing.height], size, where)
            self.assertEqual(drawing.view_box, size, where)
            self.assertEqual(drawing.rectangles("sheet"), [tuple(size)], where)

    def test_drawn_cuts_leave_the_pieces_and_the_rests(self):
        for where, _, pattern, drawing in self.drawings():
            sheet = (Fraction(0), Fraction(0), drawing.width, drawing.height)
            parts, never = cut_apart(sheet, drawing.lines("cut"))
            self.assertEqual(never, [], where)
            self.assertEqual(Counter(parts), Counter(map(rectangle, pattern["pieces"] + pattern["left_over"])), where)

    def test_scores_lie_where_the_bases_fold(self):
        for where, project, pattern, drawing in self.drawings():
            bases = {piece.letter: piece for piece in project.pieces if piece.name.endswith(" base")}
            own = Counter()
            for placed in pattern["pieces"]:
                if placed["letters"] in bases:
                    card = project.cards[bases[placed["letters"]].card - 1]
                    own.update(placed_folds(*folds(project, card), rectangle(placed), placed["turned"]))
            self.assertEqual(Counter(drawing.lines("score")), own, where)

    def test_only_the_three_groups_are_used(self):
        for sample in documents.IDS:
            for file in sorted((documents.folder(sample) / "true-size").glob("*.svg")):
                self.assertLessEqual(set(Drawing(file).groups), {"sheet", "cut", "score"}, file.name)

    def test_there_is_a_drawing_of_each_pattern_base_and_die_and_no_other(self):
        for sample, project, plan in self.plans:
            own = {f"{stock['stock']}-{place}" for stock in plan["stocks"]
                   for place in range(1, len(stock["patterns"]) + 1)}
            own |= {f"net-{card.get('id')}" for card in project.cards}
            used = {element.get("die") for card in project.cards for element in card.iter() if element.get("die")}
            own |= {f"die-{die}" for die in used}
            told = {file.stem for file in (documents.folder(sample) / "true-size").glob("*.svg")}
            self.assertEqual(told, own, sample)


def placed_folds(way, distances, box, turned):
    """Score lines of a base on its sheet. Turned a quarter clockwise, what was left is on top and what was on top is
    right."""
    left, top, right, bottom = box
    for distance in distances:
        if way == "down" and not turned:
            yield left + distance, top, left + distance, bottom
        elif way == "across" and not turned:
            yield left, top + distance, right, top + distance
        elif way == "down":
            yield left, top + distance, right, top + distance
        else:
            yield right - distance, top, right - distance, bottom


class Nets(EachPlan):
    """The fold net of each card and the shape of each die."""

    def nets(self):
        for sample, project, _ in self.plans:
            for card in project.cards:
                file = documents.folder(sample) / "true-size" / f"net-{card.get('id')}.svg"
                yield (sample, card.get("id")), project, card, Drawing(file)

    def test_a_net_is_the_unfolded_base(self):
        for where, project, card, drawing in self.nets():
            base = project.sizes[card.get("id"), "base"]
            self.assertEqual((drawing.width, drawing.height), base, where)
            self.assertEqual(bounds(drawing.paths("cut")[0]), (0, 0, *base), where)
            if children(card, "base")[0].get("shape", "rectangle") == "rectangle":
                corners = {(x, y) for x in (0, base[0]) for y in (0, base[1])}
                self.assertEqual(set(points(drawing.paths("cut")[0])), corners, where)

    def test_a_net_is_scored_where_the_form_folds(self):
        for where, project, card, drawing in self.nets():
            box = (Fraction(0), Fraction(0), drawing.width, drawing.height)
            own = set(placed_folds(*folds(project, card), box, False))
            self.assertEqual(set(drawing.lines("score")), own, where)

    def test_a_net_has_the_windows_of_its_base(self):
        for where, _, card, drawing in self.nets():
            windows = [w for base in children(card, "base") for w in children(base, "window")]
            self.assertEqual(len(drawing.paths("cut")), 1 + len(windows), where)

    def test_a_die_has_its_size(self):
        for sample, project, _ in self.plans:
            for file in sorted((documents.folder(sample) / "true-size").glob("die-*.svg")):
                die = project.items[file.stem.removeprefix("die-")]
                size = project.sides(die.get("size"), None)
                drawing = Drawing(file)
                self.assertEqual((drawing.width, drawing.height), size, file.name)
                if die.get("shape") == "free":
                    self.check_free(die, size, drawing.paths("cut")[0])
                elif die.get("shape") == "circle":
                    self.check_circle(file.name, size[0] / 2, drawing.paths("cut")[0])
                else:
                    for told, wanted in zip(bounds(drawing.paths("cut")[0]), (0, 0, *size)):
                        self.assertLess(abs(told - wanted), CURVE, file.name)

    def check_circle(self, name, radius, drawn):
        for x, y in points(drawn):
            off = float((x - radius) ** 2 + (y - radius) ** 2) ** 0.5 - float(radius)
            self.assertLess(abs(off), CURVE, name)

    def check_free(self, die, size, drawn):
        """A free outline is stretched from its grid to the size (REFERENCE: Outlines)."""
        grid = [Fraction(side) for side in die.get("grid").split(" x ")]
        outline = list(absolute(commands(die.get("outline"))))
        self.assertEqual(len(list(commands(drawn))), len(outline), die.get("id"))
        for (letter, told), (own_letter, own) in zip(commands(drawn), outline):
            self.assertEqual(letter, own_letter, die.get("id"))
            scaled = [value * size[place % 2] / grid[place % 2] for place, value in enumerate(own)]
            for one, other in zip(told, scaled):
                self.assertLess(abs(one - other), Fraction(1, 1_000_000), die.get("id"))


def absolute(path):
    """Writes across and down lines as plain lines."""
    x = y = Fraction(0)
    for letter, numbers in path:
        if letter in "HV":
            x, y = (numbers[-1], y) if letter == "H" else (x, numbers[-1])
            yield "L", [x, y]
            continue
        if numbers:
            x, y = numbers[-2:]
        yield letter, numbers


if __name__ == "__main__":
    unittest.main()
