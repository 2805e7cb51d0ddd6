"""Reads a PDF through `qpdf --json`: objects, the structure tree, and what the pages paint and mark."""
import base64
import json
import re
import struct
import subprocess
from dataclasses import dataclass, field

REFERENCE = re.compile(r"\d+ \d+ R")
STRING = rb"\((?:[^()\\]|\\.)*\)"
# What matters in a content stream: marked content, fonts, strings, and operators that paint.
TOKEN = re.compile(
    rb"/(?P<tag>\w+)\s*<<(?P<properties>(?:[^<>()]|" + STRING + rb"|<[0-9A-Fa-f\s]*>)*)>>\s*BDC\b"
    rb"|/(?P<named>\w+)\s*/(?P<property>\w+)\s*BDC\b"
    rb"|/(?P<plain>\w+)\s*BMC\b"
    rb"|/(?P<font>\S+)\s+[-+\d.]+\s+Tf\b"
    rb"|/(?P<object>\S+)\s+Do\b"
    rb"|(?P<string>" + STRING + rb"|<[0-9A-Fa-f\s]*>)"
    rb"|(?<![^\s\])>])(?P<operator>EMC|BI|Tj|TJ|'|\"|sh|[SsFq]|Q|[fBb]\*?)(?![^\s\[(</])", re.DOTALL)
ESCAPE = re.compile(rb"\\([0-7]{1,3}|\r?\n|.)", re.DOTALL)
ESCAPED = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f", b"\n": b"", b"\r\n": b""}


def string_bytes(token):
    """The bytes of a literal or hexadecimal string (ISO 32000-1, 7.3.4)."""
    if token[:1] == b"<":
        digits = re.sub(rb"\s", b"", token[1:-1])
        return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode())
    if b"\\" not in token:
        return token[1:-1]
    return ESCAPE.sub(unescape, token[1:-1])


def unescape(match):
    code = match[1]
    return bytes([int(code, 8) & 255]) if code[:1].isdigit() else ESCAPED.get(code, code)


@dataclass
class Marks:
    """What was found in the content of one page or form."""
    tagged: list = field(default_factory=list)        # (MCID, tag), as often as they are marked
    faults: list = field(default_factory=list)        # (failure condition, words)
    glyphs: dict = field(default_factory=dict)        # font object: set of two-byte codes
    forms: list = field(default_factory=list)         # form XObjects drawn that mark content of their own
    artifacts: int = 0


@dataclass
class Element:
    """A structure element; `kids` are elements, `content` its (page, MCID) pairs and `annotations` what it refers to."""
    type: str
    role: str
    parent: object
    values: dict
    key: str
    kids: list = field(default_factory=list)
    content: list = field(default_factory=list)
    annotations: list = field(default_factory=list)


class PdfFile:
    def __init__(self, path):
        command = ["qpdf", "--json=2", "--json-stream-data=inline", "--decode-level=generalized", str(path)]
        run = subprocess.run(command, check=True, capture_output=True)
        data = json.loads(run.stdout)
        self.name = path.name
        self.objects = data["qpdf"][1]
        self.page_keys = [page["object"] for page in data["pages"]]
        self.encryption = data["encrypt"]
        self.outlines = data["outlines"]

    # Objects

    def get(self, value):
        """Follows a reference; streams give their dictionary."""
        while isinstance(value, str) and REFERENCE.fullmatch(value):
            found = self.objects[f"obj:{value}"]
            value = found["value"] if "value" in found else found["stream"]["dict"]
        return value

    def item(self, values, *names):
        """A value some dictionaries deep, or None."""
        for name in names:
            values = self.get(values)
            if not isinstance(values, dict) or name not in values:
                return None
            values = values[name]
        return self.get(values)

    def stream(self, reference):
        return base64.b64decode(self.objects[f"obj:{reference}"]["stream"]["data"])

    def set_stream(self, reference, content):
        self.objects[f"obj:{reference}"]["stream"]["data"] = base64.b64encode(content).decode()

    def dictionaries(self):
        for found in self.objects.values():
            yield from nested(found["value"] if "value" in found else found["stream"]["dict"])

    @property
    def catalog(self):
        return self.get(self.objects["trailer"]["value"]["/Root"])

    def pages(self):
        return [(key, self.get(key)) for key in self.page_keys]

    # Structure

    def tree(self):
        """All structure elements in reading order."""
        found = []
        for kid in listed(self.item(self.catalog, "/StructTreeRoot", "/K")):
            self.collect(kid, None, None, found)
        return found

    def collect(self, reference, parent, page, found):
        values = self.get(reference)
        key = reference if isinstance(reference, str) else ""
        element = Element(values["/S"][1:], self.role(values["/S"])[1:], parent, values, key)
        found.append(element)
        if parent:
            parent.kids.append(element)
        page = values.get("/Pg", page)
        for kid in listed(values.get("/K")):
            self.collect_kid(kid, element, page, found)

    def collect_kid(self, kid, element, page, found):
        values = self.get(kid)
        if isinstance(values, int):
            element.content.append((page, values))
        elif values.get("/Type") == "/MCR":
            element.content.append((values.get("/Pg", page), values["/MCID"]))
        elif values.get("/Type") == "/OBJR":
            element.annotations.append(values["/Obj"])
        else:
            self.collect(kid, element, page, found)

    def role(self, name):
        roles = self.item(self.catalog, "/StructTreeRoot", "/RoleMap") or {}
        seen = set()
        while name in roles and name not in seen:
            seen.add(name)
            name = roles[name]
        return name

    def parent_tree(self):
        """Number: object or array of objects (ISO 32000-1, 7.9.7)."""
        numbers, waiting = {}, [self.item(self.catalog, "/StructTreeRoot", "/ParentTree")]
        while waiting:
            node = self.get(waiting.pop())
            waiting += node.get("/Kids", [])
            flat = node.get("/Nums", [])
            numbers |= dict(zip(flat[::2], flat[1::2]))
        return numbers

    def attribute(self, element, name):
        """An attribute of a structure element, from any owner."""
        for values in listed(self.get(element.values.get("/A"))):
            values = self.get(values)
            if isinstance(values, dict) and name in values:
                return self.get(values[name])
        return None

    # Content

    def page_marks(self, page):
        content = b"\n".join(self.stream(part) for part in listed(page["/Contents"]))
        marks = Marks()
        ContentReader(self, self.item(page, "/Resources") or {}, marks).read(content)
        return marks


