#include "core/check/NoteCheck.h"

#include "core/check/ClaimColour.h"
#include "core/check/HeardSwing.h"
#include "core/check/JudgedClaims.h"
#include "core/check/Judgement.h"
#include "core/check/LineLag.h"
#include "core/check/OffRunJudgement.h"
#include "core/check/Placement.h"
#include "core/check/UnwrittenSounds.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright {

namespace {

/// How near a suggestion's claim the suggested pitch begins.
constexpr Seconds suggestionReach{0.060};

Seconds apart(const Claim& heard, const UnwrittenCandidate& sound) {
    return Seconds(std::abs((heard.range.begin - sound.range.begin).value));
}

/// Whether a claim, or a suggestion for one, already names this sound. A claim may lie farther off: onsets
/// are written as they are felt, and found as they are heard. `claims` as they were judged, `beside`: those
/// whose suggestion is another note's sound.
bool alreadyNamed(const UnwrittenCandidate& candidate, const std::vector<Claim>& claims,
                  const std::vector<ClaimAnswer>& answers, const std::vector<bool>& beside) {
    constexpr Seconds claimTolerance{0.100};
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const Seconds distance = apart(claims[i], candidate);
        if (claims[i].midi == candidate.midi && distance < claimTolerance) return true;
        if (answers[i].suggestedMidi == candidate.midi && !beside[i] && distance < suggestionReach)
            return true;
    }
    return false;
}

/// Where a suggestion turns out to be another note's sound, nothing begins at the claim.
void withdrawSuggestions(const UnwrittenCandidate& sound, const std::vector<Claim>& claims,
                         std::vector<ClaimAnswer>& answers) {
    for (std::size_t i = 0; i < claims.size(); ++i) {
        if (answers[i].suggestedMidi != sound.midi || apart(claims[i], sound) >= suggestionReach) continue;
        answers[i].suggestedMidi.reset();
        answers[i].nothingBegins = true;
    }
}

/// By claim, whether its suggestion begins so far from it that it is another note's sound.
std::vector<bool> suggestedFromBeside(const NoteCheck& check, const ClaimContext& context,
                                      const std::vector<std::size_t>& order) {
    std::vector<Verdict> verdicts;
    for (const std::size_t index : order)
        verdicts.push_back(check.answers[index].verdict);
    const Seconds tolerance = placementTolerance(context, verdicts);
    std::vector<bool> beside(check.answers.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        if (const auto midi = check.answers[order[i]].suggestedMidi)
            beside[order[i]] = beginsBeside(context, i, *midi, tolerance);
    return beside;
}

} // namespace

NoteCheck checkNotes(const PassageEvidence& evidence, const std::vector<Claim>& claims) {
    NoteCheck check;
    ClaimAnswer notJudged{Verdict::Unclear, 0.5};
    notJudged.doubt = Doubt::Unheard;
    check.answers.assign(claims.size(), notJudged);
    const std::vector<std::size_t> order = judgedInOrder(claims);
    const std::vector<Claim> sorted = toldWhatIsStruckTogether(inOrder(claims, order));
    PairsHeard pairs = swingIn(evidence, sorted);
    check.swing = pairs.swing;
    const Seconds lag = lineLag(evidence, pairs.asPlayed);
    for (Claim& claim : pairs.asPlayed)
        claim.range = claim.range.shifted(lag);
    JudgedClaims heard = judgedAsPlayed(evidence, pairs.asPlayed, pairs.enough);
    suggestOnce(heard.answers, heard.context);
    for (std::size_t i = 0; i < order.size(); ++i)
        heard.answers[i].behind = heard.context.claims[i].range.begin - lag - sorted[i].range.begin;
    judgeOffRuns(evidence, pairs.asPlayed, heard);
    const auto& [answers, context] = heard;
    const HeardPart listened = evidence.partOf(context.blend.clearest());
    std::vector<Claim> asHeard = claims;
    for (std::size_t i = 0; i < order.size(); ++i) {
        check.answers[order[i]] = answers[i];
        check.answers[order[i]].listened = listened;
        asHeard[order[i]] = context.claims[i];
    }
    const std::vector<bool> beside = suggestedFromBeside(check, context, order);
    std::vector<Claim> line = context.claims, borneOut;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (answers[i].verdict == Verdict::Supported) borneOut.push_back(line[i]);
        if (const auto midi = check.answers[order[i]].suggestedMidi; midi && !beside[order[i]])
            line[i].midi = *midi;
    }
    line = inOrder(line, judgedInOrder(line));
    std::vector<UnwrittenCandidate> candidates = unwrittenCandidates(evidence, context, line, borneOut);
    const std::vector<double> probabilities = probabilitiesOfNotes(candidates, sorted.size());
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        UnwrittenCandidate& candidate = candidates[i];
        if (probabilities[i] <= unwrittenAbove || alreadyNamed(candidate, asHeard, check.answers, beside))
            continue;
        withdrawSuggestions(candidate, asHeard, check.answers);
        check.unwritten.push_back({candidate.range, candidate.midi, probabilities[i]});
    }
    return check;
}

} // namespace earwright
