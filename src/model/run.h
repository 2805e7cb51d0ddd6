#pragma once

#include "measure/amounts/amounts.h"
#include "measure/letters.h"
#include "model/tier.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The run of a class: what is made for whom and by when, and how the work and the day go.

namespace leafwright {

struct StockInHand {
  ItemRef item;
  int count = 0;   // sheets, pieces, spools
  Size offcut{};   // a piece of a sheet, or 0 for whole
  Length length{}; // of ribbon
  Place place;
};

struct TierCount {
  int tier = -1;
  int kits = 0;
  Place place;
};

// Something a buyer takes instead of what she owns.
struct Swap {
  ItemRef item;
  Amount amount;
  bool amount_said = false; // otherwise the tier's own list says how much, else one whole
};

// Where an order stands, as far as the maker says it. Unsaid counts like Paid.
enum class OrderStatus { Unsaid, Open, Paid, Cancelled, Refunded, Test };

// Whether anything is cut, bought, packed, sent or booked for it.
inline bool counts(OrderStatus status) {
  return status != OrderStatus::Cancelled && status != OrderStatus::Refunded &&
         status != OrderStatus::Test;
}

// As it is written; empty for Unsaid.
inline std::string_view word_of(OrderStatus status) {
  switch (status) {
  case OrderStatus::Unsaid: break;
  case OrderStatus::Open: return "open";
  case OrderStatus::Paid: return "paid";
  case OrderStatus::Cancelled: return "cancelled";
  case OrderStatus::Refunded: return "refunded";
  case OrderStatus::Test: return "test";
  }
  return {};
}

// What a column of the roster holds.
enum class OrderField {
  Id,     // of the row, by whoever exported it: the same one twice is the same order
  Number, // the maker's own, of the order
  Name,
  Tier,
  Quantity,
  Owned,
  Swaps,
  Region,
  Note,
  Day, // of the order
  Address,
  Status,
  Email,
  Paid,
  PaidOn,
  Refunded,
  Sent,
  PickedUp,
  Parcel,
  Kept, // nothing here: it stands on the slip as it is
};
inline constexpr std::size_t order_fields = static_cast<std::size_t>(OrderField::Kept) + 1;

// A column as the maker says what it means, for headings and words that are not ours.
struct RosterColumn {
  std::string heading;
  OrderField field = OrderField::Kept;
  int tier = -1; // of a quantity: of this one
  enum class Days { YearFirst, MonthFirst, DayFirst };
  Days days = Days::YearFirst; // of a date
  struct Value {
    std::string text, meaning; // what stands in a cell, and our word for it
  };
  std::vector<Value> values;
  Place place;
};

// One order of the run. Names and addresses go onto slips and labels and nowhere else.
struct Order {
  OrderStatus status = OrderStatus::Unsaid;
  std::string id;      // of its row; may be empty
  std::string name;    // of the buyer, or a number
  std::string address; // its lines parted by line ends; may be empty
  int tier = -1;
  int quantity = 1;           // kits
  std::vector<ItemRef> owned; // what the buyer says she owns
  std::vector<Swap> swaps;
  std::string email, region, note;
  std::optional<Date> date; // of the order
  // What came in for it and when, and what was given back. Orders of one row share what their row
  // says, and the first of them has it.
  std::optional<Money> paid, refunded;
  std::optional<Date> paid_on;
  std::string sent;       // number of the parcel, or a word that it is on its way; empty: not yet
  bool picked_up = false; // she comes for it, or has come
  std::string parcel;     // orders of one such word travel together; may be empty
  struct Other {          // a column of the roster that means nothing here
    std::string column, text;
  };
  std::vector<Other> others;
  Place place, swaps_place; // of the order, and of what is said of its swaps
};

// Who sends supplies, and how long that takes.
struct Supplier {
  std::string name;
  int lead_days = 0;          // working days from ordering to arrival
  std::vector<ItemRef> items; // empty: everything that no other supplier has
  Place place;
};

// Days on which nobody works, posts or delivers.
struct DaysOff {
  Date first{}, last{};
  std::string words; // "Good Friday"
  Place place;
};

// How fast the work goes. Seconds, save where it says otherwise; the defaults are a careful
// beginner's (common practice, to be replaced by one's own).
struct WorkRates {
  int minutes_a_day = 240; // of work by one person
  int people = 1;
  int setting = 30; // setting the fence once
  int cut = 8;      // one pass of the blade, with its stack
  int die = 40;     // one pass through the machine
  int stamp = 30;   // one impression
  int part = 6;     // one kind of part counted into its envelope
  int item = 15;    // one supply laid in
  int parcel = 180; // checking the slip, closing, label, post
  // The days of the week on which the maker works; carriers and suppliers keep Monday to Friday.
  bool works[7] = {false, true, true, true, true, true, false}; // by weekday::c_encoding()
};

// A sheet of labels by its measures, from the paper's top left corner.
struct LabelSheet {
  std::string paper_name; // "letter", or empty
  Size paper;
  Size label;
  int columns = 0, rows = 0;
  Length left{}, top{};            // of the first label
  Length gap_across{}, gap_down{}; // between labels
  int first = 1;                   // the first free label of a sheet begun earlier
  Place place;
};

// A class in a room.
struct ClassSlot {
  enum class Kind { Talk, Card, Break };
  Kind kind = Kind::Talk;
  std::string title;
  int card = -1;
  int minutes = 0; // 0: as the card says
  Place place;
};
struct ClassDay {
  std::optional<StatedDate> date;
  int start = 0;  // minutes after midnight
  int places = 0; // at the tables, all together
  int tables = 1;
  std::string venue;
  std::vector<ClassSlot> slots; // in order; empty: worked out from the cards
  Place place, date_place;
};

struct Run {
  // Defined in special_members.cpp.
  Run();
  Run(const Run&);
  Run(Run&&) noexcept;
  Run& operator=(const Run&);
  Run& operator=(Run&&) noexcept;
  ~Run();

