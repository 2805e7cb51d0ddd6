"""For each rule, one way to spoil a good file so that the rule must speak.

The file is spoilt in memory, object by object; it need not be a valid PDF afterwards."""
import accessible_rules as rules


def element(subject, role):
    """The values of the first structure element of that role."""
    return next(found.values for found in subject.tree() if found.role == role)


def retyped(role, other):
    def spoil(subject):
        element(subject, role)["/S"] = f"/{other}"
    return spoil


def without(role, name):
    def spoil(subject):
        del element(subject, role)[name]
    return spoil


def in_catalog(name, value):
    def spoil(subject):
        subject.catalog[name] = value
    return spoil


def without_catalog(name):
    def spoil(subject):
        del subject.catalog[name]
    return spoil


def painted(content):
    """Added to the first page, which has fonts already."""
    def spoil(subject):
        _, page = subject.pages()[0]
        reference = rules.listed(page["/Contents"])[0]
        font = next(iter(subject.item(page, "/Resources", "/Font")))
        subject.set_stream(reference, subject.stream(reference) + content.replace(b"FONT", font.encode() + b" 9 Tf"))
    return spoil


def in_metadata(old, new):
    def spoil(subject):
        reference = subject.catalog["/Metadata"]
        content = subject.stream(reference)
        assert old in content, old
        subject.set_stream(reference, content.replace(old, new))
    return spoil


def changed(find, name, value):
    """Changes an entry of the dictionary that `find` finds; None takes it away."""
    def spoil(subject):
        values = find(subject)
        values.pop(name, None)
        if value is not None:
            values[name] = value
    return spoil


def link(name, value):
    """Of the first annotation."""
    return changed(lambda subject: next(found for _, _, _, found in subject.annotations()), name, value)


def linked_page(value):
    """Of the first page with an annotation."""
    return changed(lambda subject: next(page for _, page, _, _ in subject.annotations()), "/Tabs", value)


def font(part, name, value):
    """Of a font, its descendant or its descriptor."""
    place = {"font": 1, "descendant": 2, "descriptor": 3}[part]
    return changed(lambda subject: next(subject.fonts())[place], name, value)


def to_unicode(content):
    def spoil(subject):
        values = next(subject.fonts())[1]
        subject.set_stream(values["/ToUnicode"], content)
    return spoil


def new_object(values):
    def spoil(subject):
        subject.objects["obj:99999 0 R"] = {"value": values}
    return spoil


def disagreeing_parents(subject):
    page = subject.pages()[0][1]
    subject.get(subject.parent_tree()[page["/StructParents"]]).reverse()


def deeper_last_heading(subject):
    found = [e for e in subject.tree() if e.role in ("H1", "H2", "H3")]
    found[-1].values["/S"] = "/H6"


def two_h_in_a_node(subject):
    parent = next(e for e in subject.tree() if len([k for k in e.kids if k.role == "P"]) > 1)
    for kid in parent.kids:
        kid.values["/S"] = "/H"


def shorter_row(subject):
    row = next(e for e in subject.tree() if e.role == "TR" and len(e.kids) > 1)
    row.values["/K"] = rules.listed(row.values["/K"])[1:]


def two_notes_of_one_id(subject):
    for found in [e for e in subject.tree() if e.role == "P"][:2]:
        found.values |= {"/S": "/Note", "/ID": "u:one"}


def locked(subject):
    subject.encryption = {"encrypted": True, "capabilities": {"accessibility": False}}


def tagged_form_twice(subject):
    subject.objects["obj:99999 0 R"] = {"stream": {"dict": {"/Subtype": "/Form"}, "data": ""}}
    subject.set_stream("99999 0 R", b"/P <</MCID 7>> BDC EMC")
    subject.item(subject.pages()[0][1], "/Resources")["/XObject"] = {"/X": "99999 0 R"}
    painted(b"\n/X Do /X Do")(subject)


def simple_font(subject):
    next(subject.fonts())[1]["/Subtype"] = "/Type1"


def other_numbering(subject):
    element(subject, "L")["/A"] = {"/O": "/List", "/ListNumbering": "/Runes"}


