// Writes the notes of one bar as MusicXML elements.
#pragma once

#include "core/engraving/PageBars.h"
#include "core/study/Study.h"

#include <map>
#include <pugixml.hpp>
#include <string>
#include <vector>

namespace earwright {

/// Appends `<name>text</name>`.
pugi::xml_node addText(pugi::xml_node parent, const char* name, const std::string& text);

/// Notes of a bar, one piece after the other; keeps the bar's accidentals.
class MusicXmlNotes {
public:
    /// Requires: all of them outlive this.
    MusicXmlNotes(const Study& written, const std::vector<PageNotes>& notesOfLine, std::int64_t perQuarter)
        : study(written), line(notesOfLine), divisions(perQuarter) {}

    /// Under this key.
    void startBar(const KeySignature& standing) {
        key = standing;
        accidentals.clear();
    }
    /// `beams` as pageBeams() gives them for this piece.
    void add(pugi::xml_node measure, const PagePiece& piece, const std::vector<std::string>& beams);
    /// In divisions of the quarter. Requires: it is a whole number of them.
    std::int64_t duration(const Beats& length) const;

private:
    void addRest(pugi::xml_node measure, const PagePiece& piece);
    void addGraceNotes(pugi::xml_node measure, const PageNotes& event);
    void addNote(pugi::xml_node measure, const PagePiece& piece, std::size_t index,
                 const std::vector<std::string>& beams);
    void addPitch(pugi::xml_node note, const PitchName& name, int midi);
    void addAccidental(pugi::xml_node note, const PitchName& name, int midi, bool isTied);
    void addNotations(pugi::xml_node note, const PagePiece& piece, std::size_t index);
    void addJoins(pugi::xml_node notations, const PagePiece& piece) const;
    bool slurBegins(std::size_t event) const;
    bool slurEnds(std::size_t event) const;

    const Study& study;
    const std::vector<PageNotes>& line;
    std::int64_t divisions;
    KeySignature key;
    /// What stands before a letter and octave so far in this bar.
    std::map<std::pair<Step, int>, int> accidentals;
};

} // namespace earwright
