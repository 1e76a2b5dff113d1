// A note as the check sees it: when, how long, which pitch.
#pragma once

#include "core/check/OffTogether.h"
#include "core/check/Verdict.h"
#include "core/listening/HeardPart.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <optional>

namespace earwright {

/// A claim that a note of the line sounds here.
struct Claim {
    Range<Seconds> range;
    /// Counted from the recording's own tuning.
    int midi = 60;
    /// Where it is the second of two eighths that were written evenly: the two of them. How far they swing
    /// shows only once they were heard.
    std::optional<Range<Seconds>> evenPair = std::nullopt;
    /// Whether it is written as one of several that are struck together, as in a double stop: checkNotes()
    /// tells.
    bool isStruckTogether = false;
    /// Whether its signs move its pitch, as a trill or a bend does: then it may begin with another one, and
    /// its own may begin again, without being out of place.
    bool isOrnamented = false;
    /// Whether it is written as hardly struck: that it begins faintly is no sign that it begins elsewhere.
    bool isGhosted = false;
    friend bool operator==(const Claim&, const Claim&) = default;
};

/// What an unclear answer leaves open.
enum class Doubt {
    Another,   ///< it may be another pitch, which is suggested; told by the hint ladder
    Beginning, ///< its pitch sounds, and whether it begins here cannot be told
    Short,     ///< shorter than what is listened to, so that its neighbours are heard with it
    Covered,   ///< another sound is stronger while it lasts
    Faint,     ///< its pitch is not heard clearly enough
    Unheard    ///< its pitch lies outside what is listened for
};

/// The answer to one claim.
struct ClaimAnswer {
    Verdict verdict = Verdict::Unclear;
    /// Probability that the claim is right: its pitch, with an onset of the line within 50 ms. A wrong length
    /// never speaks against it.
    double score = 0;
    /// The pitch heard instead, where the claim is not supported and that pitch stands out.
    std::optional<int> suggestedMidi = std::nullopt;
    /// How probable that pitch is, 0 to 1.
    double suggestedScore = 0;
    /// Where the claim is not supported and no other pitch suggested: that rather no note of the line begins
    /// within 50 ms, or at least not the one that is meant. The claim is one too many, too early or too late.
    bool nothingBegins = false;
    /// Where nothing begins: the onset of its pitch 70 to 240 ms away, if there is one that no claim names;
    /// of a note that is moved together with others, where the run has it.
    std::optional<Seconds> beginsAt = std::nullopt;
    /// How far behind its place (ahead: negative) it was judged, the line's usual lag taken off: the eighths
    /// swing, or it is played early or late. Where it is supported it was found to begin there.
    Seconds behind{0};
    /// Where in the recording it was listened for mostly.
    HeardPart listened = {};
    /// Where it is unclear, and only there.
    std::optional<Doubt> doubt = std::nullopt;
    /// Where it is one of a run whose notes are all off in the same way. One of them that is supported is so
    /// by chance: its pitch sounds at its place as well.
    std::optional<OffTogether> together = std::nullopt;
    friend bool operator==(const ClaimAnswer&, const ClaimAnswer&) = default;
};

} // namespace earwright
