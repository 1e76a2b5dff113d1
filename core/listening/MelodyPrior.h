// How likely one pitch follows another in a line, and what that says about each pitch of a passage.
#pragma once

#include "core/listening/PitchRow.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// What is known of spans whose neighbours are asked.
enum class SpanOf {
    /// A note may begin at each, or the one before sound on: claims, which may be wrong.
    Claim,
    /// A note does begin at each, says the user. One that seems to be a pitch repeated is then rather another
    /// one that what still sounds covers.
    Note,
};

/// Log probability (up to a constant for each `from`) that a line goes from one pitch index to another: small
/// steps are likely, leaps over an octave rare, a repeated pitch a little rarer than a step. The slope fits
/// any melody played or sung; it knows no key and no style. Of claimed spans.
float melodyStep(std::size_t from, std::size_t to);

/// How much of the step counts across the silence between two spans: all of it within a phrase, half of it
/// after a rest.
float melodyWeight(const Range<Seconds>& before, const Range<Seconds>& after);

/// What the neighbours say about each span: log messages from both sides, summed over all their pitches
/// (forward-backward algorithm on a chain, Rabiner 1989), without the span's own evidence.
/// Requires: as many rows as spans, spans in order of time.
std::vector<PitchRow> neighbourEvidence(const std::vector<PitchRow>& evidence,
                                        const std::vector<Range<Seconds>>& spans, SpanOf kind);

} // namespace earwright
