#include "core/exchange/MidiSwing.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace earwright {

namespace {

constexpr Swing twoToOne{2, 8};
constexpr std::size_t fewestSwung = 8;
/// Swing that comes and goes more often than once in so many of its beats is none.
constexpr std::size_t beatsForAChange = 8;
/// Parts of a beat in which swung eighths, their halves and quarters stand.
constexpr std::int64_t swungParts = 12;

enum class BeatKind {
    Either, ///< even or swung: a note on the beat, or none
    Swung,
    Even,
    Other ///< stays as it is: triplets and what is finer
};

class SwingReader {
public:
    SwingReader(const Study& piece, std::vector<ForeignNote> line) : frame(piece), notes(std::move(line)) {
        for (const ForeignNote& note : notes)
            onsets[note.begin.floor()].insert(note.begin.fraction());
    }

    SwungNotes read() {
        if (!countsQuarters()) return {std::move(notes), {}};
        std::size_t swung = 0;
        for (const auto& [beat, places] : onsets)
            swung += kindOf(beat) == BeatKind::Swung ? 1 : 0;
        findChanges();
        const std::size_t most = 1 + swung / beatsForAChange;
        if (swung < fewestSwung || changes.size() > most) return {std::move(notes), {}};
        for (ForeignNote& note : notes) {
            note.begin = written(note.begin);
            note.end = written(note.end);
        }
        return {std::move(notes), std::move(changes)};
    }

private:
    bool countsQuarters() const {
        const auto isInQuarters = [](const Meter& meter) {
            return meter.beatUnit == 4 && meter.unitsPerCount() == 1;
        };
        const auto& others = frame.page.meters;
        return isInQuarters(frame.meter) &&
               std::all_of(others.begin(), others.end(),
                           [&](const MeterChange& change) { return isInQuarters(change.meter); });
    }

    bool has(std::int64_t beat, const Beats& place) const {
        const auto found = onsets.find(beat);
        return found != onsets.end() && found->second.contains(place);
    }

    BeatKind kindOf(std::int64_t beat) const {
        const auto found = onsets.find(beat);
        if (found == onsets.end()) return BeatKind::Either;
        const std::set<Beats>& places = found->second;
        const auto isAny = [&](const auto& test) { return std::any_of(places.begin(), places.end(), test); };
        // What follows two thirds of the beat at once has a grace note there.
        const bool isBehindGrace = has(beat, Beats(2, 3));
        if (has(beat, Beats(1, 4)) || has(beat, Beats(1, 2)) || (has(beat, Beats(3, 4)) && !isBehindGrace))
            return BeatKind::Even;
        if (isAny([](const Beats& at) { return swungParts % at.denominator() != 0; })) return BeatKind::Other;
        const bool isTriplet = has(beat, Beats(1, 3)) && !has(beat, Beats(5, 6));
        const bool isOverTwo = has(beat + 1, Beats(1, 3)) && !has(beat + 1, Beats(0));
        if (isTriplet || (has(beat, Beats(2, 3)) && isOverTwo)) return BeatKind::Other;
        return has(beat, Beats(2, 3)) ? BeatKind::Swung : BeatKind::Either;
    }

    /// Where swing begins and ends; the first one with the piece.
    void findChanges() {
        bool isSwinging = false;
        bool isFirst = true;
        for (const auto& [beat, places] : onsets) {
            const BeatKind kind = kindOf(beat);
            if (kind != BeatKind::Swung && kind != BeatKind::Even) continue;
            const Beats begin =
                isFirst ? std::min(Beats(beat), -frame.page.pickup.value_or(Beats(0))) : Beats(beat);
            isFirst = false;
            if ((kind == BeatKind::Swung) == isSwinging) continue;
            isSwinging = !isSwinging;
            changes.push_back({begin, isSwinging ? twoToOne : Swing{}});
        }
    }

    bool swings(std::int64_t beat) const {
        const BeatKind kind = kindOf(beat);
        if (kind == BeatKind::Other || kind == BeatKind::Even) return false;
        const auto behind = std::find_if(changes.begin(), changes.end(),
                                         [&](const SwingChange& change) { return change.at > Beats(beat); });
        return behind != changes.begin() && !std::prev(behind)->swing.isEven();
    }

    /// Swing::played() the other way round.
    Beats written(const Beats& played) const {
        const Beats within = played.fraction();
        const bool isPlayedThere = within.denominator() % 3 == 0 || has(played.floor(), within);
        if (!isPlayedThere || !swings(played.floor())) return played;
        const Beats third(2, 3);
        return Beats(played.floor()) +
               (within <= third ? within * 3 / 4 : Beats(1, 2) + (within - third) * 3 / 2);
    }

    const Study& frame;
    std::vector<ForeignNote> notes;
    /// Within each beat that has any.
    std::map<std::int64_t, std::set<Beats>> onsets;
    std::vector<SwingChange> changes;
};

} // namespace

SwungNotes swungNotes(const Study& frame, std::vector<ForeignNote> notes) {
    return SwingReader(frame, std::move(notes)).read();
}

} // namespace earwright