SHOWN = b"\n/Artifact BMC FONT <%s> Tj EMC"
CONTROLS = {
    "artifact_inside_content": painted(b"\n/P <</MCID 0>> BDC /Artifact BMC EMC EMC"),
    "content_inside_artifact": painted(b"\n/Artifact BMC /P <</MCID 0>> BDC EMC EMC"),
    "unmarked_content": painted(b"\n0 0 9 9 re f"),
    "parent_tree_disagrees": disagreeing_parents,
    "not_marked": without_catalog("/MarkInfo"),
    "suspects": in_catalog("/MarkInfo", {"/Marked": True, "/Suspects": True}),
    "type_without_standard": retyped("P", "Leaf"),
    "circular_roles": lambda subject: subject.item(subject.catalog, "/StructTreeRoot").update(
        {"/RoleMap": {"/One": "/Two", "/Two": "/One"}}),
    "standard_remapped": lambda subject: subject.item(subject.catalog, "/StructTreeRoot").update(
        {"/RoleMap": {"/P": "/Span"}}),
    "no_metadata": without_catalog("/Metadata"),
    "no_identifier": in_metadata(b"pdfuaid:part", b"pdfuaid:port"),
    "no_title": in_metadata(b"dc:title", b"dc:tattle"),
    "title_not_asked_for": without_catalog("/ViewerPreferences"),
    "title_not_shown": in_catalog("/ViewerPreferences", {"/DisplayDocTitle": False}),
    "table_nesting": retyped("TR", "P"),
    "list_nesting": retyped("LBody", "P"),
    "toc_nesting": retyped("TOCI", "P"),
    "east_asian_notes": retyped("P", "Ruby"),
    "article_threads": in_catalog("/Threads", [{}]),
    "text_without_language": without_catalog("/Lang"),
    "descriptions_without_language": in_catalog("/Lang", "u:no language"),
    "outlines_without_language": without_catalog("/Lang"),
    "annotations_without_language": without_catalog("/Lang"),
    "metadata_without_language": without_catalog("/Lang"),
    "figure_without_words": without("Figure", "/Alt"),
    "first_heading_is_not_first": retyped("H1", "H2"),
    "heading_level_skipped": deeper_last_heading,
    "several_h_in_a_node": two_h_in_a_node,
    "h_beside_numbered": retyped("P", "H"),
    "header_without_scope": without("TH", "/A"),
    "irregular_table": shorter_row,
    "list_without_numbering": without("L", "/A"),
    "list_with_unknown_numbering": other_numbering,
    "formula_without_words": retyped("P", "Formula"),
    "note_without_id": retyped("P", "Note"),
    "note_with_anothers_id": two_notes_of_one_id,
    "layer_without_name": in_catalog("/OCProperties", {"/D": {}}),
    "layer_switched_by_itself": in_catalog("/OCProperties", {"/D": {"/Name": "u:one", "/AS": []}}),
    "embedded_file_without_name": new_object({"/EF": {}, "/F": "u:one"}),
    "dynamic_form": in_catalog("/AcroForm", {"/XFA": []}),
    "locked_to_readers": locked,
    "annotation_outside_annot": link("/Subtype", "/Text"),
    "annotation_without_words": link("/Contents", None),
    "unknown_annotation": link("/Subtype", "/Bookmark"),
    "trap_net": link("/Subtype", "/TrapNet"),
    "page_without_tab_order": linked_page(None),
    "page_with_another_tab_order": linked_page("/R"),
    "widget_outside_form": link("/Subtype", "/Widget"),
    "link_outside_link": retyped("Link", "Span"),
    "link_without_words": link("/Contents", "u: "),
    "link_sends_coordinates": link("/A", {"/S": "/URI", "/URI": "u:x", "/IsMap": True}),
    "printer_mark_in_tree": link("/Subtype", "/PrinterMark"),
    "annotation_other_than_link_or_field": link("/Subtype", "/Text"),
    "field_without_words": link("/Subtype", "/Widget"),
    "field_of_other_kind": link("/Subtype", "/Widget"),
    "media_or_script": link("/A", {"/S": "/JavaScript"}),
    "reference_object": new_object({"/Subtype": "/Form", "/Ref": {}}),
    "tagged_form_drawn_twice": tagged_form_twice,
    "another_kind_of_font": simple_font,
    "other_encoding": font("font", "/Encoding", "/UniJIS-UTF16-H"),
    "no_glyph_map": font("descendant", "/CIDToGIDMap", None),
    "strange_glyph_map": font("descendant", "/CIDToGIDMap", "/Other"),
    "font_not_embedded": font("descriptor", "/FontFile2", None),
    "glyph_missing": painted(SHOWN % b"FFF0"),
    "width_differs": font("descendant", "/W", None),
    "set_of_glyphs": font("descriptor", "/CIDSet", "1 0 R"),
    "no_unicode": to_unicode(b"1 beginbfchar <0001> <0041> endbfchar"),
    "no_unicode_map": font("font", "/ToUnicode", None),
    "unicode_zero": to_unicode(b"1 beginbfchar <0001> <0000> endbfchar"),
    "unicode_byte_order": to_unicode(b"1 beginbfrange <0001> <0002> <FEFE> endbfrange"),
    "undefined_glyph": painted(SHOWN % b"0000"),
    "link_that_names_a_number_only": link("/Contents", "u:12"),
}
