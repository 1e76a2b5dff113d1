#include "ui/desk/RecordingListener.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

/// Ahead of any check only what fits easily into memory is listened to: about 10 MB a minute of stereo.
constexpr Seconds longestAhead{20 * 60.0};
/// Evidence is made passage by passage, so that calling it off is noticed soon.
constexpr Seconds passageLength{20};
constexpr double likely = 0.5;
/// Two onsets of a line nearer than this are one (a trill's notes are about 70 ms apart).
constexpr Seconds closest{0.05};

Result<std::vector<Seconds>> allOnsets(const RecordingEvidence& recording, const std::stop_token& stop) {
    std::vector<Seconds> onsets;
    for (Seconds from(0); from < recording.duration(); from += passageLength) {
        const Seconds to = std::min(from + passageLength, recording.duration());
        const auto passage = recording.passage({from, to}, stop);
        if (!passage) return passage.error();
        for (const Seconds onset : onsetTimes(passage->onsets(0)))
            if (onset >= from && onset < to && (onsets.empty() || onset > onsets.back() + closest))
                onsets.push_back(onset);
    }
    return onsets;
}

} // namespace

std::vector<Seconds> onsetTimes(const OnsetTrack& track) {
    std::vector<Seconds> times;
    const auto threshold = static_cast<float>(std::log(likely));
    for (std::size_t place = 0; place < track.size(); ++place) {
        const float here = track.anyOnset(place);
        const float before = place > 0 ? track.anyOnset(place - 1) : -INFINITY;
        const float after = place + 1 < track.size() ? track.anyOnset(place + 1) : -INFINITY;
        if (here < threshold || here < before || here <= after) continue;
        if (times.empty() || track.timeOf(place) > times.back() + closest)
            times.push_back(track.timeOf(place));
    }
    return times;
}

RecordingListener::RecordingListener(QObject* parent) : QObject(parent) {
    connect(&soundJob, &BackgroundJob::progressed, this, &RecordingListener::progressed);
}

void RecordingListener::setRecording(std::shared_ptr<Recording> recording) {
    cancel();
    known.reset();
    sound = std::move(recording);
}

void RecordingListener::listenAhead() {
    if (sound && sound->duration() <= longestAhead) listen();
}

void RecordingListener::listen() {
    if (known || isListening()) return;
    soundJob.start<Result<RecordingEvidence>>(
        [recording = sound](const std::stop_token& stop, const BackgroundJob::Report& report) {
            return RecordingEvidence::listen(*recording, stop, report);
        },
        [this](Result<RecordingEvidence> outcome) {
            if (!outcome) {
                emit failed(QString::fromStdString(describe(outcome.error())));
                return;
            }
            known = std::make_shared<const RecordingEvidence>(*std::move(outcome));
            emit ready();
            findOnsets();
        });
}

void RecordingListener::findOnsets() {
    onsetJob.start<Result<std::vector<Seconds>>>(
        [recording = known](const std::stop_token& stop, const BackgroundJob::Report&) {
            return allOnsets(*recording, stop);
        },
        [this](Result<std::vector<Seconds>> onsets) {
            if (onsets) emit onsetsFound(*onsets);
        });
}

void RecordingListener::cancel() {
    soundJob.cancel();
    onsetJob.cancel();
}

} // namespace earwright::ui
