// A beat as the engine needs it: where it lies in the recording; no beat map behind it.
#pragma once

#include "core/time/Frames.h"

#include <memory>
#include <vector>

namespace earwright {

struct BeatPlace {
    Frames at;
    bool opensBar = false;

    friend bool operator==(const BeatPlace&, const BeatPlace&) = default;
};

/// Sorted, each place once.
using BeatList = std::shared_ptr<const std::vector<BeatPlace>>;

/// A sorted copy that can be shared.
BeatList beatListOf(std::vector<BeatPlace> beats);

} // namespace earwright
