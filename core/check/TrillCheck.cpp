#include "core/check/TrillCheck.h"

#include "core/check/OrnamentSounds.h"
#include "core/check/PhrasingMark.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace earwright {

namespace {

/// The most probable sound to which a note may trill instead.
const UnwrittenSound* otherNoteOf(const Note& note, const CheckedNote& checked,
                                  const std::vector<UnwrittenSound>& sounds) {
    if (checked.verdict == Verdict::Contradicted) return nullptr;
    const UnwrittenSound* likeliest = nullptr;
    for (const UnwrittenSound& sound : sounds)
        if (isOtherTrill(sound, note, playedRange(checked)) && (!likeliest || sound.score > likeliest->score))
            likeliest = &sound;
    return likeliest;
}

/// Whether what is suggested for a note may be the other note of its trill, struck first.
bool mayBeginAbove(const Note& note, const CheckedNote& checked) {
    if (!note.phrasing.trill || !checked.suggestedMidi) return false;
    const int away = *checked.suggestedMidi - note.pitch.midi;
    return away > 0 && away <= widestTrill;
}

/// Over how many semitones it trills, as measured.
std::optional<int> measuredTrill(const NotePlaying& playing) {
    if (!playing.pitch.trill) return std::nullopt;
    return static_cast<int>(std::lround(playing.pitch.trill->semitones));
}

/// A trill between two other notes would have another pitch below.
bool comesBackToItsPitch(const NotePlaying& playing) {
    constexpr double quarterTone = 50;
    constexpr double share = 0.2;
    std::ptrdiff_t clear = 0, own = 0;
    for (const ContourPoint& point : playing.contour) {
        if (!playing.heard.contains(point.time) || point.clarity < PitchPoint::clearEnough) continue;
        ++clear;
        if (std::abs(point.cents) <= quarterTone) ++own;
    }
    return clear > 0 && static_cast<double>(own) >= share * static_cast<double>(clear);
}

bool beginsAbove(const Note& note, const CheckedNote& checked, const NotePlaying& playing) {
    return mayBeginAbove(note, checked) &&
           measuredTrill(playing) == *checked.suggestedMidi - note.pitch.midi && comesBackToItsPitch(playing);
}

/// Whether a note that is heard plainly trills over an interval of which nothing else was told.
bool isMeasuredOtherwise(const CheckedNote& checked, const NotePlaying& playing) {
    const auto measured = measuredTrill(playing);
    return checked.verdict == Verdict::Supported && measured && *measured > 0 && *measured <= widestTrill &&
           comesBackToItsPitch(playing);
}

/// A trill that is not written, where it is measured: its turns are no notes left out.
void tellMissing(const Note& note, const NotePlaying& playing, const CheckedNote& checked,
                 TrillsHeard& heard) {
    const auto measured = measuredTrill(playing);
    if (!measured || *measured < 1 || *measured > widestTrill || !comesBackToItsPitch(playing)) return;
    heard.trills.push_back({note.id, checked.range, note.pitch.midi, 0, *measured, Verdict::Contradicted});
    std::erase_if(heard.others, [&](const UnwrittenSound& sound) {
        return (sound.midi == note.pitch.midi || sound.midi == note.pitch.midi + *measured) &&
               playedRange(checked).contains(sound.range.begin);
    });
}

std::optional<OtherTrill> otherTrill(const Note& note, const CheckedNote& checked, const NotePlaying& playing,
                                     const UnwrittenSound* other) {
    const int written = *note.phrasing.trill;
    const Verdict verdict = trillVerdict(written, playing);
    OtherTrill trill{note.id, checked.range, note.pitch.midi, written, 0, verdict};
    if (verdict == Verdict::Unclear && other) {
        trill.heard = other->midi - note.pitch.midi;
        return trill;
    }
    const auto measured = measuredTrill(playing);
    if (verdict != Verdict::Contradicted || !measured) return std::nullopt;
    trill.heard = *measured;
    return trill;
}

} // namespace

bool mayTrillElsewhere(const Note& note, const CheckedNote& checked) {
    return note.phrasing.trill && (checked.verdict != Verdict::Contradicted || mayBeginAbove(note, checked));
}

bool mayBeATrill(const Note& note, const CheckedNote& checked, const std::vector<UnwrittenSound>& sounds) {
    if (movesItsPitch(note.phrasing) || checked.verdict == Verdict::Contradicted) return false;
    const Range<Seconds> played = playedRange(checked);
    return std::ranges::count_if(sounds, [&](const UnwrittenSound& sound) {
               const int away = sound.midi - note.pitch.midi;
               return played.contains(sound.range.begin) && away >= 0 && away <= widestTrill;
           }) >= 2;
}

TrillsHeard trillsHeard(const std::vector<UnwrittenSound>& sounds, const std::vector<Note>& notes,
                        std::vector<CheckedNote> checked, const std::vector<NotePlaying>& playing) {
    TrillsHeard heard{std::move(checked), {}, sounds};
    for (std::size_t i = 0; i < notes.size(); ++i) {
        CheckedNote& note = heard.notes[i];
        if (mayBeATrill(notes[i], note, heard.others)) tellMissing(notes[i], playing[i], note, heard);
        if (!mayTrillElsewhere(notes[i], note)) continue;
        const bool isAbove = beginsAbove(notes[i], note, playing[i]);
        if (isAbove) {
            note.verdict = Verdict::Unclear;
            note.doubt = Doubt::Beginning;
            note.suggestedMidi.reset();
        }
        const UnwrittenSound* other = otherNoteOf(notes[i], note, heard.others);
        if (!isAbove && !other && !isMeasuredOtherwise(note, playing[i])) continue;
        const auto trill = otherTrill(notes[i], note, playing[i], other);
        if (!trill) continue;
        heard.trills.push_back(*trill);
        std::erase_if(heard.others, [&](const UnwrittenSound& sound) {
            return sound.midi == trill->midi + trill->heard &&
                   isOtherTrill(sound, notes[i], playedRange(note));
        });
    }
    return heard;
}

} // namespace earwright
