#include "core/check/OffRun.h"

#include "core/listening/Median.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace earwright {

namespace {

/// What is asked of a run.
struct Demand {
    /// How far its notes may lie from one distance.
    Seconds scatter;
    /// What its notes must weigh together.
    double weight;
    /// The doubtful notes among them whose onsets must be heard.
    std::size_t heard;
};

/// As a player's timing scatters them.
constexpr Demand close{Seconds(0.060), 2.5, 3};
/// As swung eighths lie that are moved by one: from on the beat to off it and back. More may meet by chance
/// then, so that more of them are asked for.
constexpr Demand swung{Seconds(0.090), 3.5, 5};

/// So near to a claim's place an onset is its own.
constexpr Seconds sameOnset{0.060};

/// One way in which claims could be off.
struct Way {
    Seconds later{0};
    int semitones = 0;
};

std::vector<Way> allWays(Seconds step) {
    // Laid back notes are nearer; a beat of a slow tune is not much longer.
    constexpr Seconds nearest{0.090};
    constexpr Seconds farthest{1.050};
    std::vector<Way> ways{{Seconds(0), 12}, {Seconds(0), -12}};
    for (Seconds later = nearest; later <= farthest; later += step) {
        ways.push_back({later, 0});
        ways.push_back({Seconds(0) - later, 0});
    }
    return ways;
}

/// What a claim weighs in a run that is off in some way, and where it begins there.
struct Met {
    double weight = 0;
    std::optional<Seconds> begins;
};

/// The part of a list that weighs most.
struct Stretch {
    std::size_t first = 0;
    std::size_t end = 0;
    double weight = 0;
};

template <class WeightOf>
Stretch heaviest(std::size_t count, WeightOf weightOf) {
    Stretch best, now;
    for (std::size_t i = 0; i < count; ++i) {
        if (now.weight <= 0) now = {i, i, 0};
        now.weight += weightOf(i);
        now.end = i + 1;
        if (now.weight > best.weight) best = now;
    }
    return best;
}

class RunSearch {
public:
    RunSearch(const ClaimContext& all, const std::vector<Claim>& written,
              const std::vector<ClaimAnswer>& given, const std::vector<bool>& out, const Demand& asked)
        : context(all), laid(written), answers(given), barred(out), demand(asked) {}

    /// Whether enough is in doubt for a run at all.
    bool mayBeAny() const {
        const auto weight = [&](std::size_t i) { return isDoubtful(i) ? 1.0 : stands; };
        return heaviest(laid.size(), weight).weight >= demand.weight;
    }

    std::optional<OffRun> strongest() const {
        std::optional<OffRun> best;
        double most = 0;
        for (const Way& way : allWays(context.onsets.step())) {
            const std::vector<Met> met = meet(way);
            const Stretch found = heaviest(met.size(), [&](std::size_t i) { return met[i].weight; });
            if (found.weight < demand.weight || found.weight <= most) continue;
            auto run = runOf(withDoubtfulEdges(found), met, way);
            if (!run) continue;
            best = std::move(run);
            most = found.weight;
        }
        return best;
    }

private:
    /// What a supported claim weighs that does not sound so, and a doubtful one. A run that is moved by more
    /// than a note is long stands among notes that are right.
    static constexpr double stands = -0.5;
    static constexpr double missing = -0.6;

    bool isDoubtful(std::size_t claim) const {
        return answers[claim].verdict != Verdict::Supported && !barred[claim];
    }

    /// Whether it is the onset by which a claim is supported where it stands.
    bool isOwn(std::size_t claim, int midi, Seconds time) const {
        const Claim& own = context.claims[claim];
        return answers[claim].verdict == Verdict::Supported && own.midi == midi &&
               std::abs((own.range.begin - time).value) < sameOnset.value;
    }

    /// The onset of a claim's pitch if it is off in a way.
    std::optional<Seconds> onsetIn(const Way& way, std::size_t claim) const {
        constexpr float heardAbove = -2.5f;
        const int midi = laid[claim].midi + way.semitones;
        if (midi < lowestHeardMidi || midi > highestHeardMidi) return std::nullopt;
        const Seconds place = laid[claim].range.begin + way.later;
        const auto onset = context.onsets.strongest(static_cast<std::size_t>(midi - lowestHeardMidi),
                                                    {place - demand.scatter, place + demand.scatter});
        if (!onset || onset->log <= heardAbove || isOwn(claim, midi, onset->time)) return std::nullopt;
        return onset->time;
    }

    /// The top of an onset of which a search may have met the flank.
    Seconds topOf(int midi, Seconds met) const {
        constexpr std::size_t reach = 8;
        const auto pitch = static_cast<std::size_t>(midi - lowestHeardMidi);
        const OnsetTrack& onsets = context.onsets;
        std::size_t place = onsets.nearest(met);
        for (std::size_t step = 0; step < reach; ++step) {
            const std::size_t next = std::min(place + 1, onsets.size() - 1), before = place - (place > 0);
            const std::size_t higher = onsets[next][pitch] > onsets[before][pitch] ? next : before;
            if (onsets[higher][pitch] <= onsets[place][pitch]) break;
            place = higher;
        }
        return onsets.timeOf(place);
    }

    /// Whether another supported claim is what begins there, one that is not off in the same way itself.
    bool isAccountedFor(int midi, Seconds time, const std::vector<std::optional<Seconds>>& onsets) const {
        for (std::size_t i = 0; i < laid.size(); ++i)
            if ((!onsets[i] || barred[i]) && isOwn(i, midi, time)) return true;
        return false;
    }

