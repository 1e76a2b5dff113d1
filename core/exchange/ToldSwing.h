// Swing that a MIDI file says in words.
#pragma once

#include "core/exchange/MidiEvents.h"
#include "core/exchange/MidiSwing.h"
#include "core/music/PageMarks.h"
#include "core/study/Study.h"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace earwright {

/// "Swing 1.7:1, eighths", as our files say it; even notes are 1:1.
std::string swingWords(const Swing& swing);
/// What such words say; nothing for others.
std::optional<Swing> swingIn(std::string_view words);

/// Swings by tick, as the file's words say them, rising; at most a thousand. None where all are even.
std::vector<std::pair<std::int64_t, Swing>> swingsIn(const MidiTracks& file);

/// Brings places of a file that says how it swings to where they were written.
class ToldSwing {
public:
    /// Meters of the piece; the swings rising.
    ToldSwing(const Study& piece, std::vector<SwingChange> told, std::int64_t ticksPerQuarter);

    /// Whether the notes do what the words say: of those that come second in a pair no fewer are where this
    /// swing has them than at its half or at two thirds of it. A program that moved them leaves the words,
    /// and words of the same kind may be anyone's.
    bool isTrueOf(const std::vector<ForeignNote>& notes) const;

    /// Where a note is written that swings to this place, to a tick; the place itself where none does.
    Beats written(const Beats& played) const;
    /// The same of each note's beginning and end, but for triplets.
    SwungNotes written(std::vector<ForeignNote> notes) const;

private:
    /// A place within two notes that swing.
    struct InPair {
        Swing swing;
        Beats begin;
        Beats length;
        /// 0 to 1.
        double share = 0;
    };

    /// Nothing where notes are even.
    std::optional<InPair> inPair(const Beats& played) const;
    bool isAt(const InPair& place, double share) const;
    /// Where pairs begin whose notes are those of a triplet, in it or over two of them (MidiSwing.h says the
    /// same of beats).
    std::set<Beats> triplets(const std::vector<ForeignNote>& notes) const;

    /// The piece's meters and swings only.
    Study study;
    MeterMap meters;
    /// In beats.
    double tick;
    /// Of a beat: places are told apart as long as parts are many ticks long.
    std::int64_t parts;
};

} // namespace earwright
