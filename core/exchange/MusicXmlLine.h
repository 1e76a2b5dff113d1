// The notes of a MusicXML voice joined into a line: ties, slurs and grace notes find their notes.
#pragma once

#include "core/exchange/Imported.h"
#include "core/exchange/MusicXmlTransposition.h"

#include <map>
#include <pugixml.hpp>
#include <set>
#include <string>
#include <vector>

namespace earwright {

/// What stands where a note is read.
struct MusicXmlPlace {
    Beats begin;
    Beats end;
    Transposition transposition;
    /// As it is read.
    KeySignature key;
};

/// Takes the notes of one voice in order.
class MusicXmlLine {
public:
    explicit MusicXmlLine(Imported& toFill) : imported(toFill) {}

    /// A note with a pitch: of the line, or a grace note (whose begin and end are the same).
    void add(pugi::xml_node note, const MusicXmlPlace& place);
    std::size_t size() const { return notes.size(); }
    /// Puts the notes into the study. Requires: called once, after the last.
    void finish();

private:
    void addGrace(pugi::xml_node note, const MusicXmlPlace& place);
    void addSounding(pugi::xml_node note, const MusicXmlPlace& place);
    void readSlurs(pugi::xml_node note, bool isGrace);
    /// Hands the grace notes out to the notes they lead to, now that all that begin there are known.
    void settleGraces();

    Imported& imported;
    std::vector<ForeignNote> notes;
    /// Of the open tie of each pitch.
    std::map<int, std::size_t> tied;
    /// By number.
    std::set<std::string> openSlurs;
    std::set<std::string> slursOfGraces;
    /// Grace notes that sound together.
    using GraceGroup = std::vector<int>;
    std::vector<GraceGroup> graces;
    std::size_t graceCount = 0;
    /// What the grace notes before lead to: from this note on, those that begin together.
    std::size_t firstTogether = 0;
    std::vector<GraceGroup> gracesOfTogether;
};

} // namespace earwright
