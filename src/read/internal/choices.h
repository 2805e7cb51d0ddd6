#pragma once

#include "model/project.h"

#include <array>
#include <cstddef>
#include <string_view>

// The words of attributes that choose one of a few, each with its meaning. The reader looks a word
// up here, and the row of the vocabulary takes its words from the same table.

namespace leafwright::reading {

template <class E>
struct Named {
  std::string_view word;
  E meaning;
};
template <class E>
Named(std::string_view, E) -> Named<E>; // written out for compilers that do not deduce aggregates

template <const auto& table>
inline constexpr auto parted_by_bars = [] {
  constexpr std::size_t size = [] {
    std::size_t sum = table.size() - 1;
    for (const auto& one : table) sum += one.word.size();
    return sum;
  }();
  std::array<char, size> text{};
  std::size_t at = 0;
  for (const auto& one : table) {
    if (at > 0) text.at(at++) = '|';
    for (const char c : one.word) text.at(at++) = c;
  }
  return text;
}();
// The words of a table as a row of the vocabulary lists them: "cut|uncut".
template <const auto& table>
inline constexpr std::string_view words_in{parted_by_bars<table>.data(),
                                           parted_by_bars<table>.size()};

inline constexpr std::array yes_no_words = {Named{"yes", true}, Named{"no", false}};

// The project.
inline constexpr std::array unit_words = {Named{"inch", Unit::Inch}, Named{"mm", Unit::Millimetre}};
inline constexpr std::array paper_words = {Named<std::string_view>{"letter", "letter"},
                                           Named<std::string_view>{"a4", "a4"}};

// Supplies.
inline constexpr std::array stock_words = {
    Named{"cardstock", Stock::Kind::Cardstock},
    Named{"patterned", Stock::Kind::Patterned},
    Named{"vellum", Stock::Kind::Vellum},
    Named{"clear", Stock::Kind::Clear},
    Named{"adhesive-sheet", Stock::Kind::AdhesiveSheet},
    Named{"acetate", Stock::Kind::Clear}, // the trade's word for the same
    Named{"foil", Stock::Kind::Foil},
    Named{"glitter", Stock::Kind::Glitter},
    Named{"mirror", Stock::Kind::Mirror},
    Named{"fabric", Stock::Kind::Fabric},
    Named{"chipboard", Stock::Kind::Chipboard},
    Named{"watercolour", Stock::Kind::Watercolour},
    Named{"watercolor", Stock::Kind::Watercolour},
    Named{"magnet", Stock::Kind::Magnet},
};
inline constexpr std::array pattern_words = {
    Named{"plain", Stock::Pattern::Plain},     Named{"dots", Stock::Pattern::Dots},
    Named{"stripes", Stock::Pattern::Stripes}, Named{"checks", Stock::Pattern::Checks},
    Named{"leaves", Stock::Pattern::Leaves},   Named{"waves", Stock::Pattern::Waves},
    Named{"speckle", Stock::Pattern::Speckle}, Named{"hatch", Stock::Pattern::Hatch},
    Named{"blooms", Stock::Pattern::Blooms},
};
enum class GrainWord { Long, Short, AlongHeight, AlongWidth, Unknown };
inline constexpr std::array grain_words = {
    Named{"long", GrainWord::Long},
    Named{"short", GrainWord::Short},
    Named{"along-height", GrainWord::AlongHeight},
    Named{"along-width", GrainWord::AlongWidth},
};
inline constexpr std::array mark_words = {
    Named{"solid", Ink::Mark::Solid},
    Named{"lines", Ink::Mark::Lines},
    Named{"cross-lines", Ink::Mark::CrossLines},
    Named{"dots", Ink::Mark::Dots},
    Named{"rings", Ink::Mark::Rings},
    Named{"waves", Ink::Mark::Waves},
    Named{"open", Ink::Mark::Open},
    Named{"diagonal", Ink::Mark::Diagonal},
};
inline constexpr std::array ink_words = {
    Named{"dye", Ink::Kind::Dye},
    Named{"pigment", Ink::Kind::Pigment},
    Named{"solvent", Ink::Kind::Solvent},
};
inline constexpr std::array adhesive_words = {
    Named{"tape", Adhesive::Kind::Tape},   Named{"glue", Adhesive::Kind::Glue},
    Named{"dots", Adhesive::Kind::Dots},   Named{"foam", Adhesive::Kind::Foam},
    Named{"sheet", Adhesive::Kind::Sheet},
};
inline constexpr std::array risk_words = {
    Named{"none", Tool::Risk::None},
    Named{"blade", Tool::Risk::Blade},
    Named{"heat", Tool::Risk::Heat},
    Named{"pressure", Tool::Risk::Pressure},
};

// Shapes; a free one is drawn by its own path.
inline constexpr std::array outline_words = {
    Named{"rectangle", Shape::Outline::Rectangle},
    Named{"rounded", Shape::Outline::Rounded},
    Named{"circle", Shape::Outline::Circle},
    Named{"oval", Shape::Outline::Oval},
    Named{"polygon", Shape::Outline::Polygon},
    Named{"star", Shape::Outline::Star},
    Named{"scalloped", Shape::Outline::Scalloped},
    Named{"scalloped-circle", Shape::Outline::ScallopedCircle},
    Named{"banner", Shape::Outline::Banner},
    Named{"tag", Shape::Outline::Tag},
    Named{"free", Shape::Outline::Free},
};
inline constexpr std::array edge_words = {
    Named{"plain", Shape::Edge::Plain},
    Named{"stitched", Shape::Edge::Stitched},
};

// Work on the cards.
inline constexpr std::array method_words = {
    Named{"plain", Impression::Method::Plain},
    Named{"second-generation", Impression::Method::SecondGeneration},
    Named{"sponged", Impression::Method::Sponged},
    Named{"masked", Impression::Method::Masked},
    Named{"heat-embossed", Impression::Method::HeatEmbossed},
};
inline constexpr std::array cut_words = {
    Named{"trimmer", Piece::CutBy::Trimmer},
    Named{"die", Piece::CutBy::Die},
    Named{"punch", Piece::CutBy::Punch},
    Named{"scissors", Piece::CutBy::Scissors},
};
inline constexpr std::array notch_words = {
    Named{"top", Window::Notch::Top},
    Named{"right", Window::Notch::Right},
    Named{"bottom", Window::Notch::Bottom},
    Named{"left", Window::Notch::Left},
};
inline constexpr std::array torn_words = {
    Named{"all", Finish::Edge::All},     Named{"top", Finish::Edge::Top},
    Named{"right", Finish::Edge::Right}, Named{"bottom", Finish::Edge::Bottom},
    Named{"left", Finish::Edge::Left},
};
inline constexpr std::array as_words = {
    Named{"band", RibbonUse::As::Band},
    Named{"wrap", RibbonUse::As::Wrap},
    Named{"bow", RibbonUse::As::Bow},
    Named{"knot", RibbonUse::As::Knot},
};
inline constexpr std::array along_words = {Named{"height", true},
                                           Named{"width", false}}; // vertical
inline constexpr std::array fold_words = {Named{"valley", false},
                                          Named{"mountain", true}}; // mountain

// Where adhesive goes; sticking.h says what each means.
inline constexpr std::array stuck_words = {
    Named{"all-over", Attach::Where::AllOver},       Named{"left-half", Attach::Where::LeftHalf},
    Named{"right-half", Attach::Where::RightHalf},   Named{"top-half", Attach::Where::TopHalf},
    Named{"bottom-half", Attach::Where::BottomHalf}, Named{"left-edge", Attach::Where::LeftEdge},
    Named{"right-edge", Attach::Where::RightEdge},   Named{"top-edge", Attach::Where::TopEdge},
    Named{"bottom-edge", Attach::Where::BottomEdge}, Named{"open-left", Attach::Where::OpenLeft},
    Named{"open-right", Attach::Where::OpenRight},   Named{"open-top", Attach::Where::OpenTop},
    Named{"open-bottom", Attach::Where::OpenBottom}, Named{"frame", Attach::Where::Frame},
    Named{"middle", Attach::Where::Middle},
};

// Tiers and classes.
inline constexpr std::array audience_words = {
    Named{"anyone", Tier::Audience::Anyone},
    Named{"team", Tier::Audience::Team},
};
inline constexpr std::array open_words = {
    Named{"until-reply-by", Tier::Open::UntilReplyBy},
    Named{"anytime", Tier::Open::Anytime},
};
inline constexpr std::array if_owned_words = {
    Named{"nothing-instead", Tier::IfOwned::NothingInstead},
    Named{"credit", Tier::IfOwned::Credit},
    Named{"as-it-is", Tier::IfOwned::AsItIs},
};
inline constexpr std::array parts_words = {Named{"cut", true}, Named{"uncut", false}};
inline constexpr std::array slot_words = {Named{"talk", ClassSlot::Kind::Talk},
                                          Named{"break", ClassSlot::Kind::Break}};

// The roster.
inline constexpr std::array order_field_words = {
    Named{"id", OrderField::Id},
    Named{"number", OrderField::Number},
    Named{"name", OrderField::Name},
    Named{"tier", OrderField::Tier},
    Named{"quantity", OrderField::Quantity},
    Named{"owned", OrderField::Owned},
    Named{"swaps", OrderField::Swaps},
    Named{"region", OrderField::Region},
    Named{"note", OrderField::Note},
    Named{"date", OrderField::Day},
    Named{"address", OrderField::Address},
    Named{"status", OrderField::Status},
    Named{"email", OrderField::Email},
    Named{"paid", OrderField::Paid},
    Named{"paid-on", OrderField::PaidOn},
    Named{"refunded", OrderField::Refunded},
    Named{"sent", OrderField::Sent},
    Named{"picked-up", OrderField::PickedUp},
    Named{"parcel", OrderField::Parcel},
    Named{"kept", OrderField::Kept},
};
inline constexpr std::array days_words = {
    Named{"year-first", RosterColumn::Days::YearFirst},
    Named{"month-first", RosterColumn::Days::MonthFirst},
    Named{"day-first", RosterColumn::Days::DayFirst},
};

} // namespace leafwright::reading
