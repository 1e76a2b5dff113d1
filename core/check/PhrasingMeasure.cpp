#include "core/check/PhrasingMeasure.h"

#include "core/check/PhrasingQuestions.h"
#include "core/listening/AttackFeatures.h"
#include "core/listening/LineLevel.h"
#include "core/listening/Median.h"
#include "core/listening/Passages.h"
#include "core/listening/SlurChance.h"
#include "core/music/Pitch.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace earwright {

namespace {

constexpr Seconds lead{0.12};
constexpr Seconds tail{0.05};
constexpr Seconds shortest{0.03};

/// Measures the claims of a passage in order of time.
class PassageMeasure {
public:
    PassageMeasure(const StereoViews& stereo, const TuningCurve& curve, std::vector<PhrasingClaim> sorted)
        : views(stereo), tuning(curve), claims(std::move(sorted)), playing(claims.size()) {}

    std::vector<NotePlaying> measured() {
        if (claims.empty()) return {};
        view = clearestView(views, tuning, claims);
        questions = attackQuestions(tuning, claims);
        for (const AttackQuestion& question : questions)
            attacks.push_back(attackOf(views, view, question));
        for (std::size_t i = 0; i < claims.size(); ++i)
            begin(i);
        for (std::size_t i = 0; i < claims.size(); ++i) {
            followPitch(i);
            playing[i].loudnessDb = againstNeighbours(i);
        }
        return std::move(playing);
    }

private:
    double centsAt(std::size_t i) const { return tuning.centsAt(claims[i].range.begin); }

    void begin(std::size_t i) {
        constexpr double leastSteepness = 0.2;
        const PhrasingClaim& claim = claims[i];
        NotePlaying& note = playing[i];
        note.begins = attacks[i].steepness >= leastSteepness;
        note.heard = note.begins ? claim.range.shifted(attacks[i].onset - claim.range.begin) : claim.range;
        note.behind = note.heard.begin - claim.range.begin;
        if (note.begins && mayBeSlurred(claims, i))
            note.slurChance =
                slurChance(attackFeatures(views, view, questions[i], attacks[i]), claim.character);
    }

    Seconds latestEnd(std::size_t i) const {
        constexpr Seconds longestAfter{0.3};
        const Seconds earliest = playing[i].heard.begin + shortest;
        const Seconds latest = std::max(playing[i].heard.end, earliest) + longestAfter;
        if (i + 1 == claims.size()) return latest;
        return std::max(std::min(latest, playing[i + 1].heard.begin), earliest);
    }

    double tracedHertz(const PitchTrace& trace, std::size_t i, Seconds time) const {
        const auto& points = trace.points();
        if (points.empty()) return hertzOf(claims[i].midi + centsAt(i) / 100);
        const auto nearest = std::llround(ratio(time - points.front().time, PitchTrace::step));
        const auto index = std::clamp<std::int64_t>(nearest, 0, std::ssize(points) - 1);
        return hertzOf(points[static_cast<std::size_t>(index)].midi + centsAt(i) / 100);
    }

    /// Where its partials have sunk by 15 dB, at the latest where the next note begins. They are sought where
    /// the pitch has gone: a bend or a trill leaves the written one long before it ends.
    Seconds endOf(const PitchTrace& trace, std::size_t i, Seconds latest) const {
        constexpr double gone = 0.18;
        const Seconds start = playing[i].heard.begin;
        const LineLevel level = levelAlong(views, view, {start, latest},
                                           [&](Seconds time) { return tracedHertz(trace, i, time); });
        double loudest = 0;
        for (std::size_t k = 0; k < level.values.size(); ++k) {
            loudest = std::max(loudest, level.values[k]);
            const Seconds time = level.timeOf(k);
            if (time < start + shortest || level.values[k] > gone * loudest) continue;
            const std::vector<double> next = level.within({time, time + Seconds(0.025)});
            if (*std::max_element(next.begin(), next.end()) <= gone * loudest) return time;
        }
        return latest;
    }

    void followPitch(std::size_t i) {
        NotePlaying& note = playing[i];
        const Seconds latest = latestEnd(i);
        const PitchTrace trace =
            PitchTrace::of(views, view, centsAt(i), {note.heard.begin - lead, latest + tail}, claims[i].midi);
        note.heard.end = endOf(trace, i, latest);
        note.pitch = featuresOf(trace, note.heard, claims[i].midi);
        note.passingMidi = passing(trace, note.heard.begin, claims[i].midi);
        note.contour = contourOf(trace, claims[i].midi);
        note.toNext = wayOn(i);
        note.isFollowed = i + 1 < claims.size() && followsOn(claims, i + 1);
        note.isSlidTo = i > 0 && surelySlides(playing[i - 1].toNext);
    }

