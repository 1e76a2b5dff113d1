#include "core/exchange/ToldSwing.h"

#include "core/exchange/MidiText.h"
#include "core/study/PlayedTime.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <map>
#include <system_error>
#include <utility>

namespace earwright {

namespace {

constexpr const char* opening = "Swing ";
constexpr std::pair<std::string_view, int> noteNames[] = {{":1, eighths", 8}, {":1, sixteenths", 16}};
/// Of a beat; shorter notes than these do not swing.
constexpr std::int64_t finestParts = 64;
/// Else what is meant for another place is taken for one of these by chance.
constexpr double fewestTicks = 16;

std::int64_t partsAt(double tick) {
    std::int64_t parts = 4;
    while (parts < finestParts && tick * static_cast<double>(2 * parts) * fewestTicks <= 1)
        parts *= 2;
    return parts;
}

Study framed(const Study& piece, std::vector<SwingChange> told) {
    Study frame;
    frame.meter = piece.meter;
    frame.page.meters = piece.page.meters;
    frame.page.swings = std::move(told);
    return frame;
}

} // namespace

std::string swingWords(const Swing& swing) {
    // As many digits as a ratio needs to come back, with a point wherever the program runs.
    std::array<char, 32> ratio{};
    const auto [end, problem] = std::to_chars(ratio.data(), ratio.data() + ratio.size(), swing.ratio);
    assert(problem == std::errc());
    return opening + std::string(ratio.data(), end) +
           std::string(noteNames[swing.noteValue == 16 ? 1 : 0].first);
}

std::optional<Swing> swingIn(std::string_view words) {
    if (!words.starts_with(opening)) return std::nullopt;
    words.remove_prefix(std::string_view(opening).size());
    double ratio = 0;
    const auto [end, problem] = std::from_chars(words.data(), words.data() + words.size(), ratio);
    if (problem != std::errc() || !(ratio >= leastSwing && ratio <= mostSwing)) return std::nullopt;
    words.remove_prefix(static_cast<std::size_t>(end - words.data()));
    for (const auto& [name, value] : noteNames)
        if (name == words) return Swing{ratio, value};
    return std::nullopt;
}

std::vector<std::pair<std::int64_t, Swing>> swingsIn(const MidiTracks& file) {
    constexpr std::size_t most = 1'000;
    std::vector<std::pair<std::int64_t, Swing>> found;
    for (const auto& track : file.tracks)
        for (const MidiEvent& event : track)
            if (event.status == 0xFF && event.first == 0x01 && found.size() < most)
                if (const auto swing = swingIn(midiText(event.data))) found.emplace_back(event.tick, *swing);
    if (std::all_of(found.begin(), found.end(), [](const auto& told) { return told.second.isEven(); }))
        return {};
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    return found;
}

ToldSwing::ToldSwing(const Study& piece, std::vector<SwingChange> told, std::int64_t ticksPerQuarter)
    : study(framed(piece, std::move(told))),
      meters(study.meters()),
      tick(study.meter.beatUnit / (4.0 * static_cast<double>(ticksPerQuarter))),
      parts(partsAt(tick)) {}

std::optional<ToldSwing::InPair> ToldSwing::inPair(const Beats& played) const {
    const Swing swing = study.page.swingAt(played);
    if (swing.isEven()) return std::nullopt;
    const Beats length(2 * std::int64_t{study.meter.beatUnit}, swing.noteValue);
    const Beats since = meters.withinBar(played);
    const Beats inPairs = ratio(since, length);
    return InPair{swing, played - since + length * inPairs.floor(), length, inPairs.fraction().toDouble()};
}

bool ToldSwing::isAt(const InPair& place, double share) const {
    return std::abs(place.share - share) * place.length.toDouble() < tick;
}

bool ToldSwing::isTrueOf(const std::vector<ForeignNote>& notes) const {
    const std::set<Beats> inTriplets = triplets(notes);
    std::size_t swung = 0;
    std::size_t others = 0;
    for (const ForeignNote& note : notes) {
        const auto place = inPair(note.begin);
        if (!place || inTriplets.contains(place->begin)) continue;
        if (isAt(*place, place->swing.played(0.5)))
            ++swung;
        else if (isAt(*place, 0.5) || isAt(*place, 2.0 / 3))
            ++others;
    }
    return swung >= others;
}

Beats ToldSwing::written(const Beats& played) const {
    const auto place = inPair(played);
    if (!place) return played;
    const double middle = place->swing.played(0.5);
    // Swing::played() the other way round.
    const double meant =
        place->share < middle ? place->share / middle / 2 : 0.5 + (place->share - middle) / (1 - middle) / 2;
    const Beats there = place->begin + Beats::nearest(meant * place->length.toDouble(), parts);
    return std::abs(playedBeat(study, meters, there) - played.toDouble()) < tick ? there : played;
}

std::set<Beats> ToldSwing::triplets(const std::vector<ForeignNote>& notes) const {
    std::map<Beats, std::vector<InPair>> pairs;
    for (const ForeignNote& note : notes)
        if (const auto place = inPair(note.begin)) pairs[place->begin].push_back(*place);
    const auto has = [&](const Beats& begin, double share) {
        const auto pair = pairs.find(begin);
        return pair != pairs.end() && std::any_of(pair->second.begin(), pair->second.end(),
                                                  [&](const InPair& place) { return isAt(place, share); });
    };
    std::set<Beats> found;
    for (const auto& [begin, places] : pairs) {
        const Beats next = begin + places.front().length;
        const bool isOne = has(begin, 1.0 / 3) && !has(begin, 5.0 / 6);
        const bool isOverTwo = has(begin, 2.0 / 3) && has(next, 1.0 / 3) && !has(next, 0);
        if (isOne || isOverTwo) found.insert(begin);
    }
    return found;
}

SwungNotes ToldSwing::written(std::vector<ForeignNote> notes) const {
    const std::set<Beats> inTriplets = triplets(notes);
    const auto unlessTriplet = [&](const Beats& played) {
        const auto place = inPair(played);
        return place && inTriplets.contains(place->begin) ? played : written(played);
    };
    for (ForeignNote& note : notes) {
        note.begin = unlessTriplet(note.begin);
        note.end = unlessTriplet(note.end);
    }
    return {std::move(notes), study.page.swings};
}

} // namespace earwright
