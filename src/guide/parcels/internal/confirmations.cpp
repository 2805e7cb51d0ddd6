#include "guide/parcels/confirmations.h"

#include "guide/parcels/internal/parcel_words.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/tier/account.h"
#include "plan/tier/ledger.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace leafwright::guide {

namespace {

class Writer {
 public:
  Writer(const Project& project, const PackingList& list)
      : project_(project), list_(list), sales_(tiers::sales_by_order(project)) {
    parcels_.assign(project.run.orders.size(), nullptr);
    for (const auto* some : {&list.parcels.parcels, &list.parcels.unposted})
      for (const orders::Parcel& parcel : *some) parcels_.at(as_index(parcel.order)) = &parcel;
  }

  Confirmation write(const tiers::LedgerLine& line) const {
    const Order& first = at(project_.run.orders, line.orders.front());
    Confirmation made{line.orders, first.name, first.email, {}, {}, {}};
    made.subject = "Your order of “" + project_.title + "”";
    made.text = "Dear " + first.name + ",\n\nThank you for your order of “" + project_.title + "”";
    if (const std::string_view number = number_of(first); !number.empty())
      made.text += fmt::format(", number {}", number);
    made.text += ".\n\nYou ordered:\n";
    for (const int order : line.orders) made.text += ordered(order);
    made.text += sums(line) + coming(line) + with_tutorial(line, made.tutorials);
    const std::string& contact = project_.maker.contact;
    made.text += "\nPlease check it. If anything is not right, write to me" +
                 (contact.empty() ? std::string() : ": " + contact) + "\n";
    if (!project_.maker.name.empty()) made.text += "\n" + project_.maker.name + "\n";
    return made;
  }

 private:
  const orders::Parcel* parcel_of(int order) const { return at(parcels_, order); }

  std::string ordered(int index) const {
    const Order& order = at(project_.run.orders, index);
    const tiers::OrderTerms terms = tiers::terms_of(project_, at(sales_, index));
    const std::string kits =
        order.quantity == 1 ? std::string() : std::to_string(order.quantity) + " × ";
    std::string words = "- " + kits + tier_at(project_, order.tier).name;
    if (tier_at(project_, order.tier).price) words += ": " + money_text(terms.price);
    words += "\n";
    const orders::Parcel* parcel = parcel_of(index);
    if (parcel == nullptr) return words;
    const orders::Change& change = at(list_.parcels.changes, parcel->kind);
    if (change.empty()) return words;
    return words + "  " + words::sentence_case(change_words(project_, change)) + ".\n  " +
           credit_words(change, parcel->kits) + "\n";
  }

  std::string sums(const tiers::LedgerLine& line) const {
    Money shipping{0, project_.currency};
    for (const int order : line.orders)
      shipping = shipping + tiers::terms_of(project_, at(sales_, order)).charged;
    std::string words;
    const auto say = [&](std::string_view what, const Money& money) {
      words += fmt::format("{}: {}\n", what, money_text(money));
    };
    if (shipping.minor > 0)
      say(words::sentence_case(std::string(words::terms(project_.language).shipping)), shipping);
    say("All together", line.due);
    if (line.paid.minor > 0) say("Paid", line.paid);
    if (line.refunded.minor > 0) say("Given back", line.refunded);
    if (line.owed.minor > 0) say("Still to pay", line.owed);
    return "\n" + words;
  }

  // When and how it comes, told of the parcels that are not on their way yet.
  std::string coming(const tiers::LedgerLine& line) const {
    std::string words;
    const auto say = [&](const std::string& sentence) {
      if (words.find(sentence) == std::string::npos) words += sentence + "\n";
    };
    for (const int index : line.orders) {
      const Order& order = at(project_.run.orders, index);
      if (tier_at(project_, order.tier).shipping == Tier::Shipping::None) continue;
      if (!order.sent.empty())
        say("Your parcel is on its way: " + order.sent + ".");
      else if (order.picked_up)
        say("You pick it up.");
      else if (project_.run.ship_by)
        say((order.quantity == 1 && line.orders.size() == 1
                 ? "Your kit " + std::string(words::terms(project_.language).ships)
                 : "Your kits " + std::string(words::terms(project_.language).ship)) +
            " by " + words::long_day_text(project_.language, project_.run.ship_by->date) + ".");
    }
    return words.empty() ? words : "\n" + words;
  }

  std::string with_tutorial(const tiers::LedgerLine& line, std::vector<int>& tiers) const {
    bool holds = false;
    for (const int index : line.orders) {
      const orders::Parcel* parcel = parcel_of(index);
      if (parcel == nullptr || !at(list_.contents, parcel->kind).tutorial) continue;
      holds = true;
      const int tier = at(project_.run.orders, index).tier;
      if (line.owed.minor <= 0 && std::ranges::find(tiers, tier) == tiers.end())
        tiers.push_back(tier);
    }
    if (!holds) return {};
    return tiers.empty() ? "\nThe tutorial comes by e-mail when your payment is in.\n"
                         : "\nThe tutorial is with this e-mail, as a PDF.\n";
  }

  const Project& project_;
  const PackingList& list_;
  std::vector<tiers::Sale> sales_;
  std::vector<const orders::Parcel*> parcels_; // by order
};

} // namespace

std::vector<Confirmation> confirmations(const Project& project, const PackingList& list) {
  const Writer writer(project, list);
  std::vector<Confirmation> all;
  for (const tiers::LedgerLine& line : tiers::ledger_of(project).lines)
    if (!line.orders.empty()) all.push_back(writer.write(line));
  return all;
}

} // namespace leafwright::guide
