// One part of a MusicXML score read into a study.
#pragma once

#include "core/exchange/Imported.h"

#include <cstdint>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <vector>

namespace earwright {

/// Reads the measures of a part one after the other.
class MusicXmlPart {
public:
    explicit MusicXmlPart(Imported& toFill) : imported(toFill), study(toFill.study) {}

    /// Why the part cannot be read, or nothing.
    std::optional<std::string> read(pugi::xml_node part);

private:
    void readMeasure(pugi::xml_node measure, bool isFirst, bool isLast);
    void readElement(pugi::xml_node element);
    void readAttributes(pugi::xml_node attributes);
    void readNote(pugi::xml_node note);
    void readSounding(pugi::xml_node note, const Pitch& pitch, const Beats& begin, const Beats& end);
    void readHarmony(pugi::xml_node harmony);
    void readDirection(pugi::xml_node direction);
    void readSound(pugi::xml_node sound, const Beats& place);
    void readWedge(pugi::xml_node wedge, const Beats& place);
    void readBarline(pugi::xml_node barline);
    void fitBar(const Beats& length, bool isFirst, bool isLast);
    void finishTempo();
    void finishSpellings();

    /// A whole number of divisions as beats.
    Beats length(pugi::xml_node element) const;
    Beats offsetOf(pugi::xml_node element) const;
    Pitch pitchOf(pugi::xml_node note) const;
    bool isChosen(pugi::xml_node note);

    Imported& imported;
    Study& study;
    std::vector<ForeignNote> notes;
    /// Of the open tie of each pitch.
    std::map<int, std::size_t> tied;
    std::vector<int> graceNotes;
    std::map<Beats, double> tempos;
    std::optional<std::string> voice;
    std::optional<HairpinKind> openWedge;
    Beats wedgeBegin;
    /// What stands in the bar before this one.
    Meter meterBefore;
    std::int64_t bar = 1;
    std::int64_t repeatFrom = 1;
    std::int64_t endingFrom = 0;
    std::int64_t divisions = 1;
    int transposition = 0;
    int openSlurs = 0;
    /// In beats: of this measure, where the cursor stands, where the note before began, how far anything
    /// went.
    Beats barStart;
    Beats cursor;
    Beats lastBegin;
    Beats furthest;
};

} // namespace earwright
