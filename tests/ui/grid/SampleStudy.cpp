#include "tests/ui/grid/SampleStudy.h"

namespace earwright::ui {

Study emptySample() {
    Study study;
    study.title = "sample";
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(4), Seconds(3)}, {Beats(16), Seconds(9)}});
    study.chart.form = parseBars("Bb7 | Eb7 | Bb7 | Fm7 Bb7", study.meter);
    study.spans.push_back({SpanId{2}, SpanKind::Chorus, "chorus 1", {Seconds(1), Seconds(9)}});
    study.spans.push_back({SpanId{1}, SpanKind::Phrase, "a", {Seconds(3), Seconds(7)}});
    study.nextId = 1000;
    return study;
}

Note sampleNote(std::uint64_t id, const Beats& onset, const Beats& length, int midi) {
    Note note;
    note.id = NoteId{id};
    note.onset = onset;
    note.length = length;
    note.pitch.midi = midi;
    return note;
}

Study writtenSample() {
    Study study = emptySample();
    study.divisions[Beats(5)] = BeatDivision::Three;
    study.divisions[Beats(9)] = BeatDivision::Four;
    const Beats half(1, 2);
    const Beats third(1, 3);
    study.notes = {
        sampleNote(101, Beats(4), half, 74),
        sampleNote(102, Beats(9, 2), half, 73),
        sampleNote(103, Beats(5), third, 70),
        sampleNote(104, Beats(16, 3), third, 72),
        sampleNote(105, Beats(17, 3), third, 70),
        sampleNote(106, Beats(6), Beats(3), 67),
        sampleNote(107, Beats(9), Beats(1, 4), 65),
        sampleNote(108, Beats(37, 4), Beats(1, 4), 68),
        sampleNote(109, Beats(19, 2), Beats(1, 2), 67),
        sampleNote(110, Beats(10), Beats(3, 2), 70),
    };
    study.notes[0].phrasing.slideIn = SlideFrom::Below;
    study.notes[1].phrasing.slurred = true;
    study.notes[1].loudness = 0.4;
    study.notes[2].phrasing.accented = true;
    study.notes[2].loudness = 0.9;
    study.notes[4].phrasing.ghosted = true;
    study.notes[4].loudness = 0.3;
    study.notes[5].phrasing.graceNotes = {66};
    study.notes[8].phrasing.slideOut = SlideTo::Down;
    study.notes[9].phrasing.trill = 2;
    return study;
}

} // namespace earwright::ui
