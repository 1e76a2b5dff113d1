// The words of the study file, stated once for reading and writing.
#pragma once

#include "core/study/Study.h"

#include <initializer_list>
#include <string>
#include <utility>

namespace earwright {

inline constexpr const char* studyFormatName = "earwright-study";

template <class Meaning>
using Words = std::initializer_list<std::pair<const char*, Meaning>>;

inline constexpr Words<SpanKind> spanKindWords{
    {"phrase", SpanKind::Phrase}, {"chorus", SpanKind::Chorus}, {"section", SpanKind::Section}};
inline constexpr Words<SlideFrom> slideInWords{{"below", SlideFrom::Below}, {"above", SlideFrom::Above}};
inline constexpr Words<SlideTo> slideOutWords{{"up", SlideTo::Up}, {"down", SlideTo::Down}};
/// The marks of phrasing a note has or has not.
inline constexpr Words<bool Phrasing::*> phrasingMarks{{"slurred", &Phrasing::slurred},
                                                       {"ghosted", &Phrasing::ghosted},
                                                       {"accented", &Phrasing::accented},
                                                       {"slidesToNext", &Phrasing::slidesToNext},
                                                       {"pickedInSlur", &Phrasing::pickedInSlur},
                                                       {"vibrato", &Phrasing::vibrato},
                                                       {"fall", &Phrasing::fall},
                                                       {"scoop", &Phrasing::scoop},
                                                       {"staccato", &Phrasing::staccato},
                                                       {"tenuto", &Phrasing::tenuto},
                                                       {"letRing", &Phrasing::letRing}};
inline constexpr Words<SlurBy> slurByWords{{"hammerOn", SlurBy::HammerOn}, {"pullOff", SlurBy::PullOff}};
inline constexpr Words<Turn> turnWords{{"fromAbove", Turn::FromAbove}, {"fromBelow", Turn::FromBelow}};
inline constexpr Words<Mordent> mordentWords{{"lower", Mordent::Lower}, {"upper", Mordent::Upper}};
inline constexpr Words<BendShape> bendWords{{"up", BendShape::Up},
                                            {"upAndDown", BendShape::UpAndDown},
                                            {"prebentHeld", BendShape::PrebentHeld},
                                            {"prebentDown", BendShape::PrebentDown}};
inline constexpr Words<Mode> modeWords{{"major", Mode::Major}, {"minor", Mode::Minor}};
inline constexpr Words<Dynamic> dynamicWords{
    {"ppp", Dynamic::ppp}, {"pp", Dynamic::pp},   {"p", Dynamic::p},
    {"mp", Dynamic::mp},   {"mf", Dynamic::mf},   {"f", Dynamic::f},
    {"ff", Dynamic::ff},   {"fff", Dynamic::fff}, {"sfz", Dynamic::sfz}};
inline constexpr Words<HairpinKind> hairpinWords{{"louder", HairpinKind::Louder},
                                                 {"softer", HairpinKind::Softer}};
inline constexpr Words<HelpStep> helpWords{{"none", HelpStep::None},
                                           {"somethingOff", HelpStep::SomethingOff},
                                           {"whichWay", HelpStep::WhichWay},
                                           {"howFar", HelpStep::HowFar},
                                           {"showIt", HelpStep::ShowIt}};

inline constexpr Words<Mistake> mistakeWords{{"octave", Mistake::Octave},
                                             {"semitone", Mistake::Semitone},
                                             {"pitch", Mistake::Pitch},
                                             {"rhythm", Mistake::Rhythm},
                                             {"missing", Mistake::Missing}};
inline constexpr Words<StereoPlace> stereoPlaceWords{{"unknown", StereoPlace::Unknown},
                                                     {"left", StereoPlace::Left},
                                                     {"centre", StereoPlace::Centre},
                                                     {"right", StereoPlace::Right}};

/// The word for one meaning. Requires: it has one.
template <class Meaning>
const char* wordFor(Words<Meaning> words, Meaning meaning) {
    for (const auto& [word, meant] : words)
        if (meant == meaning) return word;
    return "";
}

/// "Eb", "F#", "C": letter and accidentals in plain characters.
inline std::string spellingText(const PitchName& name) {
    const char sign = name.alter < 0 ? 'b' : '#';
    const auto count = static_cast<std::size_t>(name.alter < 0 ? -name.alter : name.alter);
    return std::string(1, "CDEFGAB"[static_cast<std::size_t>(name.step)]) + std::string(count, sign);
}

} // namespace earwright
