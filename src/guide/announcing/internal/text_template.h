#pragma once

#include "guide/announcing/announcements.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace leafwright::guide {

// What a field says; nothing for one that does not exist, empty where it has nothing to say.
using FieldValue = std::function<std::optional<std::string>(std::string_view name)>;

// A template with its fields filled in.
struct FilledText {
  bool wanted = true;             // its {only-with} fields all say something
  std::optional<int> send_offset; // days from the last day to order
  std::string text;
  Findings findings;
};
FilledText filled(const TextTemplate& from, const FieldValue& value_of);

// The most characters that the text of this template may have.
std::optional<int> room_of(std::string_view template_name);

} // namespace leafwright::guide
