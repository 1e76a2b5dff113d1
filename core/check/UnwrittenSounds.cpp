#include "core/check/UnwrittenSounds.h"

#include "core/check/Judgement.h"
#include "core/check/StruckAgain.h"
#include "core/listening/MelodyPrior.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Notes of quick lines follow one another in 40 ms; what is the claim's own though farther off is known by
/// its pitch.
constexpr Seconds claimTolerance{0.030};
constexpr Seconds shortest{0.065};
constexpr Seconds longest{0.150};
constexpr float leastLog = -7;

/// Probability that anything begins, smoothed over three places of 10 ms.
std::vector<float> smoothedOnsets(const OnsetTrack& onsets) {
    std::vector<float> raw(onsets.size());
    for (std::size_t i = 0; i < raw.size(); ++i)
        raw[i] = 1 - std::exp(onsets[i][OnsetTrack::noOnset]);
    std::vector<float> smooth = raw;
    for (std::size_t i = 1; i + 1 < raw.size(); ++i)
        smooth[i] = 0.25f * raw[i - 1] + 0.5f * raw[i] + 0.25f * raw[i + 1];
    return smooth;
}

bool nearClaim(const std::vector<Claim>& claims, Seconds time) {
    return std::any_of(claims.begin(), claims.end(), [&](const Claim& claim) {
        return std::abs((claim.range.begin - time).value) <= claimTolerance.value;
    });
}

/// A place where something begins, and when.
struct Peak {
    std::size_t place;
    Seconds time;
};

/// A clear onset shows over several places; the middle of those around its peak is the best guess.
Seconds middleOf(const std::vector<float>& smooth, std::size_t peak, const OnsetTrack& onsets) {
    constexpr std::size_t reach = 6;
    const float enough = 0.5f * smooth[peak];
    std::size_t first = peak;
    std::size_t last = peak;
    while (first > 0 && peak - first < reach && smooth[first - 1] > enough)
        --first;
    while (last + 1 < smooth.size() && last - peak < reach && smooth[last + 1] > enough)
        ++last;
    return (onsets.timeOf(first) + onsets.timeOf(last)) * 0.5;
}

/// Onsets that stand above their surroundings of 30 ms either side, away from claims.
std::vector<Peak> peaksOf(const std::vector<float>& smooth, const ClaimContext& context) {
    constexpr std::size_t reach = 3;
    constexpr float least = 0.05f;
    constexpr Seconds firstPlace{0.020};
    std::vector<Peak> peaks;
    for (std::size_t i = reach; i + reach < smooth.size(); ++i) {
        const auto begin = smooth.begin() + static_cast<std::ptrdiff_t>(i);
        const float top = *std::max_element(begin - reach, begin + reach + 1);
        if (smooth[i] <= least || smooth[i] < top) continue;
        const Seconds time = middleOf(smooth, i, context.onsets);
        if (time > firstPlace && !nearClaim(context.claims, time)) peaks.push_back({i, time});
    }
    return peaks;
}

/// From each onset to the next one or the next claim at least 30 ms later.
std::vector<Range<Seconds>> spansOf(const std::vector<Peak>& peaks, const ClaimContext& context) {
    constexpr Seconds leastApart{0.030};
    std::vector<Range<Seconds>> spans;
    for (const Peak& peak : peaks) {
        Seconds length = longest;
        for (const Peak& other : peaks)
            if (const Seconds apart = other.time - peak.time; apart > leastApart)
                length = std::min(length, apart);
        for (const Claim& claim : context.claims)
            if (const Seconds apart = claim.range.begin - peak.time; apart > leastApart)
                length = std::min(length, apart);
        spans.push_back({peak.time, peak.time + std::max(length, shortest)});
    }
    return spans;
}

/// The claims around a place in time, if any.
struct Neighbours {
    const Claim* before = nullptr;
    const Claim* after = nullptr;

    Neighbours(const std::vector<Claim>& claims, Seconds time) {
        for (const Claim& claim : claims) {
            if (claim.range.begin < time)
                before = &claim;
            else if (!after)
                after = &claim;
        }
    }
};

PitchRow fitBetween(const Neighbours& neighbours, Seconds time) {
    PitchRow fit;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        if (neighbours.before) {
            const Range<Seconds> here{time, time};
            const auto from = static_cast<std::size_t>(neighbours.before->midi - lowestHeardMidi);
            fit[pitch] += melodyWeight(neighbours.before->range, here) * melodyStep(from, pitch);
        }
        if (neighbours.after) {
            const auto to = static_cast<std::size_t>(neighbours.after->midi - lowestHeardMidi);
            fit[pitch] += melodyStep(to, pitch);
        }
    }
    fit.normalise();
    return fit;
}

