#include "core/exchange/MusicXmlPhrasing.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace earwright {

namespace {

bool isOf(pugi::xml_node node, std::string_view type) {
    return node.attribute("type").value() == type;
}

void readArticulations(pugi::xml_node articulations, Phrasing& phrasing) {
    phrasing.accented = articulations.child("accent") || articulations.child("strong-accent");
    phrasing.staccato = articulations.child("staccato") || articulations.child("staccatissimo");
    phrasing.tenuto = articulations.child("tenuto");
    phrasing.scoop = articulations.child("scoop");
    if (articulations.child("plop")) phrasing.slideIn = SlideFrom::Above;
    if (articulations.child("doit")) phrasing.slideOut = SlideTo::Up;
    phrasing.fall = articulations.child("falloff");
}

void readOrnaments(pugi::xml_node ornaments, Phrasing& phrasing) {
    if (const pugi::xml_node trill = ornaments.child("trill-mark"))
        phrasing.trill = std::string_view(trill.attribute("trill-step").value()) == "half" ? 1 : 2;
    if (ornaments.child("turn")) phrasing.turn = Turn::FromAbove;
    if (ornaments.child("inverted-turn")) phrasing.turn = Turn::FromBelow;
    if (ornaments.child("mordent")) phrasing.mordent = Mordent::Lower;
    if (ornaments.child("inverted-mordent")) phrasing.mordent = Mordent::Upper;
    if (ornaments.child("wavy-line") && !phrasing.trill) phrasing.vibrato = true;
}

void readBend(pugi::xml_node technical, Phrasing& phrasing) {
    const pugi::xml_node bend = technical.child("bend");
    if (!bend) return;
    const double semitones = bend.child("bend-alter").text().as_double();
    const auto quarterTones = std::lround(std::clamp(std::abs(semitones) * 2, 1.0, 1.0 * widestBend));
    const bool isLetDown = bend.next_sibling("bend").child("release") || bend.child("release");
    const bool isPrebent = bend.child("pre-bend");
    const BendShape shape = isPrebent ? (isLetDown ? BendShape::PrebentDown : BendShape::PrebentHeld)
                                      : (isLetDown ? BendShape::UpAndDown : BendShape::Up);
    phrasing.bend = Bend{static_cast<int>(quarterTones), shape};
}

void readTechnical(pugi::xml_node technical, Phrasing& phrasing) {
    readBend(technical, phrasing);
    for (const pugi::xml_node mark : technical.children("hammer-on"))
        if (isOf(mark, "stop")) phrasing.slurBy = SlurBy::HammerOn;
    for (const pugi::xml_node mark : technical.children("pull-off"))
        if (isOf(mark, "stop")) phrasing.slurBy = SlurBy::PullOff;
    if (phrasing.slurBy) phrasing.slurred = true;
}

} // namespace

Phrasing musicXmlPhrasing(pugi::xml_node note) {
    Phrasing phrasing;
    for (const pugi::xml_node notations : note.children("notations")) {
        if (const auto node = notations.child("articulations")) readArticulations(node, phrasing);
        if (const auto node = notations.child("ornaments")) readOrnaments(node, phrasing);
        if (const auto node = notations.child("technical")) readTechnical(node, phrasing);
        for (const char* name : {"slide", "glissando"})
            for (const pugi::xml_node mark : notations.children(name))
                if (isOf(mark, "start")) phrasing.slidesToNext = true;
        for (const pugi::xml_node mark : notations.children("tied"))
            if (isOf(mark, "let-ring")) phrasing.letRing = true;
    }
    phrasing.ghosted = note.child("notehead").attribute("parentheses").as_bool();
    if (phrasing.ghosted) phrasing.accented = false;
    return phrasing;
}

void addEndOf(Phrasing& phrasing, const Phrasing& later) {
    if (later.slideOut) phrasing.slideOut = later.slideOut;
    phrasing.fall = phrasing.fall || later.fall;
    phrasing.slidesToNext = phrasing.slidesToNext || later.slidesToNext;
    phrasing.letRing = phrasing.letRing || later.letRing;
}

} // namespace earwright
