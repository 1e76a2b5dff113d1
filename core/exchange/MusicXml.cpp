#include "core/exchange/MusicXml.h"

#include "core/engraving/Fingering.h"
#include "core/engraving/PageBeams.h"
#include "core/engraving/StaffBar.h"
#include "core/exchange/MusicXmlBarlines.h"
#include "core/exchange/MusicXmlDirections.h"
#include "core/exchange/MusicXmlNote.h"
#include "core/exchange/MusicXmlTransposition.h"

#include <algorithm>
#include <numeric>
#include <sstream>

namespace earwright {

namespace {

/// A page of more bars than this cannot be made; what stands behind is left out.
constexpr std::int64_t furthestBarOfMarks = 9'000;
/// Finer places are written at the division before.
constexpr std::int64_t mostDivisions = 100'000;

class DivisionsCount {
public:
    explicit DivisionsCount(const Meter& first) : unit(first.beatUnit) {}
    void add(const Beats& place) {
        const std::int64_t common = std::lcm(count, (place * 4 / unit).denominator());
        if (common <= mostDivisions) count = common;
    }
    std::int64_t perQuarter() const { return count; }

private:
    int unit;
    std::int64_t count = 1;
};

std::int64_t divisionsFor(const std::vector<PageBar>& bars, const std::vector<Beats>& places,
                          const Meter& meter) {
    DivisionsCount divisions(meter);
    // A pickup may begin within a beat; all else begins where something ends.
    divisions.add(bars.front().begin);
    for (const PageBar& bar : bars)
        for (const PagePiece& piece : bar.pieces)
            divisions.add(piece.end);
    for (const Beats& place : places)
        divisions.add(place);
    return divisions.perQuarter();
}

class ScoreWriter {
public:
    ScoreWriter(const Study& written, const MusicXmlOptions& wish, const std::vector<PageNotes>& notesOfLine,
                const std::vector<PageBar>& barsOfLine)
        : study(written),
          options(wish),
          line(notesOfLine),
          bars(barsOfLine),
          directions(study, bars, options.reading),
          divisions(divisionsFor(bars, directions.places(), study.meter)),
          notes(study, line, divisions, options, placesOf()) {}

    std::string write() {
        pugi::xml_node declaration = document.append_child(pugi::node_declaration);
        declaration.append_attribute("version") = "1.0";
        declaration.append_attribute("encoding") = "UTF-8";
        pugi::xml_node score = document.append_child("score-partwise");
        score.append_attribute("version") = "4.0";
        if (!study.title.empty()) addText(score.append_child("work"), "work-title", study.title);
        pugi::xml_node list = score.append_child("part-list");
        addToList(list, "P1", "Line");
        if (options.tablature) addToList(list, "P2", "Tablature");
        addPart(score);
        if (options.tablature) {
            isTablature = true;
            notes.startTablature();
            addPart(score);
        }
        std::ostringstream text;
        document.save(text, "  ", pugi::format_default, pugi::encoding_utf8);
        return text.str();
    }

private:
    static void addToList(pugi::xml_node list, const char* id, const char* name) {
        pugi::xml_node named = list.append_child("score-part");
        named.append_attribute("id") = id;
        addText(named, "part-name", name);
    }

    void addPart(pugi::xml_node score) {
        pugi::xml_node part = score.append_child("part");
        part.append_attribute("id") = isTablature ? "P2" : "P1";
        for (const PageBar& bar : bars)
            addBar(part, bar);
    }

    std::map<NoteId, TabPlace> placesOf() const {
        if (!options.places) return {};
        return fingered(study.notes, study.tuning, LineTime(study)).places;
    }

    void addBar(pugi::xml_node part, const PageBar& bar) {
        pugi::xml_node measure = part.append_child("measure");
        measure.append_attribute("number") = std::to_string(bar.number).c_str();
        if (bar.number < 1) measure.append_attribute("implicit") = "yes";
        addLeftBarline(measure, study.page.repeats, bar.number);
        addAttributes(measure, bar, &bar == &bars.front() ? nullptr : &bar - 1);
        notes.startBar(keyOf(bar));
        const PageBar shown = notes.shown(bar);
        const auto beams = pageBeams(shown);
        const auto inDivisions = [this](const Beats& length) { return notes.duration(length); };
        for (std::size_t i = 0; i < shown.pieces.size(); ++i) {
            const PagePiece& piece = shown.pieces[i];
            if (!isTablature) directions.addBefore(measure, {piece.begin, piece.end}, inDivisions);
            notes.add(measure, piece, beams[i]);
            if (!isTablature) directions.addBehind(measure, piece.end);
        }
        addRightBarline(measure, study.page.repeats, bar.number, &bar == &bars.back());
    }

