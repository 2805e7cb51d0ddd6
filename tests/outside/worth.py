"""What things are worth in a shop, and what an owner gets for those she has already: in whole cents."""
from fractions import Fraction
from math import floor

from project import children
from takings import REELS, Kit, add_include


def rounded(amount):
    """To whole cents, halves up."""
    return floor(amount + Fraction(1, 2))


def cents(text):
    return int(Fraction(text) * 100)


# How much of an item a kit takes.

def paper_area(project, stock, kit):
    total = Fraction(0)
    for piece in project.pieces:
        if piece.stock == stock:
            total += kit.pieces[piece.letter] * piece.cut_width * piece.cut_height
    for (shared, width, height), count in kit.shares.items():
        total += count * width * height if shared == stock else 0
    width, height = project.sheet(stock)
    sheets = kit.sheets[stock]
    for pack, count in kit.packs.items():
        if project.kind(pack) == "pack":
            sheets += count * project.holds(pack).get(stock, 0)
    return total + sheets * width * height


def takes(project, item, kit):
    """How much of an item a kit takes: area of paper, length of a reel, else pieces."""
    kind = project.kind(item)
    if kind == "stock":
        return paper_area(project, item, kit)
    if kind == "pack":
        return sum(paper_area(project, stock, kit) for stock in project.holds(item))
    if kind in REELS:
        return kit.length_of(item) + kit.counts[item] * project.one_length(project.items[item].get("spool"))
    if kind == "adhesive":
        return Fraction(kit.packs[item])
    return Fraction(kit.counts[item] + kit.packs[item] * int(project.items[item].get("pack", "1")))


# What a kit is worth in a shop (money report: "by their share of a pack, gifts included; cut parts at the price of the
# sheets they come from").

def sheet_price(project, stock):
    """The price of one sheet, from its own pack or from the pack of several stocks that holds it."""
    element = project.items[stock]
    sized = element if element.get("price") else next(iter(children(element, "sheet")), element)
    if sized.get("price"):
        return Fraction(sized.get("price")) * 100 / int(sized.get("pack"))
    for pack in children(project.supplies, "pack"):
        if stock in project.holds(pack.get("id")):
            return Fraction(pack.get("price")) * 100 / sum(project.holds(pack.get("id")).values())
    raise ValueError(f"{stock} has no price")


def parts_value(project):
    """The fewest whole sheets that hold the area of one kit's pieces; in both samples a plan reaches this bound.
    The sheets of each paper are a part of its pack, and each such part is rounded to cents."""
    kit = Kit()
    for piece in project.pieces:
        kit.pieces[piece.letter] += piece.count * project.of_each
    total = 0
    for stock in {piece.stock for piece in project.pieces}:
        width, height = project.sheet(stock)
        total += rounded(-(-paper_area(project, stock, kit) // (width * height)) * sheet_price(project, stock))
    return total


def tutorial_value(project):
    """What the cheapest tier that holds nothing else asks for it."""
    alone = [tier for tier in project.tiers if [i["item"] for i in tier.includes()] == ["tutorial"]]
    return min(cents(tier.element.get("price")) for tier in alone)


def include_value(project, include):
    item = include["item"]
    if item == "tutorial":
        return tutorial_value(project)
    if item == "parts":
        return parts_value(project)
    kit = Kit()
    add_include(kit, project, item, include.get("amount", "as needed"))
    if project.kind(item) == "stock":
        return rounded(kit.sheets[item] * sheet_price(project, item))
    pack = cents(project.items[item].get("price"))
    whole = Kit()
    add_include(whole, project, item, "whole")
    if project.kind(item) in REELS:
        return rounded(pack * takes(project, item, kit) / project.one_length(project.items[item].get("spool")))
    return rounded(pack * takes(project, item, kit) / takes(project, item, whole))


# What becomes of a thing of the kit that its buyer owns (REFERENCE: <swap>; If she owns it already).

def may_be_owned(tier):
    return [i for i in tier.includes() if i.get("gift") != "yes" and i["item"] not in ("tutorial", "parts")]


def held(order):
    """What she owns of her kit, as it stands in the list of her tier."""
    return [include for include in may_be_owned(order.tier) if include["item"] in order.owned]


def credit(project, order):
    """The things that give credit, and how much: within the limits of the rule, rounded down."""
    rules = children(order.tier.element, "swap")
    rule = rules[0].attrib if rules else {}
    over = cents(rule.get("over", "-1"))
    giving = [(include_value(project, include), include["item"]) for include in held(order)]
    giving = sorted((one for one in giving if one[0] > over), key=lambda one: -one[0])
    giving = giving[:int(rule["most"])] if "most" in rule else giving
    worth, step = sum(value for value, _ in giving), cents(rule.get("round-down", "0"))
    return [item for _, item in giving], worth - worth % step if step else worth


def takes_instead(order):
    """Whether swaps are met: all of them, since the samples let a buyer pay the difference."""
    rules = children(order.tier.element, "swap")
    return bool(order.swaps and rules and rules[0].get("allowed", "yes") == "yes")


def left_out(project, order):
    choice = order.tier.element.get("if-owned")
    out = credit(project, order)[0] if takes_instead(order) or choice == "credit" else []
    return out + [i["item"] for i in held(order) if choice == "nothing-instead" and i["item"] not in out]


def off_price(project, order):
    """What comes off the price of one kit: the credit, less what she takes for it."""
    if order.tier.element.get("if-owned") != "credit":
        return 0
    taken = sum(cents(project.items[swap].get("price")) for swap in order.swaps) if takes_instead(order) else 0
    return min(max(0, credit(project, order)[1] - taken), cents(order.tier.element.get("price")))
