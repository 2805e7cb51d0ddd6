"""The failure conditions of the Matterhorn Protocol for PDF/UA-1 (ISO 14289-1) that a program can look at.

Each rule is a function of one file that yields words for each breach, under the number of its condition. Numbers and
conditions are from memory of the protocol; matterhorn.csv says of each whether it is looked at here.
"""
import re
import xml.etree.ElementTree as ElementTree
from collections import Counter
from functools import cached_property

from pdf_file import PdfFile, listed
from true_type import TrueType

STANDARD_TYPES = set("""Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5
H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP
Warichu WT WP Figure Formula Form""".split())
LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*")
XMP = {"dc": "http://purl.org/dc/elements/1.1/", "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
       "pdfuaid": "http://www.aiim.org/pdfua/ns/id/"}
XML_LANG = "{http://www.w3.org/XML/1998/namespace}lang"


class Subject(PdfFile):
    """A file under examination, with what several rules ask for."""

    @cached_property
    def elements(self):
        return self.tree()

    @cached_property
    def marks(self):
        return {key: self.page_marks(page) for key, page in self.pages()}

    @cached_property
    def glyphs(self):
        """{font: codes shown} over all pages."""
        shown = {}
        for marks in self.marks.values():
            for font, codes in marks.glyphs.items():
                shown.setdefault(font, set()).update(codes)
        return shown

    @cached_property
    def xmp(self):
        reference = self.catalog.get("/Metadata")
        return ElementTree.fromstring(self.stream(reference)) if reference else None

    def annotations(self):
        for key, page in self.pages():
            for reference in listed(self.get(page.get("/Annots"))):
                yield key, page, reference, self.get(reference)

    def of_type(self, *roles):
        return [element for element in self.elements if element.role in roles]

    def actions(self):
        kinds = ("/JavaScript", "/Rendition", "/Movie", "/Sound")
        return [found for found in self.dictionaries() if found.get("/S") in kinds]

    def fonts(self):
        """(reference, font, descendant, descriptor) of each Type 0 font."""
        for reference in self.glyphs:
            font = self.get(reference)
            if font.get("/Subtype") == "/Type0":
                descendant = self.get(listed(font["/DescendantFonts"])[0])
                yield reference, font, descendant, self.get(descendant["/FontDescriptor"])


def text_of(value):
    """A text string of qpdf's JSON, without its sign; empty when there is none."""
    return value[2:].strip() if isinstance(value, str) and value.startswith("u:") else ""


# Real content, artifacts and the tree

def artifact_inside_content(subject):
    return faults(subject, "01-003")


def content_inside_artifact(subject):
    return faults(subject, "01-004")


def faults(subject, condition):
    return [f"{page}: {words}" for page, marks in subject.marks.items() for number, words in marks.faults
            if number == condition]


def unmarked_content(subject):
    """Painted outside of marks, or marked by a number that the tree does not know; each number once."""
    yield from faults(subject, "01-005")
    owned = Counter(place for element in subject.elements for place in element.content)
    for page, marks in subject.marks.items():
        for mcid, count in Counter(mcid for mcid, _ in marks.tagged).items():
            if count != 1 or owned[page, mcid] != 1:
                yield f"{page}: MCID {mcid} is marked {count} times and owned {owned[page, mcid]} times"
    marked = {(page, mcid) for page, marks in subject.marks.items() for mcid, _ in marks.tagged}
    for place in owned.keys() - marked:
        yield f"{place}: owned, but not in the content"


def parent_tree_disagrees(subject):
    """ISO 32000-1, 14.7.4.4: the parent tree leads from content and annotations back to their elements."""
    numbers = subject.parent_tree()
    by_key = {element.key: element for element in subject.elements}
    for key, page in subject.pages():
        owners = subject.get(numbers.get(page.get("/StructParents"))) or []
        for mcid, _ in subject.marks[key].tagged:
            element = by_key.get(owners[mcid]) if mcid < len(owners) else None
            if element is None or (key, mcid) not in element.content:
                yield f"{key}: MCID {mcid} does not lead to its element"
    for _, _, reference, values in subject.annotations():
        element = by_key.get(numbers.get(values.get("/StructParent")))
        if element is None or reference not in element.annotations:
            yield f"annotation {reference} does not lead to its element"


