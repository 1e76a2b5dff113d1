#include "core/listening/PairSpectrum.h"

#include "core/listening/WideVectors.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <numbers>

namespace earwright {

namespace {

using Numbers = std::vector<float>;

/// |(x, y)|, number by number.
EARWRIGHT_WIDE_VECTORS
Numbers magnitudesOf(const Numbers& x, const Numbers& y) {
    Numbers magnitudes(x.size());
    for (std::size_t i = 0; i < x.size(); ++i)
        magnitudes[i] = std::sqrt(x[i] * x[i] + y[i] * y[i]);
    return magnitudes;
}

/// Half of |one + other|, or of |one − other| where the sign is −1, number by number.
EARWRIGHT_WIDE_VECTORS
Numbers magnitudesOfMix(const Numbers& oneX, const Numbers& oneY, const Numbers& otherX,
                        const Numbers& otherY, float sign) {
    Numbers magnitudes(oneX.size());
    for (std::size_t i = 0; i < oneX.size(); ++i) {
        const float x = oneX[i] + sign * otherX[i];
        const float y = oneY[i] + sign * otherY[i];
        magnitudes[i] = 0.5f * std::sqrt(x * x + y * y);
    }
    return magnitudes;
}

/// Writes the lines of a transform of four times the length that leave a rest of 0, 1, 2 and 3 when divided
/// by four as inputs of transforms of their own (decimation in frequency, radix 4: Cooley and Tukey 1965).
/// Only the first `Quarters` of the input are read, what follows is silence. Requires: no two of the numbers
/// read and written overlap.
template <std::size_t Length, std::size_t Quarters, class Turns>
EARWRIGHT_WIDE_VECTORS void fold(const float* x, const float* y, const Turns& turns,
                                 const std::array<float*, 4>& outX, const std::array<float*, 4>& outY) {
    float *const x0 = outX[0], *const x1 = outX[1], *const x2 = outX[2], *const x3 = outX[3];
    float *const y0 = outY[0], *const y1 = outY[1], *const y2 = outY[2], *const y3 = outY[3];
    const auto turn = [&](std::size_t part, std::size_t n, float partX, float partY, float& toX, float& toY) {
        toX = partX * turns.x[part][n] - partY * turns.y[part][n];
        toY = partX * turns.y[part][n] + partY * turns.x[part][n];
    };
    EARWRIGHT_APART
    for (std::size_t n = 0; n < Length; ++n) {
        const auto at = [n](const float* sound, std::size_t quarter) {
            return quarter < Quarters ? sound[n + quarter * Length] : 0;
        };
        const float evenX = at(x, 0) + at(x, 2);
        const float evenY = at(y, 0) + at(y, 2);
        const float evenLessX = at(x, 0) - at(x, 2);
        const float evenLessY = at(y, 0) - at(y, 2);
        const float oddX = at(x, 1) + at(x, 3);
        const float oddY = at(y, 1) + at(y, 3);
        const float oddLessX = at(x, 1) - at(x, 3);
        const float oddLessY = at(y, 1) - at(y, 3);
        x0[n] = evenX + oddX;
        y0[n] = evenY + oddY;
        // Times −i the difference of the odd ones: (x, y) becomes (y, −x).
        turn(0, n, evenLessX + oddLessY, evenLessY - oddLessX, x1[n], y1[n]);
        turn(1, n, evenX - oddX, evenY - oddY, x2[n], y2[n]);
        turn(2, n, evenLessX - oddLessY, evenLessY + oddLessX, x3[n], y3[n]);
    }
}

} // namespace

const PairSpectrum::Turns& PairSpectrum::turns() {
    static const Turns once = [] {
        Turns all;
        for (std::size_t part = 1; part < parts; ++part) {
            for (std::size_t n = 0; n < partLength; ++n) {
                const double turn = -2 * std::numbers::pi * static_cast<double>(part * n) / fftLength;
                all.x[part - 1][n] = static_cast<float>(std::cos(turn));
                all.y[part - 1][n] = static_cast<float>(std::sin(turn));
            }
        }
        return all;
    }();
    return once;
}

PairSpectrum::PairSpectrum(double cents)
    : transforms{ComplexTransform(partLength), ComplexTransform(partLength), ComplexTransform(partLength),
                 ComplexTransform(partLength)},
      axis(fftLength, cents),
      one(fftLength),
      other(fftLength) {
    findLines();
}

void PairSpectrum::tune(double cents) {
    if (axis.tune(cents)) findLines();
}

void PairSpectrum::findLines() {
    lines.clear();
    for (std::size_t bin = 0; bin < axisBins; ++bin) {
        const std::size_t below = axis.below(bin);
        // Bins ascend, so that either line is the last found or new.
        if (lines.empty() || lines.back() < below) lines.push_back(below);
        placeOf[bin] = lines.size() - (lines.back() == below ? 1 : 2);
        if (lines.back() < below + 1) lines.push_back(below + 1);
    }
    for (std::vector<float>* numbers : {&oneX, &oneY, &otherX, &otherY})
        numbers->resize(lines.size());
}

void PairSpectrum::cutOut(const Stretch& stretch, std::span<float> to) {
    if (stretch.sound.empty()) {
        std::ranges::fill(to, 0.0f);
        return;
    }
    assert(stretch.length >= 2 && stretch.length <= fftLength);
    const std::span<const float> weights = window.of(stretch.length);
    const auto wanted = static_cast<std::ptrdiff_t>(stretch.length);
    const auto size = static_cast<std::ptrdiff_t>(stretch.sound.size());
    const std::ptrdiff_t from = std::clamp<std::ptrdiff_t>(-stretch.start, 0, wanted);
    const std::ptrdiff_t end = std::clamp<std::ptrdiff_t>(size - stretch.start, from, wanted);
    std::fill(to.begin(), to.begin() + from, 0.0f);
    std::transform(weights.begin() + from, weights.begin() + end,
                   stretch.sound.begin() + (from < end ? stretch.start + from : 0), to.begin() + from,
                   std::multiplies<>());
    std::fill(to.begin() + end, to.end(), 0.0f);
}

void PairSpectrum::hear(const Stretch& oneStretch, const Stretch& otherStretch) {
    const std::size_t longest = std::max(oneStretch.length, otherStretch.length);
    const std::size_t quarters = longest <= partLength ? 1 : longest <= 2 * partLength ? 2 : parts;
    cutOut(oneStretch, std::span(one).first(quarters * partLength));
    cutOut(otherStretch, std::span(other).first(quarters * partLength));
    std::array<float*, parts> inputsX{};
    std::array<float*, parts> inputsY{};
    for (std::size_t part = 0; part < parts; ++part) {
        inputsX[part] = transforms[part].timeX().data();
        inputsY[part] = transforms[part].timeY().data();
    }
    constexpr auto folds =
        std::array{fold<partLength, 1, Turns>, fold<partLength, 2, Turns>, fold<partLength, parts, Turns>};
    folds[std::min<std::size_t>(quarters, 3) - 1](one.data(), other.data(), turns(), inputsX, inputsY);
    for (ComplexTransform& transform : transforms)
        transform.forward();
    std::array<const float*, parts> linesX{};
    std::array<const float*, parts> linesY{};
    for (std::size_t part = 0; part < parts; ++part) {
        linesX[part] = transforms[part].spectrumX().data();
        linesY[part] = transforms[part].spectrumY().data();
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
        // The lines of a real sound mirror each other; those of an imaginary one do with the other sign.
        const std::size_t here = lines[i];
        const std::size_t mirror = (fftLength - here) % fftLength;
        const float hereX = linesX[here % parts][here / parts];
        const float hereY = linesY[here % parts][here / parts];
        const float mirrorX = linesX[mirror % parts][mirror / parts];
        const float mirrorY = linesY[mirror % parts][mirror / parts];
        oneX[i] = 0.5f * (hereX + mirrorX);
        oneY[i] = 0.5f * (hereY - mirrorY);
        otherX[i] = 0.5f * (hereY + mirrorY);
        otherY[i] = 0.5f * (mirrorX - hereX);
    }
}

LogBins PairSpectrum::onAxis(const std::vector<float>& magnitudes) const {
    LogBins bins;
    for (std::size_t bin = 0; bin < axisBins; ++bin)
        bins[bin] = axis.between(bin, magnitudes[placeOf[bin]], magnitudes[placeOf[bin] + 1]);
    return bins;
}

LogBins PairSpectrum::first() const {
    return onAxis(magnitudesOf(oneX, oneY));
}

LogBins PairSpectrum::second() const {
    return onAxis(magnitudesOf(otherX, otherY));
}

LogBins PairSpectrum::middle() const {
    return onAxis(magnitudesOfMix(oneX, oneY, otherX, otherY, 1));
}

LogBins PairSpectrum::sides() const {
    return onAxis(magnitudesOfMix(oneX, oneY, otherX, otherY, -1));
}

} // namespace earwright
