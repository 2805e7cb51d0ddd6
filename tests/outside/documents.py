"""Finds the documents that `tests/outside/run` made, and makes those of changed projects."""
import csv
import functools
import json
import os
import subprocess
import tempfile
from pathlib import Path

from project import Project

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
IDS = {"orchard-gate": "orchard-gate", "kelp-lantern": "kelp-lantern", "five-minute": "first-leaf"}
LARGE = ("orchard-gate", "kelp-lantern")


def folder(sample):
    """Where the documents of a sample lie."""
    return Path(os.environ["OUTSIDE_DOCUMENTS"]) / sample


def path(sample, ending):
    """A document by its ending: `cutting-plan.json`, `private/money.json`."""
    under, _, name = ending.rpartition("/")
    return folder(sample) / under / f"{IDS[sample]}-{name}"


def data(sample, ending):
    return json.loads(path(sample, ending).read_text(encoding="utf-8"))


def rows(sample, ending):
    with open(path(sample, ending), encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


@functools.cache
def text(file):
    """The words of a PDF as poppler lays them out."""
    run = subprocess.run(["pdftotext", "-layout", str(file), "-"], check=True, capture_output=True)
    return run.stdout.decode("utf-8")


@functools.cache
def project(sample):
    return Project(SAMPLES / sample / "project.xml")


def make(verb, place):
    """Makes one document of the project in a folder into that folder."""
    command = [os.environ["OUTSIDE_PROGRAM"], verb, f"{place}/project.xml", "-o", place, "--quiet"]
    subprocess.run(command, check=True, capture_output=True)


def write(files, place):
    for name, words in files.items():
        (Path(place) / name).write_text(words, encoding="utf-8")


def made(verb, files, ident, ending):
    """Makes one document of a changed project, given as {file name: text}, and reads its JSON."""
    with tempfile.TemporaryDirectory() as place:
        write(files, place)
        make(verb, place)
        return json.loads((Path(place) / ending.format(id=ident)).read_text(encoding="utf-8"))
