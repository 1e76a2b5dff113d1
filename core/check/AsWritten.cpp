#include "core/check/AsWritten.h"

#include "core/listening/Passages.h"
#include "core/listening/SpanListener.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <optional>

namespace earwright {

namespace {

constexpr std::size_t enoughClaims = 4;
/// Neighbours lie in one passage, which is read once.
constexpr std::size_t neighbours = 8;
constexpr std::size_t groups = 4;

std::vector<Claim> claimsOf(const Study& study) {
    std::vector<Claim> claims;
    if (!study.beatMap.hasTempo()) return claims;
    for (const Note& note : study.notes)
        claims.push_back({playedTime(study, note.range()), note.pitch.midi});
    return claims;
}

/// Claims that can be heard at both readings.
std::vector<Claim> heardEitherWay(const std::vector<Claim>& claims) {
    std::vector<Claim> kept;
    std::copy_if(claims.begin(), claims.end(), std::back_inserter(kept), [](const Claim& claim) {
        return claim.midi > lowestHeardMidi && claim.midi < highestHeardMidi;
    });
    return kept;
}

std::vector<Range<Seconds>> placesOf(const std::vector<Claim>& claims) {
    std::vector<Range<Seconds>> places;
    for (const Claim& claim : claims)
        places.push_back(claim.range);
    return places;
}

/// How well claims are borne out in each view, as a sum of log probabilities, as written and the other way.
struct Support {
    std::vector<double> asRead;
    std::vector<double> otherwise;

    explicit Support(std::size_t views) : asRead(views), otherwise(views) {}
    /// In the view that bears out either the most.
    bool speaksForTheOther() const {
        return *std::ranges::max_element(otherwise) > *std::ranges::max_element(asRead);
    }
};

/// Requires: a pitch within hearing.
double heardAs(const PitchRow& row, int midi) {
    // One note that is wrong, or covered, must not outweigh the others.
    constexpr float least = -8;
    return static_cast<double>(std::max(row[static_cast<std::size_t>(midi - lowestHeardMidi)], least));
}

/// Adds what a passage says. `other`: the semitones by which pitches are counted higher where the tuning is
/// read the other way.
void hear(const StereoViews& views, const TuningCurve& tuning, const std::vector<Claim>& claims, int other,
          Support& support) {
    SpanListener listener(views, tuning);
    std::vector<std::size_t> all(views.count());
    std::iota(all.begin(), all.end(), std::size_t{0});
    for (const Claim& claim : claims) {
        const std::vector<HeardSpan> heard = listener.hear(claim.range, all);
        for (std::size_t view = 0; view < std::min(heard.size(), support.asRead.size()); ++view) {
            support.asRead[view] += heardAs(heard[view].row, claim.midi);
            support.otherwise[view] += heardAs(heard[view].row, claim.midi + other);
        }
    }
}

} // namespace

std::vector<Claim> claimsAsked(const std::vector<Claim>& claims) {
    std::vector<Claim> heard = heardEitherWay(claims);
    std::stable_sort(heard.begin(), heard.end(), [](const Claim& one, const Claim& other) {
        return one.range.begin < other.range.begin;
    });
    if (heard.size() <= groups * neighbours) return heard;
    const std::size_t last = heard.size() - neighbours;
    std::vector<Claim> some;
    for (std::size_t group = 0; group < groups; ++group) {
        const auto first = heard.begin() + static_cast<std::ptrdiff_t>(group * last / (groups - 1));
        some.insert(some.end(), first, first + neighbours);
    }
    return some;
}

bool tellsItsReading(const Study& study) {
    return heardEitherWay(claimsOf(study)).size() >= enoughClaims;
}

double otherReading(const TuningCurve& tuning, const std::vector<Range<Seconds>>& places) {
    constexpr double eitherWay = 35;
    if (places.empty()) return 0;
    double sum = 0;
    for (const Range<Seconds>& place : places)
        sum += tuning.centsAt(place.begin);
    const double cents = sum / static_cast<double>(places.size());
    return std::abs(cents) < eitherWay ? 0 : std::copysign(100, -cents);
}

Result<RecordingEvidence> asWritten(const std::vector<Claim>& claims, const RecordingEvidence& recording,
                                    std::stop_token stop) {
    const std::vector<Claim> asked = claimsAsked(claims);
    if (asked.size() < enoughClaims) return recording;
    const TuningCurve& tuning = recording.tuningCurve();
    const double cents = otherReading(tuning, placesOf(asked));
    if (cents == 0) return recording;
    // Read 45 cents sharp, a recording that is 55 flat sounds a semitone lower than it is written.
    const int other = cents < 0 ? -1 : 1;
    std::optional<Support> support;
    for (const Passage& passage : passagesOf(placesOf(asked), recording.duration())) {
        const auto views = recording.views(passage.range, stop);
        if (!views) return views.error();
        std::vector<Claim> members;
        for (const std::size_t index : passage.members)
            members.push_back(asked[index]);
        if (!support) support.emplace(views->count());
        hear(*views, tuning, members, other, *support);
    }
    return support && support->speaksForTheOther() ? recording.tuned(tuning.moved(cents)) : recording;
}

Result<RecordingEvidence> asWritten(const Study& study, const RecordingEvidence& recording,
                                    std::stop_token stop) {
    return asWritten(claimsOf(study), recording, stop);
}

} // namespace earwright
