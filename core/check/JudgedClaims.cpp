#include "core/check/JudgedClaims.h"

#include "core/check/BesideItsPlace.h"
#include "core/check/ClaimDoubt.h"
#include "core/check/ClaimFeatures.h"
#include "core/check/Judgement.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace earwright {

namespace {

bool canBeJudged(const Claim& claim) {
    return claim.midi >= lowestHeardMidi && claim.midi <= highestHeardMidi;
}

/// What is said of a claim that is not supported where no other pitch is suggested for it.
void withoutSuggestion(ClaimAnswer& answer, const ClaimContext& context, std::size_t claim,
                       bool isElsewhere) {
    answer.beginsAt = onsetElsewhere(context, claim);
    answer.nothingBegins = isElsewhere || answer.beginsAt || onsetProbability(context, claim) < 0.5;
}

ClaimAnswer answerFor(const ClaimContext& context, std::size_t claim, const ClaimFeatures& features) {
    ClaimAnswer answer;
    answer.score = probabilityRight(features);
    if (isOutOfPlace(context, claim)) answer.score = std::min(answer.score, supportedAbove);
    const Suggestion suggestion = suggestionFor(context, claim);
    const double another = probabilityOfSuggestion(suggestion.features);
    answer.verdict = verdictOf(answer.score, another);
    if (answer.verdict == Verdict::Supported) return answer;
    if (answer.verdict == Verdict::Unclear) answer.doubt = doubtAbout(context, claim, features);
    if (another > suggestedAbove && !soundsOnFromBefore(context, claim, suggestion.midi)) {
        answer.suggestedMidi = suggestion.midi;
        answer.suggestedScore = another;
        return answer;
    }
    // What sounds on from before is no note that begins here.
    const bool soundsOn = another > suggestedAbove;
    withoutSuggestion(answer, context, claim, soundsOn);
    return answer;
}

/// Of another pitch at a claim's own place.
constexpr double surelyAnother = 0.75;

/// Whether a claim that begins there has passed another of the line. The two notes of a double stop, which
/// are written at one place, may begin in either order.
bool overtakes(Seconds there, std::size_t claim, const std::vector<Claim>& written,
               const std::vector<Claim>& moved) {
    // Onsets are told to 10 ms.
    constexpr Seconds together{0.010};
    for (std::size_t i = 0; i < written.size(); ++i) {
        const Seconds gap = written[i].range.begin - written[claim].range.begin;
        if (gap <= Seconds(0) - together && there < moved[i].range.begin) return true;
        if (gap >= together && there > moved[i].range.begin) return true;
    }
    return false;
}

} // namespace

std::vector<std::size_t> judgedInOrder(const std::vector<Claim>& claims) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < claims.size(); ++i)
        if (canBeJudged(claims[i])) order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return claims[a].range.begin < claims[b].range.begin;
    });
    return order;
}

std::vector<Claim> inOrder(const std::vector<Claim>& claims, const std::vector<std::size_t>& order) {
    std::vector<Claim> sorted;
    for (const std::size_t index : order)
        sorted.push_back(claims[index]);
    return sorted;
}

std::vector<ClaimAnswer> answersIn(const ClaimContext& context) {
    const std::vector<ClaimFeatures> features = claimFeatures(context);
    std::vector<ClaimAnswer> answers;
    for (std::size_t i = 0; i < features.size(); ++i)
        answers.push_back(answerFor(context, i, features[i]));
    return answers;
}

void suggestOnce(std::vector<ClaimAnswer>& answers, const ClaimContext& context) {
    constexpr double samePlace = 0.060;
    const auto takes = [&](std::size_t one, std::size_t other) {
        const double between = (context.claims[one].range.begin - context.claims[other].range.begin).value;
        return answers[one].suggestedMidi == answers[other].suggestedMidi && std::abs(between) < samePlace &&
               answers[one].suggestedScore > answers[other].suggestedScore;
    };
    for (std::size_t i = 0; i < answers.size(); ++i) {
        if (!answers[i].suggestedMidi) continue;
        const std::size_t first = i - std::min<std::size_t>(i, 4);
        const std::size_t end = std::min(i + 5, answers.size());
        bool isTaken = false;
        for (std::size_t k = first; k < end && !isTaken; ++k)
            isTaken = takes(k, i);
        if (!isTaken) continue;
        answers[i].suggestedMidi.reset();
        answers[i].suggestedScore = 0;
        withoutSuggestion(answers[i], context, i, true);
    }
}

JudgedClaims judgedAsPlayed(const PassageEvidence& evidence, std::vector<Claim> claims, bool swingKnown) {
    ClaimContext context = contextOf(evidence, std::move(claims));
    JudgedClaims judged{answersIn(context), context};
    std::vector<Claim> moved = context.claims;
    std::vector<std::size_t> supported, others, beside;
    for (std::size_t i = 0; i < moved.size(); ++i)
        (judged.answers[i].verdict == Verdict::Supported ? supported : others).push_back(i);
    if (others.empty()) return judged;
    const Seconds lag = usualLag(context, supported);
    for (const std::size_t i : others) {
        // Where another pitch surely begins at its place, that one is meant: the note is wrong, and not late.
        if (judged.answers[i].suggestedMidi && judged.answers[i].suggestedScore > surelyAnother) continue;
        const auto there = besideItsPlace(context, i, swingKnown, lag);
        if (!there || overtakes(there->begin, i, context.claims, moved)) continue;
        moved[i].range = *there;
        beside.push_back(i);
    }
    if (beside.empty()) return judged;
    const std::vector<std::size_t> order = judgedInOrder(moved);
    const ClaimContext elsewhere = contextOf(evidence, inOrder(moved, order), context.colour);
    const std::vector<ClaimFeatures> features = claimFeatures(elsewhere);
    for (std::size_t k = 0; k < order.size(); ++k) {
        const std::size_t i = order[k];
        if (!std::binary_search(beside.begin(), beside.end(), i)) continue;
        const ClaimAnswer answer = answerFor(elsewhere, k, features[k]);
        if (answer.score <= supportedBesideAbove) continue;
        judged.answers[i] = answer;
        judged.context.take(i, elsewhere, k);
    }
    return judged;
}

} // namespace earwright
