// Writes the notes of one bar as MusicXML elements.
#pragma once

#include "core/engraving/BarAccidentals.h"
#include "core/engraving/PageBars.h"
#include "core/engraving/TabPlace.h"
#include "core/engraving/WrittenNames.h"
#include "core/exchange/MusicXml.h"
#include "core/exchange/MusicXmlMarks.h"
#include "core/study/Study.h"

#include <map>
#include <pugixml.hpp>
#include <string>
#include <utility>
#include <vector>

namespace earwright {

/// Appends `<name>text</name>`.
pugi::xml_node addText(pugi::xml_node parent, const char* name, const std::string& text);

/// Notes of a bar, one piece after the other; keeps the bar's accidentals.
class MusicXmlNotes {
public:
    /// Requires: all of them outlive this.
    MusicXmlNotes(const Study& written, const std::vector<PageNotes>& notesOfLine, std::int64_t perQuarter,
                  const MusicXmlOptions& wish, std::map<NoteId, TabPlace> placesOnStrings)
        : study(written),
          line(notesOfLine),
          divisions(perQuarter),
          options(wish),
          names(written, wish.reading),
          places(std::move(placesOnStrings)) {}

    /// From here on only what tablature shows: places on strings, grace notes, ties, slurs, bends, slides.
    void startTablature() { isTablature = true; }
    /// Under this key, as the page's reader has it.
    void startBar(const KeySignature& standing) {
        key = standing;
        accidentals.startBar(standing);
    }
    /// With rests where the tablature has no place for a note.
    PageBar shown(PageBar bar) const;
    /// A piece of a bar as shown() has it; `beams` as pageBeams() gives them for it there.
    void add(pugi::xml_node measure, const PagePiece& piece, const std::vector<std::string>& beams);
    /// In divisions of the quarter. Requires: it is a whole number of them.
    std::int64_t duration(const Beats& length) const;

private:
    void addRest(pugi::xml_node measure, const PagePiece& piece);
    void addGraceNotes(pugi::xml_node measure, const PageNotes& event);
    pugi::xml_node addGraceNote(pugi::xml_node measure, const Note& written, std::size_t index, bool isChord);
    void addNote(pugi::xml_node measure, const PagePiece& piece, std::size_t index,
                 const std::vector<std::string>& beams);
    static void addPitch(pugi::xml_node note, const ReadPitch& pitch);
    void addAccidental(pugi::xml_node note, const ReadPitch& pitch, bool isTied, bool isGhosted);
    TrillPlace trillPlaceOf(const Note& written, bool isByKey = false) const;
    void addStringPlace(pugi::xml_node notations, const Note& written, int semitonesUp = 0) const;
    void addDegree(pugi::xml_node note, const Note& written) const;
    void addNotations(pugi::xml_node note, const PagePiece& piece, std::size_t index);
    void addJoins(pugi::xml_node notations, const PagePiece& piece, std::size_t index) const;
    void addSlides(pugi::xml_node notations, const PagePiece& piece, std::size_t index) const;
    /// Of a note; none where its string does not reach them.
    bool showsGraces(const PageNotes& event) const;
    /// A tablature has no place for it.
    bool isHidden(const PagePiece& piece) const;
    bool sharesTrillByKey(std::size_t event) const;
    /// Of a note of a double stop: those of the first one hold for it, too.
    bool sharesMarksOfChord(std::size_t event, std::size_t index) const;
    /// What stands at the note itself.
    Phrasing shownPhrasing(std::size_t event, std::size_t index) const;
    bool isUnderSlur(std::size_t event) const;
    bool slurBegins(std::size_t event) const;
    bool slurEnds(std::size_t event) const;

    const Study& study;
    const std::vector<PageNotes>& line;
    std::int64_t divisions;
    const MusicXmlOptions& options;
    WrittenNames names;
    std::map<NoteId, TabPlace> places;
    bool isTablature = false;
    KeySignature key;
    BarAccidentals accidentals;
};

} // namespace earwright