def nested(value):
    """All dictionaries inside a value."""
    if isinstance(value, dict):
        yield value
        for inner in value.values():
            yield from nested(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from nested(inner)


def listed(value):
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


class ContentReader:
    """Plays a content stream, with the stack of marked content and of fonts."""

    def __init__(self, pdf, resources, marks):
        self.pdf, self.resources, self.marks = pdf, resources, marks
        self.stack, self.fonts, self.font, self.strings = [], [], None, []

    def read(self, content):
        for token in TOKEN.finditer(content):
            kind = token.lastgroup
            if kind == "string":
                self.strings.append(token[0])
            elif kind == "operator":
                self.operator(token[0])
            elif kind == "font":
                self.font = self.resources["/Font"][f"/{token['font'].decode()}"]
            elif kind == "object":
                self.draw(token["object"].decode())
            else:
                self.begin(token)
            if kind != "string":
                self.strings.clear()
        if self.stack:
            self.fault("01-005", f"marked content is not closed: {self.stack}")

    def begin(self, token):
        tag = (token["tag"] or token["named"] or token["plain"]).decode()
        mcid = re.search(rb"/MCID\s+(\d+)", token["properties"] or b"")
        if token["property"]:
            values = self.pdf.item(self.resources, "/Properties", f"/{token['property'].decode()}") or {}
            mcid = [None, values["/MCID"]] if "/MCID" in values else None
        inside = {kind for kind, _ in self.stack}
        kind = "artifact" if tag == "Artifact" else "tagged" if mcid else "other"
        if kind == "artifact":
            self.marks.artifacts += 1
            if "tagged" in inside:
                self.fault("01-003", "an artifact inside tagged content")
        if kind == "tagged":
            self.marks.tagged.append((int(mcid[1]), tag))
            if "artifact" in inside:
                self.fault("01-004", f"tagged content {mcid[1]} inside an artifact")
        self.stack.append((kind, tag))

    def operator(self, name):
        if name == b"EMC":
            if self.stack:
                self.stack.pop()
            else:
                self.fault("01-005", "EMC without a beginning")
        elif name == b"q":
            self.fonts.append(self.font)
        elif name == b"Q":
            self.font = self.fonts.pop() if self.fonts else None
        else:
            self.painted(name.decode())
            if name in (b"Tj", b"TJ", b"'", b'"'):
                self.shown()

    def painted(self, words):
        if not any(kind in ("artifact", "tagged") for kind, _ in self.stack):
            self.fault("01-005", f"{words} outside marked content")

    def shown(self):
        codes = self.marks.glyphs.setdefault(self.font, set())
        for token in self.strings:
            content = string_bytes(token)
            codes.update(struct.unpack(f">{len(content) // 2}H", content[:len(content) // 2 * 2]))

    def draw(self, name):
        """What a form paints is covered by the marks it is drawn in; marks inside it are looked for, not read."""
        reference = self.resources["/XObject"][f"/{name}"]
        is_form = self.pdf.get(reference)["/Subtype"] == "/Form"
        if is_form and b"/MCID" in self.pdf.stream(reference):
            self.marks.forms.append(reference)
        self.painted("a form" if is_form else "an image")

    def fault(self, condition, words):
        self.marks.faults.append((condition, words))
