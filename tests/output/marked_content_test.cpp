#include "output/pdf.h"
#include "sample.h"

#include <doctest/doctest.h>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include <set>

// Page contents and structure tree belong together (ISO 32000-1, 14.7.4; ISO 14289-1, 7.1), read
// back by qpdf.

using namespace leafwright;

namespace {

// What a page's content does with marks.
class Marks : public QPDFObjectHandle::ParserCallbacks {
 public:
  void handleObject(QPDFObjectHandle object, size_t, size_t) override {
    if (!object.isOperator()) {
      operands_.push_back(object);
      return;
    }
    const std::string name = object.getOperatorValue();
    if (name == "BDC" || name == "BMC") {
      open_.push_back(operands_.at(0).getName());
      if (name == "BDC" && operands_.at(1).hasKey("/MCID"))
        ids.push_back(operands_.at(1).getKey("/MCID").getIntValue());
    } else if (name == "EMC") {
      REQUIRE_FALSE(open_.empty());
      open_.pop_back();
    } else if (std::set<std::string>{"f*", "S", "TJ", "Do"}.contains(name)) {
      ++painted;
      if (open_.empty()) ++unmarked;
    }
    operands_.clear();
  }
  void handleEOF() override { CHECK(open_.empty()); }

  int painted = 0, unmarked = 0;
  std::vector<long long> ids;

 private:
  std::vector<QPDFObjectHandle> operands_;
  std::vector<std::string> open_;
};

struct Open {
  explicit Open(const page::Laid& laid) {
    const auto written = pdf::write_pdf(laid, sample::fonts(), sample::pictures());
    REQUIRE(written.ok());
    bytes = *written;
    document.processMemoryFile("test", bytes.data(), bytes.size());
  }
  std::string bytes;
  QPDF document;
};

// The entry of the ParentTree for a key.
QPDFObjectHandle parent_of(QPDF& document, int key) {
  auto leaves = document.getRoot().getKey("/StructTreeRoot").getKey("/ParentTree").getKey("/Kids");
  for (auto leaf : leaves.aitems()) {
    if (leaf.getKey("/Limits").getArrayItem(1).getIntValue() < key) continue;
    auto nums = leaf.getKey("/Nums");
    for (int i = 0; i < nums.getArrayNItems(); i += 2)
      if (nums.getArrayItem(i).getIntValue() == key) return nums.getArrayItem(i + 1);
  }
  return QPDFObjectHandle::newNull();
}

bool has_kid(QPDFObjectHandle element, const std::function<bool(QPDFObjectHandle)>& wanted) {
  auto kids = element.getKey("/K");
  if (!kids.isArray()) return wanted(kids);
  for (auto kid : kids.aitems())
    if (wanted(kid)) return true;
  return false;
}

} // namespace

TEST_CASE("everything painted is marked, as part of the document or as an artefact") {
  page::Laid laid = sample::document();
  // Painted outside Begin and End, between two tagged parts.
  Fill stray{
      sample::rectangle({{millimetres(1), millimetres(1)}, {millimetres(5), millimetres(5)}}), {}};
  laid.pages[0].items.insert(laid.pages[0].items.begin() + 3, stray);
  laid.pages[1].items.emplace_back(stray);
  Open open(laid);
  for (auto& page : QPDFPageDocumentHelper(open.document).getAllPages()) {
    Marks marks;
    page.parseContents(&marks);
    CHECK(marks.painted > 3);
    CHECK(marks.unmarked == 0);
  }
}

TEST_CASE("an untagged document has no marks and no tree") {
  page::Laid laid = sample::document();
  laid.nodes.clear();
  Open open(laid);
  for (auto& page : QPDFPageDocumentHelper(open.document).getAllPages()) {
    Marks marks;
    page.parseContents(&marks);
    CHECK(marks.ids.empty());
    CHECK(marks.unmarked >= marks.painted - 1); // one number says its text itself
  }
  CHECK_FALSE(open.document.getRoot().hasKey("/StructTreeRoot"));
}

