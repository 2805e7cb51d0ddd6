#include "ua_rules.h"

#include "content_scan.h"
#include "output/internal/pdf/qpdf.h"

#include <fmt/format.h>

#include <map>
#include <set>
#include <utility>

namespace leafwright::ua {
namespace {

// The standard structure types that the program uses (ISO 32000-1, 14.8.4); others need a role map.
const std::set<std::string>& standard_types() {
  static const std::set<std::string> types{
      "Document", "Part", "Sect", "Div",   "P",     "H1",        "H2",         "H3",
      "H4",       "H5",   "H6",   "L",     "LI",    "Lbl",       "LBody",      "Table",
      "TR",       "TH",   "TD",   "THead", "TBody", "TFoot",     "Figure",     "Caption",
      "TOC",      "TOCI", "Link", "Span",  "Note",  "Reference", "BlockQuote", "Form"};
  return types;
}

struct Element {
  std::string type;
  std::vector<int> children; // indices, in order
  int object = 0;
  bool described = false, boxed = false, scoped = false, has_link = false;
  int span = 1;
  std::string id;
};

class Checker {
 public:
  explicit Checker(const std::string& bytes) : bytes_(bytes) {}

  std::vector<std::string> run() {
    if (!pdf_.read(bytes_)) {
      say("cannot be read: " + pdf_.why());
      return faults_;
    }
    check_catalogue();
    const qpdf_oh tree = pdf_.key(pdf_.root(), "/StructTreeRoot");
    if (!dictionary(tree)) {
      say("7.1: no structure tree");
      return faults_;
    }
    read_elements(tree);
    read_parents(pdf_.key(tree, "/ParentTree"), 0);
    check_pages();
    for (const auto& [key, node] : expected_)
      if (!seen_.contains(key))
        say(fmt::format("7.1: the tree refers to id {} of page {}, which is not there", key.second,
                        key.first));
    check_headings();
    for (const Element& element : elements_) check_element(element);
    return faults_;
  }
  const std::vector<Element>& elements() const { return elements_; }

 private:
  void say(std::string fault) { faults_.push_back(std::move(fault)); }
  bool dictionary(qpdf_oh object) const {
    return qpdf_oh_is_dictionary(pdf_.get(), object) != QPDF_FALSE;
  }
  bool array(qpdf_oh object) const { return qpdf_oh_is_array(pdf_.get(), object) != QPDF_FALSE; }
  bool stream(qpdf_oh object) const { return qpdf_oh_is_stream(pdf_.get(), object) != QPDF_FALSE; }
  bool whole(qpdf_oh object) const { return qpdf_oh_is_integer(pdf_.get(), object) != QPDF_FALSE; }
  bool yes(qpdf_oh object) const {
    return qpdf_oh_is_bool(pdf_.get(), object) != QPDF_FALSE &&
           qpdf_oh_get_bool_value(pdf_.get(), object) != QPDF_FALSE;
  }
  int number(qpdf_oh object) const { return qpdf_oh_get_int_value_as_int(pdf_.get(), object); }
  int id(qpdf_oh object) const { return qpdf_oh_get_object_id(pdf_.get(), object); }
  std::vector<qpdf_oh> items(qpdf_oh object) const {
    if (!array(object)) return {object};
    std::vector<qpdf_oh> list;
    for (int i = 0; i < qpdf_oh_get_array_n_items(pdf_.get(), object); ++i)
      list.push_back(qpdf_oh_get_array_item(pdf_.get(), object, i));
    return list;
  }