def not_marked(subject):
    if subject.item(subject.catalog, "/MarkInfo", "/Marked") is not True:
        yield "MarkInfo does not say Marked"


def suspects(subject):
    if subject.item(subject.catalog, "/MarkInfo", "/Suspects"):
        yield "Suspects is true"


def role_map(subject):
    return subject.item(subject.catalog, "/StructTreeRoot", "/RoleMap") or {}


def type_without_standard(subject):
    return [f"{e.type} ends at {e.role}" for e in subject.elements if e.role not in STANDARD_TYPES]


def circular_roles(subject):
    roles = role_map(subject)
    for first in roles:
        seen, name = set(), first
        while name in roles and name not in seen:
            seen.add(name)
            name = roles[name]
        if name in seen:
            yield f"{first} is mapped in a circle"


def standard_remapped(subject):
    return [f"{name} is mapped" for name in role_map(subject) if name[1:] in STANDARD_TYPES]


# Metadata and settings

def no_metadata(subject):
    if subject.xmp is None:
        yield "no XMP"


def no_identifier(subject):
    """pdfuaid:part is an element or an attribute of the description."""
    if subject.xmp is None:
        return
    name = f"{{{XMP['pdfuaid']}}}part"
    parts = [e.text for e in subject.xmp.iter(name)] + [e.get(name) for e in subject.xmp.iter() if e.get(name)]
    if parts != ["1"]:
        yield f"pdfuaid:part {parts}"


def titles(subject):
    if subject.xmp is None:
        return []
    return subject.xmp.findall(".//dc:title/rdf:Alt/rdf:li", XMP)


def no_title(subject):
    if not any((title.text or "").strip() for title in titles(subject)):
        yield "no dc:title"


def title_not_asked_for(subject):
    if subject.item(subject.catalog, "/ViewerPreferences", "/DisplayDocTitle") is None:
        yield "no DisplayDocTitle"


def title_not_shown(subject):
    if subject.item(subject.catalog, "/ViewerPreferences", "/DisplayDocTitle") is False:
        yield "DisplayDocTitle is false"


# Which elements may lie in which (ISO 32000-1, tables 333, 336 and 337)

TABLE_KIDS = {"Table": {"TR", "THead", "TBody", "TFoot", "Caption"}, "THead": {"TR"}, "TBody": {"TR"}, "TFoot": {"TR"},
              "TR": {"TH", "TD"}}
TABLE_PARENTS = {"TR": {"Table", "THead", "TBody", "TFoot"}, "TH": {"TR"}, "TD": {"TR"}, "THead": {"Table"},
                 "TBody": {"Table"}, "TFoot": {"Table"}}
LIST_KIDS = {"L": {"L", "LI", "Caption"}, "LI": {"Lbl", "LBody"}}
LIST_PARENTS = {"LI": {"L"}, "LBody": {"LI"}}
TOC_KIDS = {"TOC": {"TOC", "TOCI", "Caption"}, "TOCI": {"Lbl", "Reference", "NonStruct", "P", "TOC"}}
TOC_PARENTS = {"TOCI": {"TOC"}}


def wrong_nesting(subject, kids, parents):
    for element in subject.elements:
        for kid in element.kids if element.role in kids else []:
            if kid.role not in kids[element.role]:
                yield f"{kid.role} in {element.role}"
        if element.role in parents and (element.parent is None or element.parent.role not in parents[element.role]):
            yield f"{element.role} in {element.parent and element.parent.role}"
        if element.role in kids and element.content:
            yield f"content directly in {element.role}"


