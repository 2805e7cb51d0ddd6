#include "plan/fit/rules.h"

#include "plan/fit/printed.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

// A letter by the United States Postal Service's Domestic Mail Manual, 201.1.1 (size, thickness)
// and 201.2.1 (nonmachinable), as an example of what carriers ask: all are notes, and all say so.

namespace leafwright::fit {

namespace {

constexpr Size smallest{inches(5), inches(3, 1, 2)}; // length, height
constexpr Size largest{inches(11, 1, 2), inches(6, 1, 8)};
constexpr Length thinnest = micrometres(178);       // 0.007 in = 0.1778 mm
constexpr Length thinnest_large = micrometres(229); // 0.009 in, above 4 1/4 in high or 6 in long
constexpr Size large{inches(6), inches(4, 1, 4)};
constexpr Length thickest = inches(0, 1, 4);

// The length of a letter is its longer side.
std::optional<Size> letter_of(const Case& c) {
  const Envelope* envelope = find_at(c.project.envelopes, c.card.envelope);
  if (!envelope) return std::nullopt;
  return Size{std::max(envelope->size.width, envelope->size.height),
              std::min(envelope->size.width, envelope->size.height)};
}

std::string by(std::string_view what, std::string_view section) {
  return fmt::format("{} (USPS DMM {}, for example; check with your carrier)", what, section);
}

Place place_of(const Case& c) { return known(c.card.envelope_place, c.card.place); }

} // namespace

void mail_size(const Case& c, Speaker& say) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter) return;
  const bool small = !fits(smallest, *letter), big = !fits(*letter, largest);
  if (!small && !big) return;
  say(place_of(c),
      fmt::format("the envelope of “{}”, {}, is too {} for a letter", c.card.title,
                  say.said(*letter), small ? "small" : "large"),
      by(fmt::format("a letter from {} to {}", say.said(smallest), say.said(largest)), "201.1.1"),
      small ? fmt::format("put it into an envelope of at least {}", say.said(smallest))
            : "post it as a large envelope, or make it smaller");
}

void mail_thickness(const Case& c, Speaker& say) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter || !c.closed.thickness.unknown.empty()) return;
  const Length thick = thickness_in_envelope(c.project, c.card);
  const bool is_large = letter->width > large.width || letter->height > large.height;
  const Length least = is_large ? thinnest_large : thinnest;
  if (thick > thickest)
    say(place_of(c),
        fmt::format("in its envelope “{}” is {} thick", c.card.title, thickness_text(thick)),
        by(fmt::format("a letter of at most {}", thickness_text(thickest)), "201.1.1"),
        fmt::format("make it {} flatter, or post it as a parcel",
                    thickness_text(thick - thickest)));
  else if (thick < least)
    say(place_of(c),
        fmt::format("in its envelope “{}” is only {} thick", c.card.title, thickness_text(thick)),
        by(fmt::format("a letter of at least {}", is_large ? "0.009 in" : "0.007 in"), "201.1.1"),
        "use a heavier paper");
}

void mail_shape(const Case& c, Speaker& say) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter || letter->height <= Length{}) return;
  // Whole numbers: length / height from 13/10 to 25/10.
  const bool square = letter->width * 10 < letter->height * 13;
  if (!square && letter->width * 10 <= letter->height * 25) return;
  const Length step = c.project.printing.step;
  say(place_of(c),
      fmt::format("the envelope of “{}”, {}, is {} than {} times as long as high", c.card.title,
                  say.said(*letter), square ? "less" : "more", square ? "1.3" : "2.5"),
      by("a length of 1.3 to 2.5 times the height, or a surcharge", "201.2.1"),
      fmt::format("at {} high, from {} to {} long", say.said(letter->height),
                  say.said(up_to_step(letter->height * 13 / 10, step)),
                  say.said(down_to_step(letter->height * 25 / 10, step))));
}

void mail_uneven(const Case& c, Speaker& say) {
  if (!letter_of(c) || !c.closed.thickness.uneven) return;
  say(place_of(c),
      fmt::format("raised parts make “{}” uneven, {} at the thickest", c.card.title,
                  thickness_text(c.closed.thickness.most)),
      by("a letter of even thickness, or a surcharge", "201.2.1"),
      "post it with a padding sheet, or hand it over at the counter");
}

void mail_rigid(const Case& c, Speaker& say) {
  if (!letter_of(c) || !c.closed.thickness.rigid) return;
  say(place_of(c), fmt::format("“{}” holds something hard", c.card.title),
      by("a letter that bends, or a surcharge", "201.2.1"),
      "hand it over at the counter, or send it in a padded envelope");
}

} // namespace leafwright::fit
