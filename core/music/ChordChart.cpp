#include "core/music/ChordChart.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace earwright {

namespace {

/// With NUL, which no study file may hold.
constexpr std::string_view blanks(" \t\r\f\v\0", 6);
/// Takes a chord's place in a bar and lets the one before go on.
constexpr std::string_view goesOn = "/";
constexpr std::string_view repeat = "%";
/// Far more than any bar has; a text pasted by mistake stays cheap to lay out and to print.
constexpr std::size_t mostPlacesInBar = 256;

/// What is before the separator, taken off the front of the text; all of it where there is none.
std::string_view takeUntil(std::string_view& text, char separator) {
    const std::size_t end = text.find(separator);
    const std::string_view piece = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    return piece;
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// Where the i-th of n places in a bar starts: on whole beats while there are enough of them, the first
/// places getting what is left over; otherwise in equal parts.
Beats placeStart(std::int64_t i, std::int64_t n, const Meter& meter) {
    const std::int64_t beats = meter.beatsPerBar;
    return n <= beats ? Beats((i * beats + n - 1) / n) : Beats(i * beats, n);
}

/// Where the first word ends. A blank inside the parentheses of a symbol belongs to it, C7(b9 #11), as long
/// as they are closed; parentheses around whole symbols hold words of their own.
std::size_t wordEnd(std::string_view text) {
    const std::size_t lastClose = text.rfind(')');
    bool inside = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool blank = blanks.find(text[i]) != std::string_view::npos;
        if (blank && !(inside && lastClose != std::string_view::npos && i < lastClose)) return i;
        if (text[i] == '(') inside = i > 0;
        if (text[i] == ')') inside = false;
    }
    return text.size();
}

/// As a symbol keeps it: whatever kind of blank was typed inside it is a space.
std::string wordText(std::string_view word) {
    std::string text(word);
    std::replace_if(
        text.begin(), text.end(), [](char sign) { return blanks.find(sign) != std::string_view::npos; }, ' ');
    return text;
}

BarChords parseBar(std::string_view text, const BarChords& before, const Meter& meter) {
    std::vector<std::string_view> words;
    while (words.size() < mostPlacesInBar && !(text = trimmed(text)).empty()) {
        words.push_back(text.substr(0, wordEnd(text)));
        text.remove_prefix(words.back().size());
    }
    if (words.size() == 1 && words.front() == repeat) return before;
    BarChords bar;
    const auto count = static_cast<std::int64_t>(words.size());
    for (std::int64_t i = 0; i < count; ++i) {
        const std::string_view word = words[static_cast<std::size_t>(i)];
        if (word == goesOn || word == repeat) continue;
        bar.chords.push_back({placeStart(i, count, meter), parseChordSymbol(wordText(word))});
    }
    return bar;
}

void parseLine(std::string_view line, const Meter& meter, std::vector<BarChords>& bars) {
    std::string strokes(trimmed(line));
    strokes.erase(
        std::unique(strokes.begin(), strokes.end(), [](char a, char b) { return a == '|' && b == '|'; }),
        strokes.end());
    std::string_view rest = strokes;
    if (rest.empty() || rest == "|") return;
    if (rest.starts_with('|')) rest.remove_prefix(1);
    if (rest.ends_with('|')) rest.remove_suffix(1);
    do
        bars.push_back(parseBar(takeUntil(rest, '|'), bars.empty() ? BarChords{} : bars.back(), meter));
    while (!rest.empty());
}

/// The fewest places in a bar that include every start of its chords.
std::int64_t placesNeeded(const BarChords& bar, const Meter& meter) {
    const auto fits = [&](std::int64_t n) {
        return std::all_of(bar.chords.begin(), bar.chords.end(), [&](const PlacedChord& chord) {
            for (std::int64_t i = 0; i < n; ++i)
                if (placeStart(i, n, meter) == chord.withinBar) return true;
            return false;
        });
    };
    for (std::int64_t n = 1; n <= meter.beatsPerBar; ++n)
        if (fits(n)) return n;
    std::int64_t parts = 1;
    for (const PlacedChord& chord : bar.chords)
        parts = std::lcm(parts, chord.withinBar.denominator());
    return parts * meter.beatsPerBar;
}

std::string barText(const BarChords& bar, const Meter& meter) {
    if (bar.chords.empty()) return "";
    const std::int64_t count = placesNeeded(bar, meter);
    std::string text;
    for (std::int64_t i = 0; i < count; ++i) {
        const Beats start = placeStart(i, count, meter);
        const auto chord = std::find_if(bar.chords.begin(), bar.chords.end(),
                                        [&](const PlacedChord& c) { return c.withinBar == start; });
        if (i > 0) text += " ";
        text += chord == bar.chords.end() ? std::string(goesOn) : chord->symbol.text;
    }
    return text;
}

const ChorusBars* chorusAt(std::int64_t bar, const std::vector<ChorusBars>& choruses) {
    const ChorusBars* found = nullptr;
    for (const ChorusBars& chorus : choruses)
        if (bar >= chorus.firstBar && bar < chorus.firstBar + chorus.barCount &&
            (!found || chorus.firstBar >= found->firstBar))
            found = &chorus;
    return found;
}

/// The last symbol of a bar that starts at or before a place in it.
std::optional<ChordSymbol> lastUpTo(const BarChords& bar, const Beats& withinBar) {
    std::optional<ChordSymbol> last;
    for (const PlacedChord& chord : bar.chords)
        if (chord.withinBar <= withinBar) last = chord.symbol;
    return last;
}

} // namespace

