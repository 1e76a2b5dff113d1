// The learned constants of listening; written by training/networks.py, see training/README.md.
#pragma once

#include "core/listening/PartialFeatures.h"
#include "core/listening/SmallNetwork.h"
#include "core/listening/SpanNetwork.h"

namespace earwright {

/// How strongly a span's features speak for each pitch.
extern const SpanNetwork spanNetwork;
/// How strongly the features at a place speak for a note of a pitch beginning there.
extern const SmallNetwork<onsetFeatureCount, 16> onsetNetwork;
/// How strongly they speak for no note beginning at all.
extern const SmallNetwork<fluxFeatureCount, 6> noOnsetNetwork;

} // namespace earwright
