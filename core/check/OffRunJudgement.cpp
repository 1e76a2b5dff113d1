#include "core/check/OffRunJudgement.h"

#include "core/check/Judgement.h"
#include "core/check/OffRun.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace earwright {

namespace {

/// The claims with those of a run as they would be right.
std::vector<Claim> putRight(std::vector<Claim> claims, const std::vector<Claim>& laid, const OffRun& run) {
    for (std::size_t k = 0; k < run.claims.size(); ++k) {
        const Claim& written = laid[run.claims[k]];
        Claim& claim = claims[run.claims[k]];
        claim = written;
        claim.midi += run.semitones;
        if (run.semitones == 0) claim.range = written.range.shifted(run.begins[k] - written.range.begin);
    }
    return claims;
}

/// A run's claims as they would be right, each with its place among all.
struct Otherwise {
    ClaimContext context;
    std::vector<ClaimAnswer> answers;
    std::vector<std::size_t> placeOf;
};

Otherwise judgedOtherwise(const PassageEvidence& evidence, const JudgedClaims& judged,
                          const std::vector<Claim>& laid, const OffRun& run) {
    const std::vector<Claim> right = putRight(judged.context.claims, laid, run);
    const std::vector<std::size_t> order = judgedInOrder(right);
    ClaimContext context = contextOf(evidence, inOrder(right, order), judged.context.colour);
    std::vector<ClaimAnswer> answers = answersIn(context);
    std::vector<std::size_t> placeOf(right.size());
    for (std::size_t k = 0; k < order.size(); ++k)
        placeOf[order[k]] = k;
    return {std::move(context), std::move(answers), std::move(placeOf)};
}

bool isRight(const Otherwise& otherwise, std::size_t claim) {
    return otherwise.answers[otherwise.placeOf[claim]].verdict == Verdict::Supported;
}

/// Without what is not right otherwise either at its edges.
OffRun trimmed(OffRun run, const Otherwise& otherwise) {
    while (!run.claims.empty() && !isRight(otherwise, run.claims.back())) {
        run.claims.pop_back();
        run.begins.pop_back();
    }
    while (!run.claims.empty() && !isRight(otherwise, run.claims.front())) {
        run.claims.erase(run.claims.begin());
        run.begins.erase(run.begins.begin());
    }
    return run;
}

/// Whether enough of a run is right otherwise.
bool isBorneOut(const Otherwise& otherwise, const OffRun& run) {
    constexpr std::ptrdiff_t fewest = 3;
    constexpr double nearlyAll = 0.75;
    const auto supported =
        std::ranges::count_if(run.claims, [&](std::size_t claim) { return isRight(otherwise, claim); });
    return supported >= fewest &&
           static_cast<double>(supported) >= nearlyAll * static_cast<double>(run.claims.size());
}

OffTogether togetherOf(const OffRun& run, const std::vector<Claim>& laid) {
    Range<Seconds> whole = laid[run.claims.front()].range;
    for (const std::size_t claim : run.claims)
        whole.end = std::max(whole.end, laid[claim].range.end);
    return {whole, static_cast<int>(run.claims.size()), run.semitones == 0 ? run.later : Seconds(0),
            std::nullopt, run.semitones};
}

/// What is said of a run's claim that is not supported as it stands.
void tell(ClaimAnswer& answer, const OffRun& run, Seconds begins, const Claim& written, double score) {
    if (run.semitones == 0) {
        answer.suggestedMidi.reset();
        answer.suggestedScore = 0;
        answer.nothingBegins = true;
        answer.beginsAt = begins;
        return;
    }
    answer.suggestedMidi = written.midi + run.semitones;
    answer.suggestedScore = score;
    answer.nothingBegins = false;
    answer.beginsAt.reset();
}

void take(const Otherwise& otherwise, const OffRun& run, const std::vector<Claim>& laid,
          JudgedClaims& judged) {
    const OffTogether together = togetherOf(run, laid);
    for (std::size_t k = 0; k < run.claims.size(); ++k) {
        const std::size_t i = run.claims[k];
        const std::size_t there = otherwise.placeOf[i];
        ClaimAnswer& answer = judged.answers[i];
        answer.together = together;
        if (answer.verdict != Verdict::Supported)
            tell(answer, run, run.begins[k], laid[i], otherwise.answers[there].score);
        judged.context.take(i, otherwise.context, there);
    }
}

} // namespace

void judgeOffRuns(const PassageEvidence& evidence, const std::vector<Claim>& laid, JudgedClaims& judged) {
    std::vector<bool> barred(laid.size());
    while (const auto found = offRunIn(judged.context, laid, judged.answers, barred)) {
        const Otherwise otherwise = judgedOtherwise(evidence, judged, laid, *found);
        const OffRun run = trimmed(*found, otherwise);
        const bool isTaken = isBorneOut(otherwise, run) && isConvincing(run, laid, judged.answers);
        if (isTaken) take(otherwise, run, laid, judged);
        // What was not borne out is not asked about again.
        for (const std::size_t claim : isTaken ? run.claims : found->claims)
            barred[claim] = true;
    }
}

} // namespace earwright
