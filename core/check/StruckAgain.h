// Whether a pitch that sounded before is struck again or sounds on.
#pragma once

#include "core/check/Claim.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace earwright {

/// The onset network hears a repeated note badly, since its pitch is there already; how steeply its partials
/// rise tells (PassageEvidence::riseOf, within 50 ms). Above this it is struck again: of 275 repeated notes
/// of renderings nine in ten rise so, of 1,742 places within held ones one in fifty.
inline constexpr double struckAgainAbove = 0.55;
/// Below this it sounds on: one in fifty of those repeated notes does, and of the held places 93, 71 and 63
/// in a hundred (alone, over a trio, over a band).
inline constexpr double soundsOnBelow = 0.2;

/// How steeply a pitch rises about a time; what began at `before` is left out, and what begins at `next`.
double riseAbout(const PassageEvidence& evidence, int midi, Seconds time, std::optional<Seconds> before,
                 std::optional<Seconds> next);

/// The claim of the same pitch before a claim, up to whose beginning or nearly it is written to sound;
/// nothing where there is none. Requires: claims by onset.
std::optional<std::size_t> repeatedBy(const std::vector<Claim>& claims, std::size_t claim);

/// How steeply claims rise whose beginning is not plain: those that repeat a pitch, and those where more
/// likely than not nothing begins. Nothing for the others. Requires: claims by onset, pitches that are
/// listened for.
std::vector<std::optional<double>> risesOf(const PassageEvidence& evidence, const std::vector<Claim>& claims,
                                           const OnsetTrack& onsets);

} // namespace earwright
