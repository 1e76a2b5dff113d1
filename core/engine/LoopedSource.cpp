#include "core/engine/LoopedSource.h"

#include "core/engine/CrossFade.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace earwright {

namespace {

/// How much sound before A and B is compared.
constexpr double comparedSeconds = 0.02;
/// Energy of the difference ÷ energy of both, up to which they are the same sound: an eighth of a radian of
/// a tone's phase.
constexpr double sameSound = 0.008;
constexpr double silence = 1e-9;

} // namespace

LoopedSource::LoopedSource(std::shared_ptr<Recording> source, Frames from,
                           std::optional<Range<Frames>> wanted, Round round)
    : recording(std::move(source)), loop(wanted), next(from) {
    if (!loop) return;
    assert(loop->length() > Frames(1));
    if (from >= loop->end) {
        loop.reset();
        return;
    }
    const Frames longest(std::llround(crossfadeSeconds * recording->rate().hertz));
    fade = std::min(longest, Frames(loop->length().value / 4));
    isInDoubt = round == Round::WhereItFits;
    // A itself is read along, so that it is decoded before its seam is due.
    const auto samples = static_cast<std::size_t>((fade.value + 1) * recording->channels());
    intoStart.resize(samples);
    recording->read(loop->begin - fade, intoStart);
}

void LoopedSource::read(std::span<float> interleaved) {
    const auto wide = static_cast<std::size_t>(recording->channels());
    while (!interleaved.empty()) {
        const auto wanted = static_cast<std::int64_t>(interleaved.size() / wide);
        if (isInDoubt && next + Frames(wanted) > loop->end - fade) {
            isInDoubt = false;
            if (!fits()) loop.reset();
        }
        const std::int64_t left = loop ? loop->end.value - next.value : wanted;
        const std::int64_t count = std::min(wanted, left);
        const auto part = interleaved.first(static_cast<std::size_t>(count) * wide);
        recording->read(next, part);
        if (loop) readFaded(next, part);
        next += Frames(count);
        if (loop && next == loop->end) next = loop->begin;
        interleaved = interleaved.subspan(part.size());
    }
}

bool LoopedSource::fits() const {
    const Frames span =
        std::min(Frames(std::llround(comparedSeconds * recording->rate().hertz)), loop->length());
    std::vector<float> beforeStart(static_cast<std::size_t>(span.value * recording->channels()));
    std::vector<float> beforeEnd(beforeStart.size());
    recording->read(loop->begin - span, beforeStart);
    recording->read(loop->end - span, beforeEnd);
    double apart = 0;
    double both = 0;
    for (std::size_t i = 0; i < beforeEnd.size(); ++i) {
        const auto a = static_cast<double>(beforeStart[i]);
        const auto b = static_cast<double>(beforeEnd[i]);
        apart += (a - b) * (a - b);
        both += a * a + b * b;
    }
    return apart <= sameSound * both + silence * static_cast<double>(beforeEnd.size());
}

void LoopedSource::readFaded(Frames from, std::span<float> interleaved) {
    const std::int64_t wide = recording->channels();
    const std::int64_t count = static_cast<std::int64_t>(interleaved.size()) / wide;
    const Frames fadeStart = loop->end - fade;
    for (std::int64_t i = std::max<std::int64_t>(0, (fadeStart - from).value); i < count; ++i) {
        const std::int64_t inFade = (from - fadeStart).value + i;
        const double share = (static_cast<double>(inFade) + 1.0) / (static_cast<double>(fade.value) + 1.0);
        // Equal gain: where both sides agree, as over whole periods of a tone, nothing changes.
        const auto in = static_cast<float>(fadeIn(share));
        for (std::int64_t channel = 0; channel < wide; ++channel) {
            float& sample = interleaved[static_cast<std::size_t>(i * wide + channel)];
            sample += in * (intoStart[static_cast<std::size_t>(inFade * wide + channel)] - sample);
        }
    }
}

Range<Frames> LoopedSource::playable(const Range<Frames>& loop, const Recording& recording) {
    const Frames shortest(std::llround(std::ceil(shortestLoopSeconds * recording.rate().hertz)));
    const Frames end = recording.length();
    Range<Frames> fit{std::clamp(loop.begin, Frames(0), end), std::clamp(loop.end, Frames(0), end)};
    if (fit.length() < shortest) fit.end = std::min(fit.begin + shortest, end);
    if (fit.length() < shortest) fit.begin = std::max(Frames(0), fit.end - shortest);
    // A recording shorter than that loops as it stands.
    if (fit.length() < Frames(2)) fit = {Frames(0), std::max(end, Frames(2))};
    return fit;
}

} // namespace earwright
