// Studies by chance, with everything that can stand on a page.
#pragma once

#include "core/study/Study.h"

#include <cstdint>
#include <random>

namespace earwright {

/// The same study for the same seed on every machine.
class ChanceStudy {
public:
    explicit ChanceStudy(std::uint32_t seed) : random(seed) {}
    /// Some bars of a line that can be drawn as it is: places that divide the beat, nothing overlapping, the
    /// notes of a double stop equally long; marks of every kind, each of them telling something new.
    Study make();

private:
    /// 0 to below `count`.
    int upTo(int count) { return static_cast<int>(random() % static_cast<std::uint32_t>(count)); }
    bool oneIn(int count) { return upTo(count) == 0; }
    Meter meter();
    KeySignature key();
    Phrasing phrasing(bool isFirst);
    void addMeters();
    void addNotes();
    void addTogether(const Beats& begin, const Beats& end);
    void addChords();
    void addMarks();
    void addHairpins();
    void addRepeats();
    void addPickup();
    Beats place();

    std::mt19937 random;
    Study study;
    std::int64_t bars = 0;
    Beats end;
};

} // namespace earwright