def table_nesting(subject):
    yield from wrong_nesting(subject, TABLE_KIDS, TABLE_PARENTS)
    for table in subject.of_type("Table"):
        roles = [kid.role for kid in table.kids]
        if roles.count("THead") > 1 or roles.count("TFoot") > 1 or "Caption" in roles[1:-1]:
            yield f"a table of {roles}"


def list_nesting(subject):
    return wrong_nesting(subject, LIST_KIDS, LIST_PARENTS)


def toc_nesting(subject):
    return wrong_nesting(subject, TOC_KIDS, TOC_PARENTS)


def east_asian_notes(subject):
    return [element.role for element in subject.of_type("Ruby", "RB", "RT", "RP", "Warichu", "WT", "WP")]


def article_threads(subject):
    return [f"thread {thread}" for thread in listed(subject.get(subject.catalog.get("/Threads")))]


# Languages

def language_of(element):
    while element is not None:
        if "/Lang" in element.values:
            return text_of(element.values["/Lang"])
        element = element.parent
    return ""


def document_language(subject):
    return text_of(subject.item(subject.catalog, "/Lang"))


def is_language(words):
    return bool(LANGUAGE.fullmatch(words))


def text_without_language(subject):
    for element in subject.elements:
        if element.content and not is_language(language_of(element) or document_language(subject)):
            yield f"{element.role} has no language"


def descriptions_without_language(subject):
    for element in subject.elements:
        described = any(name in element.values for name in ("/Alt", "/ActualText", "/E"))
        if described and not is_language(language_of(element) or document_language(subject)):
            yield f"the description of a {element.role} has no language"


def outlines_without_language(subject):
    if subject.outlines and not is_language(document_language(subject)):
        yield "outlines have no language"


def annotations_without_language(subject):
    for _, _, reference, values in subject.annotations():
        if text_of(values.get("/Contents")) and not is_language(text_of(values.get("/Lang")) or document_language(subject)):
            yield f"annotation {reference} has no language"


def metadata_without_language(subject):
    """The title says its language itself, or it is x-default and the document says it."""
    for title in titles(subject):
        language = title.get(XML_LANG, "")
        if not is_language(document_language(subject) if language in ("", "x-default") else language):
            yield f"title in {language!r}"


# Figures, headings, tables, lists, notes

def figure_without_words(subject):
    for figure in subject.of_type("Figure"):
        if not text_of(figure.values.get("/Alt")) and not text_of(figure.values.get("/ActualText")):
            yield f"figure {figure.key}"


def heading_levels(subject):
    return [int(element.role[1:]) for element in subject.elements if re.fullmatch(r"H\d", element.role)]


def first_heading_is_not_first(subject):
    levels = heading_levels(subject)
    if levels and levels[0] != 1:
        yield f"the first heading is H{levels[0]}"


def heading_level_skipped(subject):
    levels = heading_levels(subject)
    for before, after in zip(levels, levels[1:]):
        if after > before + 1:
            yield f"H{after} after H{before}"


def several_h_in_a_node(subject):
    for element in subject.elements:
        if [kid.role for kid in element.kids].count("H") > 1:
            yield f"a {element.role} with several H"


def h_beside_numbered(subject):
    if subject.of_type("H") and heading_levels(subject):
        yield "H and H1"


def header_without_scope(subject):
    """Where cells do not name their headers, each header says which way it heads."""
    for table in subject.of_type("Table"):
        cells = [cell for cell in descendants(table) if cell.role in ("TH", "TD")]
        if any(subject.attribute(cell, "/Headers") for cell in cells):
            continue
        for cell in cells:
            if cell.role == "TH" and subject.attribute(cell, "/Scope") not in ("/Row", "/Column", "/Both"):
                yield f"TH {cell.key}"


def descendants(element):
    for kid in element.kids:
        yield kid
        yield from descendants(kid)


