#pragma once

#include "measure/amounts/amounts.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/acceptance.h"
#include "model/card.h"
#include "model/run.h"
#include "model/tier.h"

#include <string>
#include <vector>

namespace leafwright {

// A picture file of the project, read whole.
struct Picture {
  enum class Kind { Png, Jpeg };
  std::string path; // as written, inside the project's folder
  Kind kind = Kind::Png;
  int width_px = 0, height_px = 0; // as it is seen: upright
  std::string bytes;
  // How a camera held its picture, 1 to 8 as Exif (CIPA DC-008, 4.6.4 tag 274) numbers them: 1 =
  // the bytes' first row is the top, 6 = it is the right side, 8 = the left.
  int orientation = 1;
};

struct Maker {
  std::string name, contact, web;
  std::string terms; // the maker's own terms of use, printed in the colophon
};

struct Project {
  // Defined in special_members.cpp.
  Project();
  Project(const Project&);
  Project(Project&&) noexcept;
  Project& operator=(const Project&);
  Project& operator=(Project&&) noexcept;
  ~Project();

  std::vector<std::string> files; // Place::file points here; the project file first
  std::string folder;             // where relative names start
  std::string id, title, subtitle, language = "en-US";
  AuthorText intro;
  Maker maker;
  Printing printing;
  Currency currency;
  int edition = 1;
  std::optional<Date> date;
  Colour accent{0x3d, 0x5e, 0x49};
  std::string paper = "letter"; // of the documents: "letter" or "a4"
  std::string level;            // "confident beginner"

  std::vector<Stock> stocks;
  std::vector<Pack> packs;
  std::vector<Die> dies;
  std::vector<StampSet> stamp_sets;
  std::vector<Ink> inks;
  std::vector<Ribbon> ribbons;
  std::vector<Embellishment> embellishments;
  std::vector<Adhesive> adhesives;
  std::vector<Tool> tools;
  std::vector<Envelope> envelopes;
  std::vector<Card> cards;
  std::vector<Tier> tiers;
  Run run;
  Selling selling;
  std::vector<Picture> pictures;
  std::vector<std::string> cautions; // the author's own, beside the standard ones
  std::vector<Acceptance> accepted;  // findings that the author leaves as they are
};

// The printed name of any item.
std::string item_name(const Project& project, ItemRef item);
std::string item_id(const Project& project, ItemRef item);

inline const Tier& tier_at(const Project& project, int tier) {
  return project.tiers.at(as_index(tier));
}

} // namespace leafwright
