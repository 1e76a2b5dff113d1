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
inline constexpr Words<HelpStep> helpWords{{"none", HelpStep::None},
                                           {"somethingOff", HelpStep::SomethingOff},
                                           {"whichWay", HelpStep::WhichWay},
                                           {"howFar", HelpStep::HowFar},
                                           {"showIt", HelpStep::ShowIt}};

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
