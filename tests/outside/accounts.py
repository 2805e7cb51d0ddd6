"""Money and masses of orders, recomputed in whole cents and exact grams."""
import re
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from project import ENVELOPE_SIZES, children
from takings import Kit, kit_of_tier, paper_grams, reel_grams
from worth import cents, off_price, left_out, rounded, takes

# An envelope is folded from two and a half times its own area: both sides, flap and seams. This is the project's own
# estimate; REFERENCE does not state it, but the masses cannot be recomputed without it.
ENVELOPE_SHEETS = Fraction(5, 2)


@dataclass
class Parcel:
    """One order, packed: what lies in it and what it weighs. `unknown` names things without a mass."""
    order: object
    kit: Kit
    grams: Fraction
    unknown: list


def kit_of_order(project, order):
    """Everything of one order: without what is left out for her, with what she takes instead."""
    kit = kit_of_tier(project, order.tier, left_out(project, order), order.swaps)
    return kit.times(order.quantity)


def parcel_of(project, order):
    kit = kit_of_order(project, order)
    grams = paper_grams(project, kit) + reel_grams(project, kit) + run_grams(project, "wrapping")
    envelopes = len(kit.pieces) + len(kit.shares)  # one for each letter
    grams += run_grams(project, "lettered-envelope") * envelopes * order.quantity
    unknown = [reel for reel, _ in kit.lengths if project.each_grams(reel) is None]
    for things in (kit.counts, kit.packs):
        for item, count in things.items():
            each = thing_grams(project, item)
            if each is None:
                unknown.append(item)
            else:
                grams += each * count
    return Parcel(order, kit, grams, unknown)


def thing_grams(project, item):
    """Mass of one thing; paper of a whole pack is counted with the paper."""
    kind = project.kind(item)
    if kind == "pack":
        return Fraction(0)
    each = project.each_grams(item)
    if each is not None or kind != "envelope":
        return each
    width, height = project.sides(project.items[item].get("size"), None, ENVELOPE_SIZES)
    return width * height / 1_000_000 * ENVELOPE_SHEETS * project.gsm(item)


def run_grams(project, name):
    """What an empty parcel or an empty lettered envelope weighs (REFERENCE: <run>)."""
    text = project.run.get(name)
    return Fraction(text.removesuffix(" g")) if text else Fraction(0)


class Selling:
    """What selling costs (REFERENCE: <selling>)."""

    def __init__(self, project):
        found = children(project.root, "selling")
        elements = list(found[0]) if found else []
        by_kind = Counter()
        self.steps = []
        self.percent = self.fixed = Fraction(0)
        for element in elements:
            kind = element.tag.rpartition("}")[2]
            if kind == "postage":
                limit = element.get("up-to")
                self.steps.append((Fraction(limit.removesuffix(" g")) if limit else None, cents(element.get("cost"))))
            elif kind == "fees":
                self.percent = Fraction(element.get("percent", "0"))
                self.fixed = Fraction(element.get("fixed", "0")) * 100
            else:
                by_kind[kind] += cents(element.get("cost"))
        self.packing = by_kind["packing"]
        self.outlays = by_kind["outlay"]

    def postage(self, grams):
        """The first step that bears the mass; the step without a limit bears any."""
        for limit, cost in self.steps:
            if limit is None or grams <= limit:
                return cost
        return 0

    def fees(self, payment):
        """Kept back from each payment: a percentage and a fixed amount."""
        return rounded(payment * self.percent / 100 + self.fixed) if payment else 0


@dataclass
class Sums:
    orders: int = 0
    kits: int = 0
    price: int = 0
    charged: int = 0
    fees: int = 0
    postage: int = 0
    packing: int = 0

    def add(self, other):
        for name in vars(self):
            setattr(self, name, getattr(self, name) + getattr(other, name))


def sums_of_order(project, selling, order):
    """What one order brings and costs, its goods aside. A tier that says nothing of shipping charges the postage."""
    shipping = order.tier.element.get("shipping")
    price = (cents(order.tier.element.get("price")) - off_price(project, order)) * order.quantity
    if shipping == "none":
        return Sums(1, order.quantity, price, 0, selling.fees(price), 0, 0)
    postage = selling.postage(parcel_of(project, order).grams)
    charged = postage if shipping is None else 0 if shipping == "included" else cents(shipping)
    return Sums(1, order.quantity, price, charged, selling.fees(price + charged), postage, selling.packing)


def sums_by_tier(project, orders):
    selling = Selling(project)
    sums = {}
    for order in orders:
        sums.setdefault(order.tier.id, Sums()).add(sums_of_order(project, selling, order))
    return sums


def kits_by_tier(project, orders):
    """All that the orders of each tier take together."""
    kits = {}
    for order in orders:
        kit = kit_of_order(project, order)
        kits[order.tier.id] = kits.get(order.tier.id, Kit()) + kit
    return kits


# What a purchase costs falls on the tiers in proportion to what their kits take of it (README: the money report).

def share_out(cost, weights):
    """Whole cents in proportion; the cents over go to the largest remainders."""
    whole = sum(weights.values())
    exact = {key: cost * weight / whole for key, weight in weights.items()}
    shares = {key: floor(amount) for key, amount in exact.items()}
    spare = cost - sum(shares.values())
    for key in sorted(exact, key=lambda key: shares[key] - exact[key])[:spare]:
        shares[key] += 1
    return shares


def goods_by_tier(project, orders, purchases):
    kits = kits_by_tier(project, orders)
    goods = dict.fromkeys(kits, 0)
    for purchase in purchases:
        weights = {tier: takes(project, purchase["item"], kit) for tier, kit in kits.items()}
        for tier, share in share_out(purchase["cost"], weights).items():
            goods[tier] += share
    return goods


# What lies unused at the end, at the price of its pack: whole things, and rests of reels that are worth keeping.

KEPT_REST = {"inch": Fraction(254, 10) * 4, "mm": Fraction(100)}  # "ribbon under 4 in [is] not counted"


def unused(project, lines, purchases):
    by_unit = {purchase["item"]: Fraction(purchase["price"], purchase["per_pack"]) for purchase in purchases}
    for item in list(by_unit):
        if project.kind(item) == "pack":
            by_unit |= {stock: by_unit[item] for stock in project.holds(item)}
    return sum(rounded(by_unit[line["item"]] * unused_units(project, line)) for line in lines if line["item"] in by_unit)


def unused_units(project, line):
    """Units left of what was bought; things in hand before the run cost nothing, so their rests do not count."""
    units = Fraction(min(line["left_over"], line["bought"]))
    for spool in line.get("spools", []):
        rest = Fraction(str(spool["left_over"]))
        if not spool["rest_in_hand"] and rest >= KEPT_REST[project.unit]:
            units += spool["times"] * rest / project.one_length(project.items[line["item"]].get("spool"))
    return units


def without_run(words, tier, kits):
    """The text of a project that sells so many kits of one tier alone, all bought new."""
    words = re.sub(r'\sroster="[^"]*"', "", words)
    words = re.sub(r"\s*<(expect|in-hand) [^>]*/>", "", words)
    return re.sub(r"(<run [^>]*>)", rf'\1<expect tier="{tier}" kits="{kits}"/>', words)