std::vector<BarChords> parseBars(std::string_view text, const Meter& meter) {
    std::vector<BarChords> bars;
    while (!text.empty())
        parseLine(takeUntil(text, '\n'), meter, bars);
    return bars;
}

std::string toText(const std::vector<BarChords>& bars, const Meter& meter) {
    // An empty bar at either end shows only between strokes.
    const bool open = !bars.empty() && (bars.front().chords.empty() || bars.back().chords.empty());
    std::string text = open ? "|" : "";
    for (std::size_t i = 0; i < bars.size(); ++i) {
        if (i > 0) text += " |";
        const std::string bar = barText(bars[i], meter);
        if (!bar.empty()) text += (text.empty() ? "" : " ") + bar;
    }
    return open ? text + " |" : text;
}

BarChords spreadAgain(const BarChords& bar, const Meter& from, const Meter& to) {
    BarChords spread = bar;
    const std::int64_t count = placesNeeded(bar, from);
    for (PlacedChord& chord : spread.chords)
        for (std::int64_t i = 0; i < count; ++i)
            if (placeStart(i, count, from) == chord.withinBar) {
                chord.withinBar = placeStart(i, count, to);
                break;
            }
    return spread;
}

BarChords ChordChart::barChords(std::int64_t bar, const MeterMap& meters,
                                const std::vector<ChorusBars>& choruses) const {
    if (const auto found = overrides.find(bar); found != overrides.end()) return found->second;
    const ChorusBars* chorus = chorusAt(bar, choruses);
    if (!chorus || form.empty()) return {};
    const BarChords& typed = form[static_cast<std::size_t>(bar - chorus->firstBar) % form.size()];
    const Meter& first = meters.at(0);
    const Meter& own = meters.at(bar);
    if (own == first) return typed;
    BarChords spread = spreadAgain(typed, first, own);
    for (PlacedChord& chord : spread.chords)
        chord.withinBar = chord.withinBar * first.beatUnit / own.beatUnit;
    return spread;
}

std::optional<ChordSymbol> ChordChart::chordAt(const Beats& place, const MeterMap& meters,
                                               const std::vector<ChorusBars>& choruses) const {
    std::int64_t bar = meters.barOf(place);
    if (auto chord = lastUpTo(barChords(bar, meters, choruses), meters.withinBar(place))) return chord;
    if (const ChorusBars* chorus = chorusAt(bar, choruses)) {
        while (--bar >= chorus->firstBar)
            if (auto chord = lastUpTo(barChords(bar, meters, choruses), meters.barLength(bar))) return chord;
        return std::nullopt;
    }
    // Outside choruses only overridden bars have chords; they need not lie next to each other.
    std::int64_t lastChorusEnd = std::numeric_limits<std::int64_t>::min();
    for (const ChorusBars& chorus : choruses)
        if (chorus.firstBar <= bar)
            lastChorusEnd = std::max(lastChorusEnd, chorus.firstBar + chorus.barCount);
    for (auto found = overrides.lower_bound(bar); found != overrides.begin();) {
        --found;
        if (found->first < lastChorusEnd) return std::nullopt;
        if (auto chord = lastUpTo(found->second, meters.barLength(found->first))) return chord;
    }
    return std::nullopt;
}

} // namespace earwright
