// What the form strip shows.
#pragma once

#include "core/study/Study.h"

#include <functional>
#include <memory>
#include <optional>

namespace earwright::ui {

struct StripModel {
    std::shared_ptr<const Study> study = std::make_shared<const Study>();
    Seconds duration;
    /// Highest level over a stretch, 0 to 1; nothing where the overview does not reach yet.
    std::function<std::optional<float>(const Range<Seconds>&)> level;
    Seconds heard;
    /// What is being chosen or dragged; shown instead of the study's loop.
    std::optional<Range<Seconds>> dragged;

    std::optional<Range<Seconds>> loop() const { return dragged ? dragged : study->practice.loop; }
};

} // namespace earwright::ui
