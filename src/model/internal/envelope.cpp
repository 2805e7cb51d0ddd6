#include "model/envelope.h"

#include "measure/index.h"

namespace leafwright {

Size envelope_as_it_lies(const Project& project, const Card& card) {
  const Envelope* envelope = find_at(project.envelopes, card.envelope);
  return envelope != nullptr ? envelope->size : Size{};
}

} // namespace leafwright
