#include "core/listening/EvidenceBytes.h"

#include "core/listening/NetworkWeights.h"

#include <cstdint>
#include <cstring>
#include <type_traits>
#include <xxhash.h>

namespace earwright {

namespace {

/// Everything but the samples and rows that follow it.
struct Preface {
    double begin = 0;
    double end = 0;
    double cents = 0;
    std::int64_t firstSample = 0;
    std::uint64_t samplesLeft = 0;
    std::uint64_t samplesRight = 0;
    std::uint64_t tracks = 0;
};

struct TrackPreface {
    double first = 0;
    double step = 0;
    std::uint64_t rows = 0;
};

template <class T>
void append(std::vector<char>& bytes, const T* values, std::size_t count) {
    static_assert(std::is_trivially_copyable_v<T>);
    if (count == 0) return;
    const std::size_t at = bytes.size();
    bytes.resize(at + count * sizeof(T));
    std::memcpy(bytes.data() + at, values, count * sizeof(T));
}

/// Takes values off the front; remembers when there were too few.
class Taker {
public:
    explicit Taker(std::span<const char> bytes) : rest(bytes) {}

    template <class T>
    T one() {
        T value{};
        take(&value, 1);
        return value;
    }
    template <class T>
    std::vector<T> many(std::uint64_t count) {
        if (count > rest.size() / sizeof(T)) {
            whole = false;
            return {};
        }
        std::vector<T> values(static_cast<std::size_t>(count));
        take(values.data(), values.size());
        return values;
    }
    bool isWhole() const { return whole; }
    bool isAtEnd() const { return whole && rest.empty(); }

private:
    template <class T>
    void take(T* into, std::size_t count) {
        static_assert(std::is_trivially_copyable_v<T>);
        const std::size_t bytes = count * sizeof(T);
        whole = whole && bytes <= rest.size();
        if (!whole || bytes == 0) return;
        std::memcpy(into, rest.data(), bytes);
        rest = rest.subspan(bytes);
    }

    std::span<const char> rest;
    bool whole = true;
};

template <class Network>
std::uint64_t fingerprintOf(const Network& network, std::uint64_t seed) {
    static_assert(std::is_trivially_copyable_v<Network>);
    return XXH3_64bits_withSeed(&network, sizeof network, seed);
}

} // namespace

std::string listeningStamp() {
    static const std::string stamp = [] {
        const std::uint64_t weights =
            fingerprintOf(noOnsetNetwork, fingerprintOf(onsetNetwork, fingerprintOf(spanNetwork, 0)));
        return "v" + std::to_string(listeningVersion) + "-" + std::to_string(weights);
    }();
    return stamp;
}

std::vector<char> bytesOf(const PassageEvidence& evidence, const AnalysisSound& sound) {
    const Preface preface{evidence.passage().begin.value,
                          evidence.passage().end.value,
                          evidence.tuningCents(),
                          sound.firstSample,
                          sound.left.size(),
                          sound.right.size(),
                          evidence.viewCount()};
    std::vector<char> bytes;
    bytes.reserve(sizeof preface + (sound.left.size() + sound.right.size()) * sizeof(float) +
                  evidence.bytes());
    append(bytes, &preface, 1);
    append(bytes, sound.left.data(), sound.left.size());
    append(bytes, sound.right.data(), sound.right.size());
    for (std::size_t view = 0; view < evidence.viewCount(); ++view) {
        const OnsetTrack& track = evidence.onsets(view);
        const TrackPreface of{track.isEmpty() ? 0 : track.timeOf(0).value, track.step().value, track.size()};
        append(bytes, &of, 1);
        for (std::size_t place = 0; place < track.size(); ++place)
            append(bytes, &track[place], 1);
    }
    return bytes;
}

std::optional<PassageEvidence> evidenceIn(std::span<const char> bytes, const Range<Seconds>& passage,
                                          const TuningCurve& tuning) {
    Taker taker(bytes);
    const auto preface = taker.one<Preface>();
    if (preface.begin != passage.begin.value || preface.end != passage.end.value ||
        preface.cents != tuning.cents())
        return std::nullopt;
    AnalysisSound sound;
    sound.firstSample = preface.firstSample;
    sound.left = taker.many<float>(preface.samplesLeft);
    sound.right = taker.many<float>(preface.samplesRight);
    std::vector<OnsetTrack> tracks;
    for (std::uint64_t i = 0; i < preface.tracks && taker.isWhole(); ++i) {
        const auto of = taker.one<TrackPreface>();
        tracks.emplace_back(Seconds(of.first), Seconds(of.step), taker.many<OnsetTrack::Row>(of.rows));
    }
    if (!taker.isAtEnd() || (sound.isStereo() && sound.right.size() != sound.left.size()))
        return std::nullopt;
    return PassageEvidence::recalled(sound, tuning, passage, std::move(tracks));
}

} // namespace earwright
