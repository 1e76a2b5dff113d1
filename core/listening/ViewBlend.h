// Which view of the stereo picture hears the line best, and its evidence put first.
#pragma once

#include "core/listening/OnsetTrack.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/PitchRow.h"

#include <cstddef>
#include <vector>

namespace earwright {

/// Weights of the views of a passage, adding up to one.
class ViewBlend {
public:
    /// What both sides together are counted as surer by.
    static constexpr double inFavourOfBoth = 0.02;

    /// From how sure each view is, one number each: mean log probability of what it hears (or of what was
    /// claimed). Nearly all weight goes to the surest; both sides together win a tie. Requires: not empty.
    explicit ViewBlend(std::vector<double> sureness);

    /// The index of the view with the most weight.
    std::size_t clearest() const;
    /// Weighted geometric mean of the views' rows, normalised. Requires: one list a view, of equal lengths.
    std::vector<PitchRow> spans(const std::vector<std::vector<PitchRow>>& views) const;
    /// The same for spans of the evidence; views whose weight changes nothing are not listened to.
    std::vector<PitchRow> spans(const PassageEvidence& evidence,
                                const std::vector<Range<Seconds>>& asked) const;
    OnsetTrack onsets(const PassageEvidence& evidence) const;
    /// Weighted mean of what the views hear spans by.
    std::vector<SpanLevels> levels(const PassageEvidence& evidence,
                                   const std::vector<Range<Seconds>>& asked) const;

private:
    bool matters(std::size_t view) const;

    std::vector<float> weights;
};

} // namespace earwright
