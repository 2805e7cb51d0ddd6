#include "measure/length.h"

#include "measure/letters.h"

#include <array>

namespace leafwright {
namespace {

constexpr std::string_view iso_216 = "ISO 216";
constexpr std::string_view iso_269 = "ISO 269";
constexpr std::string_view asme = "ASME Y14.1";
constexpr std::string_view us_practice = "common practice, United States";
constexpr std::string_view craft = "common practice, paper crafts";
constexpr std::string_view announcement = "common practice, announcement sizes";
constexpr std::string_view suits_269 = "common practice, to suit the envelope of ISO 269";

constexpr NamedSize mm(std::string_view name, std::int64_t width, std::int64_t height,
                       std::string_view source) {
  return {name, {millimetres(width), millimetres(height)}, source};
}
// Sides in eighths of an inch.
constexpr NamedSize eighths(std::string_view name, std::int64_t width, std::int64_t height,
                            std::string_view source) {
  return {name, {inches(0, width, 8), inches(0, height, 8)}, source};
}

constexpr std::array sheets = {
    mm("A0", 841, 1189, iso_216),      mm("A1", 594, 841, iso_216),
    mm("A2", 420, 594, iso_216),       mm("A3", 297, 420, iso_216),
    mm("A4", 210, 297, iso_216),       mm("A5", 148, 210, iso_216),
    mm("A6", 105, 148, iso_216),       mm("A7", 74, 105, iso_216),
    mm("A8", 52, 74, iso_216),         mm("A9", 37, 52, iso_216),
    mm("A10", 26, 37, iso_216),        mm("B0", 1000, 1414, iso_216),
    mm("B1", 707, 1000, iso_216),      mm("B2", 500, 707, iso_216),
    mm("B3", 353, 500, iso_216),       mm("B4", 250, 353, iso_216),
    mm("B5", 176, 250, iso_216),       mm("B6", 125, 176, iso_216),
    mm("B7", 88, 125, iso_216),        mm("B8", 62, 88, iso_216),
    mm("B9", 44, 62, iso_216),         mm("B10", 31, 44, iso_216),
    eighths("letter", 68, 88, asme),   eighths("legal", 68, 112, us_practice),
    eighths("tabloid", 88, 136, asme), eighths("half-letter", 44, 68, us_practice),
    eighths("12x12", 96, 96, craft),   eighths("8x8", 64, 64, craft),
    eighths("6x6", 48, 48, craft),     eighths("6x12", 48, 96, craft),
};

constexpr std::array cards = {
    eighths("A1", 28, 39, announcement),  eighths("A2", 34, 44, announcement),
    eighths("A6", 36, 50, announcement),  eighths("A7", 40, 56, announcement),
    eighths("A8", 42, 63, announcement),  eighths("A9", 44, 68, announcement),
    eighths("A10", 46, 74, announcement), eighths("slimline", 28, 68, announcement),
    mm("C6", 105, 148, suits_269),        mm("C5", 148, 210, suits_269),
    mm("DL", 99, 210, suits_269),         eighths("5x7", 40, 56, craft),
    eighths("square-4", 32, 32, craft),   eighths("square-5", 40, 40, craft),
    eighths("square-6", 48, 48, craft),   mm("square-135", 135, 135, craft),
    mm("square-150", 150, 150, craft),
};

constexpr std::array envelopes = {
    eighths("A1", 29, 41, announcement),  eighths("A2", 35, 46, announcement),
    eighths("A6", 38, 52, announcement),  eighths("A7", 42, 58, announcement),
    eighths("A8", 44, 65, announcement),  eighths("A9", 46, 70, announcement),
    eighths("A10", 48, 76, announcement), eighths("slimline", 31, 71, announcement),
    mm("C3", 324, 458, iso_269),          mm("C4", 229, 324, iso_269),
    mm("C5", 162, 229, iso_269),          mm("C6/C5", 114, 229, iso_269),
    mm("C6", 114, 162, iso_269),          mm("C7/C6", 81, 162, iso_269),
    mm("C7", 81, 114, iso_269),           mm("DL", 110, 220, iso_269),
    mm("B4", 250, 353, iso_269),          mm("B5", 176, 250, iso_269),
    mm("B6", 125, 176, iso_269),          mm("E4", 280, 400, iso_269),
    eighths("square-5", 42, 42, craft),   eighths("square-6", 50, 50, craft),
    mm("square-140", 140, 140, craft),    mm("square-155", 155, 155, craft),
};

} // namespace

std::span<const NamedSize> sheet_sizes() { return sheets; }
std::span<const NamedSize> card_sizes() { return cards; }
std::span<const NamedSize> envelope_sizes() { return envelopes; }

std::optional<Size> find_size(std::span<const NamedSize> table, std::string_view name) {
  for (const NamedSize& one : table) {
    if (detail::same_ignoring_case(one.name, name)) return one.size;
  }
  return std::nullopt;
}

} // namespace leafwright
