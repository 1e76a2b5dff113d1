#include "core/exchange/MusicXml.h"

#include "core/engraving/PageBeams.h"
#include "core/exchange/HarmonyKind.h"
#include "core/exchange/MusicXmlNote.h"
#include "core/music/NoChord.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <sstream>

namespace earwright {

namespace {

/// A line lying mostly below this (B3) is easier read in the bass clef.
constexpr int lowMiddle = 52;

std::string rounded(double number) {
    return std::to_string(std::llround(number));
}

std::string hundredths(double number) {
    const auto whole = std::llround(number * 100);
    std::string cents = std::to_string(100 + whole % 100).substr(1);
    return std::to_string(whole / 100) + "." + cents;
}

std::int64_t divisionsFor(const std::vector<PageBar>& bars, const Meter& meter) {
    std::int64_t divisions = 1;
    for (const PageBar& bar : bars)
        for (const PagePiece& piece : bar.pieces)
            divisions = std::lcm(divisions, (piece.end * 4 / meter.beatUnit).denominator());
    return divisions;
}

bool liesLow(const std::vector<PageNotes>& line) {
    std::vector<int> pitches;
    for (const PageNotes& together : line)
        pitches.push_back(together.notes.front().pitch.midi);
    if (pitches.empty()) return false;
    const auto middle = pitches.begin() + static_cast<std::ptrdiff_t>(pitches.size() / 2);
    std::nth_element(pitches.begin(), middle, pitches.end());
    return *middle < lowMiddle;
}

void addRoot(pugi::xml_node harmony, const PitchName& name, const std::string& part) {
    pugi::xml_node root = harmony.append_child(part.c_str());
    addText(root, (part + "-step").c_str(), toString(PitchName{name.step, 0}));
    if (name.alter != 0) addText(root, (part + "-alter").c_str(), std::to_string(name.alter));
}

/// What is printed behind the root: "m7♭5" of "Fm7♭5/C♭".
std::string kindText(const ChordSymbol& symbol) {
    std::string text = toString(symbol).substr(toString(symbol.chord->root).size());
    if (symbol.chord->bass) text = text.substr(0, text.rfind('/'));
    return text;
}

void addChord(pugi::xml_node harmony, const ChordSymbol& symbol) {
    const HarmonyKind kind = harmonyKind(*symbol.chord);
    addRoot(harmony, symbol.chord->root, "root");
    addText(harmony, "kind", kind.kind).append_attribute("text") = kindText(symbol).c_str();
    if (symbol.chord->bass) addRoot(harmony, *symbol.chord->bass, "bass");
    for (const HarmonyDegree& change : kind.degrees) {
        pugi::xml_node degree = harmony.append_child("degree");
        // The kind's text has the degree already.
        degree.append_attribute("print-object") = "no";
        addText(degree, "degree-value", std::to_string(change.value));
        addText(degree, "degree-alter", std::to_string(change.alter));
        addText(degree, "degree-type", change.type);
    }
}

void addNoChord(pugi::xml_node harmony) {
    addText(harmony.append_child("root"), "root-step", "C").append_attribute("text") = "";
    addText(harmony, "kind", "none").append_attribute("text") = "N.C.";
}

class ScoreWriter {
public:
    ScoreWriter(const Study& written, const std::vector<PageNotes>& notesOfLine,
                const std::vector<PageBar>& barsOfLine)
        : study(written),
          line(notesOfLine),
          bars(barsOfLine),
          divisions(divisionsFor(bars, study.meter)),
          notes(study, line, divisions) {}

    std::string write() {
        pugi::xml_node declaration = document.append_child(pugi::node_declaration);
        declaration.append_attribute("version") = "1.0";
        declaration.append_attribute("encoding") = "UTF-8";
        pugi::xml_node score = document.append_child("score-partwise");
        score.append_attribute("version") = "4.0";
        if (!study.title.empty()) addText(score.append_child("work"), "work-title", study.title);
        pugi::xml_node named = score.append_child("part-list").append_child("score-part");
        named.append_attribute("id") = "P1";
        addText(named, "part-name", "Line");
        pugi::xml_node part = score.append_child("part");
        part.append_attribute("id") = "P1";
        for (const PageBar& bar : bars)
            addBar(part, bar);
        std::ostringstream text;
        document.save(text, "  ", pugi::format_default, pugi::encoding_utf8);
        return text.str();
    }

private:
    void addBar(pugi::xml_node part, const PageBar& bar) {
        pugi::xml_node measure = part.append_child("measure");
        measure.append_attribute("number") = std::to_string(bar.number).c_str();
        if (bar.number < 1) measure.append_attribute("implicit") = "yes";
        addAttributes(measure, bar, &bar == &bars.front() ? nullptr : &bar - 1);
        addTempo(measure, bar);
        addSwing(measure, bar);
        notes.startBar(keyOf(bar));
        const std::vector<PlacedChord> chords = study.barChords(bar.number).chords;
        const auto beams = pageBeams(bar);
        for (std::size_t i = 0; i < bar.pieces.size(); ++i) {
            const PagePiece& piece = bar.pieces[i];
            for (const PlacedChord& chord : chords)
                addSymbol(measure, piece, bar.start + chord.withinBar, chord.symbol);
            notes.add(measure, piece, beams[i]);
        }
    }

