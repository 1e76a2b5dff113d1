#include "core/engine/Lead.h"

#include <algorithm>
#include <cmath>

namespace earwright {

namespace {

/// Part of a beat by which a place may lie behind one and still is taken as being on it.
constexpr double onBeat = 0.125;
/// Rounding to frames may put a place that is on a beat this much before it, in frames.
constexpr double roundingFrames = 1.5;

/// The beats around a place, continued evenly where the list has none.
class BeatsAround {
public:
    BeatsAround(const BeatList& beats, double place, SampleRate rate) : list(*beats) {
        if (list.size() < 2) {
            frames = Lead::usualBeatSeconds * rate.hertz;
            return;
        }
        const auto count = static_cast<std::int64_t>(list.size());
        const auto after =
            std::upper_bound(list.begin(), list.end(), place, [](double at, const BeatPlace& beat) {
                return at < static_cast<double>(beat.at.value);
            });
        const std::int64_t stretch = std::clamp<std::int64_t>(after - list.begin() - 1, 0, count - 2);
        frames = at(stretch + 1) - at(stretch);
        const double along = (place - at(stretch)) / frames;
        // One frame before a beat is on it.
        const double whole = std::floor(along + roundingFrames / frames);
        index = stretch + static_cast<std::int64_t>(whole);
        since = std::max(0.0, along - whole);
    }

    /// Frames from beat to beat.
    double length() const { return frames; }
    /// Beats since the beat that the place lies on or behind, 0 to 1.
    double sinceBeat() const { return since; }
    /// Whether the beat so many beats on from that one opens a bar.
    bool opensBar(std::int64_t beatsOn) const {
        const auto count = static_cast<std::int64_t>(list.size());
        const std::int64_t wanted = index + beatsOn;
        if (count < 2) return false;
        if (wanted >= 0 && wanted < count) return list[static_cast<std::size_t>(wanted)].opensBar;
        return wanted < 0 ? continuesBars(wanted, 0, 1) : continuesBars(wanted, count - 1, -1);
    }

private:
    double at(std::int64_t beat) const {
        return static_cast<double>(list[static_cast<std::size_t>(beat)].at.value);
    }
    /// Bars as long as the two openings nearest to one end say.
    bool continuesBars(std::int64_t wanted, std::int64_t from, std::int64_t step) const {
        const auto count = static_cast<std::int64_t>(list.size());
        std::int64_t openings[2] = {-1, -1};
        int found = 0;
        for (std::int64_t i = from; i >= 0 && i < count && found < 2; i += step)
            if (list[static_cast<std::size_t>(i)].opensBar) openings[found++] = i;
        if (found < 2) return false;
        return (wanted - openings[0]) % (openings[1] - openings[0]) == 0;
    }

    const std::vector<BeatPlace>& list;
    double frames = 0;
    double since = 0;
    std::int64_t index = 0;
};

} // namespace

BeatList beatListOf(std::vector<BeatPlace> beats) {
    const auto earlier = [](const BeatPlace& a, const BeatPlace& b) { return a.at < b.at; };
    const auto same = [](const BeatPlace& a, const BeatPlace& b) { return a.at == b.at; };
    std::stable_sort(beats.begin(), beats.end(), earlier);
    beats.erase(std::unique(beats.begin(), beats.end(), same), beats.end());
    return std::make_shared<const std::vector<BeatPlace>>(std::move(beats));
}

Lead Lead::rest(double left, double stretch) const {
    Lead cut = *this;
    cut.seconds = std::clamp(left, 0.0, seconds) * stretch;
    cut.beatSeconds *= stretch;
    std::erase_if(cut.clicks, [left](const LeadClick& click) { return click.before > left; });
    for (LeadClick& click : cut.clicks)
        click.before *= stretch;
    return cut;
}

Lead Lead::gap(const BeatList& beats, Frames loopEnd, int count, SampleRate rate, double speed) {
    Lead lead;
    if (count <= 0) return lead;
    const auto end = static_cast<double>(loopEnd.value);
    const BeatsAround before(beats, end - 1 - roundingFrames, rate);
    const BeatsAround here(beats, end, rate);
    lead.stage = Stage::Gap;
    lead.beatSeconds = before.length() / rate.hertz / speed;
    lead.seconds = count * lead.beatSeconds;
    const bool isOnBeat = here.sinceBeat() * here.length() <= roundingFrames;
    const double first = isOnBeat ? 0.0 : 1.0 - here.sinceBeat();
    for (int i = 0; i < count; ++i)
        lead.clicks.push_back(
            {lead.seconds - (first + i) * lead.beatSeconds, here.opensBar(i + (isOnBeat ? 0 : 1))});
    return lead;
}

Lead Lead::countIn(const BeatList& beats, Frames place, int count, SampleRate rate, double speed) {
    Lead lead;
    if (count <= 0) return lead;
    const BeatsAround here(beats, static_cast<double>(place.value), rate);
    lead.stage = Stage::CountIn;
    lead.beatSeconds = here.length() / rate.hertz / speed;
    const bool isOnBeat = here.sinceBeat() < onBeat;
    lead.seconds = (count + (isOnBeat ? here.sinceBeat() : 0.0)) * lead.beatSeconds;
    for (int i = count; i > 0; --i) {
        const int back = isOnBeat ? i : i - 1;
        lead.clicks.push_back({(back + here.sinceBeat()) * lead.beatSeconds, here.opensBar(-back)});
    }
    return lead;
}

} // namespace earwright
