"""Reads a project file and works its measures out, independently of the program.

Written from templates/grammar/REFERENCE.md alone, with exact fractions. Only what the samples use is understood;
anything else raises, so that a sample which outgrows this reader is noticed.
"""
import csv
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

NAMESPACE = "{urn:leafwright:project}"
MM = {"inch": Fraction(254, 10), "mm": Fraction(1)}
UNIT_MM = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10), '"': Fraction(254, 10)}

# Named sizes, in mm. Cards and envelopes by the name of the envelope they go into (common practice in the USA: A2 is
# 4 1/4 x 5 1/2 in, its envelope 5 3/4 x 4 3/8 in; ISO 269 and ISO 216: C6 is 162 x 114 mm and takes an A6 card).
INCH = MM["inch"]
CARD_SIZES = {"A2": (INCH * 17 / 4, INCH * 11 / 2), "C6": (Fraction(105), Fraction(148))}
ENVELOPE_SIZES = {"A2": (INCH * 23 / 4, INCH * 35 / 8), "C6": (Fraction(162), Fraction(114))}
SHEET_SIZES = {"letter": (INCH * 17 / 2, INCH * 11), "A4": (Fraction(210), Fraction(297)), "12x12": (INCH * 12, INCH * 12)}

# What stands in the column `status`, and whether the row counts (REFERENCE: The roster).
COUNTS = {"": True, "paid": True, "open": True, "unpaid": True, "pending": True,
          "cancelled": False, "canceled": False, "refunded": False, "test": False}

# What a die or scissors need around a piece, on each side (REFERENCE: cut-from).
CUT_ALLOWANCE = {"inch": INCH / 8, "mm": Fraction(3)}
# What a band or a wrapped ribbon overlaps (REFERENCE: <band>, <ribbon>).
OVERLAP = {"inch": INCH, "mm": Fraction(25)}
RIBBON_EXTRA = {"band": OVERLAP, "wrap": OVERLAP,
                "bow": {"inch": INCH * 10, "mm": Fraction(250)}, "knot": {"inch": INCH * 5, "mm": Fraction(130)}}


def number(text):
    """`4 1/4`, `4-1/4`, `17/4` or `4.25` as a fraction."""
    mixed = re.fullmatch(r"(\d+)[ -](\d+)/(\d+)", text)
    if mixed:
        return int(mixed[1]) + Fraction(int(mixed[2]), int(mixed[3]))
    return Fraction(text)


TOKEN = re.compile(r"""\s*(?:(?P<number>\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)\s*(?P<unit>mm\b|cm\b|in\b|")?
                       |(?P<name>[A-Za-z][\w-]*(?:/[A-Za-z][\w-]*)?(?:\.[a-z]+)?)
                       |(?P<sign>[-+*/(),−×÷]))""", re.VERBOSE)


class Expression:
    """A calculation on one side of a size (REFERENCE: Measures). All values are millimetres or plain factors.

    A bare number is a length in the project's unit unless it multiplies or divides."""

    def __init__(self, text, unit, look_up):
        self.tokens = list(self.split(text))
        self.unit = unit
        self.look_up = look_up

    @staticmethod
    def split(text):
        place = 0
        while place < len(text.rstrip()):
            token = TOKEN.match(text, place)
            if not token:
                raise ValueError(f"cannot read {text!r} from {text[place:]!r} on")
            place = token.end()
            yield token

    def sign(self, choices):
        if self.tokens and self.tokens[0]["sign"] in choices:
            return self.tokens.pop(0)["sign"]
        return None

    def value(self):
        """The whole calculation in mm."""
        result = self.length(self.sum())
        if self.tokens:
            raise ValueError(f"left over: {self.tokens[0][0]!r}")
        return result

    def length(self, typed):
        amount, is_length = typed
        return amount if is_length else amount * MM[self.unit]

    def sum(self):
        left = self.product()
        while sign := self.sign("+-−"):
            right = self.product()
            left = self.length(left) + (1 if sign == "+" else -1) * self.length(right), True
        return left

    def product(self):
        left = self.atom()
        while sign := self.sign("*/÷"):
            amount, is_length = self.atom()
            if sign == "*":
                left = left[0] * amount, left[1] or is_length
            else:
                left = left[0] / amount, left[1]
        return left

    def atom(self):
        token = self.tokens.pop(0)
        if token["number"]:
            amount = number(token["number"])
            return (amount * UNIT_MM[token["unit"]], True) if token["unit"] else (amount, False)
        if token["sign"] == "(":
            inner = self.sum()
            self.sign(")")
            return inner
        if token["name"] in ("half", "min", "max"):
            return self.function(token["name"]), True
        return self.look_up(token["name"]), True

    def function(self, name):
        self.sign("(")
        values = [self.length(self.sum())]
        while self.sign(","):
            values.append(self.length(self.sum()))
        self.sign(")")
        return values[0] / 2 if name == "half" else {"min": min, "max": max}[name](values)


