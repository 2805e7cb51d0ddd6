#include "output/copies.h"

#include "measure/letters.h"
#include "output/internal/copies/foot_room.h"
#include "output/internal/pdf/parts.h"
#include "output/internal/pdf/plain_document.h"
#include "output/internal/pdf/qpdf.h"
#include "output/internal/pdf/syntax.h"
#include "output/internal/pdf/text_ops.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::copies {
namespace {

constexpr std::size_t longest_password = 127; // bytes of UTF-8 (ISO 32000-2, 7.6.4.3.3)

bool read_allowed(std::string_view words, Lock& to) {
  to.print = to.copy = to.annotate = to.change = false;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find_first_of(" ,\t"), words.size());
    const std::string_view word = words.substr(0, end);
    words.remove_prefix(std::min(end + 1, words.size()));
    if (word.empty() || word == "nothing") continue;
    if (word == "print")
      to.print = true;
    else if (word == "copy")
      to.copy = true;
    else if (word == "annotate")
      to.annotate = true;
    else if (word == "change")
      to.change = true;
    else
      return false;
  }
  return true;
}

} // namespace

Parsed<Lock> read_lock(std::string_view text) {
  constexpr const char* expected =
      "lines owner-password: ..., open-password: ... and allow: print copy annotate change";
  Lock lock;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const auto fault = [number](std::string_view what) {
      return ParseError{0, 0, fmt::format("line {} of the lock {}", number, what), expected,
                        "mend that line"};
    };
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return fault("has no colon");
    const std::string_view key = trimmed(line.substr(0, colon));
    const std::string_view value = trimmed(line.substr(colon + 1));
    if (key == "owner-password" || key == "open-password") {
      if (value.size() > longest_password) return fault("has a password of more than 127 bytes");
      (key == "owner-password" ? lock.owner_password : lock.open_password) = value;
    } else if (key == "allow") {
      if (!read_allowed(value, lock))
        return fault("allows something other than print, copy, annotate or change");
    } else {
      return fault("begins with a word that is none of the three");
    }
  }
  if (lock.owner_password.empty())
    return ParseError{0, 0, "the lock has no owner password", expected, "add owner-password: ..."};
  return lock;
}

Parsed<std::string> locked(const std::string& pdf, const Lock& lock) {
  pdf::Qpdf document;
  if (!document.read(pdf) || pdf::broke(qpdf_init_write_memory(document.get())))
    return ParseError{0, 0, fmt::format("the copy cannot be locked: {}", document.why()),
                      "a whole document", "make it anew"};
  const auto flag = [](bool on) { return on ? QPDF_TRUE : QPDF_FALSE; };
  qpdf_set_r6_encryption_parameters2(
      document.get(), lock.open_password.c_str(), lock.owner_password.c_str(), QPDF_TRUE,
      flag(lock.copy), flag(lock.change), flag(lock.annotate), flag(lock.annotate),
      flag(lock.change), lock.print ? qpdf_r3p_full : qpdf_r3p_none, QPDF_TRUE);
  return document.written();
}

namespace {

constexpr Length usual_size = points(7), smallest_size = points(5.5);
constexpr Length side = millimetres(9); // left free at both sides of the stamp

std::string dictionary(const std::string& entries) { return "<<" + entries + ">>"; }
std::string stream(std::string entries, const std::string& data) {
  return fmt::format("<<{}/Length {}>>stream\n{}\nendstream", entries, data.size(), data);
}
std::string packed_stream(std::string entries, const std::string& data) {
  return stream(std::move(entries) + "/Filter/FlateDecode",
                pdf::deflated(data, pdf::Deflate::Small));
}

text::Features plain_text() {
  text::Features features;
  features.fractions = false; // an order may be called 7/2026
  return features;
}

Length narrowest(const page::Laid& laid) {
  Length width = laid.pages.front().size.width;
  for (const page::LaidPage& page : laid.pages) width = std::min(width, page.size.width);
  return width;
}

} // namespace

