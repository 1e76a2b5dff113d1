// Small studies that the tests of this folder start from.
#pragma once

#include "core/study/Study.h"

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

} // namespace earwright
