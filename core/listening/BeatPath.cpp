#include "core/listening/BeatPath.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace earwright {

namespace {

/// The beat itself is this part of its length; what begins elsewhere speaks against the path.
constexpr double beatPart = 1.0 / 10;
/// How dear a change of tempo is from one beat to the next (Krebs et al. have 100).
constexpr double tempoChange = 100;
constexpr double tapWeight = 9;
constexpr double tapFrames = 4;
constexpr double usualSpread = 0.4;

/// All states of one beat length: how far into the beat, newest first place moving round a ring, so that
/// nothing has to be copied from frame to frame.
struct Length {
    int frames = 0;
    std::vector<double> scores;
    std::size_t head = 0;
    double& first() { return scores[head]; }
    double lastPlace() const { return scores[(head + scores.size() - 1) % scores.size()]; }
};

class Search {
public:
    Search(const BeatActivation& heard, const BeatPathWish& wanted)
        : activation(heard), wish(wanted), from(heard.size()) {
        for (int frames = wish.shortest; frames <= wish.longest; ++frames) {
            lengths.push_back({frames, std::vector<double>(static_cast<std::size_t>(frames)), 0});
            double prior = 0;
            if (wish.usualLength > 0) {
                const double octaves = std::log2(frames / wish.usualLength);
                prior = -0.5 * octaves * octaves / (usualSpread * usualSpread);
            }
            // Every place of a beat alike: longer beats have more places.
            std::fill(lengths.back().scores.begin(), lengths.back().scores.end(), prior - std::log(frames));
        }
    }

    Result<BeatPath> run(const std::stop_token& stop) {
        for (std::size_t frame = 0; frame < activation.size(); ++frame) {
            if (stop.stop_requested()) return Error{ErrorKind::Cancelled, "Listening was stopped.", ""};
            step(frame);
        }
        return walkBack();
    }

private:
    void step(std::size_t frame) {
        std::vector<double> leaving(lengths.size());
        for (std::size_t i = 0; i < lengths.size(); ++i)
            leaving[i] = lengths[i].lastPlace();
        const double strength = std::clamp(static_cast<double>(activation.all[frame]), 0.01, 0.95);
        const double beat = std::log(strength) + tapBonus(frame);
        const double between = std::log((1 - strength) * beatPart / (1 - beatPart));
        paidByAll += between;
        from[frame].resize(lengths.size());
        for (std::size_t i = 0; i < lengths.size(); ++i) {
            const auto [best, before] = bestBefore(i, leaving);
            from[frame][i] = static_cast<std::uint8_t>(before);
            Length& length = lengths[i];
            length.head = (length.head + length.scores.size() - 1) % length.scores.size();
            length.first() = best;
            const auto beatFrames =
                std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(length.frames * beatPart)));
            // All places pay for what begins between beats; so only those of the beat itself are touched.
            for (std::size_t place = 0; place < beatFrames; ++place)
                length.scores[(length.head + place) % length.scores.size()] += beat - between;
        }
    }

    std::pair<double, std::size_t> bestBefore(std::size_t to, const std::vector<double>& leaving) const {
        // A tempo jumps by a fifth at most from one beat to the next.
        const int frames = lengths[to].frames;
        const int reach = std::max(1, frames / 5);
        const std::size_t low =
            static_cast<std::size_t>(std::max(wish.shortest, frames - reach) - wish.shortest);
        const std::size_t high =
            static_cast<std::size_t>(std::min(wish.longest, frames + reach) - wish.shortest);
        double best = -std::numeric_limits<double>::infinity();
        std::size_t before = to;
        for (std::size_t i = low; i <= high; ++i) {
            const double change = std::abs(static_cast<double>(frames) / lengths[i].frames - 1);
            const double score = leaving[i] - tempoChange * change;
            if (score > best) {
                best = score;
                before = i;
            }
        }
        return {best, before};
    }

    double tapBonus(std::size_t frame) const {
        double bonus = 0;
        for (const double tap : wish.taps) {
            const double apart = (static_cast<double>(frame) - tap) / tapFrames;
            bonus = std::max(bonus, tapWeight * std::exp(-0.5 * apart * apart));
        }
        return bonus;
    }

    BeatPath walkBack() {
        BeatPath path;
        path.score = -std::numeric_limits<double>::infinity();
        std::size_t length = 0;
        std::size_t place = 0;
        for (std::size_t i = 0; i < lengths.size(); ++i)
            for (std::size_t at = 0; at < lengths[i].scores.size(); ++at) {
                const double score = lengths[i].scores[(lengths[i].head + at) % lengths[i].scores.size()];
                if (score <= path.score) continue;
                path.score = score;
                length = i;
                place = at;
            }
        auto frame = static_cast<std::int64_t>(activation.size()) - 1 - static_cast<std::int64_t>(place);
        while (frame >= 0) {
            path.beats.push_back(static_cast<int>(frame));
            length = from[static_cast<std::size_t>(frame)][length];
            frame -= lengths[length].frames;
        }
        std::reverse(path.beats.begin(), path.beats.end());
        path.score += paidByAll;
        return path;
    }

    const BeatActivation& activation;
    const BeatPathWish& wish;
    std::vector<Length> lengths;
    double paidByAll = 0;
    /// By frame and length: the length before, of a path that begins a beat of that length there.
    std::vector<std::vector<std::uint8_t>> from;
};

} // namespace

Result<BeatPath> likeliestPath(const BeatActivation& heard, const BeatPathWish& wish, std::stop_token stop) {
    if (heard.size() == 0) return BeatPath{};
    return Search(heard, wish).run(stop);
}

} // namespace earwright
