#include "core/engraving/StaffBar.h"

#include "core/engraving/BarAccidentals.h"
#include "core/engraving/PageBeams.h"
#include "core/engraving/WrittenNames.h"
#include "core/study/NoteVoices.h"
#include "core/theory/ChordDegree.h"

#include <algorithm>
#include <cstdlib>

namespace earwright {

namespace {

/// A line lying mostly below this (B3, as read) is easier read in the bass clef.
constexpr int lowMiddle = 52;

/// What stands once for all notes that sound together: whatever any of them has.
Phrasing joined(const std::vector<Note>& notes) {
    Phrasing all;
    for (const Note& note : notes) {
        const Phrasing& one = note.phrasing;
        for (bool Phrasing::*mark :
             {&Phrasing::slurred, &Phrasing::pickedInSlur, &Phrasing::vibrato, &Phrasing::accented,
              &Phrasing::staccato, &Phrasing::tenuto, &Phrasing::letRing})
            all.*mark = all.*mark || one.*mark;
        if (!all.slurBy) all.slurBy = one.slurBy;
        if (!all.trill) all.trill = one.trill;
        if (!all.turn) all.turn = one.turn;
        if (!all.mordent) all.mordent = one.mordent;
    }
    return all;
}

class BarReader {
public:
    BarReader(const Study& written, const std::vector<PageNotes>& notes, Reading readFor, Clef in)
        : study(written), line(notes), reading(readFor), clef(in), names(written, readFor) {}

    StaffBar read(const PageBar& page) {
        sounding = study.page.keyAt(page.number);
        const KeySignature key = readAs(reading, sounding);
        accidentals.startBar(key);
        StaffBar bar{page.number, page.begin, page.end, {}, {}, page.meter, key, {}, false};
        bar.repeat = repeatSignsAt(study.page.repeats, page.number);
        bar.isPartial = page.begin > page.start;
        const auto beams = pageBeams(page);
        for (std::size_t i = 0; i < page.pieces.size(); ++i)
            bar.pieces.push_back(pieceOf(page.pieces[i], beams[i]));
        for (std::size_t i = 0; i < bar.pieces.size(); i = beamGroup(bar.pieces, i).second)
            turnStems(bar.pieces, beamGroup(bar.pieces, i));
        readChords(page, bar);
        return bar;
    }

private:
    void readChords(const PageBar& page, StaffBar& bar) const {
        for (const PlacedChord& chord : study.barChords(page.number).chords) {
            const Beats at = page.start + chord.withinBar;
            if (at >= page.begin) bar.chords.emplace_back(at, readAs(reading, chord.symbol, sounding));
        }
        // A bar that is shown from its middle on still tells its chord.
        const bool tellsNone = bar.chords.empty() || bar.chords.front().first > page.begin;
        if (!bar.isPartial || page.number < 1 || !tellsNone) return;
        if (const auto symbol = study.chordAt(page.begin))
            bar.chords.insert(bar.chords.begin(), {page.begin, readAs(reading, *symbol, sounding)});
    }

    StaffPiece pieceOf(const PagePiece& page, const std::vector<std::string>& beams) {
        StaffPiece piece{page, {}, {}, beams, true, {}, {}, {}};
        if (!page.event) return piece;
        const std::vector<Note>& notes = line[*page.event].notes;
        piece.phrasing = joined(notes);
        if (!page.tiedFromBefore)
            for (const Note& note : notes)
                for (std::size_t i = 0; i < note.phrasing.graceNotes.size(); ++i)
                    piece.graces.push_back(graceOf(note, i));
        for (const Note& note : notes)
            piece.heads.push_back(headOf(note, names.of(note), page.tiedFromBefore));
        for (std::size_t i = 0; i < notes.size(); ++i)
            piece.heads[i].slidesBy = slideOf(*page.event, i);
        const auto trilled = std::find_if(notes.begin(), notes.end(),
                                          [](const Note& note) { return note.phrasing.trill.has_value(); });
        if (trilled != notes.end() && !page.tiedFromBefore) sayTrill(*trilled, piece);
        return piece;
    }

    std::optional<int> slideOf(std::size_t event, std::size_t voice) const {
        const Note& note = line[event].notes[voice];
        if (!note.phrasing.slidesToNext || !goesOn(line, event)) return {};
        const std::vector<Note>& next = line[event + 1].notes;
        return next[otherVoice(voice, next.size())].pitch.midi - note.pitch.midi;
    }

