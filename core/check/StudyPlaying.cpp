#include "core/check/StudyPlaying.h"

#include "core/check/AsWritten.h"
#include "core/check/OffBeat.h"
#include "core/check/StudyListening.h"
#include "core/listening/Passages.h"
#include "core/study/NoteVoices.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

constexpr double ordinaryLoudness = 0.6;
/// Softer ones could not be heard, and no measure between neighbours is worth more than this.
constexpr double softestDb = -18;
constexpr double loudestDb = 7;

/// The string's amplitude goes with the 1.7th power of its loudness (PluckedString), as a ghost's 0.45 is
/// about 12 dB.
double loudnessAt(double decibels) {
    constexpr double power = 1.7;
    const double kept = std::clamp(decibels, softestDb, loudestDb);
    return std::clamp(ordinaryLoudness * std::pow(10.0, kept / (20 * power)), 0.0, 1.0);
}

/// How beats of three notes are spaced, passage by passage.
Result<std::map<NoteId, HeardThree>> threesIn(const Study& study, const std::vector<Note>& notes,
                                              const RecordingEvidence& recording, std::stop_token stop,
                                              const HeardPart& part) {
    std::vector<Range<Seconds>> ranges;
    for (const Note& note : notes)
        ranges.push_back(playedTime(study, note.range()));
    std::map<NoteId, HeardThree> all;
    for (const Passage& passage : passagesOf(ranges, recording.duration())) {
        std::vector<Note> members;
        for (const std::size_t index : passage.members)
            members.push_back(notes[index]);
        if (!anyThreeInABeat(study, members)) continue;
        const auto evidence = recording.passage(passage.range, part, stop);
        if (!evidence) return evidence.error();
        all.merge(threesHeardOtherwise(study, members, *evidence));
    }
    return all;
}

std::optional<WrittenBetween::Neighbour> asNeighbour(const Note* note) {
    if (!note) return std::nullopt;
    return WrittenBetween::Neighbour{note->pitch.midi, note->range()};
}

} // namespace

WrittenBetween writtenBetween(const Study& study, const Note& note) {
    return {asNeighbour(noteBefore(study, note)), asNeighbour(noteAfter(study, note))};
}

std::vector<PhrasingClaim> phrasingClaims(const Study& study, const std::vector<Note>& notes) {
    std::vector<PhrasingClaim> claims;
    const LineCharacter character = characterOf(study);
    const std::vector<OffBeat> swinging = offBeats(study, notes);
    for (const Note& note : notes) {
        PhrasingClaim claim{playedTime(study, note.range()), note.pitch.midi, note.phrasing};
        claim.character = character;
        const auto offBeat = std::find_if(swinging.begin(), swinging.end(),
                                          [&](const OffBeat& o) { return o.place == note.onset; });
        if (offBeat != swinging.end()) claim.onsetWithin = reachOf(*offBeat, study);
        claims.push_back(std::move(claim));
    }
    return claims;
}

PlayedNote playedNote(const PhrasingClaim& claim, const NotePlaying& playing) {
    const double loudness = playing.loudnessDb ? loudnessAt(*playing.loudnessDb) : ordinaryLoudness;
    return {claim.range, claim.midi, playing.heard, loudness};
}

bool isAsMeasured(const MeasuredNote& measured, const Study& study, const Note& note) {
    constexpr double rounding = 0.001;
    const Range<Seconds> now = playedTime(study, note.range());
    const Range<Seconds>& then = measured.claim.range;
    return measured.claim.midi == note.pitch.midi && measured.claim.character == characterOf(study) &&
           std::abs((now.begin - then.begin).value) < rounding &&
           std::abs((now.end - then.end).value) < rounding;
}

bool holdsFor(const MeasuredNote& measured, const Study& study, const Note& note) {
    return isAsMeasured(measured, study, note) && measured.between == writtenBetween(study, note);
}

Result<MeasuredNotes> measureNotes(const Study& study, const std::vector<Note>& notes,
                                   const RecordingEvidence& recording, std::stop_token stop,
                                   const Progress& progress, const HeardPart& part) {
    if (!study.beatMap.hasTempo())
        return Error{ErrorKind::OutOfRange,
                     "The bars of this study are not marked yet; mark two bars so that its notes have places "
                     "in the recording.",
                     ""};
    const auto tuned = asWritten(study, recording, stop);
    if (!tuned) return tuned.error();
    const std::vector<PhrasingClaim> claims = phrasingClaims(study, notes);
    const auto playing = measurePhrasing(*tuned, claims, stop, progress, part);
    if (!playing) return playing.error();
    const auto threes = threesIn(study, notes, *tuned, stop, part);
    if (!threes) return threes.error();
    MeasuredNotes measured;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto three = threes->find(notes[i].id);
        measured[notes[i].id] = {claims[i], writtenBetween(study, notes[i]), (*playing)[i],
                                 three == threes->end() ? std::nullopt : std::optional(three->second)};
    }
    return measured;
}

Result<PlayedNotes> measurePlaying(const Study& study, const std::vector<Note>& notes,
                                   const RecordingEvidence& recording, std::stop_token stop,
                                   const Progress& progress, const HeardPart& part) {
    const auto measured = measureNotes(study, notes, recording, stop, progress, part);
    if (!measured) return measured.error();
    PlayedNotes played;
    for (const auto& [id, note] : *measured)
        if (note.playing.begins) played.emplace(id, playedNote(note.claim, note.playing));
    return played;
}

} // namespace earwright
