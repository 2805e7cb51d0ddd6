"""Measures the pages of each made tutorial by poppler's words and boxes: a booklet that is read at a table."""
import html
import itertools
import re
import subprocess
import unittest

import documents

# Pages at most, as measured when the layout was designed; a card is three or four.
MOST_PAGES = {"orchard-gate": 22, "kelp-lantern": 24, "five-minute": 4}
# Of the papers beside it, by what they are: the fewest that the design asks for.
MOST_PAGES_BESIDE = {
    "orchard-gate": {"order-form.pdf": 1, "offer.pdf": 2, "totals.pdf": 2, "rundown.pdf": 3, "buying-list.pdf": 1, "handouts.pdf": 3,
                     "cutting-plan.pdf": 13, "private/packing-slips.pdf": 7},
    "kelp-lantern": {"order-form.pdf": 1, "offer.pdf": 2, "totals.pdf": 2, "rundown.pdf": 2, "buying-list.pdf": 1, "handouts.pdf": 5,
                     "cutting-plan.pdf": 19},
}
# Of the text's height, on every page but a cover, a card's last and the last of all.
LEAST_FILLED = 0.6
# Poppler's box of a word is as tall as its type.
LEAST_BOX = 8 - 0.05


def pages(sample, ending="tutorial.pdf"):
    """Of each page its height and its words: text, left, top, right, bottom, in points."""
    file = documents.path(sample, ending)
    run = subprocess.run(["pdftotext", "-bbox", str(file), "-"], check=True, capture_output=True)
    found = []
    for line in run.stdout.decode("utf-8").splitlines():
        page = re.search(r'<page width="([\d.]+)" height="([\d.]+)"', line)
        word = re.search(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>', line)
        if page:
            found.append((float(page[2]), []))
        elif word:
            found[-1][1].append((html.unescape(word[5]), *(float(word[i]) for i in range(1, 5))))
    return found


def filled(sample, ending="tutorial.pdf"):
    """Of each page the share of its text area down to the lowest ink, as the mean of three strips side by side."""
    dots, top, bottom = 36, 0.6, 0.85  # per inch; the template's margins in inches
    file = documents.path(sample, ending)
    run = subprocess.run(["pdftoppm", "-gray", "-r", str(dots), str(file)], check=True, capture_output=True)
    shares, rest = [], run.stdout
    while rest:
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", rest)
        wide, high = int(head[1]), int(head[2])
        body = rest[head.end():head.end() + wide * high]
        rest = rest[head.end() + wide * high:]
        first, last = round(top * dots), high - round(bottom * dots)
        inner = range(first, wide - first)
        depths = []
        for strip in range(3):
            left = first + len(inner) * strip // 3
            right = first + len(inner) * (strip + 1) // 3
            inked = [y for y in range(first, last) if min(body[y * wide + left:y * wide + right]) < 250]
            depths.append((inked[-1] + 1 - first if inked else 0) / (last - first))
        shares.append(sum(depths) / len(depths))
    return shares


def cards_last_pages(sample):
    """Numbers of the pages that end a card: its title stands in their foot and not in the next one's."""
    titles = re.findall(r'<card [^>]*title="([^"]*)"', (documents.SAMPLES / sample / "project.xml").read_text("utf-8"))
    feet = []
    for height, words in pages(sample):
        feet.append(" ".join(text for text, _, top, _, _ in words if top > height - 0.85 * 72))
    return {number for number, foot in enumerate(feet, 1)
            for title in titles if title in foot and (number == len(feet) or title not in feet[number])}


def greetings(sample):
    """The words that the sample's stamps print, in the pictures of its cards."""
    project = (documents.SAMPLES / sample / "project.xml").read_text(encoding="utf-8")
    return {word for said in re.findall(r"<text[^>]*>([^<]*)</text>", project) for word in said.split()}


class Pages(unittest.TestCase):
    def test_a_card_is_a_few_pages(self):
        for sample, most in MOST_PAGES.items():
            with self.subTest(sample=sample):
                self.assertLessEqual(len(pages(sample)), most)

    def test_the_papers_beside_it_are_short(self):
        for sample, papers in MOST_PAGES_BESIDE.items():
            for ending, most in papers.items():
                with self.subTest(sample=sample, paper=ending):
                    self.assertLessEqual(len(pages(sample, ending)), most)

    def test_an_offer_says_its_terms_on_its_first_page(self):
        for sample in documents.LARGE:
            _, words = pages(sample, "offer.pdf")[0]
            with self.subTest(sample=sample):
                self.assertIn("Prices are in", " ".join(text for text, *_ in words))

    def test_an_offer_fills_its_first_page(self):
        for sample in documents.LARGE:
            with self.subTest(sample=sample):
                self.assertGreater(filled(sample, "offer.pdf")[0], 0.85)

    def test_letters_below_each_other_on_a_slip_stand_apart(self):
        # A letter stands in the middle of its dot, 12.5 pt across.
        for number, (_, words) in enumerate(pages("orchard-gate", "private/packing-slips.pdf"), 1):
            letters = [((left + right) / 2, (top + bottom) / 2) for text, left, top, right, bottom in words
                       if re.fullmatch(r"[A-Z]{1,2}", text)]
            for one, other in itertools.combinations(letters, 2):
                if abs(one[0] - other[0]) < 12.5 and abs(one[1] - other[1]) < 60:
                    with self.subTest(page=number, one=one, other=other):
                        self.assertGreaterEqual(abs(one[1] - other[1]), 12.5)

    def test_no_word_is_smaller_than_eight_points(self):
        # Parts of a fraction and stamped greetings are drawn at their own size.
        for sample in MOST_PAGES:
            stamped = greetings(sample)
            for number, (_, words) in enumerate(pages(sample), 1):
                for text, _, top, _, bottom in words:
                    if not re.fullmatch(r"[A-Za-z]{4,}[.,]?", text) or text in stamped:
                        continue
                    with self.subTest(sample=sample, page=number, word=text):
                        self.assertGreaterEqual(bottom - top, LEAST_BOX)

    def test_pages_are_full(self):
        for sample in MOST_PAGES:
            shares = filled(sample)
            may_be_short = {1, len(shares)} | cards_last_pages(sample)
            for number, share in enumerate(shares, 1):
                if number in may_be_short:
                    continue
                with self.subTest(sample=sample, page=number):
                    self.assertGreaterEqual(share, LEAST_FILLED)

    def test_no_words_stand_over_each_other(self):
        # A box reaches above and below its letters: only the middle of each is compared.
        for sample in MOST_PAGES:
            stamped = greetings(sample)
            for number, (_, words) in enumerate(pages(sample), 1):
                plain = [(text, left, top + (bottom - top) / 4, right, bottom - (bottom - top) / 4)
                         for text, left, top, right, bottom in words
                         if re.search(r"[A-Za-z]{3}", text) and text not in stamped]
                over = [(one[0], other[0]) for one, other in itertools.combinations(plain, 2)
                        if min(one[3], other[3]) - max(one[1], other[1]) > 1
                        and min(one[4], other[4]) - max(one[2], other[2]) > 0]
                with self.subTest(sample=sample, page=number):
                    self.assertEqual(over, [])

    def test_no_page_is_blank(self):
        for sample in MOST_PAGES:
            for number, (_, words) in enumerate(pages(sample), 1):
                with self.subTest(sample=sample, page=number):
                    self.assertGreater(len(words), 5)


if __name__ == "__main__":
    unittest.main()