TEST_CASE("marks count from 0 on each page and each leads to its element and back") {
  Open open(sample::document());
  int checked = 0;
  for (auto& page : QPDFPageDocumentHelper(open.document).getAllPages()) {
    Marks marks;
    page.parseContents(&marks);
    auto parents =
        parent_of(open.document,
                  static_cast<int>(page.getObjectHandle().getKey("/StructParents").getIntValue()));
    REQUIRE(parents.isArray());
    REQUIRE(parents.getArrayNItems() == static_cast<int>(marks.ids.size()));
    for (std::size_t i = 0; i < marks.ids.size(); ++i) {
      CHECK(marks.ids[i] == static_cast<long long>(i));
      const auto page_id = page.getObjectHandle().getObjGen();
      auto element = parents.getArrayItem(static_cast<int>(i));
      CHECK(has_kid(element, [&](QPDFObjectHandle kid) {
        if (kid.isInteger())
          return kid.getIntValue() == marks.ids[i] && element.getKey("/Pg").getObjGen() == page_id;
        return kid.isDictionary() && kid.hasKey("/MCID") &&
               kid.getKey("/MCID").getIntValue() == marks.ids[i] &&
               kid.getKey("/Pg").getObjGen() == page_id;
      }));
      ++checked;
    }
  }
  CHECK(checked > 10);
}

TEST_CASE("each link's annotation and its element name each other") {
  Open open(sample::document());
  int links = 0;
  for (auto& page : QPDFPageDocumentHelper(open.document).getAllPages())
    for (auto& annotation : page.getAnnotations("/Link")) {
      auto link = annotation.getObjectHandle();
      auto element =
          parent_of(open.document, static_cast<int>(link.getKey("/StructParent").getIntValue()));
      REQUIRE(element.isDictionary());
      CHECK(element.getKey("/S").getName() == "/Link");
      CHECK(has_kid(element, [&](QPDFObjectHandle kid) {
        return kid.isDictionary() && kid.hasKey("/Obj") &&
               kid.getKey("/Obj").getObjGen() == link.getObjGen();
      }));
      CHECK(link.hasKey("/Contents"));
      ++links;
    }
  CHECK(links == 2);
}

TEST_CASE("a link's annotation says where it leads, as the page has it") {
  page::Laid laid = sample::document();
  for (DrawItem& item : laid.pages[0].items)
    if (auto* link = std::get_if<Link>(&item); link != nullptr && link->target == "drawing")
      link->says = "The drawing, page 2";
  Open open(laid);
  std::vector<std::string> said;
  for (auto& page : QPDFPageDocumentHelper(open.document).getAllPages())
    for (auto& annotation : page.getAnnotations("/Link"))
      said.push_back(annotation.getObjectHandle().getKey("/Contents").getUTF8Value());
  CHECK(std::ranges::find(said, "The drawing, page 2") != said.end());
}

TEST_CASE("a part that goes on over the page names both pages") {
  page::Laid laid = sample::document();
  int paragraph = -1; // any element of page 0 with content
  for (const DrawItem& item : laid.pages[0].items)
    if (const auto* begin = std::get_if<Begin>(&item); begin != nullptr && paragraph < 0)
      paragraph = begin->node;
  laid.pages[1].items.emplace_back(Begin{paragraph});
  laid.pages[1].items.emplace_back(
      sample::run("and goes on here", {millimetres(20), millimetres(240)}));
  laid.pages[1].items.emplace_back(End{});
  Open open(laid);
  auto pages = QPDFPageDocumentHelper(open.document).getAllPages();
  auto element = parent_of(open.document, 0).getArrayItem(0);
  CHECK(element.getKey("/Pg").getObjGen() == pages[0].getObjectHandle().getObjGen());
  CHECK(has_kid(element, [&](QPDFObjectHandle kid) {
    return kid.isDictionary() &&
           kid.getKey("/Pg").getObjGen() == pages[1].getObjectHandle().getObjGen();
  }));
}
