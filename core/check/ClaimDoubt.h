// Why an answer is unclear.
#pragma once

#include "core/check/Claim.h"
#include "core/check/ClaimContext.h"
#include "core/check/ClaimFeatures.h"

#include <cstddef>

namespace earwright {

/// What is left open of an unclear claim for which no other pitch is suggested: whether it begins where it
/// stands, or else why its pitch cannot be told. Another sound is only held to cover it where one is heard
/// more strongly, and surely, that is neither an octave of it nor one of the notes around it, which may ring
/// on.
Doubt doubtAbout(const ClaimContext& context, std::size_t claim, const ClaimFeatures& features);

} // namespace earwright
