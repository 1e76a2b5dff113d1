#include "core/engraving/PageBeams.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace earwright {

namespace {

/// How many beams a note has, 0 for a quarter and longer.
int beamCount(const PagePiece& piece) {
    if (!piece.event || piece.value.denominator < 8) return 0;
    return std::bit_width(static_cast<unsigned>(piece.value.denominator)) - 3;
}

/// The group of notes under one beam that a place of the bar belongs to. Eighths that go neither in quarters
/// nor in threes are joined as the bar is divided (BarGroups.h), or two by two.
std::int64_t groupAt(const PageBar& bar, const Beats& ownBeats) {
    const Meter& meter = bar.meter;
    const std::int64_t pulse = pulseBeats(meter);
    if (meter.beatUnit < 8 || pulse > 1) return (ownBeats / pulse).floor();
    const auto& ends = bar.groupEnds;
    if (!ends.empty())
        return std::count_if(ends.begin(), ends.end(),
                             [&](std::int64_t end) { return Beats(end) <= ownBeats; });
    const std::int64_t pairs = std::max(1, meter.beatsPerBar / 2);
    return std::min((ownBeats / 2).floor(), pairs - 1);
}

bool isPlainEighth(const PagePiece& piece) {
    return piece.event && piece.value.denominator == 8 && !piece.value.dotted && !piece.value.tuplet;
}

/// Four eighths that fill half a bar of two or four quarters are one group (Gould, "Behind Bars", and Roemer,
/// "The Art of Music Copying", from memory); beside other values or rests each beat is its own.
void joinHalfBars(const PageBar& bar, std::vector<std::int64_t>& groups) {
    if (bar.meter.beatUnit != 4 || (bar.meter.beatsPerBar != 2 && bar.meter.beatsPerBar != 4)) return;
    for (std::size_t i = 0; i + 4 <= bar.pieces.size(); ++i) {
        const auto first = bar.pieces.begin() + static_cast<std::ptrdiff_t>(i);
        const bool beginsHalf = (bar.ownBeats(first->begin) / 2).denominator() == 1;
        if (beginsHalf && std::all_of(first, first + 4, isPlainEighth))
            groups[i + 2] = groups[i + 3] = groups[i];
    }
}

/// A tuplet over more than one beat is one group.
std::vector<std::int64_t> groupsOf(const PageBar& bar) {
    std::vector<std::int64_t> groups;
    bool isInTuplet = false;
    for (const PagePiece& piece : bar.pieces) {
        groups.push_back(isInTuplet ? groups.back() : groupAt(bar, bar.ownBeats(piece.begin)));
        isInTuplet = piece.value.tuplet && !piece.endsTuplet;
    }
    joinHalfBars(bar, groups);
    return groups;
}

/// Whether a value begins with a piece, such as an eighth (8): counted from the bar line or, in a tuplet,
/// from where that begins.
bool beginsValue(const PageBar& bar, std::size_t index, int value) {
    const auto& tuplet = bar.pieces[index].value.tuplet;
    std::size_t first = index;
    while (tuplet && first > 0 && !bar.pieces[first].startsTuplet)
        --first;
    Beats since = bar.ownBeats(bar.pieces[index].begin);
    if (tuplet) since = (since - bar.ownBeats(bar.pieces[first].begin)) * tuplet->actual / tuplet->normal;
    return (since * value / bar.meter.beatUnit).denominator() == 1;
}

/// Pieces [first, end) that one beam joins.
struct BeamedPieces {
    const PageBar& bar;
    std::size_t first;
    std::size_t end;

    int beams(std::size_t index) const { return beamCount(bar.pieces[index]); }

    /// Groups with thirty-seconds show their eighths: one beam alone goes on between them (Gould, "Behind
    /// Bars", from memory). A single note is not left behind.
    bool isDividedAt(std::size_t index) const {
        const auto thirtySeconds = [](const PagePiece& piece) { return beamCount(piece) >= 3; };
        const auto at = [&](std::size_t i) { return bar.pieces.begin() + static_cast<std::ptrdiff_t>(i); };
        if (index < first + 2 || index + 2 > end) return false;
        if (bar.pieces[index].value.tuplet || bar.pieces[index - 1].value.tuplet) return false;
        for (std::size_t i = index - 2; i < index + 2; ++i)
            if (beams(i) < 2) return false;
        return beginsValue(bar, index, 8) && std::any_of(at(first), at(end), thirtySeconds);
    }

    /// Whether a beam of this level, from 1, leads from the piece before to this one.
    bool leadsTo(std::size_t index, int level) const {
        if (index <= first || index >= end) return false;
        return std::min(beams(index - 1), beams(index)) >= level && (level == 1 || !isDividedAt(index));
    }
};

/// A hook points to the note that shares its eighth, for a thirty-second its sixteenth, and to none behind
/// its tuplet (common practice).
const char* hookFor(const BeamedPieces& group, std::size_t index, int level) {
    const int shared = 4 << (level - 1);
    const bool isLast = index + 1 == group.end || group.bar.pieces[index].endsTuplet;
    const bool pointsOn = !isLast && beginsValue(group.bar, index, shared);
    return index == group.first || pointsOn ? "forward hook" : "backward hook";
}

const char* wordFor(const BeamedPieces& group, std::size_t index, int level) {
    const bool joinsAfter = group.leadsTo(index + 1, level);
    if (group.leadsTo(index, level)) return joinsAfter ? "continue" : "end";
    return joinsAfter ? "begin" : hookFor(group, index, level);
}

} // namespace

std::vector<std::vector<std::string>> pageBeams(const PageBar& bar) {
    const std::vector<std::int64_t> groups = groupsOf(bar);
    const auto groupOf = [&](std::size_t index) { return groups[index]; };
    std::vector<std::vector<std::string>> beams(bar.pieces.size());
    for (std::size_t first = 0; first < bar.pieces.size();) {
        std::size_t end = first;
        while (end < bar.pieces.size() && beamCount(bar.pieces[end]) > 0 && groupOf(end) == groupOf(first))
            ++end;
        const BeamedPieces group{bar, first, end};
        for (std::size_t i = first; i < end && end - first > 1; ++i)
            for (int level = 1; level <= beamCount(bar.pieces[i]); ++level)
                beams[i].emplace_back(wordFor(group, i, level));
        first = std::max(end, first + 1);
    }
    return beams;
}

} // namespace earwright
