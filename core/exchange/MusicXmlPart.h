// One part of a MusicXML score read into a study.
#pragma once

#include "core/exchange/Imported.h"
#include "core/exchange/MusicXmlDirectionReading.h"
#include "core/exchange/MusicXmlLine.h"
#include "core/exchange/MusicXmlTransposition.h"
#include "core/exchange/MusicXmlVoice.h"
#include "core/music/MeterMap.h"

#include <cstdint>
#include <optional>
#include <pugixml.hpp>
#include <string>

namespace earwright {

/// Reads the measures of a part one after the other.
class MusicXmlPart {
public:
    explicit MusicXmlPart(Imported& toFill)
        : imported(toFill), study(toFill.study), line(toFill), directions(toFill) {}

    /// Why the part cannot be read, or nothing.
    std::optional<std::string> read(pugi::xml_node part);

private:
    void findMeter(pugi::xml_node part);
    void readDivisions(pugi::xml_node attributes);
    void readMeasure(pugi::xml_node measure, bool isFirst, bool isLast);
    /// How far the notes of a measure go, in beats.
    Beats lengthOf(pugi::xml_node measure) const;
    void startFirstBar(pugi::xml_node measure, bool isLast);
    void readElement(pugi::xml_node element);
    void readAttributes(pugi::xml_node attributes);
    void readKey(pugi::xml_node key);
    void readTime(pugi::xml_node time);
    void readNote(pugi::xml_node note);
    void readHarmony(pugi::xml_node harmony);
    void readDirection(pugi::xml_node direction);
    void addChord(const Beats& place, const ChordSymbol& symbol);
    void readBarline(pugi::xml_node barline);
    void fitBar(const Beats& length, bool isLast);
    void finishPickup();
    void finishChords();
    void finishSpellings();

    /// In beats.
    Beats length(pugi::xml_node element) const;
    void goBack(const Beats& by);
    /// Where an element of no length of its own stands, as a study file can hold it.
    Beats offsetOf(pugi::xml_node element) const;
    /// A place as exact as sums of many can go on from; what no music has is moved.
    static Beats bounded(const Beats& place);
    bool isChosen(pugi::xml_node note);

    Imported& imported;
    Study& study;
    MusicXmlLine line;
    MusicXmlDirectionReading directions;
    MusicXmlVoice voice;
    Transposition transposition;
    /// As it is read, not as it sounds.
    KeySignature readKeySignature;
    /// The study's so far, kept at hand.
    MeterMap meters{Meter{}, {}};
    /// What stands in the bar before this one.
    Meter meterBefore;
    std::int64_t bar = 1;
    std::int64_t repeatFrom = 1;
    std::int64_t endingFrom = 0;
    std::int64_t divisions = 1;
    /// Where the first measure's notes begin.
    Beats lineBegin;
    /// In beats: where this measure's notes begin (in a pickup, later than its bar), where the cursor stands,
    /// where the note before began, how far anything went.
    Beats barStart;
    Beats cursor;
    Beats lastBegin;
    Beats furthest;
};

} // namespace earwright
