#include "output/internal/pdf/haru.h"

#include "output/internal/pdf/syntax.h"

#include <fmt/format.h>

#include <utility>

namespace leafwright::pdf {
namespace {

// libharu's object numbers carry flags in the upper byte (hpdf_objects.h).
constexpr HPDF_UINT32 number_mask = 0x00ffffff;
// libharu counts bytes in 32 bits; beyond this its offsets would be wrong.
constexpr std::size_t most_bytes = 2'000'000'000;

HPDF_STATUS write_text(HPDF_Stream stream, const std::string& text) {
  if (text.empty()) return HPDF_OK;
  return HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(text.data()),
                           static_cast<HPDF_UINT>(text.size()));
}

HPDF_STATUS write_entries(HPDF_Dict dictionary, HPDF_Stream stream) {
  return write_text(stream, *static_cast<const std::string*>(dictionary->attr));
}

} // namespace

void append_ref(std::string& out, Ref ref) {
  append_number(out, ref.number);
  out += " 0 R";
}
std::string ref_text(Ref ref) {
  std::string out;
  append_ref(out, ref);
  return out;
}

Haru::Haru() : document_(HPDF_New(nullptr, nullptr)) {
  if (document_ == nullptr) return;
  document_->pdf_version = HPDF_VER_17;
  // libharu's own producer line; ours comes with set_information.
  HPDF_Dict_RemoveElement(document_->info, "Producer");
}

Haru::Object* Haru::find(Ref ref) {
  return ref.number < by_number_.size() ? by_number_[ref.number] : nullptr;
}

// Takes over what stands in a dictionary that libharu owns.
Ref Haru::keep(HPDF_Dict dictionary) {
  Object& object = objects_.emplace_back();
  object.dictionary = dictionary;
  dictionary->attr = &object.entries;
  dictionary->write_fn = write_entries;
  const Ref ref{dictionary->header.obj_id & number_mask};
  if (by_number_.size() <= ref.number) by_number_.resize(ref.number + 1U, nullptr);
  by_number_[ref.number] = &object;
  return ref;
}

Ref Haru::reserve() {
  if (document_ == nullptr) return {};
  HPDF_Dict dictionary = HPDF_Dict_New(document_->mmgr);
  if (dictionary == nullptr || HPDF_Xref_Add(document_->xref, dictionary) != HPDF_OK) return {};
  return keep(dictionary);
}

void Haru::fill(Ref dictionary, std::string entries) {
  if (Object* object = find(dictionary); object != nullptr) object->entries = std::move(entries);
}

Ref Haru::add(std::string entries) {
  const Ref ref = reserve();
  fill(ref, std::move(entries));
  return ref;
}

Ref Haru::reserve_stream() {
  if (document_ == nullptr) return {};
  HPDF_Dict dictionary = HPDF_DictStream_New(document_->mmgr, document_->xref);
  if (dictionary == nullptr) return {};
  return keep(dictionary);
}

void Haru::fill_stream(Ref stream, std::string entries, const std::string& data) {
  Object* object = find(stream);
  if (object == nullptr || object->dictionary->stream == nullptr) return;
  object->entries = std::move(entries);
  stream_bytes_ += data.size();
  if (stream_bytes_ < most_bytes) write_text(object->dictionary->stream, data);
}

Ref Haru::add_stream(std::string entries, const std::string& data) {
  const Ref ref = reserve_stream();
  fill_stream(ref, std::move(entries), data);
  return ref;
}

Ref Haru::add_page() {
  const Ref ref = reserve();
  Object* object = find(ref);
  if (object == nullptr) return {};
  object->page = std::make_unique<Object::PageRecord>();
  object->page->entries = &object->entries;
  HPDF_Dict page = object->dictionary;
  page->header.obj_class = HPDF_OCLASS_DICT | HPDF_OSUBCLASS_PAGE;
  page->attr = object->page.get();
  page->write_fn = [](HPDF_Dict dictionary, HPDF_Stream stream) {
    return write_text(stream, *static_cast<const Object::PageRecord*>(dictionary->attr)->entries);
  };
  HPDF_Dict_AddName(page, "Type", "Page");
  HPDF_Pages_AddKids(document_->root_pages, page);
  return ref;
}

void Haru::write_entries_of(HPDF_Dict dictionary, std::string entries) {
  std::string& kept = own_.emplace_back(std::move(entries));
  dictionary->attr = &kept;
  dictionary->write_fn = write_entries;
}

void Haru::set_catalogue(std::string entries) {
  if (document_ != nullptr) write_entries_of(document_->catalog, std::move(entries));
}
void Haru::set_information(std::string entries) {
  if (document_ != nullptr) write_entries_of(document_->info, std::move(entries));
}
void Haru::set_identity(std::string hexadecimal) {
  if (document_ != nullptr)
    write_entries_of(document_->trailer, fmt::format("/ID[<{0}><{0}>]", hexadecimal));
}

Parsed<std::string> Haru::save() {
  const auto failed = [](unsigned long code) {
    return ParseError{0, 0,
                      fmt::format("the PDF could not be built (libharu error 0x{:04X})", code),
                      "a document within the limits of PDF and of this machine's memory",
                      "make the document smaller, or free some memory"};
  };
  if (document_ == nullptr) return failed(HPDF_FAILD_TO_ALLOC_MEM);
  // One error is kept by libharu until it is reset, so looking once, here, sees every earlier one.
  if (HPDF_GetError(document_.get()) != HPDF_OK) return failed(HPDF_GetError(document_.get()));
  if (stream_bytes_ >= most_bytes) return failed(HPDF_FAILD_TO_ALLOC_MEM);
  if (HPDF_SaveToStream(document_.get()) != HPDF_OK || HPDF_ResetStream(document_.get()) != HPDF_OK)
    return failed(HPDF_GetError(document_.get()));
  std::string bytes(HPDF_GetStreamSize(document_.get()), '\0');
  auto size = static_cast<HPDF_UINT32>(bytes.size());
  const HPDF_STATUS read =
      HPDF_ReadFromStream(document_.get(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  if ((read != HPDF_OK && read != HPDF_STREAM_EOF) || size != bytes.size()) return failed(read);
  return bytes;
}

} // namespace leafwright::pdf