    /// Bars before bar 1 are read under its key.
    KeySignature keyOf(const PageBar& bar) const {
        return study.page.keyAt(std::max<std::int64_t>(bar.number, 1));
    }

    static void addKey(pugi::xml_node attributes, const KeySignature& key) {
        pugi::xml_node element = attributes.append_child("key");
        addText(element, "fifths", std::to_string(key.fifths));
        if (key != KeySignature{}) addText(element, "mode", key.mode == Mode::Minor ? "minor" : "major");
    }

    /// What begins to swing, or ceases to, in this bar.
    void addSwing(pugi::xml_node measure, const PageBar& bar) const {
        for (const SwingChange& change : study.page.swings) {
            if (!Range{bar.begin, bar.end}.contains(change.at)) continue;
            pugi::xml_node sound = measure.append_child("sound");
            pugi::xml_node swing = sound.append_child("swing");
            if (change.swing.isEven()) {
                swing.append_child("straight");
            } else {
                // Whole numbers are asked for; hundredths are as fine as anybody hears.
                addText(swing, "first", std::to_string(std::lround(change.swing.ratio * 100)));
                addText(swing, "second", "100");
                addText(swing, "swing-type", change.swing.noteValue == 16 ? "16th" : "eighth");
            }
            const std::int64_t offset = notes.duration(change.at - bar.begin);
            if (offset > 0) addText(sound, "offset", std::to_string(offset));
        }
    }

    /// What differs from the bar before; everything in the first one.
    void addAttributes(pugi::xml_node measure, const PageBar& bar, const PageBar* before) const {
        const bool showsKey = !before || keyOf(*before) != keyOf(bar);
        const bool showsTime = !before || before->meter != bar.meter;
        if (!showsKey && !showsTime) return;
        pugi::xml_node attributes = measure.append_child("attributes");
        if (!before) addText(attributes, "divisions", std::to_string(divisions));
        if (showsKey) addKey(attributes, keyOf(bar));
        if (showsTime) {
            pugi::xml_node time = attributes.append_child("time");
            addText(time, "beats", std::to_string(bar.meter.beatsPerBar));
            addText(time, "beat-type", std::to_string(bar.meter.beatUnit));
        }
        if (before) return;
        pugi::xml_node clef = attributes.append_child("clef");
        addText(clef, "sign", liesLow(line) ? "F" : "G");
        addText(clef, "line", liesLow(line) ? "4" : "2");
    }

    /// Quarters a minute over the bar.
    double tempoOf(const PageBar& bar) const {
        const Range<Seconds> time = study.beatMap.seconds(Range<Beats>{bar.begin, bar.end});
        const double quarters = (bar.end - bar.begin).toDouble() * 4 / study.meter.beatUnit;
        return 60 * quarters / (time.end - time.begin).value;
    }

    /// The page shows the first bar's tempo; the sound follows every bar.
    void addTempo(pugi::xml_node measure, const PageBar& bar) {
        if (!study.beatMap.hasTempo()) return;
        const std::string tempo = hundredths(tempoOf(bar));
        if (&bar == &bars.front()) {
            pugi::xml_node direction = measure.append_child("direction");
            direction.append_attribute("placement") = "above";
            pugi::xml_node metronome = direction.append_child("direction-type").append_child("metronome");
            addText(metronome, "beat-unit", "quarter");
            addText(metronome, "per-minute", rounded(tempoOf(bar)));
            direction.append_child("sound").append_attribute("tempo") = tempo.c_str();
        } else if (tempo != standingTempo) {
            measure.append_child("sound").append_attribute("tempo") = tempo.c_str();
        }
        standingTempo = tempo;
    }

    void addSymbol(pugi::xml_node measure, const PagePiece& piece, const Beats& place,
                   const ChordSymbol& symbol) const {
        if (place < piece.begin || place >= piece.end) return;
        const bool isHarmony = symbol.chord || isNoChord(symbol);
        pugi::xml_node element = measure.append_child(isHarmony ? "harmony" : "direction");
        if (symbol.chord)
            addChord(element, symbol);
        else if (isHarmony)
            addNoChord(element);
        else
            addText(element.append_child("direction-type"), "words", symbol.text);
        const std::int64_t offset = notes.duration(place - piece.begin);
        if (offset > 0) addText(element, "offset", std::to_string(offset));
    }

    const Study& study;
    const std::vector<PageNotes>& line;
    const std::vector<PageBar>& bars;
    std::int64_t divisions;
    MusicXmlNotes notes;
    std::string standingTempo;
    pugi::xml_document document;
};

std::int64_t lastChorusBar(const Study& study) {
    std::int64_t last = 1;
    for (const ChorusBars& chorus : study.chorusBars())
        last = std::max(last, chorus.firstBar + chorus.barCount - 1);
    return last;
}

} // namespace

Result<std::string> musicXml(const Study& study) {
    const std::vector<PageNotes> line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), lastChorusBar(study));
    if (!bars) return bars.error();
    return ScoreWriter(study, line, *bars).write();
}

} // namespace earwright
