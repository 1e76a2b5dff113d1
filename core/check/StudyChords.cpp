#include "core/check/StudyChords.h"

#include "core/check/AsWritten.h"
#include "core/check/StudyListening.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// What is shorter cannot be told from its neighbours in the bass.
constexpr Seconds shortest{1.0 / 3};
/// Sound is read for so many chords at a time.
constexpr std::size_t chordsTogether = 32;

/// The readable chords over a bar, unanswered.
std::vector<CheckedChord> chordsOver(const Study& study, const MeterMap& meters, std::int64_t bar) {
    std::vector<CheckedChord> found;
    const Beats start = meters.barStart(bar);
    const auto chords = study.barChords(bar).chords;
    for (std::size_t i = 0; i < chords.size(); ++i) {
        const Beats end = i + 1 < chords.size() ? chords[i + 1].withinBar : meters.barLength(bar);
        if (chords[i].symbol.chord)
            found.push_back({bar,
                             chords[i].withinBar,
                             chords[i].symbol,
                             study.beatMap.seconds({start + chords[i].withinBar, start + end}),
                             {}});
    }
    return found;
}

/// Those over the bars that begin in a stretch, as far as they can be heard.
std::vector<CheckedChord> chordsIn(const Study& study, const Range<Seconds>& stretch, Seconds duration) {
    std::vector<CheckedChord> found;
    const MeterMap meters = study.meters();
    const auto at = [&](double beat) { return Beats::nearest(beat, 12); };
    const std::int64_t last = meters.barOf(at(study.beatMap.beatsAt(stretch.end)));
    for (std::int64_t bar = meters.barOf(at(study.beatMap.beatsAt(stretch.begin))); bar <= last; ++bar) {
        if (!stretch.contains(study.beatMap.seconds(meters.barStart(bar)))) continue;
        for (const CheckedChord& chord : chordsOver(study, meters, bar)) {
            const bool isHeard = chord.range.begin >= Seconds(0) && chord.range.end <= duration + shortest;
            if (isHeard && chord.range.length() >= shortest) found.push_back(chord);
        }
    }
    return found;
}

std::vector<LineTone> lineOf(const Study& study) {
    std::vector<LineTone> line;
    for (const Note& note : study.notes) {
        line.push_back({playedTime(study, note.range()), note.pitch.midi});
        for (const int grace : note.phrasing.graceNotes)
            line.push_back({line.back().range, grace});
    }
    return line;
}

/// The chords of a study with their answers, from a recording of which the tuning is settled.
Result<std::vector<CheckedChord>> answered(const Study& study, std::vector<CheckedChord> chords,
                                           const RecordingEvidence& recording, const std::stop_token& stop,
                                           const Progress& progress) {
    const std::vector<LineTone> line = lineOf(study);
    const View bass = bassViewOf(study);
    for (std::size_t first = 0; first < chords.size(); first += chordsTogether) {
        const std::size_t end = std::min(chords.size(), first + chordsTogether);
        const auto views = recording.views({chords[first].range.begin, chords[end - 1].range.end}, stop);
        if (!views) return views.error();
        for (std::size_t i = first; i < end; ++i) {
            if (stop.stop_requested()) return Error{ErrorKind::Cancelled, "The check was called off.", ""};
            const Range<Seconds>& range = chords[i].range;
            const double tuning = recording.tuningCurve().centsAt(range.begin + range.length() * 0.5);
            chords[i].answer =
                judgeChord(*chords[i].symbol.chord, chordSound(*views, tuning, range, line, bass));
            if (progress) progress(static_cast<double>(i + 1) / static_cast<double>(chords.size()));
        }
    }
    return chords;
}

double support(const std::vector<CheckedChord>& chords) {
    constexpr double least = 0.001;
    double sum = 0;
    for (const CheckedChord& chord : chords)
        sum += std::log(std::max(chord.answer.score, least));
    return sum;
}

/// Progress of the half of a work that begins at a share of it.
Progress halfOf(const Progress& whole, double begin) {
    if (!whole) return {};
    return [whole, begin](double share) { whole(begin + share / 2); };
}

/// Where no line says how a tuning between two semitones is to be read, the chords do.
Result<std::vector<CheckedChord>> answeredAsWritten(const Study& study,
                                                    const std::vector<CheckedChord>& chords,
                                                    const RecordingEvidence& recording,
                                                    const std::stop_token& stop, const Progress& progress) {
    const auto tuned = asWritten(study, recording, stop);
    if (!tuned) return tuned.error();
    std::vector<Range<Seconds>> places;
    for (const CheckedChord& chord : chords)
        places.push_back(chord.range);
    const double cents = otherReading(tuned->tuningCurve(), places);
    if (cents == 0 || tellsItsReading(study)) return answered(study, chords, *tuned, stop, progress);
    auto read = answered(study, chords, *tuned, stop, halfOf(progress, 0));
    if (!read) return read;
    const RecordingEvidence moved = tuned->tuned(tuned->tuningCurve().moved(cents));
    auto otherwise = answered(study, chords, moved, stop, halfOf(progress, 0.5));
    if (!otherwise) return otherwise;
    return support(*otherwise) > support(*read) ? otherwise : read;
}

} // namespace

Result<std::vector<CheckedChord>> checkChords(const Study& study, const Range<Seconds>& stretch,
                                              const RecordingEvidence& recording, std::stop_token stop,
                                              const Progress& progress) {
    if (!study.beatMap.hasTempo())
        return Error{
            ErrorKind::OutOfRange,
            "The bars of this study are not marked yet; mark two bars so that its chords have places "
            "in the recording.",
            ""};
    const std::vector<CheckedChord> chords = chordsIn(study, stretch, recording.duration());
    return answeredAsWritten(study, chords, recording, stop, progress);
}

std::vector<CheckedChord> chordsThatStand(const Study& study, std::vector<CheckedChord> answered) {
    if (!study.beatMap.hasTempo()) return {};
    const MeterMap meters = study.meters();
    std::erase_if(answered, [&](const CheckedChord& chord) {
        const auto now = chordsOver(study, meters, chord.bar);
        return std::none_of(now.begin(), now.end(), [&](const CheckedChord& written) {
            return written.withinBar == chord.withinBar && written.symbol == chord.symbol &&
                   written.range == chord.range;
        });
    });
    return answered;
}

const CheckedChord* answerAt(const std::vector<CheckedChord>& answers, Seconds time) {
    const auto found = std::find_if(answers.begin(), answers.end(),
                                    [&](const CheckedChord& chord) { return chord.range.contains(time); });
    return found == answers.end() ? nullptr : &*found;
}

} // namespace earwright
