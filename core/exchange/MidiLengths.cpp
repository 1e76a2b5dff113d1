#include "core/exchange/MidiLengths.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>

namespace earwright {

namespace {

/// To tell what share of its length a note sounds for, and whether all end some ticks early.
constexpr std::size_t fewestToTell = 8;
constexpr std::size_t fewestJustShort = 3;
/// What ends so much of a quarter before the next note, or off a line, is meant to end there.
constexpr double samePlace = 1.0 / 48;
/// What sounds for less of the time until the next note may be short on purpose.
constexpr double leastOfEarly = 0.6;
/// What lasts for so much of it goes on to the next note, where that is no more quarters away than this.
constexpr double nearlyAll = 0.7;
constexpr double longestGuessed = 1;

class LengthReader {
public:
    LengthReader(std::vector<ForeignNote> line, int beatUnit) : notes(std::move(line)), unit(beatUnit) {
        next.resize(notes.size());
        for (std::size_t i = notes.size(); i-- > 0;)
            if (i + 1 < notes.size())
                next[i] = notes[i + 1].begin > notes[i].begin ? notes[i + 1].begin : next[i + 1];
    }

    std::vector<ForeignNote> read() {
        std::size_t early = 0;
        bool isJustShort = true;
        std::vector<double> shares;
        for (std::size_t i = 0; i < notes.size(); ++i) {
            if (!endsEarly(i)) continue;
            ++early;
            isJustShort = isJustShort && justBehind(i);
            const double share = next[i] ? length(i) / quarters(*next[i] - notes[i].begin) : 0;
            if (share >= leastOfEarly) shares.push_back(share);
        }
        const std::size_t fewest = isJustShort ? fewestJustShort : fewestToTell;
        const bool isTold = notes.size() >= fewest && 2 * early > notes.size();
        if (isTold && isJustShort)
            reachLines();
        else if (isTold && !shares.empty())
            lengthen(medianOf(std::move(shares)));
        return std::move(notes);
    }

private:
    double quarters(const Beats& beats) const { return beats.toDouble() * 4 / unit; }
    double length(std::size_t i) const { return quarters(notes[i].end - notes[i].begin); }

    bool endsEarly(std::size_t i) const {
        if (next[i] && notes[i].end >= *next[i]) return false;
        const Beats inQuarters = notes[i].end * 4 / unit;
        return 4 % inQuarters.denominator() != 0 && 6 % inQuarters.denominator() != 0;
    }

    /// The next note's beginning or the line that a note ends just before, as where a program ends every note
    /// some ticks early, whatever its length.
    std::optional<Beats> justBehind(std::size_t i) const {
        const auto isNear = [&](const Beats& place) { return quarters(place - notes[i].end) <= samePlace; };
        if (next[i] && isNear(*next[i])) return next[i];
        for (const std::int64_t parts : {4, 6})
            if (const Beats line(-(-notes[i].end * 4 * parts / unit).floor() * unit, 4 * parts); isNear(line))
                return line;
        return std::nullopt;
    }

    void reachLines() {
        for (std::size_t i = 0; i < notes.size(); ++i)
            if (endsEarly(i)) notes[i].end = justBehind(i).value_or(notes[i].end);
    }

    static double medianOf(std::vector<double> shares) {
        const auto middle = shares.begin() + static_cast<std::ptrdiff_t>(shares.size() / 2);
        std::nth_element(shares.begin(), middle, shares.end());
        return *middle;
    }

    void lengthen(double share) {
        for (std::size_t i = 0; i < notes.size(); ++i)
            notes[i].end = writtenEnd(i, length(i) / share);
    }

    Beats writtenEnd(std::size_t i, double meant) const {
        if (next[i] && notes[i].end > *next[i]) return notes[i].end;
        const double end = quarters(notes[i].begin) + meant;
        const std::int64_t parts = partsFor(i, meant);
        Beats line = lineOf(i, std::llround(end * static_cast<double>(parts)), parts);
        const bool isOnLine = std::abs(quarters(line) - end) <= samePlace;
        // Of a note that ends some ticks early, no share of its length tells how long it was.
        if (!isOnLine) line = std::min(line, lineOf(i, -(-notes[i].end * 4 * parts / unit).floor(), parts));
        if (!next[i]) return line;
        const double room = quarters(*next[i] - notes[i].begin);
        const bool goesOn = !isOnLine && room <= longestGuessed && meant >= nearlyAll * room;
        return meant >= room - samePlace || goesOn ? *next[i] : std::min(line, *next[i]);
    }

    /// Into how many parts of a quarter the lines cut it where values end: longer ones end on eighths.
    std::int64_t partsFor(std::size_t i, double meant) const {
        return isInThirds(i) ? 3 : meant >= 1 ? 2 : 4;
    }

    /// The line with this number, or the first one behind the note's beginning.
    Beats lineOf(std::size_t i, std::int64_t number, std::int64_t parts) const {
        Beats line = Beats(number * unit, 4 * parts);
        while (line <= notes[i].begin)
            line += Beats(unit, 4 * parts);
        return line;
    }

    bool isInThirds(std::size_t i) const {
        const auto hasThirds = [&](const Beats& place) { return (place * 4 / unit).denominator() % 3 == 0; };
        return hasThirds(notes[i].begin) || (next[i] && hasThirds(*next[i]));
    }

    std::vector<ForeignNote> notes;
    int unit;
    /// Where the note behind each one begins, if there is one.
    std::vector<std::optional<Beats>> next;
};

} // namespace

std::vector<ForeignNote> writtenLengths(std::vector<ForeignNote> notes, int beatUnit) {
    return LengthReader(std::move(notes), beatUnit).read();
}

} // namespace earwright
