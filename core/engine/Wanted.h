// What the user wants to hear, as the engine's worker carries it out.
#pragma once

#include "core/engine/BeatPlace.h"
#include "core/engine/Engine.h"
#include "core/engine/PassSpeeds.h"
#include "core/engine/TakePlayback.h"
#include "core/engine/WrittenPart.h"
#include "core/sound/Recording.h"
#include "core/time/Frames.h"
#include "core/time/Range.h"

#include <cstdint>
#include <memory>
#include <optional>

namespace earwright {

/// Changed by messages only, and by what they asked for being done.
struct Wanted {
    std::shared_ptr<Recording> recording;
    std::optional<Range<Frames>> loop;
    /// Played once instead of the loop.
    std::optional<Range<Frames>> slice;
    /// Semitones and cents; the speed is what `speeds` say.
    Playing playing;
    PassSpeeds speeds;
    double tuning = 0;
    NoteList notes = noteListOf({});
    /// Heard in place of the notes; null for none.
    std::shared_ptr<const TakePlayback> take;
    BeatList beats = beatListOf({});
    /// Where to go next; nothing goes on from where the sound is.
    std::optional<Frames> jump;
    /// The place whose sound is sustained.
    std::optional<Frames> held;
    std::uint64_t wish = 0;
    /// Something changed that a new lane has to take up.
    bool changed = false;
    /// Passes of the loop are counted anew.
    bool restartPasses = false;
    /// The user pressed play, which ends a slice.
    bool pressedPlay = false;
    /// Passes to come may differ from what was planned, the present one too.
    bool replan = false;
    /// Beats to count in before the next lane sounds.
    int countIn = 0;
};

} // namespace earwright
