#include "ui/desk/RecordingListener.h"

#include "core/sound/ContentHash.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <span>

namespace earwright::ui {

namespace {

/// Listened to at a time, so that calling it off is noticed soon and the next one can be where the user is.
constexpr Seconds passageLength{20};
constexpr double likely = 0.5;
/// Two onsets of a line nearer than this are one (a trill's notes are about 70 ms apart).
constexpr Seconds closest{0.05};
/// Views need not be told of each passage.
constexpr qint64 tellingMilliseconds = 1000;
/// About forty minutes of checked passages.
constexpr std::uintmax_t mostCacheBytes = std::uintmax_t{1} << 30;
constexpr const char* onsetsKind = "onsets";

/// Where a recording's evidence is kept; nothing where it need not be, or its bytes cannot be read.
std::optional<EvidencePlace> placeOf(const Recording& recording, const std::filesystem::path& cache,
                                     const std::stop_token& stop) {
    if (cache.empty()) return std::nullopt;
    auto hash = contentHash(recording.path(), stop);
    if (!hash) return std::nullopt;
    return EvidencePlace{CacheFolder(cache, mostCacheBytes), *std::move(hash)};
}

Result<std::vector<Seconds>> onsetsIn(const RecordingEvidence& recording, std::size_t passage,
                                      const std::stop_token& stop) {
    const Seconds from = passageLength * static_cast<double>(passage);
    const Seconds to = std::min(from + passageLength, recording.duration());
    const auto track = recording.mixOnsets({from, to}, stop);
    if (!track) return track.error();
    std::vector<Seconds> onsets = onsetTimes(*track);
    std::erase_if(onsets, [&](Seconds onset) { return onset < from || onset >= to; });
    return onsets;
}

std::vector<Seconds> joined(const std::vector<std::optional<std::vector<Seconds>>>& passages) {
    std::vector<Seconds> all;
    for (const auto& passage : passages)
        for (const Seconds onset : passage.value_or(std::vector<Seconds>{}))
            if (all.empty() || onset > all.back() + closest) all.push_back(onset);
    return all;
}

std::optional<std::vector<Seconds>> recalledOnsets(const RecordingEvidence& recording) {
    const auto& place = recording.place();
    const auto bytes = place ? place->folder.find(place->nameOf(onsetsKind)) : std::nullopt;
    if (!bytes || bytes->size() % sizeof(Seconds) != 0) return std::nullopt;
    std::vector<Seconds> onsets(bytes->size() / sizeof(Seconds));
    if (!onsets.empty()) std::memcpy(onsets.data(), bytes->data(), bytes->size());
    return onsets;
}

void keepOnsets(const RecordingEvidence& recording, const std::vector<Seconds>& onsets) {
    if (const auto& place = recording.place())
        place->folder.keep(place->nameOf(onsetsKind), std::span(reinterpret_cast<const char*>(onsets.data()),
                                                                onsets.size() * sizeof(Seconds)));
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
    heard.clear();
    sound = std::move(recording);
}

void RecordingListener::listen() {
    if (!sound || known || soundJob.isRunning()) return;
    soundJob.start<Result<RecordingEvidence>>(
        [recording = sound, folder = cache](const std::stop_token& stop,
                                            const BackgroundJob::Report& report) {
            return RecordingEvidence::listen(recording, stop, report, placeOf(*recording, folder, stop));
        },
        [this](Result<RecordingEvidence> outcome) {
            if (!outcome) {
                emit failed(QString::fromStdString(describe(outcome.error())));
                return;
            }
            known = std::make_shared<const RecordingEvidence>(*std::move(outcome));
            emit ready();
            recallOnsets();
        });
}

void RecordingListener::recallOnsets() {
    onsetJob.start<std::optional<Onsets>>(
        [recording = known](const std::stop_token&, const BackgroundJob::Report&) {
            return recalledOnsets(*recording);
        },
        [this](std::optional<Onsets> onsets) {
            if (onsets)
                emit onsetsFound(*onsets);
            else
                findOnsets();
        });
}

void RecordingListener::findOnsets() {
    const double passages = std::ceil(ratio(known->duration(), passageLength));
    heard.assign(static_cast<std::size_t>(passages), std::nullopt);
    sinceTold.start();
    hearNextPassage();
}

std::optional<std::size_t> RecordingListener::nextPassage() const {
    const double here = ratio(wanted, passageLength) - 0.5;
    std::optional<std::size_t> nearest;
    const auto distance = [here](std::size_t passage) {
        return std::abs(static_cast<double>(passage) - here);
    };
    for (std::size_t passage = 0; passage < heard.size(); ++passage)
        if (!heard[passage] && (!nearest || distance(passage) < distance(*nearest))) nearest = passage;
    return nearest;
}

void RecordingListener::hearNextPassage() {
    const auto passage = nextPassage();
    if (!passage) return;
    onsetJob.start<Result<Onsets>>(
        [recording = known, which = *passage](const std::stop_token& stop, const BackgroundJob::Report&) {
            return onsetsIn(*recording, which, stop);
        },
        [this, which = *passage](Result<Onsets> onsets) {
            if (onsets) takeOnsets(which, *std::move(onsets));
        });
}

void RecordingListener::takeOnsets(std::size_t passage, Onsets onsets) {
    heard[passage] = std::move(onsets);
    const bool isAll = !nextPassage().has_value();
    if (isAll || sinceTold.elapsed() >= tellingMilliseconds) {
        const Onsets all = joined(heard);
        emit onsetsFound(all);
        sinceTold.restart();
        if (isAll) return keep(all);
    }
    hearNextPassage();
}

void RecordingListener::keep(const Onsets& all) {
    onsetJob.start<bool>(
        [recording = known, all](const std::stop_token&, const BackgroundJob::Report&) {
            keepOnsets(*recording, all);
            return true;
        },
        [](bool) {});
}

void RecordingListener::cancel() {
    soundJob.cancel();
    onsetJob.cancel();
}

} // namespace earwright::ui
