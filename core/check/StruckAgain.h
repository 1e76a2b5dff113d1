// Whether a pitch that sounded before is struck again or sounds on.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// What the level of a claim's own partials says to its beginning, where the onsets do not: the onset network
/// hears a repeated note badly, since its pitch is there already.
enum class Renewal {
    NotAsked,
    Struck,   ///< they rise steeply, as of a tone that is struck
    SoundsOn, ///< they neither rise nor sink
    Open
};

/// The claim of the same pitch before a claim, up to whose beginning or nearly it is written to sound;
/// nothing where there is none. Requires: claims by onset.
std::optional<std::size_t> repeatedBy(const std::vector<Claim>& claims, std::size_t claim);

/// Whether a pitch is struck within 50 ms of a time; what begins where the range begins is left out, and what
/// begins where it ends. Of 280 repeated notes in renderings nine in ten are, of 1,900 places within held
/// ones one in fifty.
bool isStruckAbout(const PassageEvidence& evidence, int midi, Seconds time, const Range<Seconds>& free);

/// For claims whose beginning is not plain: those that repeat a pitch, and those where more likely than not
/// nothing begins. Only the former may sound on: of those repeated notes one in fifty does, of the held
/// places 93, 72 and 62 in a hundred (alone, over a trio, over a band). Requires: claims by onset, pitches
/// that are listened for.
std::vector<Renewal> renewalsOf(const PassageEvidence& evidence, const std::vector<Claim>& claims,
                                const OnsetTrack& onsets);

} // namespace earwright