  void check_catalogue() {
    const qpdf_oh root = pdf_.root();
    if (!yes(pdf_.key(pdf_.key(root, "/MarkInfo"), "/Marked"))) say("6.2: not marked as tagged");
    if (yes(pdf_.key(pdf_.key(root, "/MarkInfo"), "/Suspects"))) say("7.1: has suspects");
    if (pdf_.text(pdf_.key(root, "/Lang")).empty()) say("7.2: no language");
    if (!yes(pdf_.key(pdf_.key(root, "/ViewerPreferences"), "/DisplayDocTitle")))
      say("7.1: the title is not shown");
    const std::string packet = pdf_.data(pdf_.key(root, "/Metadata"));
    if (packet.find("<dc:title>") == std::string::npos) say("7.1: no title in the metadata");
    if (packet.find("<pdfuaid:part>1<") == std::string::npos)
      say("5: does not say what it conforms to");
    const qpdf_oh files = pdf_.key(pdf_.key(pdf_.key(root, "/Names"), "/EmbeddedFiles"), "/Names");
    if (array(files)) {
      const std::vector<qpdf_oh> list = items(files);
      for (std::size_t i = 1; i < list.size(); i += 2)
        if (pdf_.text(pdf_.key(list[i], "/F")).empty() ||
            pdf_.text(pdf_.key(list[i], "/UF")).empty())
          say("7.11: an attached file without F or UF");
    }
  }

  // Depth first, children after their parents.
  void read_elements(qpdf_oh tree) {
    for (const qpdf_oh kid : items(pdf_.key(tree, "/K"))) read_element(kid, 0, tree);
  }
  int read_element(qpdf_oh object, int depth, qpdf_oh parent) {
    const int index = static_cast<int>(elements_.size());
    elements_.emplace_back();
    if (depth > 60) {
      say("the tree is deeper than any document");
      return index;
    }
    Element element;
    element.type = pdf_.name(pdf_.key(object, "/S"));
    element.object = id(object);
    by_object_[element.object] = index;
    element.described = !pdf_.text(pdf_.key(object, "/Alt")).empty() ||
                        !pdf_.text(pdf_.key(object, "/ActualText")).empty();
    element.id = pdf_.text(pdf_.key(object, "/ID"));
    if (id(pdf_.key(object, "/P")) != id(parent)) say(element.type + ": its parent is another");
    const qpdf_oh attributes = pdf_.key(object, "/A");
    if (array(attributes) || dictionary(attributes))
      for (const qpdf_oh one : items(attributes)) {
        const qpdf_oh box = pdf_.key(one, "/BBox");
        element.boxed = element.boxed || (array(box) && items(box).size() == 4);
        element.scoped = element.scoped || !pdf_.name(pdf_.key(one, "/Scope")).empty();
        if (whole(pdf_.key(one, "/ColSpan"))) element.span = number(pdf_.key(one, "/ColSpan"));
      }
    const qpdf_oh own_page = pdf_.key(object, "/Pg");
    const qpdf_oh kids = pdf_.key(object, "/K");
    if (array(kids) || dictionary(kids) || whole(kids))
      for (const qpdf_oh kid : items(kids)) {
        if (whole(kid)) {
          expected_[{id(own_page), number(kid)}] = element.object;
        } else if (pdf_.name(pdf_.key(kid, "/Type")) == "MCR") {
          const qpdf_oh page = pdf_.key(kid, "/Pg");
          expected_[{dictionary(page) ? id(page) : id(own_page), number(pdf_.key(kid, "/MCID"))}] =
              element.object;
        } else if (pdf_.name(pdf_.key(kid, "/Type")) == "OBJR") {
          element.has_link = true;
          annotations_[id(pdf_.key(kid, "/Obj"))] = element.object;
        } else {
          element.children.push_back(read_element(kid, depth + 1, object));
        }
      }
    elements_[static_cast<std::size_t>(index)] = std::move(element);
    return index;
  }

  void read_parents(qpdf_oh tree, int depth) {
    const qpdf_oh numbers = pdf_.key(tree, "/Nums");
    if (array(numbers)) {
      const std::vector<qpdf_oh> list = items(numbers);
      for (std::size_t i = 0; i + 1 < list.size(); i += 2) parents_[number(list[i])] = list[i + 1];
    }
    if (depth < 8 && array(pdf_.key(tree, "/Kids")))
      for (const qpdf_oh kid : items(pdf_.key(tree, "/Kids"))) read_parents(kid, depth + 1);
  }

