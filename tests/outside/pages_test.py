"""Measures the pages of each made tutorial by poppler's words and boxes: a booklet that is read at a table."""
import html
import re
import subprocess
import unittest

import documents

# Pages at most, as measured when the layout was designed; a card is three or four.
MOST_PAGES = {"orchard-gate": 22, "kelp-lantern": 25, "five-minute": 5}
# Poppler's box of a word is as tall as its type.
LEAST_BOX = 8 - 0.05


def pages(sample):
    """Of each page its height and its words: text, left, top, right, bottom, in points."""
    file = documents.path(sample, "tutorial.pdf")
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


def greetings(sample):
    """The words that the sample's stamps print, in the pictures of its cards."""
    project = (documents.SAMPLES / sample / "project.xml").read_text(encoding="utf-8")
    return {word for said in re.findall(r"<text[^>]*>([^<]*)</text>", project) for word in said.split()}


class Pages(unittest.TestCase):
    def test_a_card_is_a_few_pages(self):
        for sample, most in MOST_PAGES.items():
            with self.subTest(sample=sample):
                self.assertLessEqual(len(pages(sample)), most)

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

    def test_no_page_is_blank(self):
        for sample in MOST_PAGES:
            for number, (_, words) in enumerate(pages(sample), 1):
                with self.subTest(sample=sample, page=number):
                    self.assertGreater(len(words), 5)


if __name__ == "__main__":
    unittest.main()
