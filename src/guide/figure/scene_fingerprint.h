#pragma once

#include "guide/figure/scene.h"
#include "measure/fingerprint.h"

namespace leafwright::figure {

// Two scenes of one fingerprint give one drawing, in the same room, at the same scale and with the
// same fonts.
Fingerprint fingerprint_of(const Scene& scene, const Look& look);
void feed(Fingerprinter& to, const Look& look);

} // namespace leafwright::figure
