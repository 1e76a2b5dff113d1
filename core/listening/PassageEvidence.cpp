#include "core/listening/PassageEvidence.h"

#include "core/listening/NoteAttack.h"
#include "core/listening/OnsetListener.h"

#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <numeric>
#include <span>
#include <utility>

namespace earwright {

namespace {

/// The first of all views.
constexpr std::size_t bothSides = 0;

/// Takes a pitch outside the range down by so much that even a loud one gives way to the faintest inside.
void bound(std::span<float> pitches, const LineRange& line) {
    constexpr float ruledOut = 14;
    for (std::size_t pitch = 0; pitch < pitches.size(); ++pitch)
        if (!line.contains(lowestHeardMidi + static_cast<int>(pitch))) pitches[pitch] -= ruledOut;
}

/// In silence all pitches are alike, whatever the range.
PitchRow bounded(PitchRow row, const LineRange& line) {
    const auto [least, most] = std::minmax_element(row.log.begin(), row.log.end());
    if (line.isEverything() || *least == *most) return row;
    bound(row.log, line);
    row.normalise();
    return row;
}

} // namespace

PassageEvidence::PassageEvidence(std::shared_ptr<const StereoViews> stereo, const TuningCurve& tuning,
                                 Range<Seconds> passage, std::vector<OnsetTrack> tracks)
    : views(std::move(stereo)),
      curve(tuning),
      range(passage),
      onsetTracks(std::make_shared<const std::vector<OnsetTrack>>(std::move(tracks))),
      heardSpans(std::make_shared<HeardSpans>()) {}

Result<PassageEvidence> PassageEvidence::listen(const AnalysisSound& sound, const TuningCurve& tuning,
                                                Range<Seconds> passage, std::stop_token stop,
                                                const Progress& progress) {
    auto views = std::make_shared<const StereoViews>(sound, passage);
    std::vector<OnsetTrack> tracks;
    const auto count = static_cast<double>(views->count());
    for (std::size_t view = 0; view < views->count(); ++view) {
        const auto share = [&](double part) {
            if (progress) progress((static_cast<double>(view) + part) / count);
        };
        auto track = listenForOnsets(*views, view, tuning, passage, stop, share);
        if (!track) return track.error();
        tracks.push_back(*std::move(track));
    }
    return PassageEvidence(std::move(views), tuning, passage, std::move(tracks));
}

std::optional<PassageEvidence> PassageEvidence::recalled(const AnalysisSound& sound,
                                                         const TuningCurve& tuning, Range<Seconds> passage,
                                                         std::vector<OnsetTrack> tracks) {
    auto views = std::make_shared<const StereoViews>(sound, passage);
    if (tracks.size() != views->count()) return std::nullopt;
    return PassageEvidence(std::move(views), tuning, passage, std::move(tracks));
}

PassageEvidence PassageEvidence::within(const LineRange& wanted) const {
    if (wanted.isEverything()) return *this;
    PassageEvidence bounded = *this;
    bounded.line = wanted;
    std::vector<OnsetTrack> tracks;
    for (const OnsetTrack& track : *onsetTracks) {
        std::vector<OnsetTrack::Row> rows;
        for (std::size_t place = 0; place < track.size(); ++place) {
            rows.push_back(track[place]);
            bound(std::span(rows.back()).first<pitchCount>(), wanted);
            normaliseLog(rows.back());
        }
        tracks.emplace_back(track.isEmpty() ? Seconds(0) : track.timeOf(0), track.step(), std::move(rows));
    }
    bounded.onsetTracks = std::make_shared<const std::vector<OnsetTrack>>(std::move(tracks));
    return bounded;
}

PassageEvidence PassageEvidence::colouredBy(const LineColour& wanted) const {
    PassageEvidence coloured = *this;
    coloured.colour = wanted;
    return coloured;
}

PassageEvidence PassageEvidence::saidToBe(const HeardPart& part) const {
    PassageEvidence same = *this;
    same.heard = part;
    return same;
}

HeardPart PassageEvidence::partOf(std::size_t index) const {
    constexpr std::array focuses{Focus::All, Focus::Left, Focus::Right, Focus::Centre, Focus::Sides};
    HeardPart part = heard;
    if (part.focus == Focus::All) part.focus = focuses[static_cast<std::size_t>(view(index))];
    return part;
}

double PassageEvidence::riseOf(double hertz, const Range<Seconds>& within) const {
    return steepestRise(*views, bothSides, within, hertz);
}

double PassageEvidence::sagOf(double hertz, Seconds time, const Range<Seconds>& within) const {
    return sagAbout(*views, bothSides, time, within, hertz);
}

std::size_t PassageEvidence::bytes() const {
    std::size_t sum = views->bytes() + HeardSpans::mostBytes();
    for (const OnsetTrack& track : *onsetTracks)
        sum += track.size() * sizeof(OnsetTrack::Row);
    return sum;
}

std::vector<PitchRow> PassageEvidence::spans(std::size_t index,
                                             const std::vector<Range<Seconds>>& asked) const {
    return spans(std::vector<std::size_t>{index}, asked).front();
}

std::vector<std::vector<PitchRow>> PassageEvidence::spans(const std::vector<std::size_t>& asked,
                                                          const std::vector<Range<Seconds>>& over) const {
    std::vector<std::vector<PitchRow>> rows;
    for (const auto& view : heardIn(asked, over)) {
        rows.emplace_back();
        for (const std::shared_ptr<const HeardSpan>& span : view)
            rows.back().push_back(rowOf(*span));
    }
    return rows;
}

PitchRow PassageEvidence::rowOf(const HeardSpan& span) const {
    PitchRow row = span.row;
    if (!colour.isPlain()) {
        const PitchRow added = colour.addsTo(span.levels);
        std::ranges::transform(row.log, added.log, row.log.begin(), std::plus<>());
        row.normalise();
    }
    return bounded(row, line);
}

std::vector<std::vector<std::shared_ptr<const HeardSpan>>>
PassageEvidence::heardIn(const std::vector<std::size_t>& asked,
                         const std::vector<Range<Seconds>>& over) const {
    std::vector<std::vector<std::shared_ptr<const HeardSpan>>> all(
        asked.size(), std::vector<std::shared_ptr<const HeardSpan>>(over.size()));
    std::vector<Range<Seconds>> unheard;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < over.size(); ++i) {
        for (std::size_t view = 0; view < asked.size(); ++view) {
            all[view][i] = heardSpans->find(asked[view], over[i]);
            if (all[view][i]) continue;
            unheard.push_back(over[i]);
            places.push_back(i);
            break;
        }
    }
    if (unheard.empty()) return all;
    const HearingAhead::Heard fresh = HearingAhead(views, curve, heardSpans, unheard, asked).finish();
    for (std::size_t i = 0; i < unheard.size(); ++i)
        for (std::size_t view = 0; view < asked.size(); ++view)
            all[view][places[i]] = fresh[i][view];
    return all;
}

HearingAhead PassageEvidence::hearAhead(std::size_t index, const std::vector<Range<Seconds>>& over) const {
    std::vector<Range<Seconds>> unheard;
    std::ranges::copy_if(over, std::back_inserter(unheard),
                         [&](const Range<Seconds>& span) { return !heardSpans->find(index, span); });
    return HearingAhead(views, curve, heardSpans, std::move(unheard), {index});
}

std::vector<std::shared_ptr<const HeardSpan>>
PassageEvidence::heardBy(std::size_t index, const std::vector<Range<Seconds>>& over) const {
    return std::move(heardIn({index}, over).front());
}

std::vector<std::vector<PitchRow>> PassageEvidence::allSpans(const std::vector<Range<Seconds>>& over) const {
    std::vector<std::size_t> all(viewCount());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return spans(all, over);
}

} // namespace earwright
