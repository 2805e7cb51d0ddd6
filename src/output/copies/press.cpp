#include "output/copies/press.h"

#include "output/copies/foot_room.h"
#include "output/pdf/pack.h"
#include "output/pdf/syntax.h"
#include "output/pdf/text_ops.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::copies {
namespace {

constexpr Length usual_size = points(7), smallest_size = points(5.5);
constexpr Length side = millimetres(9); // left free at both sides of the stamp

std::string dictionary(const std::string& entries) { return "<<" + entries + ">>"; }
std::string stream(std::string entries, const std::string& data) {
  return fmt::format("<<{}/Length {}>>stream\n{}\nendstream", entries, data.size(), data);
}
std::string packed_stream(std::string entries, const std::string& data) {
  return stream(std::move(entries) + "/Filter/FlateDecode", pdf::deflated(data));
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

Parsed<Press> Press::made(const page::Laid& laid, const text::Fonts& fonts,
                          std::span<const Picture> pictures, const pdf::PdfOptions& options) {
  Parsed<pdf::Plain> plain = pdf::write_plain(laid, fonts, pictures, options, true);
  if (!plain) return plain.misread();
  Press press(laid, fonts, options);
  press.slots_ = std::move(plain.value().slots);
  const pdf::Slots& slots = press.slots_;
  std::vector<unsigned> open{slots.font.font.number,       slots.font.descendant.number,
                             slots.font.descriptor.number, slots.font.program.number,
                             slots.font.map.number,        slots.page_metadata.number,
                             slots.metadata.number};
  for (const pdf::Ref stamp : slots.stamps) open.push_back(stamp.number);
  Parsed<pdf::Parts> parts = pdf::Parts::of(plain.value().bytes, open);
  if (!parts) return parts.misread();
  press.parts_ = std::move(parts).value();
  for (std::size_t i = 0; i < laid.pages.size(); ++i) {
    const auto room = foot_baseline(laid.pages[i], usual_size);
    if (!room) press.crowded_.push_back(static_cast<int>(i));
    press.baselines_.push_back(room.value_or(laid.pages[i].size.height - millimetres(6)));
  }
  return press;
}

std::vector<char32_t> Press::missing(const Recipient& recipient) const {
  const int face = fonts_->face(text::Role::Text);
  std::vector<char32_t> lacking;
  const std::string words = stamp_words(recipient);
  const text::Shaped shaped = fonts_->shape(face, usual_size, words, plain_text());
  // Glyph 0 is the one a font shows for what it lacks.
  for (const text::Glyph& glyph : shaped.glyphs)
    if (glyph.id == 0) {
      const char32_t character = pdf::character_at(words, glyph.cluster);
      if (std::find(lacking.begin(), lacking.end(), character) == lacking.end())
        lacking.push_back(character);
    }
  return lacking;
}

Length Press::size_for(const std::string& words) const {
  const Length room = narrowest(*laid_) - side * 2;
  const Length width =
      fonts_->width(fonts_->face(text::Role::Text), usual_size, words, plain_text());
  if (width <= room) return usual_size;
  return {usual_size.nm * (room.nm / 1000) / (width.nm / 1000)};
}

bool Press::fits(const Recipient& recipient) const {
  return size_for(stamp_words(recipient)) >= smallest_size;
}

Parsed<std::string> Press::copy(const Recipient& recipient) const {
  const int face = fonts_->face(text::Role::Text);
  const std::string words = stamp_words(recipient);
  const text::Shaped shaped = fonts_->shape(face, size_for(words), words, plain_text());
  pdf::FaceUse use;
  const std::vector<pdf::TextPart> parts = pdf::text_parts(*fonts_, shaped, {}, use);
  const pdf::FontObjects font = pdf::font_objects(*fonts_, face, use, slots_.font);
  if (font.program.empty() && !shaped.glyphs.empty())
    return Misread{0, 0, "the font of the stamp cannot be cut down", "a font in good order",
                   "use another copy of the font"};

  std::vector<pdf::Replacement> replaced;
  const auto replace = [&replaced](pdf::Ref ref, std::string body) {
    replaced.push_back({ref.number, std::move(body)});
  };
  replace(slots_.font.font, dictionary(font.font));
  replace(slots_.font.descendant, dictionary(font.descendant));
  replace(slots_.font.descriptor, dictionary(font.descriptor));
  replace(slots_.font.program, packed_stream(font.program_entries, font.program));
  replace(slots_.font.map, packed_stream("", font.map));
  replace(slots_.page_metadata, stream("/Type/Metadata/Subtype/XML", pdf::page_xmp(recipient)));
  replace(slots_.metadata,
          stream("/Type/Metadata/Subtype/XML", pdf::xmp(*laid_, options_, recipient)));
  replaced.push_back(
      {parts_.information(), dictionary(pdf::information(*laid_, options_, recipient))});
  for (std::size_t i = 0; i < slots_.stamps.size(); ++i) {
    const Size page = laid_->pages[i].size;
    // A pagination artefact: readers aloud pass it over (ISO 32000-1, 14.8.2.2).
    std::string content =
        "/Artifact<</Type/Pagination/Subtype/Footer>>BDC\nq .36 .34 .32 rg BT /Fc ";
    pdf::append_points(content, shaped.size);
    content += " Tf ";
    double moved = 0; // by the parts before, in points
    pdf::append_points(content, (page.width - shaped.width) / 2);
    content += " ";
    pdf::append_points(content, page.height - baselines_[i]);
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
    replace(slots_.stamps[i], stream("", content + "ET Q\nEMC\n"));
  }
  pdf::Identity identity;
  identity.feed(parts_.identity());
  identity.feed(recipient.name + "\n" + recipient.number + "\n" + recipient.edition);
  return parts_.joined(identity.hexadecimal(), replaced);
}

} // namespace leafwright::copies
