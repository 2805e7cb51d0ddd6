"""Follows each reference of the made booklets: what a page is said to hold stands on that page."""
import functools
import re
import subprocess
import unittest

import documents


@functools.cache
def pages(file):
    """The words of each page in the order in which they are read, blanks made one."""
    run = subprocess.run(["pdftotext", str(file), "-"], check=True, capture_output=True)
    return [" ".join(page.split()) for page in run.stdout.decode("utf-8").split("\f")[:-1]]


def booklets():
    for sample in documents.IDS:
        for file in sorted(documents.folder(sample).rglob("*tutorial*.pdf")):
            yield sample, file


def titles(sample):
    return [card.get("title") for card in documents.project(sample).root.iter("card")]


class References(unittest.TestCase):
    def test_there_are_booklets_of_each_sample(self):
        self.assertEqual({sample for sample, _ in booklets()}, set(documents.IDS))

    def test_each_page_that_is_named_exists(self):
        for sample, file in booklets():
            read = pages(file)
            for number, words in enumerate(read, 1):
                for named in re.findall(r"\bpages? (\d+)", words):
                    with self.subTest(file=file.name, page=number):
                        self.assertTrue(1 <= int(named) <= len(read), named)

    def test_each_card_stands_where_it_is_said_to(self):
        for sample, file in booklets():
            read = pages(file)
            front = " ".join(read[:3])
            for title in titles(sample):
                named = re.findall(re.escape(title) + r", page (\d+)", front)
                with self.subTest(file=file.name, title=title):
                    for page in named:
                        self.assertIn(title, read[int(page) - 1][:200])
                    if len(titles(sample)) > 1:
                        self.assertTrue(named, "the page of the card is not told")

    def test_each_page_bears_its_own_number(self):
        for sample, file in booklets():
            title = re.escape(documents.project(sample).root.get("title"))
            for number, words in enumerate(pages(file), 1):
                foot = re.search(rf"{title} · [^·]{{1,60}} (\d+)$", words[-100:])
                if foot:
                    with self.subTest(file=file.name, page=number):
                        self.assertEqual(int(foot[1]), number)

    def test_each_step_that_is_named_exists(self):
        for sample, file in booklets():
            read = pages(file)
            known = {title for words in read for title in re.findall(r"\b(\d{1,2}) [A-Z][a-z]+", words)}
            for number, words in enumerate(read, 1):
                for named in re.findall(r"\bsteps? (\d+)", words):
                    with self.subTest(file=file.name, page=number, step=named):
                        self.assertIn(named, known)


if __name__ == "__main__":
    unittest.main()