  void check_pages() {
    const int count = qpdf_get_num_pages(pdf_.get());
    for (int i = 0; i < count; ++i) {
      const qpdf_oh page = qpdf_get_page_n(pdf_.get(), static_cast<std::size_t>(i));
      const std::string where = fmt::format(" (page {})", i + 1);
      if (pdf_.name(pdf_.key(page, "/Tabs")) != "S")
        say("7.18.3: tab order is not the tree's" + where);
      std::string content;
      for (const qpdf_oh part : items(pdf_.key(page, "/Contents")))
        content += pdf_.data(part) + "\n";
      const Scan scan = scan_content(content);
      for (const std::string& fault : scan.faults) say(fault + where);
      const qpdf_oh key = pdf_.key(page, "/StructParents");
      const auto parents = whole(key) ? parents_.find(number(key)) : parents_.end();
      if (parents == parents_.end()) {
        if (!scan.ids.empty()) say("7.1: no entry in the parent tree" + where);
      } else {
        const std::vector<qpdf_oh> list = items(parents->second);
        for (const int mark : scan.ids) {
          const auto at = static_cast<std::size_t>(mark);
          const auto wanted = expected_.find({id(page), mark});
          seen_.insert({id(page), mark});
          if (wanted == expected_.end())
            say(fmt::format("7.1: id {} is in no element{}", mark, where));
          else if (at >= list.size() || id(list[at]) != wanted->second)
            say(fmt::format("7.1: id {} has another parent in the parent tree{}", mark, where));
        }
      }
      check_annotations(page, where);
      check_fonts(page, where);
    }
  }

  void check_annotations(qpdf_oh page, const std::string& where) {
    const qpdf_oh list = pdf_.key(page, "/Annots");
    if (!array(list)) return;
    for (const qpdf_oh annotation : items(list)) {
      const bool field = pdf_.name(pdf_.key(annotation, "/Subtype")) == "Widget";
      if (pdf_.text(pdf_.key(annotation, field ? "/TU" : "/Contents")).empty())
        say((field ? "7.18.1: a field" : "7.18.5: a link") +
            (" says nothing about itself" + where));
      const auto element = annotations_.find(id(annotation));
      const qpdf_oh key = pdf_.key(annotation, "/StructParent");
      if (element == annotations_.end() || !whole(key)) {
        say("7.18.5: a link is not in the tree" + where);
        continue;
      }
      if (elements_[static_cast<std::size_t>(by_object_[element->second])].type !=
          (field ? "Form" : "Link"))
        say("7.18.4, 7.18.5: a field or a link is in something other than its element" + where);
      const auto parent = parents_.find(number(key));
      if (parent == parents_.end() || id(parent->second) != element->second)
        say("7.18.5: a link has another parent in the parent tree" + where);
    }
  }

  void check_fonts(qpdf_oh page, const std::string& where) {
    const qpdf_oh fonts = pdf_.key(pdf_.key(page, "/Resources"), "/Font");
    if (!dictionary(fonts)) return;
    std::vector<std::string> names;
    qpdf_oh_begin_dict_key_iter(pdf_.get(), fonts);
    while (qpdf_oh_dict_more_keys(pdf_.get()) != QPDF_FALSE)
      names.emplace_back(qpdf_oh_dict_next_key(pdf_.get()));
    for (const std::string& name : names) {
      const qpdf_oh font = pdf_.key(fonts, name.c_str());
      if (!stream(pdf_.key(font, "/ToUnicode"))) say("7.21.7: a font without ToUnicode" + where);
      const std::vector<qpdf_oh> below = items(pdf_.key(font, "/DescendantFonts"));
      const qpdf_oh descriptor = pdf_.key(below.front(), "/FontDescriptor");
      if (!stream(pdf_.key(descriptor, "/FontFile2")))
        say("7.21.4: a font is not embedded" + where);
      if (pdf_.name(pdf_.key(below.front(), "/CIDToGIDMap")) != "Identity" &&
          !stream(pdf_.key(below.front(), "/CIDToGIDMap")))
        say("7.21.3.2: a font without CIDToGIDMap" + where);
    }
  }