def irregular_table(subject):
    """Rows of one table span as many columns, and there is a header: what a program can see of 15-005."""
    for table in subject.of_type("Table"):
        rows = [element for element in descendants(table) if element.role == "TR"]
        widths = row_widths(subject, rows)
        if len(set(widths)) > 1:
            yield f"table {table.key} has rows of {sorted(set(widths))} columns"
        if not any(cell.role == "TH" for row in rows for cell in row.kids):
            yield f"table {table.key} has no header"


def row_widths(subject, rows):
    """Columns that each row fills, with the cells that reach down into it."""
    reaching, widths = Counter(), []
    for place, row in enumerate(rows):
        width = reaching[place]
        for cell in row.kids:
            columns = subject.attribute(cell, "/ColSpan") or 1
            width += columns
            for below in range(1, subject.attribute(cell, "/RowSpan") or 1):
                reaching[place + below] += columns
        widths.append(width)
    return widths


NUMBERINGS = {"/Disc", "/Circle", "/Square", "/Decimal", "/UpperRoman", "/LowerRoman", "/UpperAlpha", "/LowerAlpha"}


def list_without_numbering(subject):
    """ISO 14289-1, 7.6: a list whose items have labels says how they are numbered."""
    for found in subject.of_type("L"):
        labelled = any(kid.role == "Lbl" for item in found.kids for kid in item.kids)
        if labelled and subject.attribute(found, "/ListNumbering") is None:
            yield f"L {found.key}"


def list_with_unknown_numbering(subject):
    for found in subject.of_type("L"):
        numbering = subject.attribute(found, "/ListNumbering")
        if numbering is not None and numbering not in NUMBERINGS | {"/None"}:
            yield f"L {found.key} is numbered {numbering}"


def formula_without_words(subject):
    return [f"formula {e.key}" for e in subject.of_type("Formula") if not text_of(e.values.get("/Alt"))]


def note_without_id(subject):
    return [f"note {e.key}" for e in subject.of_type("Note") if "/ID" not in e.values]


def note_with_anothers_id(subject):
    ids = Counter(e.values.get("/ID") for e in subject.of_type("Note"))
    return [f"ID {name} stands {count} times" for name, count in ids.items() if count > 1]


# Optional content, files, forms, security

def layers(subject):
    values = subject.item(subject.catalog, "/OCProperties") or {}
    return [subject.get(found) for found in listed(subject.get(values.get("/Configs"))) + listed(values.get("/D"))]


def layer_without_name(subject):
    return ["no name" for found in layers(subject) if not text_of(found.get("/Name"))]


def layer_switched_by_itself(subject):
    return ["AS" for found in layers(subject) if "/AS" in found]


def embedded_file_without_name(subject):
    for found in subject.dictionaries():
        if "/EF" in found and not {"/F", "/UF"} <= found.keys():
            yield f"a file specification with {sorted(found)}"


def dynamic_form(subject):
    if subject.item(subject.catalog, "/AcroForm", "/XFA") is not None:
        yield "XFA"


def locked_to_readers(subject):
    encryption = subject.encryption
    if encryption["encrypted"] and not encryption["capabilities"]["accessibility"]:
        yield "reading aloud is forbidden"


# Annotations

def tagged_as(subject, reference):
    return [element.role for element in subject.elements if reference in element.annotations]


def annotation_outside_annot(subject):
    for _, _, reference, values in subject.annotations():
        kind = values["/Subtype"]
        if kind not in ("/Widget", "/Link", "/PrinterMark", "/Popup") and tagged_as(subject, reference) != ["Annot"]:
            yield f"{kind} {reference}"


def annotation_without_words(subject):
    for _, _, reference, values in subject.annotations():
        if values["/Subtype"] != "/Widget" and not text_of(values.get("/Contents")):
            yield f"{values['/Subtype']} {reference}"


KNOWN_ANNOTATIONS = {f"/{name}" for name in """Text Link FreeText Line Square Circle Polygon PolyLine Highlight Underline
Squiggly StrikeOut Stamp Caret Ink Popup FileAttachment Sound Movie Widget Screen PrinterMark TrapNet Watermark 3D
Redact""".split()}


