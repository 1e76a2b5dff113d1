#include "core/exchange/ToldSwing.h"

#include "core/exchange/MidiText.h"
#include "core/study/PlayedTime.h"
#include "core/time/BeatRatio.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <utility>

namespace earwright {

namespace {

constexpr const char* opening = "Swing ";
constexpr std::pair<std::string_view, int> noteNames[] = {{":1, eighths", 8}, {":1, sixteenths", 16}};
/// Of a beat; shorter notes than these do not swing.
constexpr std::int64_t finestParts = 64;

Study framed(const Study& piece, std::vector<SwingChange> told) {
    Study frame;
    frame.meter = piece.meter;
    frame.page.meters = piece.page.meters;
    frame.page.swings = std::move(told);
    return frame;
}

} // namespace

std::string swingWords(const Swing& swing) {
    // As many digits as a ratio needs to come back.
    char ratio[32];
    std::snprintf(ratio, sizeof ratio, "%.6g", swing.ratio);
    return opening + std::string(ratio) + std::string(noteNames[swing.noteValue == 16 ? 1 : 0].first);
}

std::optional<Swing> swingIn(std::string_view words) {
    if (!words.starts_with(opening)) return std::nullopt;
    const std::string text(words.substr(std::string_view(opening).size()));
    char* end = nullptr;
    const double ratio = std::strtod(text.c_str(), &end);
    if (!(ratio >= leastSwing && ratio <= mostSwing)) return std::nullopt;
    for (const auto& [name, value] : noteNames)
        if (name == end) return Swing{ratio, value};
    return std::nullopt;
}

std::vector<std::pair<std::int64_t, Swing>> swingsIn(const MidiTracks& file) {
    constexpr std::size_t most = 1'000;
    std::vector<std::pair<std::int64_t, Swing>> found;
    for (const auto& track : file.tracks)
        for (const MidiEvent& event : track)
            if (event.status == 0xFF && event.first == 0x01 && found.size() < most)
                if (const auto swing = swingIn(midiText(event.data))) found.emplace_back(event.tick, *swing);
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    return found;
}

bool needsTelling(const std::vector<SwingChange>& told) {
    return std::any_of(told.begin(), told.end(), [](const SwingChange& change) {
        return !change.swing.isEven() && change.swing != Swing{2, 8};
    });
}

ToldSwing::ToldSwing(const Study& piece, std::vector<SwingChange> told, std::int64_t ticksPerQuarter)
    : study(framed(piece, std::move(told))),
      meters(study.meters()),
      tick(study.meter.beatUnit / (4.0 * static_cast<double>(ticksPerQuarter))) {}

Beats ToldSwing::written(const Beats& played) const {
    const Swing swing = study.page.swingAt(played);
    if (swing.isEven()) return played;
    const Beats pair(2 * std::int64_t{study.meter.beatUnit}, swing.noteValue);
    const Beats since = meters.withinBar(played);
    const Beats inPairs = ratio(since, pair);
    const double share = inPairs.fraction().toDouble();
    const double middle = swing.played(0.5);
    // Swing::played() the other way round.
    const double meant = share < middle ? share / middle / 2 : 0.5 + (share - middle) / (1 - middle) / 2;
    const Beats start = played - since + pair * inPairs.floor();
    const Beats there = start + Beats::nearest(meant * pair.toDouble(), finestParts);
    return std::abs(playedBeat(study, meters, there) - played.toDouble()) < tick ? there : played;
}

SwungNotes ToldSwing::written(std::vector<ForeignNote> notes) const {
    for (ForeignNote& note : notes) {
        note.begin = written(note.begin);
        note.end = written(note.end);
    }
    return {std::move(notes), study.page.swings};
}

} // namespace earwright
