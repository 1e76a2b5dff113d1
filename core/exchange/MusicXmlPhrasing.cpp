#include "core/exchange/MusicXmlPhrasing.h"

#include "core/exchange/ChordMarks.h"
#include "core/exchange/MusicXmlMarks.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>

namespace earwright {

namespace {

bool isOf(pugi::xml_node node, std::string_view type) {
    return node.attribute("type").value() == type;
}

bool hasShape(pugi::xml_node mark, std::string_view shape) {
    return mark.attribute("line-shape").value() == shape;
}

/// A straight line is a finger's slide; one of no shape is the sign's own sense.
void readArticulations(pugi::xml_node articulations, Phrasing& phrasing) {
    if (articulations.child("accent") || articulations.child("strong-accent")) phrasing.accented = true;
    if (articulations.child("staccato") || articulations.child("staccatissimo")) phrasing.staccato = true;
    if (articulations.child("tenuto")) phrasing.tenuto = true;
    if (articulations.child("detached-legato")) phrasing.staccato = phrasing.tenuto = true;
    for (const pugi::xml_node mark : articulations.children("scoop")) {
        if (hasShape(mark, "straight"))
            phrasing.slideIn = SlideFrom::Below;
        else
            phrasing.scoop = true;
    }
    if (articulations.child("plop")) phrasing.slideIn = SlideFrom::Above;
    if (articulations.child("doit")) phrasing.slideOut = SlideTo::Up;
    for (const pugi::xml_node mark : articulations.children("falloff")) {
        if (hasShape(mark, "straight"))
            phrasing.slideOut = SlideTo::Down;
        else
            phrasing.fall = true;
    }
}

std::optional<int> alterNamed(std::string_view accidental) {
    static constexpr std::pair<std::string_view, int> names[] = {
        {"flat-flat", -2},   {"flat", -1},         {"natural", 0},
        {"sharp", 1},        {"double-sharp", 2},  {"sharp-sharp", 2},
        {"triple-sharp", 3}, {"natural-flat", -1}, {"natural-sharp", 1}};
    for (const auto& [name, alter] : names)
        if (name == accidental) return alter;
    return std::nullopt;
}

/// How far a trill goes whatever note it stands at; nothing where that is for the key to say.
std::optional<int> stepSaidBy(pugi::xml_node trill) {
    const std::string_view step = trill.attribute("trill-step").value();
    if (step == "half") return 1;
    if (step == "whole") return 2;
    return std::nullopt;
}

/// Semitones up to the letter above with this accidental, or as the key has it.
int trillUpTo(std::optional<int> alter, const MusicXmlReadNote& read) {
    constexpr int widest = 4;
    static constexpr std::string_view letters = "CDEFGAB";
    const std::size_t letter = letters.find(read.note.child("pitch").child_value("step"));
    if (letter == std::string_view::npos) return 2;
    const Step above = static_cast<Step>((letter + 1) % 7);
    const int upper = PitchName{above, 0}.pitchClass() + alter.value_or(read.key.alterOf(above));
    return std::clamp(((upper - read.midi) % 12 + 12) % 12, 1, widest);
}

/// Semitones up to the trill's other note.
int trillOf(pugi::xml_node mark, const MusicXmlReadNote& read) {
    const pugi::xml_node sign = mark.next_sibling();
    const bool hasSign = std::string_view(sign.name()) == "accidental-mark";
    if (const auto alter = hasSign ? alterNamed(sign.child_value()) : std::nullopt)
        return trillUpTo(alter, read);
    if (const auto step = stepSaidBy(mark)) return *step;
    return trillUpTo(std::nullopt, read);
}

pugi::xml_node trillAt(pugi::xml_node note) {
    for (const pugi::xml_node notations : note.children("notations"))
        for (const pugi::xml_node ornaments : notations.children("ornaments"))
            if (const pugi::xml_node trill = ornaments.child("trill-mark")) return trill;
    return {};
}

void readOrnaments(pugi::xml_node ornaments, const MusicXmlReadNote& read, Phrasing& phrasing) {
    if (const pugi::xml_node trill = ornaments.child("trill-mark")) phrasing.trill = trillOf(trill, read);
    if (ornaments.child("turn")) phrasing.turn = Turn::FromAbove;
    if (ornaments.child("inverted-turn")) phrasing.turn = Turn::FromBelow;
    if (ornaments.child("mordent")) phrasing.mordent = Mordent::Lower;
    if (ornaments.child("inverted-mordent")) phrasing.mordent = Mordent::Upper;
    for (const pugi::xml_node line : ornaments.children("wavy-line"))
        if (!phrasing.trill || line.attribute("number").as_int(1) == 2) phrasing.vibrato = true;
}

void readBend(pugi::xml_node technical, Phrasing& phrasing) {
    const pugi::xml_node bend = technical.child("bend");
    if (!bend) return;
    const double told = bend.child("bend-alter").text().as_double();
    // The words nan and inf are read as numbers, too.
    const double semitones = std::isfinite(told) ? told : 0;
    const auto quarterTones = std::lround(std::clamp(std::abs(semitones) * 2, 1.0, 1.0 * widestBend));
    const bool isLetDown = bend.next_sibling("bend").child("release") || bend.child("release");
    const bool isPrebent = bend.child("pre-bend");
    // Let down by itself: the end of a bend that began before.
    if (isLetDown && !isPrebent && semitones < 0 && !bend.next_sibling("bend")) {
        phrasing.bend = Bend{static_cast<int>(quarterTones), BendShape::PrebentDown};
        return;
    }
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

Phrasing musicXmlPhrasing(const MusicXmlReadNote& read) {
    Phrasing phrasing;
    for (const pugi::xml_node notations : read.note.children("notations")) {
        for (const pugi::xml_node node : notations.children("articulations"))
            readArticulations(node, phrasing);
        for (const pugi::xml_node node : notations.children("ornaments"))
            readOrnaments(node, read, phrasing);
        for (const pugi::xml_node node : notations.children("technical"))
            readTechnical(node, phrasing);
        for (const char* name : {"slide", "glissando"})
            for (const pugi::xml_node mark : notations.children(name))
                if (isOf(mark, "start")) phrasing.slidesToNext = true;
        for (const pugi::xml_node mark : notations.children("tied"))
            if (isOf(mark, "let-ring")) phrasing.letRing = true;
    }
    phrasing.ghosted = read.note.child("notehead").attribute("parentheses").as_bool();
    if (phrasing.ghosted) phrasing.accented = false;
    return phrasing;
}

void takeMarksOfChord(Phrasing& phrasing, const MusicXmlReadNote& read, Phrasing first,
                      pugi::xml_node firstNote) {
    for (const pugi::xml_node notations : read.note.children("notations"))
        for (const pugi::xml_node technical : notations.children("technical"))
            for (const pugi::xml_node word : technical.children("other-technical"))
                if (std::string_view(word.child_value()) == ownSignsWord) return;
    if (first.trill) {
        const auto step = stepSaidBy(trillAt(firstNote));
        first.trill = step ? *step : trillUpTo(std::nullopt, read);
    }
    phrasing = withShared(first, std::move(phrasing));
}

void putUnderSlur(Phrasing& phrasing, pugi::xml_node note) {
    bool isPicked = false;
    bool isStruck = false;
    for (const pugi::xml_node notations : note.children("notations"))
        for (const pugi::xml_node technical : notations.children("technical")) {
            const std::string_view word = technical.child_value("other-technical");
            isStruck = isStruck || word == struckWord;
            isPicked =
                isPicked || technical.child("down-bow") || technical.child("up-bow") || word == pickedWord;
        }
    if (isStruck) return;
    if (isPicked && !phrasing.slurBy)
        phrasing.pickedInSlur = true;
    else
        phrasing.slurred = true;
}

void addEndOf(Phrasing& phrasing, const Phrasing& later) {
    if (later.slideOut) phrasing.slideOut = later.slideOut;
    phrasing.fall = phrasing.fall || later.fall;
    phrasing.slidesToNext = phrasing.slidesToNext || later.slidesToNext;
    phrasing.letRing = phrasing.letRing || later.letRing;
    // Some programs write the way down over the tied note.
    const bool isLetDown = later.bend && later.bend->shape == BendShape::PrebentDown;
    if (phrasing.bend && isLetDown && phrasing.bend->shape == BendShape::Up)
        phrasing.bend->shape = BendShape::UpAndDown;
    if (phrasing.bend && isLetDown && phrasing.bend->shape == BendShape::PrebentHeld)
        phrasing.bend->shape = BendShape::PrebentDown;
}

} // namespace earwright
