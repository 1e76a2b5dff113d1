#include "core/exchange/MusicXmlMarks.h"

#include <array>
#include <optional>
#include <utility>

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

/// The accidental of the letter above that lies so many semitones up; nothing where none does.
std::optional<int> upperAlter(const PitchName& name, int semitones) {
    const Step above = static_cast<Step>((static_cast<int>(name.step) + 1) % 7);
    const bool isOverOctave = name.step == Step::B;
    const int natural =
        PitchName{above, 0}.pitchClass() + (isOverOctave ? 12 : 0) - PitchName{name.step, 0}.pitchClass();
    const int alter = semitones + name.alter - natural;
    return alter >= -2 && alter <= 3 ? std::optional(alter) : std::nullopt;
}

/// The trill's step is said for those who play it, the accidental of its upper note for those who read it.
void addTrill(Group& ornaments, int semitones, const TrillPlace& place) {
    pugi::xml_node mark = ornaments.add("trill-mark");
    if (semitones <= 2 && !place.isByKey)
        mark.append_attribute("trill-step") = semitones == 1 ? "half" : "whole";
    const Step above = static_cast<Step>((static_cast<int>(place.name.step) + 1) % 7);
    const auto alter = upperAlter(place.name, semitones);
    // Of a wider one nothing but the accidental tells how far it goes.
    const bool isNews =
        alter && (*alter != place.standing || (semitones > 2 && *alter != place.key.alterOf(above)));
    if (isNews) ornaments.add("accidental-mark").text().set(accidentalName(*alter));
}

void addWavyLine(Group& ornaments, const char* type, int number) {
    pugi::xml_node line = ornaments.add("wavy-line");
    line.append_attribute("type") = type;
    line.append_attribute("number") = number;
}

void addOrnaments(Group ornaments, const PagePiece& piece, const Phrasing& phrasing,
                  const TrillPlace& place) {
    const bool isFirst = !piece.tiedFromBefore;
    if (isFirst && phrasing.trill) addTrill(ornaments, *phrasing.trill, place);
    if (isFirst && phrasing.turn) ornaments.add(*phrasing.turn == Turn::FromAbove ? "turn" : "inverted-turn");
    if (isFirst && phrasing.mordent)
        ornaments.add(*phrasing.mordent == Mordent::Lower ? "mordent" : "inverted-mordent");
    for (const auto& [isThere, number] :
         {std::pair{phrasing.trill.has_value(), 1}, {phrasing.vibrato, phrasing.trill ? 2 : 1}}) {
        if (!isThere) continue;
        if (isFirst) addWavyLine(ornaments, "start", number);
        if (!piece.tiedOn) addWavyLine(ornaments, "stop", number);
    }
}

void addShaped(Group& articulations, const char* name, const char* shape) {
    articulations.add(name).append_attribute("line-shape") = shape;
}

void addArticulations(Group articulations, const PagePiece& piece, const Phrasing& phrasing) {
    constexpr const char* byFinger = "straight";
    constexpr const char* byBreath = "curved";
    if (!piece.tiedFromBefore) {
        if (phrasing.accented) articulations.add("accent");
        if (phrasing.staccato) articulations.add("staccato");
        if (phrasing.tenuto) articulations.add("tenuto");
        if (phrasing.scoop) addShaped(articulations, "scoop", byBreath);
        if (phrasing.slideIn == SlideFrom::Below) addShaped(articulations, "scoop", byFinger);
        if (phrasing.slideIn == SlideFrom::Above) addShaped(articulations, "plop", byFinger);
    }
    if (piece.tiedOn) return;
    if (phrasing.slideOut == SlideTo::Up) addShaped(articulations, "doit", byFinger);
    if (phrasing.slideOut == SlideTo::Down) addShaped(articulations, "falloff", byFinger);
    if (phrasing.fall) addShaped(articulations, "falloff", byBreath);
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

const char* accidentalName(int alter) {
    static constexpr std::array<const char*, 6> names{"flat-flat", "flat",         "natural",
                                                      "sharp",     "double-sharp", "triple-sharp"};
    return names[static_cast<std::size_t>(alter + 2)];
}

bool goesByKey(int semitones, const TrillPlace& place) {
    const Step above = static_cast<Step>((static_cast<int>(place.name.step) + 1) % 7);
    return upperAlter(place.name, semitones) == place.key.alterOf(above);
}

void addPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing,
                 const TrillPlace& place) {
    if (phrasing.letRing && !piece.tiedOn) addMark(notations, "tied", "let-ring");
    addOrnaments(Group(notations, "ornaments"), piece, phrasing, place);
    addTabPhrasing(notations, piece, phrasing);
    addArticulations(Group(notations, "articulations"), piece, phrasing);
}

void addTabPhrasing(pugi::xml_node notations, const PagePiece& piece, const Phrasing& phrasing) {
    if (phrasing.bend && !piece.tiedFromBefore) addBend(Group(notations, "technical"), *phrasing.bend);
}

} // namespace earwright