PitchRow onsetAround(const OnsetTrack& onsets, std::size_t place) {
    PitchRow strongest;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch) {
        strongest[pitch] = onsets[place - 2][pitch];
        for (std::size_t i = place - 1; i <= place + 2; ++i)
            strongest[pitch] = std::max(strongest[pitch], onsets[i][pitch]);
    }
    return strongest;
}

/// Two tenths of a second are one.
float timeToNearest(const std::vector<Claim>& claims, Seconds time) {
    constexpr double far = 0.3;
    double nearest = far;
    for (const Claim& claim : claims)
        nearest = std::min(nearest, std::abs((claim.range.begin - time).value));
    return 5 * static_cast<float>(nearest);
}

float logOfOnset(float anyOnset) {
    return std::log(anyOnset + 1e-3f);
}

/// Places of features in UnwrittenCandidate.
constexpr std::size_t onsetFeature = 0;
constexpr std::size_t ownFeature = 1;
constexpr std::size_t leadFeature = 3;
constexpr std::size_t anyOnsetFeature = 5;
constexpr std::size_t tailFeature = 6;
constexpr std::size_t distanceFeature = 7;
constexpr std::size_t lengthFeature = 8;
constexpr std::size_t onsetLeadFeature = 9;
constexpr float mostLead = 8;
constexpr float mostOnsetLead = 6;

float logLength(const Range<Seconds>& span) {
    return std::log(static_cast<float>(span.length().value));
}

UnwrittenCandidate candidateAt(std::size_t place, const Range<Seconds>& span, const PitchRow& own,
                               float anyOnset, const ClaimContext& context, const std::vector<Claim>& line) {
    constexpr Seconds tail{0.080};
    // Nine in ten: what so surely begins is struck again. In 216 renderings all 31 such sounds were.
    constexpr float surely = -0.105f;
    const Neighbours neighbours(line, span.begin);
    const PitchRow onset = onsetAround(context.onsets, place);
    const PitchRow fit = fitBetween(neighbours, span.begin);
    PitchRow all;
    for (std::size_t pitch = 0; pitch < pitchCount; ++pitch)
        all[pitch] = 0.6f * own[pitch] + 0.5f * std::max(onset[pitch], -9.0f) + fit[pitch];
    all.normalise();
    const std::size_t best = all.best();
    const int midi = lowestHeardMidi + static_cast<int>(best);
    const bool inTail = neighbours.before && neighbours.before->midi == midi &&
                        span.begin < neighbours.before->range.end + tail && onset[best] < surely;
    return {span,
            midi,
            {std::max(leastLog, onset[best]), std::max(leastLog, own[best]), all[best],
             std::clamp(all.leadOf(best), 0.0f, mostLead), fit[best], logOfOnset(anyOnset),
             inTail ? 1.0f : 0.0f, timeToNearest(context.claims, span.begin), logLength(span),
             std::clamp(onset.leadOf(best), -mostOnsetLead, mostOnsetLead)}};
}

/// What lies within the note before, but is struck again, is a note of its own: the network hears a pitch
/// badly that is there already. Asked only of what is surely of that pitch, and where something may begin.
/// Where the note before is not borne out, this may be that note.
bool isStruckAgain(const PassageEvidence& evidence, const std::vector<Claim>& line,
                   const std::vector<Claim>& borneOut, const UnwrittenCandidate& candidate) {
    constexpr float surelyOfPitch = -0.3f;
    constexpr float clearLead = 3;
    constexpr float mayBegin = -1.5f;
    const auto& features = candidate.features;
    if (features[tailFeature] == 0 || features[ownFeature] < surelyOfPitch ||
        features[leadFeature] < clearLead || features[anyOnsetFeature] < mayBegin)
        return false;
    const Seconds time = candidate.range.begin;
    const Neighbours neighbours(line, time);
    if (std::ranges::find(borneOut, *neighbours.before) == borneOut.end()) return false;
    const Seconds next = neighbours.after ? neighbours.after->range.begin : time + Seconds(1);
    return isStruckAbout(evidence, candidate.midi, time, {neighbours.before->range.begin, next});
}

