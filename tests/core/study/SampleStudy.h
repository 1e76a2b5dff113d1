// Small studies that the tests of this folder start from.
#pragma once

#include "core/study/ChartEdits.h"
#include "core/study/DivisionEdits.h"
#include "core/study/FingeringEdits.h"
#include "core/study/LooseEndEdits.h"
#include "core/study/NoteEdits.h"
#include "core/study/PageEdits.h"
#include "core/study/PhrasingEdits.h"
#include "core/study/PracticeEdits.h"
#include "core/study/SpanEdits.h"
#include "core/study/TakeEdits.h"

namespace earwright {

/// Eight bars of 4/4 at exactly 120 bpm, marked bar by bar: beat b is at b/2 seconds.
inline Study eightBarsAt120() {
    Study study;
    std::vector<BeatMark> marks;
    for (int bar = 0; bar <= 8; ++bar)
        marks.push_back({Beats(4 * bar), Seconds(2.0 * bar)});
    study.beatMap = BeatMap(std::move(marks));
    study.recording = {"line.flac", "", SampleRate{44100}, Frames(44100 * 20)};
    return study;
}

/// Another meter from a later bar on, with everything else left at its place in beats.
inline Study meterFrom(Study study, std::int64_t bar, const Meter& meter) {
    study.page.meters.push_back({bar, meter});
    return study;
}

/// With page marks of every kind, and with what the first note of fullStudy() does not have on its last.
inline Study withEveryMark(Study study) {
    Phrasing& phrasing = study.notes.back().phrasing;
    phrasing.turn = Turn::FromBelow;
    phrasing.mordent = Mordent::Upper;
    phrasing.slurred = true;
    phrasing.slurBy = SlurBy::PullOff;
    phrasing.bend = Bend{3, BendShape::PrebentDown};
    phrasing.vibrato = phrasing.scoop = phrasing.staccato = phrasing.tenuto = phrasing.slidesToNext = true;
    study = addNote(study, {Pitch{65, {}}, Beats(21), Beats(1)}).study;
    for (const auto mark : {&Phrasing::pickedInSlur, &Phrasing::fall, &Phrasing::letRing})
        study = toggleMark(study, study.notes.back().id, mark);
    study = setKey(setKey(study, 1, KeySignature{-2, Mode::Major}), 5, KeySignature{3, Mode::Minor});
    study = meterFrom(meterFrom(study, 3, Meter{6, 8}), 4, Meter{4, 4});
    study = setSwing(setSwing(study, Beats(0), Swing{2, 8}), Beats(16), Swing{1.25, 16});
    study = setTempoMark(study, {Beats(0), "Medium “blues”", 132.5});
    study = setDynamic(setDynamic(study, Beats(0), Dynamic::mf), Beats(17, 2), Dynamic::sfz);
    study = setHairpin(study, {Beats(2), Beats(15, 4)}, HairpinKind::Softer);
    study = setText(setText(study, {Beats(4), "laid back", false}), {Beats(4), "cue", true});
    return setRepeat(study, {1, 4, 3, 1});
}

/// Something of everything a study can hold.
inline Study fullStudy() {
    Study study = eightBarsAt120();
    study.title = "Blues for a “test” ♭";
    study.recording.contentHash = "0123456789abcdef0123456789abcdef";
    study = setForm(layOutChoruses(study, 1, 4, 2), "Bb7 | Eb7 | | Fm7 / / Bb7alt");
    study = overrideBars(study, 6, "N.C. E°7");
    study = addSpan(study, SpanKind::Phrase, "pickup", {Seconds(-0.25), Seconds(3.1)}).study;
    Phrasing phrasing;
    phrasing.slideIn = SlideFrom::Below;
    phrasing.slideOut = SlideTo::Down;
    phrasing.graceNotes = {62, 61};
    phrasing.trill = 2;
    phrasing.slurred = phrasing.accented = true;
    study =
        addNote(study, {Pitch{63, PitchName{Step::E, -1}}, Beats(-1, 3), Beats(1, 3), 0.1, phrasing}).study;
    study = addNote(study, {Pitch{60, {}}, Beats(7, 2), Beats(5)}).study;
    study = toggleMark(study, study.notes.back().id, &Phrasing::ghosted);
    study = withEveryMark(addNote(study, {Pitch{67, {}}, Beats(20), Beats(1)}).study);
    study = setTuning(study, {{64, 59, 55, 50, 45, 38}, 24, 2});
    study = pinString(study, study.notes.back().id, 3);
    study = setDivision(setDivision(study, 0, BeatDivision::Three), -1, BeatDivision::Six);
    study = addLooseEnd(study, Seconds(1.5), "triplet picked?").study;
    study = setLooseEndDone(study, study.looseEnds.front().id, true);
    const Take pass{{},
                    "",
                    "2031-05-04 18.22.07.wav",
                    {Frames(4410), Frames(90000)},
                    Seconds(1.25),
                    0.45,
                    -2.65,
                    "2031-05-04T18:22:07Z",
                    true};
    Take other = pass;
    other.part = {Frames(90000), Frames(180000)};
    other.name = "with the pickup";
    other.chosen = false;
    study = addTakes(study, {pass, other});
    study = setLoop(setTransposition(setSpeed(study, 0.55), -3, 35), Range{Seconds(1.25), Seconds(3.1)});
    study.earRecord.phrases = {
        {SpanId{3},
         {{Seconds(0.1), HelpStep::HowFar, true, false, Mistake::Octave, NoteId{4}},
          {Seconds(1.0 / 3), HelpStep::None, false, true}},
         {{Seconds(0.1), NoteId{4}, std::chrono::year(2031) / 5 / 4, HelpStep::HowFar, {}, Mistake::Octave},
          {Seconds(2.5), NoteId{5}, std::chrono::year(2031) / 5 / 6, HelpStep::None, -3, {}}}}};
    study.players = {Instrument::Tenor, StereoPlace::Left};
    return study;
}

} // namespace earwright
