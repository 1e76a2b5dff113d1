// The notes of a MusicXML voice joined into a line: ties, slurs and grace notes find their notes.
#pragma once

#include "core/exchange/Imported.h"
#include "core/exchange/MusicXmlTransposition.h"

#include <map>
#include <optional>
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
    /// Puts the notes into the study, on strings tuned as the file states. Requires: called once, after the
    /// last.
    void finish(const std::optional<StringTuning>& tuning);

private:
    void addGrace(pugi::xml_node note, const MusicXmlPlace& place);
    void addSounding(pugi::xml_node note, const MusicXmlPlace& place);
    /// Of note `index`, or of a grace note where there is none.
    void readSlurs(pugi::xml_node note, std::optional<std::size_t> index);
    /// Hands the grace notes out to the notes they lead to, now that all that begin there are known.
    void settleGraces();

    Imported& imported;
    std::vector<ForeignNote> notes;
    /// Of the open tie of each pitch.
    std::map<int, std::size_t> tied;
    /// By number.
    std::set<std::string> openSlurs;
    std::set<std::string> slursOfGraces;
    /// The first of the notes that begin together, and how it is played.
    pugi::xml_node firstOfChord;
    Phrasing marksOfChord;
    /// Whether the notes that begin together stand under a slur that began before.
    bool areUnderSlur = false;
    /// Grace notes that sound together.
    struct GraceGroup {
        std::vector<int> pitches;
        /// The slur that leads to their note; empty where none does.
        std::string slur;
    };
    /// The one begun last, and the notes that such slurs end at.
    std::string graceSlur;
    std::map<std::string, std::size_t> goals;
    std::vector<GraceGroup> graces;
    std::size_t graceCount = 0;
    /// What the grace notes before lead to: from this note on, those that begin together.
    std::size_t firstTogether = 0;
    std::vector<GraceGroup> gracesOfTogether;
};

} // namespace earwright
