#include "ui/desk/PlaceEvidence.h"

#include "core/listening/PitchHint.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace earwright::ui {

namespace {

/// What sounds around a place helps to tell the line from the band, and its own notes tell its sound.
constexpr Seconds surroundings{8};

std::vector<Range<Seconds>> notesIn(const Range<Seconds>& passage, const std::vector<Range<Seconds>>& line) {
    std::vector<Range<Seconds>> notes;
    std::ranges::copy_if(line, std::back_inserter(notes), [&](const Range<Seconds>& note) {
        return passage.contains(note.begin) && note.end <= passage.end;
    });
    return notes;
}

QString inPercent(double share) {
    return QCoreApplication::translate("PlaceEvidence", "%1\u00a0%").arg(std::lround(100 * share));
}

} // namespace

Result<HeardStrengths> pitchStrengths(const RecordingEvidence& recording, const Range<Seconds>& place,
                                      const std::vector<Range<Seconds>>& line, const ListeningWish& wish,
                                      const std::stop_token& stop) {
    const Range<Seconds> passage{std::max(place.begin - surroundings, Seconds(0)),
                                 std::min(place.end + surroundings, recording.duration())};
    const auto evidence = recording.passage(passage, wish.part, stop);
    if (!evidence) return evidence.error();
    const PitchHint hint = pitchHintAt(place, evidence->within(wish.line), notesIn(passage, line));
    return HeardStrengths{strengthsOf(hint.evidence), hint.listened};
}

QString openOctaveText(const std::vector<PitchStrength>& pitches, const ChordStretch* chord) {
    constexpr double fairlyLikely = 0.1;
    QStringList octaves;
    std::ptrdiff_t likely = 0;
    for (const PitchStrength& rival : octaveRivals(pitches)) {
        if (rival.probability() >= fairlyLikely) ++likely;
        const RowName row = rowName(chord, rival.midi);
        octaves += row.name + row.octave + QLatin1Char(' ') + inPercent(rival.probability());
    }
    if (likely < 2) return {};
    return QCoreApplication::translate("PlaceEvidence", "The octave is open: %1.")
        .arg(octaves.join(QStringLiteral(", ")));
}

} // namespace earwright::ui
