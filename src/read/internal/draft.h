#pragma once

#include "measure/index.h"
#include "model/card.h"
#include "read/document.h"
#include "read/internal/catalogue.h"
#include "read/read.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {

// A thing of a card that has a name, before its measures are worked out.
struct Draft {
  enum class Kind { Base, Piece, Ribbon, Embellishment, Window };
  Kind kind = Kind::Piece;
  int card = -1;
  Element element;
  std::string id;
  int like = -1;            // draft whose attributes hold where this one has none
  int owner = -1;           // Window: the draft of its piece
  int item = -1;            // Ribbon, Embellishment: index in the project; Piece, Window: die
  int index = -1;           // in the card's list of its kind
  std::vector<int> windows; // of a piece, as drafts
  struct On {
    enum class Kind { Face, Draft, EnvelopeFront, EnvelopeInside };
    Kind kind = Kind::Face;
    int index = 0; // face of the card, or draft
  } on;
};

struct CardDraft {
  Element element;
  std::map<std::string, int, std::less<>> things;  // id to draft
  std::vector<int> drafts;                         // in order of the file, base first
  int pieces = 0, ribbons = 0, embellishments = 0; // counted while the drafts are made
};

// All cards with their named things; who lies on whom and who is like whom is settled.
class Drafts {
 public:
  // Fills in project.cards with what needs no measures (id, form, plan …).
  Drafts(Context& context, const Catalogue& catalogue, const std::vector<Element>& cards);

  const std::vector<CardDraft>& cards() const { return cards_; }
  const Draft& at(int draft) const { return drafts_.at(as_index(draft)); }
  std::size_t size() const { return drafts_.size(); }
  int card_of(std::string_view id) const; // -1 when there is none
  int thing_of(int card, std::string_view id) const;
  std::vector<std::string_view> card_ids() const;
  std::vector<std::string_view> thing_ids(int card) const;

  // An attribute of the draft or, where it says nothing about it, of the one it is like.
  std::optional<Value> attribute(int draft, std::string_view name) const;
  Element source_of(int draft, std::string_view name) const; // the element that says it
  Element content(int draft) const;                          // the element whose children count

 private:
  void read_card(Context& context, const Catalogue& catalogue, const Element& element);
  void add_thing(Context& context, const Catalogue& catalogue, int card, const Element& element);
  void add(Context& context, Draft draft, std::string_view fallback_id);
  void settle_like(Context& context, int draft);
  void settle_die(Context& context, const Catalogue& catalogue, int draft);
  void settle_on(Context& context, int draft);
  void refuse_circles(Context& context, const std::function<int(int)>& next,
                      const std::function<void(int)>& cut, std::string_view words);

  std::vector<Draft> drafts_;
  std::vector<CardDraft> cards_;
  std::map<std::string, int, std::less<>> card_ids_;
};

} // namespace leafwright::reading