    /// Traced anew about the middle between the two notes, so that both are within reach.
    std::optional<WayToNext> wayOn(std::size_t i) const {
        constexpr int farthest = 8;
        constexpr Seconds before{0.16}, after{0.06};
        if (i + 1 == claims.size() || !followsOn(claims, i + 1)) return std::nullopt;
        const int semitones = claims[i + 1].midi - claims[i].midi;
        if (semitones == 0 || std::abs(semitones) > farthest) return std::nullopt;
        const Range<Seconds>& next = playing[i + 1].heard;
        const Seconds written = claims[i + 1].range.begin;
        const Seconds from = std::max(std::min(next.begin, written) - before, playing[i].heard.begin);
        const Range<Seconds> around{from, std::max(next.begin, written) + after};
        const double middle = claims[i].midi + 0.5 * semitones;
        return wayToNext(contourOf(PitchTrace::of(views, view, centsAt(i), around, middle), claims[i].midi),
                         semitones);
    }

    static std::vector<int> passing(const PitchTrace& trace, Seconds onset, int own) {
        constexpr int held = 4;
        std::vector<int> pitches;
        int run = 0, last = own;
        for (const PitchPoint& point : trace.within({onset - lead, onset + lead})) {
            const int midi = static_cast<int>(std::lround(point.midi));
            const bool isClear = point.clarity >= PitchPoint::clearEnough;
            const bool same = midi == last && isClear;
            run = same ? run + 1 : 1;
            last = isClear ? midi : own;
            if (run == held && midi != own && (pitches.empty() || pitches.back() != midi))
                pitches.push_back(midi);
        }
        return pitches;
    }

    std::optional<double> againstNeighbours(std::size_t i) const {
        constexpr Seconds farthest{2};
        constexpr std::size_t each = 4;
        std::vector<double> others;
        const std::size_t first = i > each ? i - each : 0;
        for (std::size_t k = first; k < std::min(claims.size(), i + each + 1); ++k) {
            const double away = (claims[k].range.begin - claims[i].range.begin).value;
            if (k != i && std::abs(away) <= farthest.value) others.push_back(attacks[k].loudness);
        }
        if (others.size() < 2) return std::nullopt;
        return attacks[i].loudness - medianOf(others);
    }

    const StereoViews& views;
    const TuningCurve& tuning;
    std::vector<PhrasingClaim> claims;
    std::vector<NotePlaying> playing;
    std::vector<AttackQuestion> questions;
    std::vector<NoteAttack> attacks;
    std::size_t view = 0;
};

} // namespace

std::vector<NotePlaying> measurePhrasing(const StereoViews& views, const TuningCurve& tuning,
                                         const std::vector<PhrasingClaim>& claims) {
    std::vector<std::size_t> order(claims.size());
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return claims[a].range.begin < claims[b].range.begin;
    });
    std::vector<PhrasingClaim> sorted;
    for (const std::size_t index : order)
        sorted.push_back(claims[index]);
    const auto measured = PassageMeasure(views, tuning, std::move(sorted)).measured();
    std::vector<NotePlaying> answers(claims.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        answers[order[i]] = measured[i];
    return answers;
}

Result<std::vector<NotePlaying>> measurePhrasing(const RecordingEvidence& recording,
                                                 const std::vector<PhrasingClaim>& claims,
                                                 std::stop_token stop, const Progress& progress,
                                                 const HeardPart& part) {
    std::vector<Range<Seconds>> spans;
    for (const PhrasingClaim& claim : claims)
        spans.push_back(claim.range);
    std::vector<NotePlaying> answers(claims.size());
    std::size_t done = 0;
    for (const Passage& passage : passagesOf(spans, recording.duration())) {
        const auto views = recording.views(passage.range, stop, part);
        if (!views) return views.error();
        std::vector<PhrasingClaim> members;
        for (const std::size_t index : passage.members)
            members.push_back(claims[index]);
        const auto measured = measurePhrasing(*views, recording.tuningCurve(), members);
        for (std::size_t i = 0; i < members.size(); ++i)
            answers[passage.members[i]] = measured[i];
        done += members.size();
        if (progress) progress(static_cast<double>(done) / static_cast<double>(claims.size()));
    }
    return answers;
}

} // namespace earwright
