"""Every PDF of the samples against the failure conditions of the Matterhorn Protocol for PDF/UA-1.

matterhorn.csv lists the conditions, from memory: which ones a program looks at here (and by which rules), which need a
person, and which cannot occur in these files (with the rule that would notice if they could). Accessible files need that
person all the same: nothing here knows whether a description describes.
"""
import csv
import functools
import os
import unittest
from pathlib import Path

import accessible_rules
import documents
from accessible_controls import CONTROLS

# Rules of our own: what README says of links.
BEYOND = {"link_that_names_a_number_only"}


def table():
    with open(Path(__file__).with_name("matterhorn.csv"), encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def rules_of(row):
    return row["rules"].split()


@functools.cache
def breaches():
    """{rule: breaches of all files}; one file at a time is held in memory."""
    found = {rule: [] for rule in CONTROLS}
    for path in sorted(Path(os.environ["OUTSIDE_DOCUMENTS"]).rglob("*.pdf")):
        subject = accessible_rules.Subject(path)
        for rule, words in found.items():
            words += [f"{subject.name}: {breach}" for breach in getattr(accessible_rules, rule)(subject)]
    return found


class Table(unittest.TestCase):
    def test_136_conditions_stand_once_each(self):
        self.assertEqual(len({row["condition"] for row in table()}), 136)
        self.assertEqual(len(table()), 136)

    def test_each_is_looked_at_by_someone_or_cannot_occur(self):
        for row in table():
            self.assertIn(row["looked at by"], ("program", "person", "cannot occur"), row["condition"])
            self.assertIn(row["memory"], ("sure", "unsure"), row["condition"])
            if row["looked at by"] == "program":
                self.assertTrue(rules_of(row), row["condition"])
            if row["looked at by"] == "cannot occur":
                self.assertTrue(row["remark"], row["condition"])

    def test_its_rules_are_those_that_have_a_control(self):
        named = {rule for row in table() for rule in rules_of(row)}
        self.assertEqual(named | BEYOND, set(CONTROLS))

    def test_there_are_documents_of_each_sample(self):
        for sample in documents.IDS:
            # A class without kits has no papers of a batch: a tutorial, handouts, the teacher's set, a run sheet.
            least = 4 if sample == "five-minute" else 9
            self.assertGreaterEqual(len(list(documents.folder(sample).rglob("*.pdf"))), least, sample)


class Documents(unittest.TestCase):
    """A test for each rule is added below."""


class Controls(unittest.TestCase):
    """A file, spoilt in one way, breaks the rule that looks for it as it did not before."""

    def spoken(self, rule, spoil):
        subject = accessible_rules.Subject(documents.path("orchard-gate", "tutorial.pdf"))
        spoil(subject)
        for name in ("marks", "glyphs"):  # what was read before it was spoilt
            vars(subject).pop(name, None)
        return set(getattr(accessible_rules, rule)(subject))

    def test_each_rule_speaks_when_it_should(self):
        for rule, spoil in CONTROLS.items():
            with self.subTest(rule=rule):
                before = self.spoken(rule, lambda subject: None)
                self.assertTrue(self.spoken(rule, spoil) - before)


def check_of(rule):
    def test(self):
        self.assertEqual(breaches()[rule][:5], [])
    test.__doc__ = getattr(accessible_rules, rule).__doc__
    return test


for each in CONTROLS:
    setattr(Documents, f"test_{each}", check_of(each))


if __name__ == "__main__":
    unittest.main()
