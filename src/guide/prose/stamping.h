#pragma once

#include "guide/prose/arranged.h"
#include "guide/prose/prose.h"
#include "guide/prose/telling.h"

#include <vector>

namespace leafwright::guide {

// How many prints an impression leaves.
int prints(const Impression& impression);

// The sentences of everything stamped on one thing, each method in its own words. `target` is what
// is stamped on, as the first sentence names it: "the tree panel (D), 3 1/4 in square". `several`
// things are stamped alike: "on each". `on` is for the distances.
void say_stamping(Prose& prose, const Telling& telling, const Carrier& on,
                  const std::vector<Impression>& stamped, const Prose& target, bool several);

// What the reader must not overlook: hot tools, wet ink.
std::vector<Notice> stamping_cautions(const Telling& telling,
                                      const std::vector<Impression>& stamped);

} // namespace leafwright::guide
