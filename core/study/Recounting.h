// A study whose bars are counted otherwise: everything in beats and bars goes to its new place at once.
#pragma once

#include "core/study/Study.h"

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace earwright {

/// What becomes of the meters, and where each place and bar of before stands afterwards.
struct Recounting {
    Meter first;
    std::vector<MeterChange> changes;
    /// Rising strictly; from beats of the first meter before to beats of the first meter afterwards.
    std::function<Beats(const Beats&)> newPlace;
    std::function<std::int64_t(std::int64_t)> newBar;
};

/// The study so counted. Keys, repeats and overridden bars keep their sound, as notes and marks do: of two
/// that fall on one bar the later stays. Chords are spread anew over bars that have another meter; beats that
/// no longer begin where one is counted are divided as usual.
Study recounted(const Study& study, const Recounting& recounting);

/// The changes of `later`, whose bars begin at given places, put on the bar lines nearest to those places
/// behind `changes`; one that would stand on or before a change that is already there goes, and so does one
/// that changes nothing.
std::vector<MeterChange> continued(const Meter& first, std::vector<MeterChange> changes,
                                   const std::vector<std::pair<Beats, Meter>>& later);

} // namespace earwright
