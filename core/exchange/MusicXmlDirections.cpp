#include "core/exchange/MusicXmlDirections.h"

#include "core/exchange/MusicXmlHarmony.h"
#include "core/exchange/MusicXmlNote.h"
#include "core/exchange/MusicXmlWords.h"
#include "core/music/TempoFigure.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iterator>
#include <utility>

namespace earwright {

namespace {

/// Decimal without an exponent or trailing noughts.
std::string decimal(double number) {
    char text[40];
    std::snprintf(text, sizeof text, "%.6f", number);
    std::string cut = text;
    cut.erase(cut.find_last_not_of('0') + 1);
    if (cut.back() == '.') cut.pop_back();
    return cut;
}

pugi::xml_node direction(pugi::xml_node measure, const char* placement) {
    pugi::xml_node element = measure.append_child("direction");
    element.append_attribute("placement") = placement;
    return element;
}

void addOffset(pugi::xml_node element, std::int64_t offset) {
    if (offset > 0) addText(element, "offset", std::to_string(offset));
}

/// In the beat that is counted, a dotted quarter in 6/8.
double countedBeats(double quarters, const Meter& meter) {
    return pulseBeats(meter) == 3 ? quarters * 2 / 3 : quarters;
}

void addMetronome(pugi::xml_node direction, const std::string& perMinute, const Meter& meter) {
    pugi::xml_node metronome = direction.append_child("direction-type").append_child("metronome");
    addText(metronome, "beat-unit", "quarter");
    if (pulseBeats(meter) == 3) metronome.append_child("beat-unit-dot");
    addText(metronome, "per-minute", perMinute);
}

/// What a reader without swing sees, and plays by.
std::string wordsOf(const Swing& swing) {
    const std::string notes = swing.noteValue == 16 ? "16ths" : "8ths";
    if (swing.isEven()) return "Even " + notes;
    return "Swing " + notes + ", " + decimal(swing.ratio) + ":1";
}

/// The ratio in the smallest whole numbers that say it to a ten-thousandth.
std::pair<long, long> wholeRatio(double ratio) {
    constexpr long finest = 10'000;
    for (long second = 1; second < 100; ++second)
        if (std::abs(ratio * static_cast<double>(second) - std::round(ratio * static_cast<double>(second))) <
            1e-9)
            return {std::lround(ratio * static_cast<double>(second)), second};
    return {std::lround(ratio * finest), finest};
}

} // namespace

MusicXmlDirections::MusicXmlDirections(const Study& written, const std::vector<PageBar>& barsOfLine,
                                       Reading reading)
    : study(written), bars(barsOfLine) {
    addTempos();
    for (const PageBar& bar : bars)
        addSymbols(bar, reading);
    for (const TempoMark& mark : study.page.tempos)
        putTempoMark(mark);
    for (const SwingChange& change : study.page.swings)
        putSwing(change);
    for (const DynamicMark& mark : study.page.dynamics)
        put(mark.at, [mark](pugi::xml_node measure, std::int64_t offset) {
            pugi::xml_node element = direction(measure, "below");
            element.append_child("direction-type").append_child("dynamics").append_child(nameOf(mark.level));
            addOffset(element, offset);
        });
    for (const Hairpin& hairpin : study.page.hairpins)
        putHairpin(hairpin);
    for (const TextMark& mark : study.page.texts)
        put(mark.at, [mark](pugi::xml_node measure, std::int64_t offset) {
            pugi::xml_node element = direction(measure, mark.below ? "below" : "above");
            addText(element.append_child("direction-type"), "words", mark.text)
                .append_attribute("xml:space") = "preserve";
            addOffset(element, offset);
        });
    std::stable_sort(marks.begin(), marks.end(), [](const Mark& a, const Mark& b) { return a.at < b.at; });
}

void MusicXmlDirections::put(const Beats& at, Write write, bool isEnd) {
    const bool isOnPage = at >= bars.front().begin && at <= bars.back().end;
    if (isOnPage) marks.push_back({at, std::move(write), isEnd});
}

void MusicXmlDirections::addSymbols(const PageBar& bar, Reading reading) {
    const KeySignature key = study.page.keyAt(bar.number);
    for (const PlacedChord& chord : study.barChords(bar.number).chords) {
        const Beats place = bar.start + chord.withinBar;
        if (place < bar.begin || place >= bar.end) continue;
        put(place,
            [symbol = readAs(reading, chord.symbol, key), index = ++symbols](
                pugi::xml_node measure, std::int64_t offset) { addSymbol(measure, symbol, offset, index); });
    }
}

/// The sound follows every beat mark; where the page states no tempo, its beginning shows the first.
void MusicXmlDirections::addTempos() {
    if (!study.beatMap.hasTempo()) return;
    std::vector<Beats> places{bars.front().begin};
    for (const BeatMark& mark : study.beatMap.marks())
        if (mark.position > places.front() && mark.position < bars.back().end)
            places.push_back(mark.position);
    places.push_back(bars.back().end);
    std::string standing;
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
        const double quarters = tempoOf({places[i], places[i + 1]});
        const std::string tempo = decimal(quarters);
        if (tempo == standing) continue;
        const bool isShown = standing.empty() && study.page.tempos.empty();
        standing = tempo;
        sounding[places[i]] = tempo;
        put(places[i],
            [=, meter = isShown ? meterAt(places[i]) : Meter{}](pugi::xml_node measure, std::int64_t offset) {
                pugi::xml_node parent = measure;
                if (isShown)
                    addMetronome(parent = direction(measure, "above"),
                                 decimal(std::round(countedBeats(quarters, meter))), meter);
                if (isShown) addOffset(parent, offset);
                pugi::xml_node sound = parent.append_child("sound");
                sound.append_attribute("tempo") = tempo.c_str();
                if (!isShown) addOffset(sound, offset);
            });
    }
}

