#include "core/listening/SpanListener.h"

#include "core/listening/AnalysisSound.h"
#include "core/listening/NetworkWeights.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

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

std::size_t attackSamples(const Range<Seconds>& span) {
    return samplesOf(std::clamp(span.length(), shortestAttack, longestAttack));
}

HeardSpan heardIn(const SpanSpectra& spectra) {
    HeardSpan heard;
    const bool sounds =
        std::ranges::max(spectra.attack) > silence || std::ranges::max(spectra.sustain) > silence;
    if (sounds) {
        heard.levels = spanLevels(spectra);
        heard.row = spanNetwork(spanFeatures(heard.levels));
    }
    heard.row.normalise();
    return heard;
}

bool comesFromBothSides(View view) {
    return view != View::Centre;
}

} // namespace

SpanListener::SpanListener(const StereoViews& stereo, const TuningCurve& curve)
    : views(stereo), tuning(curve), spectrum(curve.cents()) {}

/// In steps from the recording's own tuning, each wide enough for the axis to notice (AxisLines), so that a
/// span is heard alike whichever was heard before it.
double SpanListener::centsOver(const Range<Seconds>& span) const {
    constexpr double step = 0.3;
    const double cents = tuning.centsAt(span.begin + std::min(span.length(), longestAttack) * 0.5);
    return tuning.cents() + step * std::round((cents - tuning.cents()) / step);
}

Stretch SpanListener::attackOf(const Range<Seconds>& span, std::size_t view) const {
    return {views.sound(view), views.sampleAt(span.begin + afterOnset), attackSamples(span)};
}

Stretch SpanListener::beforeOf(const Range<Seconds>& span, std::size_t view) const {
    const std::size_t length = attackSamples(span);
    const auto time = analysisRate.seconds(Frames(static_cast<std::int64_t>(length)));
    return {views.sound(view), views.sampleAt(span.begin + beforeOnset - time), length};
}

/// The middle and end of a longer note, where scoops and consonants are over.
Stretch SpanListener::sustainOf(const Range<Seconds>& span, std::size_t view) const {
    constexpr Seconds longEnough{0.130};
    const Seconds length = std::max(span.length(), shortestAttack);
    const Seconds sustain = std::clamp(length * 0.75, shortestAttack, longestSustain);
    const Seconds start = length > longEnough ? span.begin + std::min(length * 0.25, length - sustain)
                                              : span.begin + afterOnset;
    return {views.sound(view), views.sampleAt(start), samplesOf(sustain)};
}

void SpanListener::hearPair(const Range<Seconds>& span, std::vector<SpanSpectra>& spectra) {
    constexpr auto left = static_cast<std::size_t>(View::Left);
    constexpr auto right = static_cast<std::size_t>(View::Right);
    const auto spread = [&](LogBins SpanSpectra::*part) {
        spectra[left].*part = spectrum.first();
        spectra[right].*part = spectrum.second();
        spectra[static_cast<std::size_t>(View::Both)].*part = spectrum.middle();
        spectra[static_cast<std::size_t>(View::Sides)].*part = spectrum.sides();
    };
    spectrum.hear(attackOf(span, left), attackOf(span, right));
    spread(&SpanSpectra::attack);
    spectrum.hear(beforeOf(span, left), beforeOf(span, right));
    spread(&SpanSpectra::before);
    spectrum.hear(sustainOf(span, left), sustainOf(span, right));
    spread(&SpanSpectra::sustain);
}

void SpanListener::hearAlone(const Range<Seconds>& span, std::size_t view, SpanSpectra& spectra) {
    spectrum.hear(attackOf(span, view), beforeOf(span, view));
    spectra.attack = spectrum.first();
    spectra.before = spectrum.second();
    spectrum.hear(sustainOf(span, view), {});
    spectra.sustain = spectrum.first();
}

std::vector<HeardSpan> SpanListener::hear(const Range<Seconds>& span, const std::vector<std::size_t>& asked) {
    spectrum.tune(centsOver(span));
    std::vector<SpanSpectra> spectra(views.count());
    const auto fromBothSides =
        std::ranges::count_if(asked, [&](std::size_t view) { return comesFromBothSides(views.view(view)); });
    const bool together = views.count() > 1 && fromBothSides > 1;
    if (together) hearPair(span, spectra);
    std::vector<HeardSpan> heard;
    for (const std::size_t view : asked) {
        if (!together || !comesFromBothSides(views.view(view))) hearAlone(span, view, spectra[view]);
        heard.push_back(heardIn(spectra[view]));
    }
    return heard;
}

} // namespace earwright
