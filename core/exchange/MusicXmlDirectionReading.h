// Tempo, words, dynamics, hairpins and swing of a MusicXML part.
#pragma once

#include "core/exchange/Imported.h"

#include <map>
#include <optional>
#include <pugixml.hpp>
#include <string>

namespace earwright {

/// Reads them into the study's page marks and, at the end, its beat marks.
class MusicXmlDirectionReading {
public:
    explicit MusicXmlDirectionReading(Imported& toFill) : imported(toFill), study(toFill.study) {}

    /// `place` of a direction, its offset included. Its words, where they are a chord symbol, are handed
    /// back.
    std::optional<std::string> read(pugi::xml_node direction, const Beats& place);
    void readSound(pugi::xml_node sound, const Beats& place);
    /// Dynamics and hairpins of a direction-type, or of a note's notations.
    void readSigns(pugi::xml_node type, const Beats& place);
    /// Beat marks as the tempos say, one wherever they change and one behind the last note. Requires: the
    /// notes are in the study.
    void finishTempo();

private:
    void readWedge(pugi::xml_node wedge, const Beats& place);
    void addTempoMark(const TempoMark& mark);
    void addText(const TextMark& mark);

    Imported& imported;
    Study& study;
    std::map<Beats, double> tempos;
    struct Wedge {
        HairpinKind kind;
        Beats begin;
    };
    /// By number.
    std::map<std::string, Wedge> openWedges;
};

} // namespace earwright
