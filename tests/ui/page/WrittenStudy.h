// A phrase of two bars to be engraved.
#pragma once

#include "core/study/Study.h"

namespace earwright::ui {

/// 120 beats a minute; eight notes in bars 1 and 2, a phrase named "turn" over both, G7 and C7.
inline Study writtenStudy() {
    Study study;
    study.title = "Paper Lantern";
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(16), Seconds(8)}});
    study.chart.form = parseBars("G7 | C7", study.meter);
    study.spans = {{SpanId{89}, SpanKind::Chorus, "one", {Seconds(0), Seconds(8)}},
                   {SpanId{90}, SpanKind::Phrase, "turn", {Seconds(0), Seconds(4)}}};
    const int pitches[]{67, 70, 71, 74, 76, 74, 70, 67};
    for (int i = 0; i < 8; ++i)
        study.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i + 1)}, Beats(i), Beats(1), Pitch{pitches[i], {}}, 0.6, {}});
    study.nextId = 100;
    return study;
}

} // namespace earwright::ui