Meter MusicXmlDirections::meterAt(const Beats& place) const {
    const MeterMap meters = study.meters();
    return meters.at(std::max<std::int64_t>(meters.barOf(place), 1));
}

double MusicXmlDirections::tempoOf(const Range<Beats>& beats) const {
    const Range<Seconds> time = study.beatMap.seconds(beats);
    const double quarters = (beats.end - beats.begin).toDouble() * 4 / study.meter.beatUnit;
    return 60 * quarters / (time.end - time.begin).value;
}

/// Whether the line sounds at this tempo there: beside beat marks that say another one a mark is silent.
bool MusicXmlDirections::soundsAt(const Beats& place, const std::string& tempo) const {
    if (!study.beatMap.hasTempo()) return true;
    const auto next = sounding.upper_bound(place);
    return next != sounding.begin() && std::prev(next)->second == tempo;
}

/// What is exact about a tempo is in its sound; where that is another one, the figure has to say it all.
void MusicXmlDirections::putTempoMark(const TempoMark& mark) {
    const std::string exact = decimal(mark.quartersPerMinute.value_or(0));
    const bool sounds = soundsAt(mark.at, exact);
    put(mark.at,
        [mark, exact, sounds, meter = meterAt(mark.at)](pugi::xml_node measure, std::int64_t offset) {
            pugi::xml_node element = direction(measure, "above");
            element.append_attribute("directive") = "yes";
            if (!mark.words.empty()) addText(element.append_child("direction-type"), "words", mark.words);
            if (mark.quartersPerMinute) {
                const double beats = countedBeats(*mark.quartersPerMinute, meter);
                const bool isSaid = sounds || isTempoOfFigure(beats);
                addMetronome(element, isSaid ? tempoFigure(beats) : decimal(beats), meter);
            }
            addOffset(element, offset);
            if (mark.quartersPerMinute && sounds)
                element.append_child("sound").append_attribute("tempo") = exact.c_str();
        });
}

void MusicXmlDirections::putSwing(const SwingChange& change) {
    put(change.at, [change, index = ++swings](pugi::xml_node measure, std::int64_t offset) {
        pugi::xml_node element = direction(measure, "above");
        addText(element.append_child("direction-type"), "words", wordsOf(change.swing))
            .append_attribute("id") = (swingIdPrefix + std::to_string(index)).c_str();
        addOffset(element, offset);
        pugi::xml_node sound = element.append_child("sound");
        pugi::xml_node swing = sound.append_child("swing");
        if (change.swing.isEven()) {
            swing.append_child("straight");
        } else {
            const auto [first, second] = wholeRatio(change.swing.ratio);
            addText(swing, "first", std::to_string(first));
            addText(swing, "second", std::to_string(second));
            addText(swing, "swing-type", change.swing.noteValue == 16 ? "16th" : "eighth");
        }
    });
}

void MusicXmlDirections::putHairpin(const Hairpin& hairpin) {
    const auto write = [](const char* type) {
        return [type](pugi::xml_node measure, std::int64_t offset) {
            pugi::xml_node element = direction(measure, "below");
            element.append_child("direction-type").append_child("wedge").append_attribute("type") = type;
            addOffset(element, offset);
        };
    };
    // One that begins before the page, or goes on behind it, is drawn as far as the page goes.
    const Beats begin = std::max(hairpin.range.begin, bars.front().begin);
    const Beats end = std::min(hairpin.range.end, bars.back().end);
    if (begin >= end) return;
    put(begin, write(hairpin.kind == HairpinKind::Louder ? "crescendo" : "diminuendo"));
    put(end, write("stop"), true);
}

std::vector<Beats> MusicXmlDirections::places() const {
    std::vector<Beats> all;
    for (const Mark& mark : marks)
        all.push_back(mark.at);
    return all;
}

std::vector<MusicXmlDirections::Mark>::const_iterator
MusicXmlDirections::firstFrom(const Beats& place) const {
    return std::lower_bound(marks.begin(), marks.end(), place,
                            [](const Mark& mark, const Beats& at) { return mark.at < at; });
}

void MusicXmlDirections::addBefore(pugi::xml_node measure, const Range<Beats>& stretch,
                                   const Divisions& divisions) const {
    for (auto mark = firstFrom(stretch.begin); mark != marks.end() && mark->at < stretch.end; ++mark)
        if (!mark->isEnd || mark->at > stretch.begin)
            mark->write(measure, divisions(mark->at - stretch.begin));
}

void MusicXmlDirections::addBehind(pugi::xml_node measure, const Beats& place) const {
    for (auto mark = firstFrom(place); mark != marks.end() && mark->at == place; ++mark)
        if (mark->isEnd) mark->write(measure, 0);
}

} // namespace earwright