  void check_headings() {
    int before = 0;
    for (const Element& element : elements_) {
      if (element.type.size() != 2 || element.type[0] != 'H') continue;
      const int level = element.type[1] - '0';
      if (level > before + 1)
        say(fmt::format("7.4.2: a heading of level {} follows one of level {}", level, before));
      before = level;
    }
  }

  void check_children(const Element& element, const std::set<std::string>& allowed) {
    for (const int child : element.children)
      if (const std::string& type = elements_[static_cast<std::size_t>(child)].type;
          !allowed.contains(type))
        say(fmt::format("7.1: {} within {}", type, element.type));
  }

  int cells_of(const Element& row) const {
    int cells = 0;
    for (const int child : row.children) cells += elements_[static_cast<std::size_t>(child)].span;
    return cells;
  }

  void check_table(const Element& table) {
    check_children(table, {"TR", "THead", "TBody", "TFoot", "Caption"});
    std::set<int> widths;
    bool has_head = false;
    std::vector<int> rows;
    for (const int child : table.children) {
      const Element& part = elements_[static_cast<std::size_t>(child)];
      if (part.type == "TR")
        rows.push_back(child);
      else if (part.type != "Caption")
        rows.insert(rows.end(), part.children.begin(), part.children.end());
    }
    for (const int row : rows) {
      const Element& one = elements_[static_cast<std::size_t>(row)];
      widths.insert(cells_of(one));
      for (const int cell : one.children)
        has_head = has_head || elements_[static_cast<std::size_t>(cell)].type == "TH";
    }
    if (widths.size() > 1)
      say(fmt::format("7.5: rows of {} and {} cells in one table", *widths.begin(),
                      *widths.rbegin()));
    if (!has_head) say("7.5: a table without header cells");
  }

  void check_element(const Element& element) {
    const std::string& type = element.type;
    if (!standard_types().contains(type)) say("7.1: no standard type: " + type);
    if (type == "Figure" && !element.described) say("7.3: a figure without a description");
    if (type == "Figure" && !element.boxed) say("7.3: a figure without a box");
    if (type == "TH" && !element.scoped) say("7.5: a header cell without a scope");
    if (type == "Table") check_table(element);
    if (type == "THead" || type == "TBody" || type == "TFoot") check_children(element, {"TR"});
    if (type == "TR") check_children(element, {"TH", "TD"});
    if (type == "L") check_children(element, {"LI", "L", "Caption"});
    if (type == "LI") check_children(element, {"Lbl", "LBody"});
    if (type == "TOC") check_children(element, {"TOCI", "TOC", "Caption"});
    if (type == "Link" && !element.has_link) say("7.18.5: a Link element without its annotation");
    if (type == "Note" && (element.id.empty() || !notes_.insert(element.id).second))
      say("7.9: a note without an identifier of its own");
  }

  const std::string& bytes_;
  pdf::Qpdf pdf_;
  std::vector<std::string> faults_;
  std::vector<Element> elements_; // in reading order
  std::map<int, int> by_object_;  // object number -> index
  std::map<int, qpdf_oh> parents_;
  using Mark = std::pair<int, int>; // page object, marked-content id
  std::map<Mark, int> expected_;
  std::set<Mark> seen_;
  std::map<int, int> annotations_; // annotation object -> element object
  std::set<std::string> notes_;
};

} // namespace

std::vector<std::string> breaches(const std::string& pdf) { return Checker(pdf).run(); }

int count_of(const std::string& pdf, const std::string& type) {
  Checker checker(pdf);
  checker.run();
  int count = 0;
  for (const Element& element : checker.elements()) count += element.type == type ? 1 : 0;
  return count;
}

} // namespace leafwright::ua
