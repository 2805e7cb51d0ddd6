#include "plan/supply/buying.h"

#include "language/agreement.h"

#include <fmt/format.h>

#include <map>
#include <numeric>
#include <string>
#include <utility>

namespace leafwright::supply {

namespace {

// A sum of shares; denominators of tiers are small.
struct Sum {
  std::int64_t numerator = 0, denominator = 1;
  std::int64_t shares = 0;                // handed out
  std::int64_t one_over = 0, one_num = 0; // the share of one kit, when all are alike; 0 otherwise
  Place place;

  void add(std::int64_t n, std::int64_t d, std::int64_t times) {
    const std::int64_t common = std::lcm(denominator, d);
    numerator = numerator * (common / denominator) + n * times * (common / d);
    denominator = common;
    const std::int64_t less = std::gcd(numerator, denominator);
    if (less > 1) {
      numerator /= less;
      denominator /= less;
    }
    const bool alike = shares == 0 || (one_num == n && one_over == d);
    one_num = alike ? n : 0;
    one_over = alike ? d : 0;
    shares += times;
  }
};

std::string mixed(std::int64_t numerator, std::int64_t denominator) {
  const std::int64_t whole = numerator / denominator, rest = numerator % denominator;
  if (rest == 0) return std::to_string(whole);
  const std::string part = fmt::format("{}/{}", rest, denominator);
  return whole == 0 ? part : fmt::format("{} {}", whole, part);
}

Finding stranded(const std::string& name, const Sum& sum) {
  Finding finding;
  finding.severity = Severity::Note;
  finding.code = "buy-share-stranded";
  finding.place = sum.place;
  finding.found = fmt::format("{} shares of {} come to {} packs", sum.shares, name,
                              mixed(sum.numerator, sum.denominator));
  finding.expected = "whole packs";
  const std::int64_t open = sum.denominator - sum.numerator % sum.denominator;
  finding.fix = fmt::format("{} of a pack is left", mixed(open, sum.denominator));
  if (sum.one_num > 0) {
    for (std::int64_t more = 1; more <= sum.one_over; ++more) {
      Sum then = sum;
      then.add(sum.one_num, sum.one_over, more);
      if (then.denominator != 1) continue;
      finding.fix +=
          fmt::format("; {} more {} would use it up", more, words::noun_for(more, "share"));
      break;
    }
  }
  return finding;
}

} // namespace

Findings stranded_shares(const Project& project, std::span<const KitKind> kinds,
                         const std::vector<Purchase>& purchases) {
  using Item = std::pair<ItemKind, int>;
  std::map<Item, Sum> sums;
  std::map<Item, std::int64_t> unopened;
  for (const KitKind& kind : kinds) {
    if (kind.kits <= 0) continue;
    for (const Inclusion& inclusion : kind.includes) {
      const Amount& amount = inclusion.amount;
      if (amount.kind == Amount::Kind::Whole)
        unopened[{inclusion.item.kind, inclusion.item.index}] += kind.kits;
      if (amount.kind != Amount::Kind::Share || amount.denominator <= 0) continue;
      Sum& sum = sums[{inclusion.item.kind, inclusion.item.index}];
      if (sum.shares == 0) sum.place = inclusion.place;
      sum.add(amount.numerator, amount.denominator, kind.kits);
    }
  }
  Findings findings;
  // More packs than the shares take are opened for pieces: what a share leaves is cut, too.
  const auto opened_for_pieces = [&](const Item& item, const Sum& sum) {
    std::int64_t bought = 0;
    for (const Purchase& one : purchases)
      if (one.item == ItemRef{item.first, item.second}) bought += one.packs;
    return bought > sum.numerator / sum.denominator + 1 + unopened[item];
  };
  for (const auto& [key, sum] : sums)
    if (sum.denominator != 1 && !opened_for_pieces(key, sum))
      findings.push_back(stranded(item_name(project, {key.first, key.second}), sum));
  return findings;
}

} // namespace leafwright::supply
