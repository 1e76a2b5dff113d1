#include "core/listening/RecordingEvidence.h"

#include "core/listening/OnsetListener.h"

#include <algorithm>
#include <cstring>
#include <span>
#include <utility>
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

Result<HeardTuning> tuningOf(Recording& recording, const std::stop_token& stop, const Progress& progress) {
    const auto stretches = stretchesFor(recording.duration());
    std::vector<float> sound;
    /// Where each stretch begins in `sound`.
    std::vector<std::size_t> starts;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const auto piece = AnalysisSound::readStretch(recording, stretches[i], stop);
        if (!piece) return piece.error();
        const std::vector<float> both = piece->mid();
        starts.push_back(sound.size());
        sound.insert(sound.end(), both.begin(), both.end());
        if (progress) progress(static_cast<double>(i + 1) / static_cast<double>(stretches.size()));
    }
    const auto timeOf = [&](std::size_t sample) {
        const auto piece = std::upper_bound(starts.begin(), starts.end(), sample) - starts.begin() - 1;
        const auto index = static_cast<std::size_t>(piece);
        return stretches[index].begin +
               analysisRate.seconds(Frames(static_cast<std::int64_t>(sample - starts[index])));
    };
    return HeardTuning::of(sound, timeOf, recording.duration(), stop);
}

Result<HeardTuning> tuningOf(const AnalysisSound& sound, const std::stop_token& stop) {
    const auto timeOf = [&](std::size_t sample) {
        return analysisRate.seconds(Frames(sound.firstSample + static_cast<std::int64_t>(sample)));
    };
    return HeardTuning::of(sound.mid(), timeOf, sound.duration(), stop);
}

/// What of a sound lies in a stretch of time.
AnalysisSound stretchOf(const AnalysisSound& sound, const Range<Seconds>& stretch) {
    const auto size = static_cast<std::int64_t>(sound.left.size());
    const auto sampleOf = [&](Seconds time) {
        return std::clamp<std::int64_t>(analysisRate.frames(time).value - sound.firstSample, 0, size);
    };
    const auto begin = static_cast<std::ptrdiff_t>(sampleOf(stretch.begin));
    const auto end = static_cast<std::ptrdiff_t>(std::max(sampleOf(stretch.end), sampleOf(stretch.begin)));
    AnalysisSound part;
    part.firstSample = sound.firstSample + begin;
    part.left.assign(sound.left.begin() + begin, sound.left.begin() + end);
    if (sound.isStereo()) part.right.assign(sound.right.begin() + begin, sound.right.begin() + end);
    return part;
}

/// As kept: cents, confidence, then the curve's knots, if any.
std::optional<HeardTuning> recalledTuning(const EvidencePlace& place) {
    const auto bytes = place.folder.find(place.nameOf(tuningKind));
    if (!bytes || bytes->size() < 2 * sizeof(double) || bytes->size() % sizeof(double) != 0)
        return std::nullopt;
    std::vector<double> numbers(bytes->size() / sizeof(double));
    std::memcpy(numbers.data(), bytes->data(), bytes->size());
    HeardTuning heard{{numbers[0], numbers[1]}, TuningCurve(numbers[0])};
    if (numbers.size() > 3)
        heard.curve = TuningCurve(numbers[0], Seconds(numbers[2]), {numbers.begin() + 3, numbers.end()});
    return heard;
}

void keepTuning(const EvidencePlace& place, const HeardTuning& heard) {
    std::vector<double> numbers{heard.tuning.cents, heard.tuning.confidence};
    if (heard.curve.drifts()) {
        numbers.push_back(heard.curve.knotStep().value);
        numbers.insert(numbers.end(), heard.curve.knotCents().begin(), heard.curve.knotCents().end());
    }
    place.folder.keep(place.nameOf(tuningKind), std::span(reinterpret_cast<const char*>(numbers.data()),
                                                          numbers.size() * sizeof(double)));
}

} // namespace

RecordingEvidence::RecordingEvidence(std::shared_ptr<Recording> source, HeardTuning tuning,
                                     std::optional<EvidencePlace> place)
    : recording(std::move(source)),
      own(std::move(tuning)),
      onDisk(std::move(place)),
      shelf(std::make_shared<PassageShelf>(onDisk)) {}

Result<RecordingEvidence> RecordingEvidence::listen(std::shared_ptr<Recording> recording,
                                                    std::stop_token stop, const Progress& progress,
                                                    std::optional<EvidencePlace> place) {
    if (const auto known = place ? recalledTuning(*place) : std::nullopt)
        return RecordingEvidence(std::move(recording), *known, std::move(place));
    std::shared_ptr<const AnalysisSound> sound;
    if (recording->duration() <= longestHeld) {
        auto read = AnalysisSound::read(*recording, stop, progress);
        if (!read) return read.error();
        sound = std::make_shared<const AnalysisSound>(*std::move(read));
    }
    const auto tuning = sound ? tuningOf(*sound, stop) : tuningOf(*recording, stop, progress);
    if (!tuning) return tuning.error();
    if (place) keepTuning(*place, *tuning);
    RecordingEvidence evidence(std::move(recording), *tuning, std::move(place));
    evidence.whole = std::move(sound);
    return evidence;
}

Result<RecordingEvidence> RecordingEvidence::listen(AnalysisSound sound, std::stop_token stop) {
    const auto tuning = tuningOf(sound, stop);
    if (!tuning) return tuning.error();
    RecordingEvidence evidence(nullptr, *tuning, std::nullopt);
    evidence.whole = std::make_shared<const AnalysisSound>(std::move(sound));
    return evidence;
}

RecordingEvidence RecordingEvidence::tuned(TuningCurve curve) const {
    RecordingEvidence other = *this;
    other.own.curve = std::move(curve);
    return other;
}

Seconds RecordingEvidence::duration() const {
    return recording ? analysisRate.seconds(Frames(AnalysisSound::lengthOf(*recording))) : whole->duration();
}

Result<AnalysisSound> RecordingEvidence::soundAround(Range<Seconds> range, std::stop_token stop) const {
    // A sample more on each side, for the rounding of seconds to samples.
    constexpr Seconds reach = StereoViews::surroundings + Seconds(0.001);
    const Range<Seconds> stretch{range.begin - reach, range.end + reach};
    return whole ? stretchOf(*whole, stretch) : AnalysisSound::readStretch(*recording, stretch, stop);
}

Result<PassageEvidence> RecordingEvidence::passage(Range<Seconds> range, std::stop_token stop,
                                                   const Progress& progress) const {
    if (auto found = shelf->find(range, own.curve)) return *std::move(found);
    const auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    auto heard = PassageEvidence::listen(*sound, own.curve, range, stop, progress);
    if (heard) shelf->keep(*heard, *sound);
    return heard;
}

Result<PassageEvidence> RecordingEvidence::passage(Range<Seconds> range, const HeardPart& part,
                                                   std::stop_token stop, const Progress& progress) const {
    if (part.isEverything()) return passage(range, stop, progress);
    if (auto found = shelf->find(range, own.curve, part)) return *std::move(found);
    const auto sound = soundAround(range, stop);
    if (!sound) return sound.error();
    const AnalysisSound heard = heardPart(*sound, range, part);
    auto evidence = PassageEvidence::listen(heard, own.curve, range, stop, progress);
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
    return listenForOnsets(StereoViews(*sound, range), 0, own.curve, range, stop, {});
}

} // namespace earwright
