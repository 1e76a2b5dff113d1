#include "core/listening/OnsetListener.h"

#include "core/listening/LogSpectrum.h"
#include "core/listening/NetworkWeights.h"
#include "core/listening/PitchBlocks.h"
#include "core/listening/WideVectors.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

namespace earwright {

namespace {

constexpr std::size_t onsetFft = 4096;
/// 9.98 ms.
constexpr std::ptrdiff_t hop = 220;
/// The stretch after a place starts seven hops after the stretch before it; both are 70 ms long.
constexpr std::size_t hopsApart = 7;
constexpr std::size_t stretch = 1544;

/// Spectra every hop, the first of them hopsApart hops before the passage.
Result<std::vector<LogBins>> spectraOf(const StereoViews& views, std::size_t view, const TuningCurve& tuning,
                                       std::ptrdiff_t firstSample, std::size_t count,
                                       const std::stop_token& stop, const Progress& progress) {
    LogSpectrum spectrum(onsetFft, tuning.cents());
    std::vector<LogBins> spectra(count);
    for (std::size_t i = 0; i < count; ++i) {
        if (stop.stop_requested()) return Error{ErrorKind::Cancelled, "Listening was stopped.", ""};
        const std::ptrdiff_t start = firstSample + static_cast<std::ptrdiff_t>(i) * hop;
        spectrum.tune(tuning.centsAt(views.timeOf(start)));
        spectrum.of(views.sound(view), start, stretch, spectra[i]);
        if (progress && i % 64 == 0) progress(0.5 * static_cast<double>(i) / static_cast<double>(count));
    }
    return spectra;
}

/// The root mean square of the loudest bins: what is usual in this passage.
float usualLevel(const std::vector<LogBins>& spectra) {
    double sum = 0;
    for (const LogBins& bins : spectra) {
        const double loudest = *std::max_element(bins.begin(), bins.end());
        sum += loudest * loudest;
    }
    return static_cast<float>(std::sqrt(sum / static_cast<double>(spectra.size()))) + 1e-9f;
}

/// −100 dB of full scale: under the noise of any medium nothing begins.
constexpr float silence = 1e-5f;

OnsetTrack::Row rowOfSilence() {
    constexpr float never = -15;
    OnsetTrack::Row row;
    row.fill(never);
    row[OnsetTrack::noOnset] = 0;
    normaliseLog(row);
    return row;
}

template <class Vector>
EARWRIGHT_INLINE inline OnsetTrack::Row heardRow(const FeatureTable<onsetFeatureCount>& features) {
    OnsetTrack::Row row;
    for (std::size_t block = 0; block < pitchBlocks; ++block) {
        std::array<float, pitchBlock> answers;
        onsetNetwork.of<Vector>(blockOf(features, firstOfBlock(block)), answers);
        std::copy(answers.begin(), answers.end(),
                  row.begin() + static_cast<std::ptrdiff_t>(firstOfBlock(block)));
    }
    row[OnsetTrack::noOnset] = noOnsetNetwork(std::span(features[0]).template last<fluxFeatureCount>());
    normaliseLog(row);
    return row;
}

EARWRIGHT_WIDE_VECTORS
OnsetTrack::Row wideRow(const FeatureTable<onsetFeatureCount>& features) {
    return heardRow<Wide>(features);
}

EARWRIGHT_WIDEST_VECTORS
OnsetTrack::Row widestRow(const FeatureTable<onsetFeatureCount>& features) {
    return heardRow<Widest>(features);
}

OnsetTrack::Row rowOf(const FeatureTable<onsetFeatureCount>& features) {
    return hasWidestVectors() ? widestRow(features) : wideRow(features);
}

} // namespace

Result<OnsetTrack> listenForOnsets(const StereoViews& views, std::size_t view, const TuningCurve& tuning,
                                   Range<Seconds> passage, std::stop_token stop, const Progress& progress) {
    const std::int64_t begin = std::max<std::int64_t>(0, analysisRate.frames(passage.begin).value);
    const std::int64_t end = std::max(begin + 1, analysisRate.frames(passage.end).value);
    const auto places = static_cast<std::size_t>((end - begin + hop - 1) / hop);
    const Seconds first = analysisRate.seconds(Frames(begin));
    const std::ptrdiff_t firstSample = views.sampleAt(first) - hop * static_cast<std::ptrdiff_t>(hopsApart);
    auto spectra = spectraOf(views, view, tuning, firstSample, places + hopsApart, stop, progress);
    if (!spectra) return spectra.error();
    const float usual = usualLevel(*spectra);
    std::vector<OnsetTrack::Row> rows(places);
    for (std::size_t i = 0; i < places; ++i) {
        if (stop.stop_requested()) return Error{ErrorKind::Cancelled, "Listening was stopped.", ""};
        const LogBins& after = (*spectra)[i + hopsApart];
        rows[i] = std::ranges::max(after) > silence ? rowOf(onsetFeatures(after, (*spectra)[i], usual))
                                                    : rowOfSilence();
        if (progress && i % 64 == 0)
            progress(0.5 + 0.5 * static_cast<double>(i) / static_cast<double>(places));
    }
    return OnsetTrack(first, analysisRate.seconds(Frames(hop)), std::move(rows));
}

} // namespace earwright
