#include "ui/desk/BandDesk.h"

#include "core/music/Pitch.h"

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

constexpr int uses = 3;
constexpr int underLowest = 2;
constexpr int overHighest = 24;
constexpr double quarterTone = 0.5; // in semitones

} // namespace

BandDesk::BandDesk(DeskSession& desk, QObject* parent) : QObject(parent), session(desk) {
    connect(&session, &DeskSession::recordingChanged, this, [this] { choose(BandUse::Off); });
}

void BandDesk::choose(BandUse use) {
    how = use;
    tellEngine();
}

void BandDesk::next() {
    choose(static_cast<BandUse>((static_cast<int>(how) + 1) % uses));
}

void BandDesk::setEdges(const BandEdges& edges) {
    between = edges.playable();
    tellEngine();
}

void BandDesk::step(const BandEdges& wanted) {
    if (how == BandUse::Off) how = BandUse::Only;
    setEdges(wanted);
}

void BandDesk::stepLow(int semitones) {
    const int low = between.low + semitones;
    step({low, std::max(low, between.high)});
}

void BandDesk::stepHigh(int semitones) {
    const int high = between.high + semitones;
    step({std::min(between.low, high), high});
}

void BandDesk::chooseAround(SpanId phrase) {
    if (!session.isOpen() || !session.study().beatMap.hasTempo()) return;
    const Span* span = session.study().span(phrase);
    const auto around =
        span ? bandAround(session.study().notesIn(session.study().beatsOf(*span))) : std::nullopt;
    if (around) step(*around);
}

std::optional<Band> BandDesk::heard() const {
    if (how == BandUse::Off) return std::nullopt;
    return bandOf(how, between);
}

void BandDesk::tellEngine() {
    session.engine().setBand(heard());
    emit changed();
}

std::optional<BandEdges> bandAround(const std::vector<Note>& notes) {
    if (notes.empty()) return std::nullopt;
    const auto [lowest, highest] = std::minmax_element(
        notes.begin(), notes.end(), [](const Note& a, const Note& b) { return a.pitch.midi < b.pitch.midi; });
    return BandEdges{lowest->pitch.midi - underLowest, highest->pitch.midi + overHighest}.playable();
}

Band bandOf(BandUse use, const BandEdges& edges) {
    Band band;
    band.remove = use == BandUse::Without;
    if (edges.low > BandEdges::lowest) band.lowHertz = hertzOf(edges.low - quarterTone);
    if (edges.high < BandEdges::highest) band.highHertz = hertzOf(edges.high + quarterTone);
    return band;
}

} // namespace earwright::ui
