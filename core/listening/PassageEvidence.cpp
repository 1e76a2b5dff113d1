#include "core/listening/PassageEvidence.h"

#include "core/listening/LogSpectrum.h"
#include "core/listening/NetworkWeights.h"
#include "core/listening/OnsetListener.h"

#include <algorithm>
#include <array>
#include <span>

namespace earwright {

namespace {

constexpr std::size_t spanFft = 8192;
constexpr Seconds shortestAttack{0.065};
constexpr Seconds longestAttack{0.160};
constexpr Seconds longestSustain{0.350};
/// −100 dB of full scale: under the noise of any medium there is nothing to hear.
constexpr float silence = 1e-5f;
/// The attack's own click says little about pitch and is skipped; what was before ends before it.
constexpr Seconds afterOnset{0.004};
constexpr Seconds beforeOnset{0.002};

std::size_t samplesOf(Seconds length) {
    return static_cast<std::size_t>(length.value * analysisRate.hertz);
}

SpanSpectra spectraOf(const Range<Seconds>& span, const StereoViews& views, std::size_t view,
                      LogSpectrum& spectrum) {
    const auto sound = views.sound(view);
    const std::size_t attack = samplesOf(std::clamp(span.length(), shortestAttack, longestAttack));
    SpanSpectra spectra;
    spectrum.of(sound, views.sampleAt(span.begin + afterOnset), attack, spectra.attack);
    const auto attackTime = analysisRate.seconds(Frames(static_cast<std::int64_t>(attack)));
    spectrum.of(sound, views.sampleAt(span.begin + beforeOnset - attackTime), attack, spectra.before);

    // The middle and end of a longer note, where scoops and consonants are over.
    constexpr Seconds longEnough{0.130};
    const Seconds length = std::max(span.length(), shortestAttack);
    const Seconds sustain = std::clamp(length * 0.75, shortestAttack, longestSustain);
    const Seconds start = length > longEnough ? span.begin + std::min(length * 0.25, length - sustain)
                                              : span.begin + afterOnset;
    spectrum.of(sound, views.sampleAt(start), samplesOf(sustain), spectra.sustain);
    return spectra;
}

/// Takes a pitch outside the range down by so much that even a loud one gives way to the faintest inside.
void bound(std::span<float> pitches, const LineRange& line) {
    constexpr float ruledOut = 14;
    for (std::size_t pitch = 0; pitch < pitches.size(); ++pitch)
        if (!line.contains(lowestHeardMidi + static_cast<int>(pitch))) pitches[pitch] -= ruledOut;
}

/// In silence all pitches are alike, whatever the range.
PitchRow bounded(PitchRow row, const LineRange& line) {
    const auto [least, most] = std::minmax_element(row.log.begin(), row.log.end());
    if (line.isEverything() || *least == *most) return row;
    bound(row.log, line);
    row.normalise();
    return row;
}

PitchRow rowOf(const SpanSpectra& spectra) {
    const bool heard =
        std::ranges::max(spectra.attack) > silence || std::ranges::max(spectra.sustain) > silence;
    PitchRow row = heard ? spanNetwork(spanFeatures(spectra)) : PitchRow{};
    row.normalise();
    return row;
}

} // namespace

PassageEvidence::PassageEvidence(std::shared_ptr<const StereoViews> stereo, const TuningCurve& tuning,
                                 Range<Seconds> passage, std::vector<OnsetTrack> tracks)
    : views(std::move(stereo)),
      curve(tuning),
      range(passage),
      onsetTracks(std::make_shared<const std::vector<OnsetTrack>>(std::move(tracks))),
      heardSpans(std::make_shared<HeardSpans>()) {}

Result<PassageEvidence> PassageEvidence::listen(const AnalysisSound& sound, const TuningCurve& tuning,
                                                Range<Seconds> passage, std::stop_token stop,
                                                const Progress& progress) {
    auto views = std::make_shared<const StereoViews>(sound, passage);
    std::vector<OnsetTrack> tracks;
    const auto count = static_cast<double>(views->count());
    for (std::size_t view = 0; view < views->count(); ++view) {
        const auto share = [&](double part) {
            if (progress) progress((static_cast<double>(view) + part) / count);
        };
        auto track = listenForOnsets(*views, view, tuning, passage, stop, share);
        if (!track) return track.error();
        tracks.push_back(*std::move(track));
    }
    return PassageEvidence(std::move(views), tuning, passage, std::move(tracks));
}

std::optional<PassageEvidence> PassageEvidence::recalled(const AnalysisSound& sound,
                                                         const TuningCurve& tuning, Range<Seconds> passage,
                                                         std::vector<OnsetTrack> tracks) {
    auto views = std::make_shared<const StereoViews>(sound, passage);
    if (tracks.size() != views->count()) return std::nullopt;
    return PassageEvidence(std::move(views), tuning, passage, std::move(tracks));
}

PassageEvidence PassageEvidence::within(const LineRange& wanted) const {
    if (wanted.isEverything()) return *this;
    PassageEvidence bounded = *this;
    bounded.line = wanted;
    std::vector<OnsetTrack> tracks;
    for (const OnsetTrack& track : *onsetTracks) {
        std::vector<OnsetTrack::Row> rows;
        for (std::size_t place = 0; place < track.size(); ++place) {
            rows.push_back(track[place]);
            bound(std::span(rows.back()).first<pitchCount>(), wanted);
            normaliseLog(rows.back());
        }
        tracks.emplace_back(track.isEmpty() ? Seconds(0) : track.timeOf(0), track.step(), std::move(rows));
    }
    bounded.onsetTracks = std::make_shared<const std::vector<OnsetTrack>>(std::move(tracks));
    return bounded;
}

PassageEvidence PassageEvidence::saidToBe(const HeardPart& part) const {
    PassageEvidence same = *this;
    same.heard = part;
    return same;
}

HeardPart PassageEvidence::partOf(std::size_t index) const {
    constexpr std::array focuses{Focus::All, Focus::Left, Focus::Right, Focus::Centre, Focus::Sides};
    HeardPart part = heard;
    if (part.focus == Focus::All) part.focus = focuses[static_cast<std::size_t>(view(index))];
    return part;
}

std::size_t PassageEvidence::bytes() const {
    std::size_t sum = views->bytes() + HeardSpans::mostBytes();
    for (const OnsetTrack& track : *onsetTracks)
        sum += track.size() * sizeof(OnsetTrack::Row);
    return sum;
}

std::vector<PitchRow> PassageEvidence::spans(std::size_t index,
                                             const std::vector<Range<Seconds>>& asked) const {
    std::optional<LogSpectrum> spectrum;
    std::vector<PitchRow> rows;
    rows.reserve(asked.size());
    for (const Range<Seconds>& span : asked) {
        if (const auto known = heardSpans->find(index, span)) {
            rows.push_back(bounded(*known, line));
            continue;
        }
        if (!spectrum) spectrum.emplace(spanFft, curve.cents());
        spectrum->tune(curve.centsAt(span.begin + std::min(span.length(), longestAttack) * 0.5));
        const PitchRow row = rowOf(spectraOf(span, *views, index, *spectrum));
        heardSpans->keep(index, span, row);
        rows.push_back(bounded(row, line));
    }
    return rows;
}

} // namespace earwright
