"""What a kit of a tier hands over, and what it weighs: recomputed from the project, with exact fractions."""
import re
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction

COUNTED = ("embellishment", "envelope")
REELS = ("ribbon", "twine")


@dataclass
class Kit:
    """Things of one kit. Lengths and sides are millimetres."""
    pieces: Counter = field(default_factory=Counter)   # letter of a piece: how many
    shares: Counter = field(default_factory=Counter)   # (stock, width, height): pieces of a shared sheet
    sheets: Counter = field(default_factory=Counter)   # stock: whole sheets
    lengths: Counter = field(default_factory=Counter)  # (reel, length): pieces of ribbon or twine
    counts: Counter = field(default_factory=Counter)   # item: pieces, sets, spools; packs are in `packs`
    packs: Counter = field(default_factory=Counter)    # item: packs given unopened

    def times(self, quantity):
        return Kit(*(Counter({key: count * quantity for key, count in part.items()}) for part in self.parts()))

    def parts(self):
        return self.pieces, self.shares, self.sheets, self.lengths, self.counts, self.packs

    def __add__(self, other):
        return Kit(*(mine + others for mine, others in zip(self.parts(), other.parts())))

    def length_of(self, reel):
        return sum(length * count for (item, length), count in self.lengths.items() if item == reel)


def kit_of_tier(project, tier, left_out=(), swaps=()):
    """A kit of that tier, without what is left out for its buyer and with what she takes instead. Gifts stay in."""
    kit = Kit()
    for include in tier.includes():
        if include["item"] not in left_out or include.get("gift") == "yes":
            add_include(kit, project, include["item"], include.get("amount", "as needed"))
    for swap in swaps:
        item, _, amount = swap.partition(":")
        add_include(kit, project, item.strip(), amount.strip() or "whole")
    return kit


def add_include(kit, project, item, amount):
    """One <include>, by the kinds of amount that REFERENCE lists."""
    if item == "tutorial":
        return
    if item == "parts":
        for piece in project.pieces:
            kit.pieces[piece.letter] += piece.count * project.of_each
        return
    whole = re.fullmatch(r"(?:(\d+) )?whole", amount)
    share = re.fullmatch(r"(\d+)/(\d+) of a pack", amount)
    if amount == "as needed":
        add_as_needed(kit, project, item)
    elif whole:
        add_whole(kit, project, item, int(whole[1] or 1))
    elif share:
        add_share(kit, project, item, Fraction(int(share[1]), int(share[2])))
    elif amount.endswith(" sheets"):
        kit.sheets[item] += int(amount.removesuffix(" sheets"))
    elif project.kind(item) in REELS:
        kit.lengths[item, project.one_length(amount)] += 1
    else:
        kit.counts[item] += int(amount)


def add_whole(kit, project, item, count):
    """Of paper, adhesives and packs the whole is a pack; of everything else one thing."""
    in_packs = project.kind(item) in ("pack", "stock", "adhesive", *COUNTED)
    (kit.packs if in_packs else kit.counts)[item] += count


def add_share(kit, project, pack, share):
    """A share of a pack: whole sheets of each stock, and of the last sheet a strip of its full height."""
    for stock, sheets in project.holds(pack).items():
        whole, rest = divmod(sheets * share, 1)
        if whole:
            kit.sheets[stock] += int(whole)
        if rest:
            width, height = project.sheet(stock)
            kit.shares[stock, width * rest, height] += 1


def add_as_needed(kit, project, item):
    """What the cards of one kit take of it."""
    for card in project.cards:
        for reel, length in project.ribbons_of_a_card(card):
            if reel == item:
                kit.lengths[item, length] += project.of_each
        for thing, count in project.embellishments_of_a_card(card):
            if thing == item:
                kit.counts[item] += count * project.of_each


# Masses

def square_metres(width, height):
    return width * height / 1_000_000


def paper_grams(project, kit):
    """All paper of a kit: area times grammage, pieces as they are cut (die-cut waste is left on)."""
    by_letter = {piece.letter: piece for piece in project.pieces}
    total = Fraction(0)
    for letter, count in kit.pieces.items():
        piece = by_letter[letter]
        total += count * square_metres(piece.cut_width, piece.cut_height) * project.gsm(piece.stock)
    for (stock, width, height), count in kit.shares.items():
        total += count * square_metres(width, height) * project.gsm(stock)
    for stock, count in kit.sheets.items():
        total += count * square_metres(*project.sheet(stock)) * project.gsm(stock)
    for pack, count in kit.packs.items():
        if project.kind(pack) == "pack":
            for stock, sheets in project.holds(pack).items():
                total += count * sheets * square_metres(*project.sheet(stock)) * project.gsm(stock)
    return total


def reel_grams(project, kit):
    """Ribbon and twine by their share of a spool's mass (`each` is the mass of one spool)."""
    total = Fraction(0)
    for (reel, length), count in kit.lengths.items():
        each = project.each_grams(reel)
        if each is not None:
            total += count * each * length / project.one_length(project.items[reel].get("spool"))
    return total