    /// As the page's reader has it.
    KeySignature keyOf(const PageBar& bar) const {
        return readAs(options.reading, study.page.keyAt(bar.number));
    }

    static void addKey(pugi::xml_node attributes, const KeySignature& key) {
        pugi::xml_node element = attributes.append_child("key");
        addText(element, "fifths", std::to_string(key.fifths));
        if (key != KeySignature{}) addText(element, "mode", key.mode == Mode::Minor ? "minor" : "major");
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
        addClef(attributes);
        if (isTablature) addStrings(attributes);
        addTransposition(attributes, options.reading);
    }

    void addClef(pugi::xml_node attributes) const {
        const bool isBass = easiestClef(line, options.reading) == Clef::Bass;
        pugi::xml_node clef = attributes.append_child("clef");
        addText(clef, "sign", isTablature ? "TAB" : isBass ? "F" : "G");
        addText(clef, "line", isTablature ? "5" : isBass ? "4" : "2");
    }

    /// Lines of tablature are counted from the bottom (MusicXML 4.0, staff-tuning).
    void addStrings(pugi::xml_node attributes) const {
        pugi::xml_node details = attributes.append_child("staff-details");
        const std::vector<int>& strings = study.tuning.strings;
        addText(details, "staff-lines", std::to_string(strings.size()));
        for (std::size_t fromBelow = 1; fromBelow <= strings.size(); ++fromBelow) {
            const int midi = strings[strings.size() - fromBelow];
            const PitchName name = plainName(midi);
            pugi::xml_node tuning = details.append_child("staff-tuning");
            tuning.append_attribute("line") = static_cast<unsigned>(fromBelow);
            addText(tuning, "tuning-step", toString(PitchName{name.step, 0}));
            if (name.alter != 0) addText(tuning, "tuning-alter", std::to_string(name.alter));
            addText(tuning, "tuning-octave", std::to_string(writtenOctave(name, midi)));
        }
        if (study.tuning.capo > 0) addText(details, "capo", std::to_string(study.tuning.capo));
    }

    const Study& study;
    const MusicXmlOptions& options;
    const std::vector<PageNotes>& line;
    const std::vector<PageBar>& bars;
    MusicXmlDirections directions;
    std::int64_t divisions;
    MusicXmlNotes notes;
    bool isTablature = false;
    pugi::xml_document document;
};

/// The last bar that has a chorus, a chord of its own or a mark.
std::int64_t lastMarkedBar(const Study& study) {
    const MeterMap meters = study.meters();
    std::int64_t last = lastRepeatedBar(study.page.repeats);
    for (const ChorusBars& chorus : study.chorusBars())
        last = std::max(last, chorus.firstBar + chorus.barCount - 1);
    const auto take = [&](std::int64_t bar) {
        if (bar <= furthestBarOfMarks) last = std::max(last, bar);
    };
    if (!study.chart.overrides.empty()) take(study.chart.overrides.rbegin()->first);
    if (!study.page.keys.empty()) take(study.page.keys.back().bar);
    if (!study.page.meters.empty()) take(study.page.meters.back().bar);
    if (!study.page.swings.empty()) take(meters.barOf(study.page.swings.back().at));
    if (!study.page.tempos.empty()) take(meters.barOf(study.page.tempos.back().at));
    if (!study.page.dynamics.empty()) take(meters.barOf(study.page.dynamics.back().at));
    if (!study.page.texts.empty()) take(meters.barOf(study.page.texts.back().at));
    // A hairpin may end on the bar line behind the page.
    if (!study.page.hairpins.empty())
        take(meters.barOf(study.page.hairpins.back().range.end - Beats(1, 100'000)));
    return last;
}

} // namespace

Result<std::string> musicXml(const Study& study, const MusicXmlOptions& options) {
    const std::vector<PageNotes> line = pageLine(study);
    const auto bars = pageBars(line, study.meters(), lastMarkedBar(study), study.page.pickup);
    if (!bars) return bars.error();
    MusicXmlOptions wish = options;
    wish.tablature = wish.tablature && wish.places;
    return ScoreWriter(study, wish, line, *bars).write();
}

} // namespace earwright