    std::vector<Met> meet(const Way& way) const {
        // Of two ways the one counts that the onsets lie nearer to.
        constexpr double aside = 0.3;
        std::vector<std::optional<Seconds>> onsets;
        for (std::size_t i = 0; i < laid.size(); ++i)
            onsets.push_back(onsetIn(way, i));
        std::vector<Met> met;
        for (std::size_t i = 0; i < laid.size(); ++i) {
            const bool doubtful = isDoubtful(i);
            const Seconds place = laid[i].range.begin + way.later;
            // What is right sounds with its octave, too.
            const bool isOvertone = way.semitones != 0 && !doubtful;
            if (!onsets[i] || barred[i] || isOvertone)
                met.push_back({doubtful ? missing : stands, std::nullopt});
            else if (isAccountedFor(laid[i].midi + way.semitones, *onsets[i], onsets))
                met.push_back({doubtful ? 0 : stands, std::nullopt});
            else if (doubtful)
                met.push_back({1 - aside * std::abs(ratio(*onsets[i] - place, demand.scatter)), onsets[i]});
            else
                met.push_back({0, onsets[i]});
        }
        return met;
    }

    /// What is doubtful beside a run may be of it, though its onset is not heard.
    Stretch withDoubtfulEdges(Stretch stretch) const {
        if (stretch.first > 0 && isDoubtful(stretch.first - 1)) --stretch.first;
        if (stretch.end < laid.size() && isDoubtful(stretch.end)) ++stretch.end;
        return stretch;
    }

    /// Nothing where too few of its doubtful claims are heard, too many others stand among them, or the run
    /// is not convincing.
    std::optional<OffRun> runOf(const Stretch& stretch, std::vector<Met> met, const Way& way) const {
        OffRun run{{}, way.later, way.semitones, {}};
        std::vector<double> distances;
        std::size_t heard = 0;
        std::size_t doubtful = 0;
        for (std::size_t i = stretch.first; i < stretch.end; ++i) {
            if (isDoubtful(i)) ++doubtful;
            if (met[i].begins || isDoubtful(i)) run.claims.push_back(i);
            if (!met[i].begins) continue;
            met[i].begins = topOf(laid[i].midi + way.semitones, *met[i].begins);
            distances.push_back((*met[i].begins - laid[i].range.begin).value);
            if (isDoubtful(i)) ++heard;
        }
        // A trill meets itself at many distances, and most of it is right where it stands.
        const std::size_t others = stretch.end - stretch.first - doubtful;
        if (heard < demand.heard || 2 * others > heard) return std::nullopt;
        const Seconds middle(medianOf(std::move(distances)));
        if (way.semitones == 0) run.later = middle;
        run.begins = beginsInOrder(run.claims, met, middle);
        return isConvincing(run, laid, answers) ? std::optional(std::move(run)) : std::nullopt;
    }

    /// Where the claims of a run begin; one whose onset is not heard, or heard before the one before it, as
    /// far from its place as the others.
    std::vector<Seconds> beginsInOrder(const std::vector<std::size_t>& claims, const std::vector<Met>& met,
                                       Seconds middle) const {
        // Onsets are told to 10 ms.
        constexpr Seconds apart{0.010};
        std::vector<Seconds> all;
        for (std::size_t k = 0; k < claims.size(); ++k) {
            const Seconds place = laid[claims[k]].range.begin;
            Seconds begins = met[claims[k]].begins.value_or(place + middle);
            if (k > 0 && place - laid[claims[k - 1]].range.begin > apart && begins <= all.back())
                begins = std::max(place + middle, all.back() + apart);
            all.push_back(begins);
        }
        return all;
    }

    const ClaimContext& context;
    const std::vector<Claim>& laid;
    const std::vector<ClaimAnswer>& answers;
    const std::vector<bool>& barred;
    const Demand& demand;
};

} // namespace

bool isConvincing(const OffRun& run, const std::vector<Claim>& laid,
                  const std::vector<ClaimAnswer>& answers) {
    constexpr std::size_t fewest = 3;
    constexpr std::size_t surelyMany = 5;
    constexpr std::size_t leastPitches = 3;
    constexpr Seconds nearby{0.045};
    const bool isMoved = run.semitones == 0;
    std::set<int> pitches;
    std::size_t doubtful = 0;
    std::size_t contradicted = 0;
    bool areNear = true;
    for (std::size_t k = 0; k < run.claims.size(); ++k) {
        const std::size_t claim = run.claims[k];
        if (answers[claim].verdict == Verdict::Supported) continue;
        ++doubtful;
        pitches.insert(laid[claim].midi);
        if (answers[claim].verdict == Verdict::Contradicted) ++contradicted;
        const Seconds from = laid[claim].range.begin + run.later;
        if (isMoved && std::abs((run.begins[k] - from).value) > nearby.value) areNear = false;
    }
    // What is repeated meets itself at many distances.
    if (doubtful < fewest || (isMoved && pitches.size() < leastPitches)) return false;
    // A few notes that are only unclear may be right where they stand, and their pitches near by as well.
    return doubtful >= surelyMany || (2 * contradicted >= doubtful && areNear);
}

std::optional<OffRun> offRunIn(const ClaimContext& context, const std::vector<Claim>& laid,
                               const std::vector<ClaimAnswer>& answers, const std::vector<bool>& barred) {
    if (context.onsets.isEmpty()) return std::nullopt;
    for (const Demand* demand : {&close, &swung}) {
        const RunSearch search(context, laid, answers, barred, *demand);
        if (!search.mayBeAny()) continue;
        if (auto run = search.strongest()) return run;
    }
    return std::nullopt;
}

} // namespace earwright
