// Swing that a MIDI file says in words.
#pragma once

#include "core/exchange/MidiEvents.h"
#include "core/exchange/MidiSwing.h"
#include "core/music/PageMarks.h"
#include "core/study/Study.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace earwright {

/// "Swing 1.7:1, eighths", as our files say it; even notes are 1:1.
std::string swingWords(const Swing& swing);
/// What such words say; nothing for others.
std::optional<Swing> swingIn(std::string_view words);

/// Swings by tick, as the file's words say them, rising; at most a thousand.
std::vector<std::pair<std::int64_t, Swing>> swingsIn(const MidiTracks& file);

/// Whether only the file's words tell: thirds of the beat are known without (MidiSwing.h).
bool needsTelling(const std::vector<SwingChange>& told);

/// Brings places of a file that says how it swings to where they were written.
class ToldSwing {
public:
    /// Meters of the piece; the swings rising.
    ToldSwing(const Study& piece, std::vector<SwingChange> told, std::int64_t ticksPerQuarter);

    /// Where a note is written that swings to this place, to a tick; the place itself where none does, as of
    /// triplets.
    Beats written(const Beats& played) const;
    /// The same of each note's beginning and end.
    SwungNotes written(std::vector<ForeignNote> notes) const;

private:
    /// The piece's meters and swings only.
    Study study;
    MeterMap meters;
    /// In beats.
    double tick;
};

} // namespace earwright
