// What a passage of the recording says about the pitches and onsets in it.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/HeardPart.h"
#include "core/listening/HeardSpans.h"
#include "core/listening/HearingAhead.h"
#include "core/listening/LineColour.h"
#include "core/listening/LineRange.h"
#include "core/listening/OnsetTrack.h"
#include "core/listening/PitchRow.h"
#include "core/listening/StereoViews.h"
#include "core/listening/TuningCurve.h"
#include "core/result/Result.h"
#include "core/time/Range.h"
#include "core/time/Seconds.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

namespace earwright {

/// Evidence for spans and onsets, from each view of the stereo picture.
///
/// Threads: a value, cheap to copy; share it const, its answers may be asked for from several threads.
/// Units: times in seconds of the recording; pitches count from the recording's tuning.
class PassageEvidence {
public:
    /// Listens to the passage: about a hundredth of its length a view. Errors: Cancelled.
    static Result<PassageEvidence> listen(const AnalysisSound& sound, const TuningCurve& tuning,
                                          Range<Seconds> passage, std::stop_token stop = {},
                                          const Progress& progress = {});

    /// The same again from tracks that were listened to before. Nothing where they are not as many as the
    /// views of the sound.
    static std::optional<PassageEvidence> recalled(const AnalysisSound& sound, const TuningCurve& tuning,
                                                   Range<Seconds> passage, std::vector<OnsetTrack> tracks);

    Range<Seconds> passage() const { return range; }
    /// What of the recording the sound is: everything, unless it was said to be a part.
    const HeardPart& part() const { return heard; }
    PassageEvidence saidToBe(const HeardPart& part) const;
    /// The same evidence for a line within a range: pitches outside are as good as ruled out, in spans and in
    /// onsets. What is silence stays so.
    PassageEvidence within(const LineRange& range) const;
    /// The same evidence for a line that sounds so: in spans, from every view. Onsets stay as they are.
    PassageEvidence colouredBy(const LineColour& colour) const;
    /// The part of the recording that one view listens to.
    HeardPart partOf(std::size_t view) const;
    /// The tuning pitches are counted from, and how it moves.
    const TuningCurve& tuning() const { return curve; }
    double tuningCents() const { return curve.cents(); }
    std::size_t viewCount() const { return views->count(); }
    View view(std::size_t index) const { return views->view(index); }
    /// How strongly a view supports each pitch over each span. Spans should lie in the passage and may have
    /// any length greater than zero; at least 65 ms are listened to.
    /// In silence all pitches are alike. Spans that were asked for before are remembered.
    std::vector<PitchRow> spans(std::size_t index, const std::vector<Range<Seconds>>& asked) const;
    /// The same for several views at once, one list a view: cheaper than one after the other. Many spans are
    /// heard on two threads.
    std::vector<std::vector<PitchRow>> spans(const std::vector<std::size_t>& asked,
                                             const std::vector<Range<Seconds>>& over) const;
    /// Every view's spans, in their order.
    std::vector<std::vector<PitchRow>> allSpans(const std::vector<Range<Seconds>>& over) const;
    /// What a view hears in spans, whatever the colour and range.
    std::vector<std::shared_ptr<const HeardSpan>> heardBy(std::size_t index,
                                                          const std::vector<Range<Seconds>>& over) const;
    /// Begins to hear spans that will be asked for soon; once that is finished they are remembered.
    HearingAhead hearAhead(std::size_t index, const std::vector<Range<Seconds>>& over) const;
    /// How steeply the partials of a pitch in Hz rise where they rise most in a stretch, with both sides
    /// together (see steepestRise()): 0 to 1. Takes about a fifth of a millisecond.
    double riseOf(double hertz, const Range<Seconds>& within) const;
    /// How far they sink about a time, in the same view (see sagAbout()): dB, 0 or less.
    double sagOf(double hertz, Seconds time, const Range<Seconds>& within) const;
    const OnsetTrack& onsets(std::size_t index) const { return (*onsetTracks)[index]; }
    /// Memory it takes.
    std::size_t bytes() const;

private:
    PassageEvidence(std::shared_ptr<const StereoViews> stereo, const TuningCurve& tuning,
                    Range<Seconds> passage, std::vector<OnsetTrack> tracks);
    /// One list a view, remembered or heard now.
    std::vector<std::vector<std::shared_ptr<const HeardSpan>>>
    heardIn(const std::vector<std::size_t>& asked, const std::vector<Range<Seconds>>& over) const;
    PitchRow rowOf(const HeardSpan& span) const;

    std::shared_ptr<const StereoViews> views;
    TuningCurve curve;
    Range<Seconds> range;
    HeardPart heard;
    LineRange line;
    LineColour colour;
    std::shared_ptr<const std::vector<OnsetTrack>> onsetTracks;
    std::shared_ptr<HeardSpans> heardSpans;
};

} // namespace earwright
