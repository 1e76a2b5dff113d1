#include "core/listening/RecordingEvidence.h"

namespace earwright {

RecordingEvidence::RecordingEvidence(AnalysisSound whole, Tuning tuning)
    : sound(std::move(whole)), own(tuning) {}

Result<RecordingEvidence> RecordingEvidence::listen(Recording& recording, std::stop_token stop,
                                                    const Progress& progress) {
    auto sound = AnalysisSound::read(recording, stop, progress);
    if (!sound) return sound.error();
    return listen(*std::move(sound), stop);
}

Result<RecordingEvidence> RecordingEvidence::listen(AnalysisSound sound, std::stop_token stop) {
    const auto tuning = Tuning::of(sound.mid(), stop);
    if (!tuning) return tuning.error();
    return RecordingEvidence(std::move(sound), *tuning);
}

Result<PassageEvidence> RecordingEvidence::passage(Range<Seconds> range, std::stop_token stop,
                                                   const Progress& progress) const {
    return PassageEvidence::listen(sound, own.cents, range, stop, progress);
}

} // namespace earwright
