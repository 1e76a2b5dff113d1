// A recording made ready for listening: its tuning, and the evidence of any passage on demand.
#pragma once

#include "core/listening/AnalysisSound.h"
#include "core/listening/HeardPart.h"
#include "core/listening/PassageEvidence.h"
#include "core/listening/PassageShelf.h"
#include "core/listening/Tuning.h"
#include "core/result/Result.h"
#include "core/sound/Recording.h"

#include <memory>
#include <optional>
#include <stop_token>

namespace earwright {

/// What is done once for a recording, so that any passage can be listened to at once. Sound is read where a
/// passage is asked for, and held of up to a minute only; what was heard is kept on a shelf.
///
/// Threads: a value that shares its shelf; share it const. listen(), passage() and mixOnsets() take their
/// time and belong on a thread of their own; progress is called there. Memory: at most 150 MB whatever the
/// recording's length, most of it while the tuning is found.
class RecordingEvidence {
public:
    /// Longer recordings tell their tuning by ten minutes of stretches, evenly spread.
    static constexpr Seconds longestWhole{20 * 60.0};
    /// The sound of shorter recordings is held (11 MB at most) where their tuning was found anew, so that it
    /// is read and resampled once only.
    static constexpr Seconds longestHeld{60};

    /// Finds the recording's tuning, or finds it again at its place on disk. Errors: Cancelled.
    static Result<RecordingEvidence> listen(std::shared_ptr<Recording> recording, std::stop_token stop = {},
                                            const Progress& progress = {},
                                            std::optional<EvidencePlace> place = std::nullopt);
    /// From sound that is already at hand. Error: Cancelled.
    static Result<RecordingEvidence> listen(AnalysisSound sound, std::stop_token stop = {});

    const Tuning& tuning() const { return own.tuning; }
    /// The tuning along the recording; all evidence follows it.
    const TuningCurve& tuningCurve() const { return own.curve; }
    /// The same recording with its pitches counted from another tuning.
    RecordingEvidence tuned(TuningCurve curve) const;
    Seconds duration() const;
    /// Evidence of a passage. Errors: Cancelled.
    Result<PassageEvidence> passage(Range<Seconds> range, std::stop_token stop = {},
                                    const Progress& progress = {}) const;
    /// Evidence of a part of the passage's sound. Errors: Cancelled.
    Result<PassageEvidence> passage(Range<Seconds> range, const HeardPart& part, std::stop_token stop = {},
                                    const Progress& progress = {}) const;
    /// The onsets of a passage with both sides taken together: those of its View::Both, without the others.
    /// Errors: Cancelled.
    Result<OnsetTrack> mixOnsets(Range<Seconds> range, std::stop_token stop = {}) const;
    /// The sound of a passage, or of a part of it, as each view hears it, for measuring what single notes do.
    /// Errors: Cancelled.
    Result<StereoViews> views(Range<Seconds> range, std::stop_token stop = {},
                              const HeardPart& part = {}) const;
    /// Where what was heard is kept on disk, if anywhere.
    const std::optional<EvidencePlace>& place() const { return onDisk; }

private:
    RecordingEvidence(std::shared_ptr<Recording> source, HeardTuning tuning,
                      std::optional<EvidencePlace> place);
    Result<AnalysisSound> soundAround(Range<Seconds> range, std::stop_token stop) const;

    /// One of the two is there, or both.
    std::shared_ptr<Recording> recording;
    std::shared_ptr<const AnalysisSound> whole;
    HeardTuning own;
    std::optional<EvidencePlace> onDisk;
    std::shared_ptr<PassageShelf> shelf;
};

} // namespace earwright
