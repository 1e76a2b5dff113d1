// Where a note is played that is not played where it is written.
#pragma once

#include "core/check/ClaimContext.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// How far behind their places (ahead: negative) the onsets of these claims are heard, in the middle: a soft
/// attack is heard later than it begins, and a player may lag throughout. Nought where fewer than four say.
Seconds usualLag(const ClaimContext& context, const std::vector<std::size_t>& supported);

/// A claim's span moved to where its own pitch begins, once the line's usual lag is taken off: by at most a
/// tenth of a second, no more than it lasts, and at most half the way to a neighbour's onset, where no other
/// claim accounts for that onset. Soloists lag by some 30 ms at medium tempo and by twice that and more on
/// single notes (placement as the Weimar Jazz Database's studies report it; figures from memory). The second
/// of an evenly written pair whose swing is not known may begin anywhere from a little before the middle to
/// the last fifth of the pair. Nothing where its pitch begins nowhere there, or within 30 ms of its place, or
/// where another pitch that nobody claims surely begins at that place. Requires: the context's claims by
/// onset, as contextOf() gives them.
std::optional<Range<Seconds>> besideItsPlace(const ClaimContext& context, std::size_t claim, bool swingKnown,
                                             Seconds lag);

} // namespace earwright