std::string stamp_words(const Recipient& recipient) {
  std::string words;
  const auto add = [&words](std::string_view before, const std::string& text) {
    if (text.empty()) return;
    if (!words.empty()) words += " · ";
    words += before;
    words += text;
  };
  add("Prepared for ", recipient.name);
  add("order ", recipient.number);
  add("", recipient.edition);
  return words;
}

struct CopyStamper::Slotted {
  const page::Laid* laid;
  const text::Fonts* fonts;
  pdf::PdfOptions options;
  pdf::Slots slots;
  pdf::Parts parts;
  std::vector<Length> baselines; // by page
  std::vector<int> crowded;

  Length size_for(const std::string& words) const;
};

const std::vector<int>& CopyStamper::pages_without_room() const { return document_->crowded; }

Parsed<CopyStamper> CopyStamper::made(const page::Laid& laid, const text::Fonts& fonts,
                                      std::span<const Picture> pictures,
                                      const pdf::PdfOptions& options) {
  Parsed<pdf::Plain> plain = pdf::write_plain(laid, fonts, pictures, options, true);
  if (!plain) return plain.parse_error();
  auto document = std::make_shared<Slotted>(Slotted{&laid, &fonts, options, {}, {}, {}, {}});
  document->slots = std::move(plain.value().slots);
  const pdf::Slots& slots = document->slots;
  std::vector<unsigned> open{slots.font.font.number,       slots.font.descendant.number,
                             slots.font.descriptor.number, slots.font.program.number,
                             slots.font.map.number,        slots.page_metadata.number,
                             slots.metadata.number};
  for (const pdf::Ref stamp : slots.stamps) open.push_back(stamp.number);
  Parsed<pdf::Parts> parts = pdf::Parts::of(plain.value().bytes, pdf::packing(options), open);
  if (!parts) return parts.parse_error();
  document->parts = std::move(parts).value();
  for (std::size_t i = 0; i < laid.pages.size(); ++i) {
    const auto room = foot_baseline(laid.pages[i], usual_size);
    if (!room) document->crowded.push_back(static_cast<int>(i));
    document->baselines.push_back(room.value_or(laid.pages[i].size.height - millimetres(6)));
  }
  return CopyStamper(std::move(document));
}

std::vector<char32_t> CopyStamper::missing(const Recipient& recipient) const {
  const int face = document_->fonts->face(text::Role::Text);
  std::vector<char32_t> lacking;
  const std::string words = stamp_words(recipient);
  const text::Shaped shaped = document_->fonts->shape(face, usual_size, words, plain_text());
  // Glyph 0 is the one a font shows for what it lacks.
  for (const text::Glyph& glyph : shaped.glyphs)
    if (glyph.id == 0) {
      const char32_t character = pdf::character_at(words, glyph.cluster);
      if (std::find(lacking.begin(), lacking.end(), character) == lacking.end())
        lacking.push_back(character);
    }
  return lacking;
}

Length CopyStamper::Slotted::size_for(const std::string& words) const {
  const Length room = narrowest(*laid) - side * 2;
  const Length width = fonts->width(fonts->face(text::Role::Text), usual_size, words, plain_text());
  if (width <= room) return usual_size;
  return {usual_size.nm * (room.nm / 1000) / (width.nm / 1000)};
}

bool CopyStamper::fits(const Recipient& recipient) const {
  return document_->size_for(stamp_words(recipient)) >= smallest_size;
}

