// A line whose every pitch is known, as a recording, as tables and as a study.
#pragma once

#include "core/study/NoteEdits.h"
#include "tests/core/listening/SyntheticSound.h"
#include "tests/core/sound/WrittenFile.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace earwright::tests {

inline const std::vector<int> theLine{60, 62, 63, 65, 67, 68, 67, 65};

/// A folder with a recording of eight plucked tones and tables about it.
struct Material {
    ScratchFolder folder;
    std::string audio = (folder / "line.wav").string();
    std::string notes = (folder / "notes.tsv").string();
    std::string spans = (folder / "spans.tsv").string();

    explicit Material(double cents = 0) {
        std::vector<float> sound = silence(Seconds(4));
        std::string noteRows = "onset_s\tdur_s\tmidi\n";
        std::string spanRows = "start_s\tend_s\n";
        for (std::size_t i = 0; i < theLine.size(); ++i) {
            const double begin = 0.5 + 0.3125 * static_cast<double>(i);
            addTone(sound, {Seconds(begin), Seconds(begin + 0.28)}, theLine[i] + cents / 100);
            // The third is written two semitones high.
            const int written = theLine[i] + (i == 2 ? 2 : 0);
            noteRows += std::to_string(begin) + "\t0.28\t" + std::to_string(written) + "\n";
            spanRows += std::to_string(begin) + "\t" + std::to_string(begin + 0.28) + "\n";
        }
        writeSound(audio, SF_FORMAT_WAV | SF_FORMAT_PCM_16, analysisRate.hertz, 1, sound);
        writeBytes(notes, noteRows);
        writeBytes(spans, spanRows);
    }
};

/// The line as it is played, a beat of 312.5 ms to each tone.
inline Study studyOfTheLine() {
    Study study;
    study.recording.path = "line.wav";
    study.beatMap = BeatMap({{Beats(0), Seconds(0.5)}, {Beats(4), Seconds(1.75)}});
    for (std::size_t i = 0; i < theLine.size(); ++i)
        study = addNote(study, {Pitch{theLine[i], {}}, Beats(static_cast<std::int64_t>(i)), Beats(1)}).study;
    return study;
}

} // namespace earwright::tests
