#include "core/listening/RecordingEvidence.h"

#include "core/listening/OnsetListener.h"

#include <algorithm>
#include <cstring>
#include <span>
#include <vector>

namespace earwright {

namespace {

constexpr const char* tuningKind = "tuning";
/// What is read at a time: so that calling off is noticed soon and little is held.
constexpr Seconds pieceLength{20};
constexpr Seconds spreadLength{5};
constexpr int spreadCount = 120;

/// The stretches that tell a recording's tuning.
std::vector<Range<Seconds>> stretchesFor(Seconds duration) {
    std::vector<Range<Seconds>> stretches;
    if (duration <= RecordingEvidence::longestWhole) {
        for (Seconds from(0); from < duration; from += pieceLength)
            stretches.push_back({from, std::min(from + pieceLength, duration)});
        return stretches;
    }
    for (int i = 0; i < spreadCount; ++i) {
        const Seconds middle = duration * ((i + 0.5) / spreadCount);
        stretches.push_back({middle - spreadLength * 0.5, middle + spreadLength * 0.5});
    }
    return stretches;
}

Result<Tuning> tuningOf(Recording& recording, const std::stop_token& stop, const Progress& progress) {
    const auto stretches = stretchesFor(recording.duration());
    std::vector<float> sound;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const auto piece = AnalysisSound::readStretch(recording, stretches[i], stop);
        if (!piece) return piece.error();
        const std::vector<float> both = piece->mid();
        sound.insert(sound.end(), both.begin(), both.end());
        if (progress) progress(static_cast<double>(i + 1) / static_cast<double>(stretches.size()));
    }
    return Tuning::of(sound, stop);
}

std::optional<Tuning> recalledTuning(const EvidencePlace& place) {
    const auto bytes = place.folder.find(place.nameOf(tuningKind));
    if (!bytes || bytes->size() != sizeof(Tuning)) return std::nullopt;
    Tuning tuning;
    std::memcpy(&tuning, bytes->data(), sizeof tuning);
    return tuning;
}

void keepTuning(const EvidencePlace& place, const Tuning& tuning) {
    place.folder.keep(place.nameOf(tuningKind),
                      std::span(reinterpret_cast<const char*>(&tuning), sizeof tuning));
}

} // namespace

RecordingEvidence::RecordingEvidence(std::shared_ptr<Recording> source, Tuning tuning,
                                     std::optional<EvidencePlace> place)
    : recording(std::move(source)),
      own(tuning),
      onDisk(std::move(place)),
      shelf(std::make_shared<PassageShelf>(onDisk)) {}

Result<RecordingEvidence> RecordingEvidence::listen(std::shared_ptr<Recording> recording,
                                                    std::stop_token stop, const Progress& progress,
                                                    std::optional<EvidencePlace> place) {
    if (const auto known = place ? recalledTuning(*place) : std::nullopt)
        return RecordingEvidence(std::move(recording), *known, std::move(place));
    const auto tuning = tuningOf(*recording, stop, progress);
    if (!tuning) return tuning.error();
    if (place) keepTuning(*place, *tuning);
    return RecordingEvidence(std::move(recording), *tuning, std::move(place));
}

Result<RecordingEvidence> RecordingEvidence::listen(AnalysisSound sound, std::stop_token stop) {
    const auto tuning = Tuning::of(sound.mid(), stop);
    if (!tuning) return tuning.error();
    RecordingEvidence evidence(nullptr, *tuning, std::nullopt);
    evidence.whole = std::make_shared<const AnalysisSound>(std::move(sound));
    return evidence;
}

Seconds RecordingEvidence::duration() const {
    return whole ? whole->duration() : analysisRate.seconds(Frames(AnalysisSound::lengthOf(*recording)));
}

Result<AnalysisSound> RecordingEvidence::soundAround(Range<Seconds> range, std::stop_token stop) const {
    if (whole) return *whole;
    // A sample more on each side, for the rounding of seconds to samples.
    constexpr Seconds reach = StereoViews::surroundings + Seconds(0.001);
    return AnalysisSound::readStretch(*recording, {range.begin - reach, range.end + reach}, stop);
}

Result<PassageEvidence> RecordingEvidence::passage(Range<Seconds> range, std::stop_token stop,
                                                   const Progress& progress) const {
    if (auto found = shelf->find(range, own.cents)) return *std::move(found);
    const auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    auto heard = PassageEvidence::listen(*sound, own.cents, range, stop, progress);
    if (heard) shelf->keep(*heard, *sound);
    return heard;
}

Result<PassageEvidence> RecordingEvidence::passage(Range<Seconds> range, const HeardPart& part,
                                                   std::stop_token stop, const Progress& progress) const {
    if (part.isEverything()) return passage(range, stop, progress);
    if (auto found = shelf->find(range, own.cents, part)) return *std::move(found);
    const auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    const AnalysisSound heard = heardPart(*sound, range, part);
    auto evidence = PassageEvidence::listen(heard, own.cents, range, stop, progress);
    if (!evidence) return evidence;
    const PassageEvidence said = evidence->saidToBe(part);
    shelf->keep(said, heard);
    return said;
}

Result<StereoViews> RecordingEvidence::views(Range<Seconds> range, std::stop_token stop,
                                             const HeardPart& part) const {
    const auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    return StereoViews(part.isEverything() ? *sound : heardPart(*sound, range, part), range);
}

Result<OnsetTrack> RecordingEvidence::mixOnsets(Range<Seconds> range, std::stop_token stop) const {
    auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    sound->left = sound->mid();
    sound->right.clear();
    return listenForOnsets(StereoViews(*sound, range), 0, own.cents, range, stop, {});
}

} // namespace earwright