Parsed<std::string> CopyStamper::copy(const Recipient& recipient) const {
  const int face = document_->fonts->face(text::Role::Text);
  const std::string words = stamp_words(recipient);
  const text::Shaped shaped =
      document_->fonts->shape(face, document_->size_for(words), words, plain_text());
  pdf::FaceUse use;
  const std::vector<pdf::TextPart> parts = pdf::text_parts(*document_->fonts, shaped, {}, use);
  const pdf::FontObjects font =
      pdf::font_objects(*document_->fonts, face, use, document_->slots.font);
  if (font.program.empty() && !shaped.glyphs.empty())
    return ParseError{0, 0, "the font of the stamp cannot be cut down", "a font in good order",
                      "use another copy of the font"};

  std::vector<pdf::Replacement> replaced;
  const auto replace = [&replaced](pdf::Ref ref, std::string body) {
    replaced.push_back({ref.number, std::move(body)});
  };
  replace(document_->slots.font.font, dictionary(font.font));
  replace(document_->slots.font.descendant, dictionary(font.descendant));
  replace(document_->slots.font.descriptor, dictionary(font.descriptor));
  replace(document_->slots.font.program, packed_stream(font.program_entries, font.program));
  replace(document_->slots.font.map, packed_stream("", font.map));
  replace(document_->slots.page_metadata,
          stream("/Type/Metadata/Subtype/XML", pdf::page_xmp(recipient)));
  replace(document_->slots.metadata,
          stream("/Type/Metadata/Subtype/XML",
                 pdf::xmp(*document_->laid, document_->options, recipient)));
  replaced.push_back(
      {document_->parts.information(),
       dictionary(pdf::information(*document_->laid, document_->options, recipient))});
  for (std::size_t i = 0; i < document_->slots.stamps.size(); ++i) {
    const Size page = document_->laid->pages[i].size;
    // A pagination artefact: readers aloud pass it over (ISO 32000-1, 14.8.2.2).
    std::string content =
        "/Artifact<</Type/Pagination/Subtype/Footer>>BDC\nq .36 .34 .32 rg BT /Fc ";
    pdf::append_points(content, shaped.size);
    content += " Tf ";
    double moved = 0; // by the parts before, in points
    pdf::append_points(content, (page.width - shaped.width) / 2);
    content += " ";
    pdf::append_points(content, page.height - document_->baselines[i]);
    content += " Td\n";
    for (const pdf::TextPart& part : parts) {
      const double start = part.start / 1000.0 * in_points(shaped.size);
      if (start != moved) {
        pdf::append_real(content, start - moved, 4);
        content += " 0 Td\n";
        moved = start;
      }
      content += part.operators;
    }
    replace(document_->slots.stamps[i], stream("", content + "ET Q\nEMC\n"));
  }
  pdf::Identity identity;
  identity.feed(document_->parts.identity());
  identity.feed(recipient.name + "\n" + recipient.number + "\n" + recipient.edition);
  return document_->parts.joined(identity.hexadecimal(), replaced);
}

namespace {

constexpr Length usual = millimetres(8);     // of the baseline above the edge
constexpr Length unprinted = millimetres(5); // common practice for office printers
constexpr Length air = micrometres(700);

Length lowest(const Path& path) {
  Length bottom{};
  for (const Segment& segment : path)
    if (segment.kind != Segment::Kind::Close) bottom = std::max(bottom, segment.end.y);
  return bottom;
}
Length highest(const Path& path, Length from) {
  for (const Segment& segment : path)
    if (segment.kind != Segment::Kind::Close) from = std::min(from, segment.end.y);
  return from;
}

} // namespace

std::optional<Length> foot_baseline(const page::LaidPage& page, Length size) {
  const Length tall = page.size.height;
  Length bottom{};
  for (const DrawItem& item : page.items) {
    if (const auto* fill = std::get_if<Fill>(&item)) {
      // What reaches the edge is a ground: the stamp stands on it.
      const Length low = lowest(fill->path);
      if (low < tall || highest(fill->path, tall) > tall / 2) bottom = std::max(bottom, low);
    } else if (const auto* stroke = std::get_if<Stroke>(&item)) {
      bottom = std::max(bottom, lowest(stroke->path) + stroke->width / 2);
    } else if (const auto* run = std::get_if<TextRun>(&item)) {
      // A quarter of its size is as deep as letters go below their line.
      if (run->turned.udeg == 0)
        bottom = std::max(bottom, run->baseline.y + run->shaped.size / 4);
      else
        bottom = std::max(bottom, run->baseline.y + run->shaped.width);
    } else if (const auto* image = std::get_if<Image>(&item)) {
      bottom = std::max(bottom, image->box.bottom());
    }
  }
  // Capitals are three quarters of the size high.
  const Length baseline = std::max(tall - usual, bottom + air + size * 3 / 4);
  if (baseline + size / 4 > tall - unprinted) return std::nullopt;
  return baseline;
}

} // namespace leafwright::copies
