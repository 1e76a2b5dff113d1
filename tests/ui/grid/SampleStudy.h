// A study of our own for the tests of the grid: four bars at 120, a phrase over two of them, chords and
// notes.
#pragma once

#include "core/study/Study.h"

#include <memory>

namespace earwright::ui {

/// Bars 1 to 4 of four beats, half a second a beat from 1 s on. B♭7 | E♭7 | B♭7 | Fm7 B♭7. Phrase "a" (id 1)
/// covers bars 2 and 3. Nothing is written.
Study emptySample();

/// The same with a line in bars 2 and 3, phrased in every way. Ids 101 and up, in the order of the line.
Study writtenSample();

/// A note of the sample's bars, for tests that add their own.
Note sampleNote(std::uint64_t id, const Beats& onset, const Beats& length, int midi);

inline std::shared_ptr<const Study> shared(Study study) {
    return std::make_shared<const Study>(std::move(study));
}

} // namespace earwright::ui
