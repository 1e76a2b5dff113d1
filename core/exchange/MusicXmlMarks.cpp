#include "core/exchange/MusicXmlMarks.h"

namespace earwright {

namespace {

/// The element of this name, made when something is first put into it.
class Group {
public:
    Group(pugi::xml_node notations, const char* ownName) : parent(notations), name(ownName) {}
    pugi::xml_node add(const char* mark) {
        if (!group) group = parent.append_child(name);
        return group.append_child(mark);
    }

private:
    pugi::xml_node parent;
    pugi::xml_node group;
    const char* name;
};

void addOrnaments(Group ornaments, const PagePiece& piece, const Phrasing& phrasing) {
    const bool isFirst = !piece.tiedFromBefore;
    if (isFirst && phrasing.trill) {
        pugi::xml_node mark = ornaments.add("trill-mark");
        if (*phrasing.trill <= 2)
            mark.append_attribute("trill-step") = *phrasing.trill == 1 ? "half" : "whole";
    }
    if (isFirst && phrasing.turn) ornaments.add(*phrasing.turn == Turn::FromAbove ? "turn" : "inverted-turn");
    if (isFirst && phrasing.mordent)
        ornaments.add(*phrasing.mordent == Mordent::Lower ? "mordent" : "inverted-mordent");
    if (!phrasing.trill && !phrasing.vibrato) return;
    if (isFirst) ornaments.add("wavy-line").append_attribute("type") = "start";
    if (!piece.tiedOn) ornaments.add("wavy-line").append_attribute("type") = "stop";
}

void addArticulations(Group articulations, const PagePiece& piece, const Phrasing& phrasing) {
    if (!piece.tiedFromBefore) {
        if (phrasing.accented) articulations.add("accent");
        if (phrasing.staccato) articulations.add("staccato");
        if (phrasing.tenuto) articulations.add("tenuto");
        if (phrasing.scoop || phrasing.slideIn == SlideFrom::Below) articulations.add("scoop");
        if (phrasing.slideIn == SlideFrom::Above) articulations.add("plop");
    }
    if (piece.tiedOn) return;
    if (phrasing.slideOut == SlideTo::Up) articulations.add("doit");
    if (phrasing.fall || phrasing.slideOut == SlideTo::Down) articulations.add("falloff");
}

/// Negative amounts are pre-bends and releases (MusicXML 4.0, bend-alter).
void addBend(Group technical, const Bend& bend) {
    const bool isPrebent = bend.shape == BendShape::PrebentHeld || bend.shape == BendShape::PrebentDown;
    const bool isLetDown = bend.shape == BendShape::UpAndDown || bend.shape == BendShape::PrebentDown;
    pugi::xml_node first = technical.add("bend");
    first.append_child("bend-alter").text().set(isPrebent ? -bend.semitones() : bend.semitones());
    if (isPrebent) first.append_child("pre-bend");
    if (!isLetDown) return;
    pugi::xml_node second = technical.add("bend");
    second.append_child("bend-alter").text().set(-bend.semitones());
    second.append_child("release");
}

} // namespace

void addMark(pugi::xml_node parent, const char* name, const char* type) {
    parent.append_child(name).append_attribute("type") = type;
}

void addPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing) {
    if (phrasing.letRing && !piece.tiedOn) addMark(notations, "tied", "let-ring");
    addOrnaments(Group(notations, "ornaments"), piece, phrasing);
    if (phrasing.bend && !piece.tiedFromBefore) addBend(Group(notations, "technical"), *phrasing.bend);
    addArticulations(Group(notations, "articulations"), piece, phrasing);
}

} // namespace earwright
