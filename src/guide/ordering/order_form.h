#pragma once

#include "guide/block.h"
#include "model/project.h"

#include <string>
#include <string_view>
#include <vector>

// What a buyer is asked when she orders, from the project alone: as a form on paper, as a page for
// a browser, and as questions for a form service. Columns and words are those that read_roster
// knows, so that an answer is a row of the roster as it stands.

namespace leafwright::guide {

struct OrderQuestion {
  enum class Kind { Line, Lines, Number, OneOf, AnyOf };
  struct Answer {
    std::string value; // what stands in the roster
    std::string words;
    std::vector<int> tiers{}; // only for buyers of these; empty: of any
  };
  Kind kind = Kind::Line;
  std::string column; // of the roster
  std::string asked, hint;
  bool needed = false;
  std::vector<Answer> answers;
};

struct OrderForm {
  std::string title, lead, close;
  std::string mail; // where it goes; may be empty
  std::vector<OrderQuestion> questions;
};

// Of the tiers of that audience.
OrderForm order_form(const Project& project, Tier::Audience audience);

// The `<column>` elements that read what a form service asked in these words.
std::string order_mapping(const OrderForm& form);
// The questions, numbered, with their answers and how each is asked, and that mapping.
std::string order_questions(const OrderForm& form);

// One HTML file that asks for nothing from elsewhere. `frame` is templates/order-form.html, where
// {language}, {title}, {lead}, {close}, {mail} and {questions} are filled in.
std::string order_page(const OrderForm& form, const Project& project, std::string_view frame);

} // namespace leafwright::guide
