// What a pitch trace says about how a note is played: slide, bend, vibrato, trill.
#pragma once

#include "core/listening/PitchTrace.h"

#include <optional>

namespace earwright {

/// A glide into the note's pitch, or out of it.
struct HeardSlide {
    /// Where it comes from, cents against the pitch that is reached; negative from below.
    double cents = 0;
    /// From a fifth to four fifths of the way.
    Seconds duration;
    friend bool operator==(const HeardSlide&, const HeardSlide&) = default;
};

/// A pitch that swings evenly around its middle.
struct HeardVibrato {
    double hertz = 0;
    /// Either way from the middle.
    double cents = 0;
    /// Share of the trace's movement that an even swing explains, 0 to 1.
    double evenness = 0;
    friend bool operator==(const HeardVibrato&, const HeardVibrato&) = default;
};

/// Two pitches in quick turns.
struct HeardTrill {
    /// Whole turns (there and back) a second.
    double hertz = 0;
    /// From the lower to the upper note.
    double semitones = 0;
    friend bool operator==(const HeardTrill&, const HeardTrill&) = default;
};

/// What is heard in the trace of one note. Nothing is said where the trace is not clear enough.
struct TraceFeatures {
    /// Share of the note's points that are clear, 0 to 1.
    double clearShare = 0;
    /// Median over the settled part, cents against the written pitch.
    double centreCents = 0;
    std::optional<HeardSlide> slideIn;
    /// Its cents tell where it goes.
    std::optional<HeardSlide> slideOut;
    /// After the note was reached: the farthest it is bent and held for 30 to 55 ms, cents; with a vibrato
    /// the place of its middle; no trill.
    std::optional<double> bendCents;
    std::optional<HeardVibrato> vibrato;
    std::optional<HeardTrill> trill;
};

/// Reads a trace that starts about 0.1 s before the note and reaches to its end.
///
/// A slide is a glide of 50 cents or more whose middle three fifths take at least 20 ms: a leap, as the
/// window shows it, takes less. Vibrato has 3.5 to 9 turns a second and at least 8 cents either way (singers
/// and strings: about 5 to 7 a second; J. Sundberg, "The Science of the Singing Voice", 1987), in a note of
/// 0.3 s at least, and turns round at least twice, which no bend does. A trill leaps at least three times,
/// between notes 90 cents or more apart. What leaves the written pitch for another is bent and no slide into
/// it.
TraceFeatures featuresOf(const PitchTrace& trace, Range<Seconds> note, double writtenMidi);

} // namespace earwright