def unknown_annotation(subject):
    return [f"{v['/Subtype']} {r}" for _, _, r, v in subject.annotations() if v["/Subtype"] not in KNOWN_ANNOTATIONS]


def trap_net(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/TrapNet"]


def page_without_tab_order(subject):
    return sorted({key for key, page, _, _ in subject.annotations() if "/Tabs" not in page})


def page_with_another_tab_order(subject):
    return sorted({key for key, page, _, _ in subject.annotations() if page.get("/Tabs", "/S") != "/S"})


def widget_outside_form(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/Widget" and tagged_as(subject, r) != ["Form"]]


def field_without_words(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/Widget" and not text_of(v.get("/TU"))]


def field_of_other_kind(subject):
    """Words and ticks alone: nothing to sign, to push or to choose from a list."""
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/Widget" and v.get("/FT") not in ("/Tx", "/Btn")]


def link_outside_link(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/Link" and tagged_as(subject, r) != ["Link"]]


def link_without_words(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/Link" and not text_of(v.get("/Contents"))]


def link_sends_coordinates(subject):
    return [found["/URI"] for found in subject.dictionaries() if found.get("/S") == "/URI" and found.get("/IsMap")]


def printer_mark_in_tree(subject):
    return [r for _, _, r, v in subject.annotations() if v["/Subtype"] == "/PrinterMark" and tagged_as(subject, r)]


def annotation_other_than_link_or_field(subject):
    return [f"{v['/Subtype']} {r}" for _, _, r, v in subject.annotations() if v["/Subtype"] not in ("/Link", "/Widget")]


def media_or_script(subject):
    """Nothing of the kind is made: one condition stands for all that ask how it is done."""
    found = [values["/S"] for values in subject.actions()]
    return found + [v["/Subtype"] for _, _, _, v in subject.annotations()
                    if v["/Subtype"] in ("/Screen", "/Movie", "/Sound", "/3D", "/FileAttachment")]


def reference_object(subject):
    return ["Ref" for found in subject.dictionaries() if found.get("/Subtype") == "/Form" and "/Ref" in found]


def tagged_form_drawn_twice(subject):
    drawn = Counter(form for marks in subject.marks.values() for form in marks.forms)
    return [f"{form} is drawn {count} times" for form, count in drawn.items() if count > 1]


# Fonts. Only Type 0 fonts over TrueType with the identity of codes and glyphs are made; another kind is a breach of
# `another_kind_of_font`, so that the conditions for it need not be looked at.

def another_kind_of_font(subject):
    for reference in subject.glyphs:
        font = subject.get(reference)
        if font.get("/Subtype") != "/Type0":
            yield f"{font.get('/BaseFont')} is {font.get('/Subtype')}"
    for _, font, descendant, _ in subject.fonts():
        if descendant["/Subtype"] != "/CIDFontType2":
            yield f"{font['/BaseFont']} is over {descendant['/Subtype']}"


def other_encoding(subject):
    return [f"{font['/BaseFont']}: {font['/Encoding']}" for _, font, _, _ in subject.fonts()
            if font["/Encoding"] not in ("/Identity-H", "/Identity-V")]


def no_glyph_map(subject):
    return [font["/BaseFont"] for _, font, descendant, _ in subject.fonts() if "/CIDToGIDMap" not in descendant]


def strange_glyph_map(subject):
    """The samples' fonts use Identity; a stream would do too, but nothing here would read it."""
    return [font["/BaseFont"] for _, font, descendant, _ in subject.fonts()
            if descendant.get("/CIDToGIDMap", "/Identity") != "/Identity"]


def font_not_embedded(subject):
    return [font["/BaseFont"] for _, font, _, descriptor in subject.fonts() if "/FontFile2" not in descriptor]


def programs(subject):
    """(font, its TrueType program, codes shown, its words) of each embedded font."""
    for reference, font, descendant, descriptor in subject.fonts():
        if "/FontFile2" in descriptor:
            program = TrueType(subject.stream(descriptor["/FontFile2"]))
            yield font, descendant, program, subject.glyphs[reference], unicode_of(subject, font)


def glyph_missing(subject):
    """A code whose glyph has no outline, unless it stands for a blank."""
    for font, _, program, codes, words in programs(subject):
        for code in sorted(codes):
            blank = not words.get(code, "x").replace("\u200b", "").replace("\u00ad", "").strip()
            if not blank and not program.is_drawn(code):
                yield f"{font['/BaseFont']}: glyph {code} ({words.get(code)!r})"


def width_differs(subject):
    for font, descendant, program, codes, _ in programs(subject):
        widths = widths_of(subject, descendant)
        for code in sorted(codes):
            told = widths.get(code, descendant.get("/DW", 1000))
            if abs(told - program.advance(code)) > 1:
                yield f"{font['/BaseFont']}: glyph {code} is told {told}, is {program.advance(code)}"


def widths_of(subject, descendant):
    """ISO 32000-1, 9.7.4.3: `first [w w …]` or `first last w`."""
    widths, array = {}, list(subject.get(descendant.get("/W", [])))
    while array:
        first, second = array.pop(0), subject.get(array.pop(0))
        if isinstance(second, list):
            widths |= dict(enumerate(second, first))
        else:
            widths |= dict.fromkeys(range(first, second + 1), array.pop(0))
    return widths


def set_of_glyphs(subject):
    """A CIDSet must be complete; none is written, which is allowed."""
    return [font["/BaseFont"] for _, font, _, descriptor in subject.fonts() if "/CIDSet" in descriptor]


def unicode_of(subject, font):
    """{code: words} of a ToUnicode CMap (ISO 32000-1, 9.10.3)."""
    if "/ToUnicode" not in font:
        return {}
    words, content = {}, subject.stream(font["/ToUnicode"])
    for block in re.findall(rb"beginbfchar(.*?)endbfchar", content, re.DOTALL):
        for code, target in re.findall(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]*)>", block):
            words[int(code, 16)] = utf16(target)
    for block in re.findall(rb"beginbfrange(.*?)endbfrange", content, re.DOTALL):
        for low, high, target in re.findall(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
            start = utf16(target)
            for code in range(int(low, 16), int(high, 16) + 1):
                words[code] = start[:-1] + chr(ord(start[-1]) + code - int(low, 16))
    return words


def utf16(digits):
    return bytes.fromhex(digits.decode()).decode("utf-16-be")


def no_unicode(subject):
    for reference, font, _, _ in subject.fonts():
        missing = sorted(subject.glyphs[reference] - {code for code, words in unicode_of(subject, font).items() if words})
        if missing:
            yield f"{font['/BaseFont']}: codes {missing}"


def no_unicode_map(subject):
    return [font["/BaseFont"] for _, font, _, _ in subject.fonts() if "/ToUnicode" not in font]


def unicode_is(subject, wrong):
    for _, font, _, _ in subject.fonts():
        for code, words in unicode_of(subject, font).items():
            if set(words) & set(wrong):
                yield f"{font['/BaseFont']}: code {code} is {words!r}"


def unicode_zero(subject):
    return unicode_is(subject, "\0")


def unicode_byte_order(subject):
    return unicode_is(subject, "\ufeff\ufffe")


def undefined_glyph(subject):
    return [font["/BaseFont"] for reference, font, _, _ in subject.fonts() if 0 in subject.glyphs[reference]]


# Beyond the protocol: what the program says of itself

def link_that_names_a_number_only(subject):
    """README: "links that say where they lead"."""
    return [f"{r}: {text_of(v.get('/Contents'))}" for _, _, r, v in subject.annotations()
            if v["/Subtype"] == "/Link" and re.fullmatch(r"[\divxlc]*", text_of(v.get("/Contents")))]