/// Whether the last candidate's pitch is already told to be struck again within the reach of one attack.
bool isStruckJustBefore(const std::vector<UnwrittenCandidate>& candidates) {
    constexpr Seconds oneAttack{0.1};
    const UnwrittenCandidate& last = candidates.back();
    return std::ranges::any_of(candidates, [&](const UnwrittenCandidate& other) {
        return other.isStruckAgain && other.midi == last.midi &&
               last.range.begin - other.range.begin < oneAttack;
    });
}

/// Whether a sound is the note before sounding on: the same pitch again, soon, without clearly beginning, and
/// nothing written between.
bool isEchoOf(const UnwrittenCandidate& before, const UnwrittenCandidate& sound,
              const std::vector<Claim>& claims) {
    constexpr float clearly = -1.2f; // log probability of its own onset, 0.3
    constexpr Seconds soon{0.250};
    return before.midi == sound.midi && sound.range.begin - before.range.end < soon &&
           sound.features[onsetFeature] < std::min(clearly, before.features[onsetFeature]) &&
           std::none_of(claims.begin(), claims.end(), [&](const Claim& claim) {
               return claim.range.begin > before.range.begin && claim.range.begin < sound.range.begin;
           });
}

/// A left-out note has no claim to which its later wavering could belong: it is one with the note.
std::vector<UnwrittenCandidate> withoutEchoes(const std::vector<UnwrittenCandidate>& all,
                                              const std::vector<Claim>& claims) {
    std::vector<UnwrittenCandidate> kept;
    for (const UnwrittenCandidate& candidate : all) {
        if (kept.empty() || !isEchoOf(kept.back(), candidate, claims)) {
            kept.push_back(candidate);
            continue;
        }
        UnwrittenCandidate& whole = kept.back();
        whole.range.end = std::min(whole.range.begin + longest, candidate.range.end);
        whole.features[lengthFeature] = logLength(whole.range);
    }
    return kept;
}

/// Whether a sound could be listed if the span itself spoke for one pitch as clearly as can be.
bool couldBeANote(const Peak& peak, const Range<Seconds>& span, float anyOnset, const ClaimContext& context) {
    std::array<float, unwrittenFeatureCount> best{};
    best[leadFeature] = mostLead;
    best[anyOnsetFeature] = logOfOnset(anyOnset);
    best[distanceFeature] = timeToNearest(context.claims, peak.time);
    best[lengthFeature] = logLength(span);
    best[onsetLeadFeature] = mostOnsetLead;
    return mayBeListed(best);
}

/// The spans' own evidence; nothing where a sound cannot be listed whatever is heard there.
std::vector<PitchRow> heardWhereItMatters(const PassageEvidence& evidence, const ClaimContext& context,
                                          const std::vector<Peak>& peaks,
                                          const std::vector<Range<Seconds>>& spans,
                                          const std::vector<float>& smooth) {
    std::vector<std::size_t> members;
    std::vector<Range<Seconds>> asked;
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        if (!couldBeANote(peaks[i], spans[i], smooth[peaks[i].place], context)) continue;
        members.push_back(i);
        asked.push_back(spans[i]);
    }
    const std::vector<PitchRow> heard = context.blend.spans(evidence.colouredBy(context.colour), asked);
    PitchRow nothing;
    nothing.normalise();
    std::vector<PitchRow> own(peaks.size(), nothing);
    for (std::size_t k = 0; k < members.size(); ++k)
        own[members[k]] = heard[k];
    return own;
}

} // namespace

std::vector<UnwrittenCandidate> unwrittenCandidates(const PassageEvidence& evidence,
                                                    const ClaimContext& context,
                                                    const std::vector<Claim>& line,
                                                    const std::vector<Claim>& borneOut) {
    const std::vector<float> smooth = smoothedOnsets(context.onsets);
    const std::vector<Peak> peaks = peaksOf(smooth, context);
    const std::vector<Range<Seconds>> spans = spansOf(peaks, context);
    const std::vector<PitchRow> own = heardWhereItMatters(evidence, context, peaks, spans, smooth);
    std::vector<UnwrittenCandidate> candidates;
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        candidates.push_back(
            candidateAt(peaks[i].place, spans[i], own[i], smooth[peaks[i].place], context, line));
        UnwrittenCandidate& candidate = candidates.back();
        candidate.isStruckAgain =
            !isStruckJustBefore(candidates) && isStruckAgain(evidence, line, borneOut, candidate);
    }
    return withoutEchoes(candidates, context.claims);
}

} // namespace earwright