    /// The upper note of a second has a sign where bar and key don't say it already; a wider one is shown.
    void sayTrill(const Note& note, StaffPiece& piece) {
        const int semitones = *note.phrasing.trill;
        const bool isSecond = semitones <= 2;
        const ReadPitch main = names.of(note);
        const int letter = static_cast<int>(main.name.step) + (isSecond ? 1 : 2);
        ReadPitch upper{{static_cast<Step>(letter % 7), 0}, main.octave + letter / 7};
        const int letters =
            upper.name.pitchClass() + letter / 7 * 12 - PitchName{main.name.step, 0}.pitchClass();
        upper.name.alter = semitones + main.name.alter - letters;
        if (std::abs(upper.name.alter) > 2) return;
        std::optional<int> sign;
        if (accidentals.standingAt(upper) != upper.name.alter) sign = upper.name.alter;
        if (isSecond)
            piece.trillAccidental = sign;
        else
            piece.trillHead =
                StaffHead{note.id, note.pitch.midi + semitones, staffPosition(upper, clef), sign, {}, {}};
    }

    StaffHead graceOf(const Note& main, std::size_t index) {
        Note grace = main;
        grace.pitch = {main.phrasing.graceNotes[index], {}};
        grace.phrasing = {};
        return headOf(grace, names.ofGrace(main, index), false);
    }

    StaffHead headOf(const Note& note, const ReadPitch& read, bool isTied) {
        StaffHead head{note.id, note.pitch.midi, staffPosition(read, clef),
                       {},      note.phrasing,   degreeLabel(note)};
        if (const auto sign = accidentals.signOf(read, isTied)) {
            head.accidental = sign->alter;
            head.isCautionary = sign->isCautionary;
        }
        return head;
    }

    std::string degreeLabel(const Note& note) const {
        const auto symbol = study.chordAt(note.onset);
        return symbol && symbol->chord ? degreeOf(note.pitch.midi, *symbol->chord).label : std::string();
    }

    static void turnStems(std::vector<StaffPiece>& pieces, std::pair<std::size_t, std::size_t> group) {
        int highest = -1000;
        int lowest = 1000;
        // Heads above the middle line less those below it.
        int above = 0;
        for (std::size_t i = group.first; i < group.second; ++i)
            for (const StaffHead& head : pieces[i].heads) {
                highest = std::max(highest, head.position);
                lowest = std::min(lowest, head.position);
                above += (head.position > 0) - (head.position < 0);
            }
        const bool up = highest + lowest != 0 ? highest + lowest < 0 : above < 0;
        for (std::size_t i = group.first; i < group.second; ++i)
            pieces[i].stemUp = up;
    }

    const Study& study;
    const std::vector<PageNotes>& line;
    Reading reading;
    Clef clef;
    WrittenNames names;
    /// Of the bar, as it sounds.
    KeySignature sounding;
    BarAccidentals accidentals;
};

} // namespace

std::vector<StaffBar> staffBars(const Study& study, const std::vector<PageNotes>& line,
                                const std::vector<PageBar>& bars, Reading reading, Clef clef) {
    BarReader reader(study, line, reading, clef);
    std::vector<StaffBar> staff;
    for (const PageBar& bar : bars)
        staff.push_back(reader.read(bar));
    return staff;
}

Clef easiestClef(const std::vector<PageNotes>& line, Reading reading) {
    std::vector<int> pitches;
    for (const PageNotes& together : line)
        pitches.push_back(together.notes.front().pitch.midi);
    if (pitches.empty()) return Clef::Treble;
    const auto middle = pitches.begin() + static_cast<std::ptrdiff_t>(pitches.size() / 2);
    std::nth_element(pitches.begin(), middle, pitches.end());
    return *middle + semitonesUp(reading) < lowMiddle ? Clef::Bass : Clef::Treble;
}

std::pair<std::size_t, std::size_t> beamGroup(const std::vector<StaffPiece>& pieces, std::size_t index) {
    const auto has = [&](std::size_t at, const char* word) {
        return !pieces[at].beams.empty() && pieces[at].beams.front() == word;
    };
    std::size_t first = index;
    std::size_t end = index + 1;
    while (first > 0 && (has(first, "continue") || has(first, "end")))
        --first;
    while (end < pieces.size() && (has(end - 1, "begin") || has(end - 1, "continue")))
        ++end;
    return {first, end};
}

} // namespace earwright