  int of_each = 2; // cards of each design in one kit
  // Pieces cut beyond what is promised, against miscuts: so many of a hundred, rounded up, and so
  // many more of each piece.
  int spare_percent = 0, spare_pieces = 0;
  std::optional<StatedDate> reply_by, ship_by;
  Place reply_by_place, ship_by_place;
  std::vector<TierCount> planned; // kits expected in each tier, before orders are in
  std::vector<StockInHand> in_hand;
  std::string roster; // CSV beside the project; empty = none
  Place roster_place;
  std::vector<RosterColumn> columns; // of the roster, where the maker says what they mean
  std::vector<Order> orders; // those of the project, then those of the roster; they outdo `planned`
  // What the list marks cancelled, refunded or a test: name, status and place alone. Nothing is
  // made for them.
  std::vector<Order> set_aside;
  std::vector<Supplier> suppliers;
  std::vector<DaysOff> days_off;
  WorkRates work;
  Mass wrapping{};          // of an empty parcel
  Mass lettered_envelope{}; // of one, empty; 0 = unknown
  std::optional<LabelSheet> labels;
  std::optional<ClassDay> class_day;
  Place place;
};

// What the column of a roster is called, in small letters, that holds the maker's own number of an
// order.
inline constexpr std::array<std::string_view, 4> number_columns = {"number", "order number",
                                                                   "order", "no."};

inline bool is_number_column(std::string_view column) {
  return std::ranges::find(number_columns, small_letters(column)) != number_columns.end();
}

// The order's own number; empty when its roster has none beside the names.
inline std::string_view number_of(const Order& order) {
  for (const Order::Other& other : order.others)
    if (!other.text.empty() && is_number_column(other.column)) return other.text;
  return {};
}

} // namespace leafwright