@dataclass
class Piece:
    """A piece of paper of a card, as it is finished and as it is cut, in mm."""
    letter: str
    card: int
    name: str
    stock: str
    width: Fraction
    height: Fraction
    cut_width: Fraction
    cut_height: Fraction
    count: int


@dataclass
class Tier:
    id: str
    name: str
    element: ElementTree.Element

    def includes(self):
        return [dict(include.attrib) for include in children(self.element, "include")]


@dataclass
class Order:
    label: str
    tier: Tier
    quantity: int
    owned: list
    swaps: list
    status: str = ""


def children(element, *names):
    """Children of those names, in the order of the file."""
    return [child for child in element if child.tag in {NAMESPACE + name for name in names}]


def letters():
    """A, B, C … without I, O and Q, which are taken for other signs; then AA, AB … (as on the slips)."""
    alphabet = "ABCDEFGHJKLMNPRSTUVWXYZ"
    yield from alphabet
    for first in alphabet:
        for second in alphabet:
            yield first + second


class Project:
    """All that the tests ask of a project file."""

    def __init__(self, path):
        self.path = Path(path)
        self.root = ElementTree.parse(path).getroot()
        self.unit = self.root.get("units", "inch")
        self.supplies = children(self.root, "supplies")[0]
        self.items = {item.get("id"): item for item in self.supplies}
        self.cards = children(self.root, "card")
        runs = children(self.root, "run")
        self.run = runs[0] if runs else ElementTree.Element("run")
        self.of_each = int(self.run.get("of-each", "2"))
        self.tiers = [Tier(t.get("id"), t.get("name", t.get("id")), t) for t in children(self.root, "tier")]
        self.sizes = {}
        self.pieces = self.read_pieces()

    # Measures

    def one_length(self, text):
        return Expression(text, self.unit, self.no_names).value()

    @staticmethod
    def no_names(name):
        raise ValueError(f"no name may stand here: {name}")

    def sides(self, text, card, named=None):
        """Both sides of a size; one unit at its end serves both."""
        if named and text in named:
            return named[text]
        parts = re.split(r"\s+[x×]\s+", text)
        unit = re.search(r"\d\s*(mm|cm|in|\")$", text)
        if len(parts) == 2 and unit and not re.search(r"(mm|cm|in|\")$", parts[0]):
            parts[0] += " " + unit[1]
        across, down = parts if len(parts) == 2 else (text, text)
        return tuple(Expression(side, self.unit, lambda name, axis=axis: self.side_of(name, card, axis)).value()
                     for axis, side in enumerate((across, down)))

    def side_of(self, name, card, axis):
        owner, _, asked = name.partition(".")
        if "/" in owner:
            card, owner = owner.split("/")
        axis = {"width": 0, "height": 1, "size": axis}[asked]
        return self.sizes[card, owner][axis]

    # Cards

    def closed(self, card):
        return self.sides(card.get("size"), card.get("id"), CARD_SIZES)

    def base_and_faces(self, card):
        """How the forms unfold (REFERENCE: <card>). A gate's leaves meet in the middle, a Z's flap is half its card."""
        width, height = self.closed(card)
        form = card.get("form")
        same = (width, height)
        faces = {"front": same, "back": same, "inside": same, "card": same}
        if form in ("top-fold", "tent"):
            return (width, height * 2), faces | {"inside-top": same}
        if form == "side-fold":
            return (width * 2, height), faces | {"inside-left": same, "inside-right": same}
        if form == "gate":
            return (width * 2, height), faces | {"left": (width / 2, height), "right": (width / 2, height)}
        if form == "z":
            return (width * 2, height), faces | {"flap": (width / 2, height), "middle": (width / 2, height)}
        if form == "accordion":
            leaves = int(card.get("leaves"))
            return (width * leaves, height), faces | {f"leaf-{n + 1}": same for n in range(leaves)}
        if form in ("flat", "tag"):
            return same, faces
        raise ValueError(f"form {form} is not known to this reader")

    def envelope_size(self, card):
        envelope = self.items[card.get("envelope")]
        return self.sides(envelope.get("size"), None, ENVELOPE_SIZES)

    def read_pieces(self):
        found, names = [], letters()
        for number_of_card, card in enumerate(self.cards, 1):
            base, faces = self.base_and_faces(card)
            for face, size in faces.items():
                self.sizes[card.get("id"), face] = size
            for element in children(card, "base", "panel", "band", "liner"):
                found.append(self.piece(element, card, number_of_card, base, next(names)))
        return found

    def piece(self, element, card, number_of_card, base, letter):
        own = self.with_like(element, card)
        ident = "base" if element.tag == NAMESPACE + "base" else own["id"]
        size = base if ident == "base" else self.piece_size(element, own, card)
        self.sizes[card.get("id"), ident] = size
        for window in children(element, "window"):
            self.sizes[card.get("id"), window.get("id")] = self.window_size(window, card)
        extra = 2 * CUT_ALLOWANCE[self.unit] if "die" in own or own.get("shape", "rectangle") != "rectangle" else 0
        cut = self.sides(own["cut-from"], card.get("id")) if "cut-from" in own else (size[0] + extra, size[1] + extra)
        name = own.get("name") or self.default_name(ident, own["stock"])
        count = len(own["places"].split(";")) if "places" in own else 1
        return Piece(letter, number_of_card, name, own["stock"], *size, *cut, count)

    def default_name(self, ident, stock):
        """A base is called after its stock."""
        if ident == "base":
            return f"{self.items[stock].get('name').lower()} base"
        return ident.replace("-", " ")

    def with_like(self, element, card):
        own = dict(element.attrib)
        if "like" not in own:
            return own
        model = next(other for other in card if other.get("id") == own["like"])
        return self.with_like(model, card) | own

    def window_size(self, window, card):
        if "die" in window.attrib:
            return self.sides(self.items[window.get("die")].get("size"), None)
        return self.sides(window.get("size"), card.get("id"))

    def piece_size(self, element, own, card):
        lies_on = self.sizes.get((card.get("id"), own.get("on", "front")))
        if own.get("on") == "envelope-inside":
            lies_on = self.envelope_size(card)
        if "die" in own:
            return self.sides(self.items[own["die"]].get("size"), None)
        if "size" in own:
            return self.sides(own["size"], card.get("id"))
        if "inset" in own:
            inset = self.one_length(own["inset"])
            return lies_on[0] - 2 * inset, lies_on[1] - 2 * inset
        if element.tag == NAMESPACE + "band":
            return 2 * lies_on[0] + OVERLAP[self.unit], self.one_length(own["height"])
        return tuple(self.sides(own[side], card.get("id"))[axis] for axis, side in enumerate(("width", "height")))

    # What one card takes of ribbon and embellishments

    def ribbons_of_a_card(self, card):
        """(item, length in mm) of each ribbon of one card (REFERENCE: <ribbon>)."""
        for ribbon in children(card, "ribbon"):
            kind = ribbon.get("as", "band")
            if "length" in ribbon.attrib:
                yield ribbon.get("of"), self.one_length(ribbon.get("length"))
                continue
            across = self.sizes[card.get("id"), ribbon.get("on", "front")][0]
            turns = 1 if kind == "band" else 2
            yield ribbon.get("of"), across * turns + RIBBON_EXTRA[kind][self.unit]

    def embellishments_of_a_card(self, card):
        for embellish in children(card, "embellish"):
            places = embellish.get("places")
            yield embellish.get("with"), len(places.split(";")) if places else int(embellish.get("times", "1"))

    # Supplies

    def sheet(self, stock):
        """The first sheet of a stock, in mm."""
        element = self.items[stock]
        first = element.get("sheet") or children(element, "sheet")[0].get("size")
        return self.sides(first, None, SHEET_SIZES)

    def gsm(self, item):
        """Grams per square metre.

        A basis weight is the mass of 500 sheets of the basic size: 20 x 26 in for cover, 25 x 38 in for text (TAPPI
        T 410 and common practice in the USA); a pound is 453.59237 g."""
        weight = self.items[item].get("weight")
        metric = re.fullmatch(r"([\d.]+) gsm", weight)
        if metric:
            return Fraction(metric[1])
        pounds, kind = re.fullmatch(r"([\d.]+) lb (cover|text)", weight).groups()
        across, down = {"cover": (20, 26), "text": (25, 38)}[kind]
        square_metres = across * down * INCH * INCH / 1_000_000
        return Fraction(pounds) * Fraction("453.59237") / 500 / square_metres

    def each_grams(self, item):
        """Mass of one as the project gives it, or None."""
        text = self.items[item].get("each")
        return Fraction(text.removesuffix(" g")) if text else None

    def kind(self, item):
        return self.items[item].tag.removeprefix(NAMESPACE)

    def holds(self, pack):
        """Sheets of each stock in a pack of several."""
        return {held.get("stock"): int(held.get("sheets")) for held in children(self.items[pack], "holds")}

    # Orders

    def tier(self, text):
        return next(tier for tier in self.tiers if text.casefold() in (tier.id.casefold(), tier.name.casefold()))

    def orders(self):
        """The orders of the roster; without one, each expected kit is an order of its own."""
        if "roster" in self.run.attrib:
            return self.roster(self.path.parent / self.run.get("roster"))
        return [Order("", self.tier(expect.get("tier")), 1, [], [])
                for expect in children(self.run, "expect") for _ in range(int(expect.get("kits")))]

    def roster(self, path):
        with open(path, encoding="utf-8", newline="") as file:
            rows = [{key.casefold(): cell for key, cell in row.items()} for row in csv.DictReader(file)]
        return [Order(row["number"], self.tier(row["tier"]), int(row.get("quantity") or 1),
                      split_list(row["owned"]), split_list(row["swaps"]), status)
                for row in rows if COUNTS[status := row.get("status", "").casefold()]]


def split_list(cell):
    """Ids parted by `;`, or, as one row of the sample has it, by blanks."""
    return [part for part in re.split(r"[;\s]+", cell or "") if part]
