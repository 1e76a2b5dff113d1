#include "core/engraving/Smufl.h"

#include <algorithm>
#include <array>
#include <utility>

namespace earwright {

namespace {

using Named = std::pair<Smufl, std::string_view>;

constexpr std::array names{
    Named{Smufl::BarlineSingle, "barlineSingle"},
    Named{Smufl::RepeatDot, "repeatDot"},
    Named{Smufl::GClef, "gClef"},
    Named{Smufl::GClef8vb, "gClef8vb"},
    Named{Smufl::FClef, "fClef"},
    Named{Smufl::SixStringTabClef, "6stringTabClef"},
    Named{Smufl::FourStringTabClef, "4stringTabClef"},
    Named{Smufl::NoteheadWhole, "noteheadWhole"},
    Named{Smufl::NoteheadHalf, "noteheadHalf"},
    Named{Smufl::NoteheadBlack, "noteheadBlack"},
    Named{Smufl::NoteheadParenthesisLeft, "noteheadParenthesisLeft"},
    Named{Smufl::NoteheadParenthesisRight, "noteheadParenthesisRight"},
    Named{Smufl::NoteheadSlash, "noteheadSlashHorizontalEnds"},
    Named{Smufl::AugmentationDot, "augmentationDot"},
    Named{Smufl::Flag8thUp, "flag8thUp"},
    Named{Smufl::Flag8thDown, "flag8thDown"},
    Named{Smufl::Flag16thUp, "flag16thUp"},
    Named{Smufl::Flag16thDown, "flag16thDown"},
    Named{Smufl::Flag32ndUp, "flag32ndUp"},
    Named{Smufl::Flag32ndDown, "flag32ndDown"},
    Named{Smufl::Flag64thUp, "flag64thUp"},
    Named{Smufl::Flag64thDown, "flag64thDown"},
    Named{Smufl::Flag128thUp, "flag128thUp"},
    Named{Smufl::Flag128thDown, "flag128thDown"},
    Named{Smufl::Flag256thUp, "flag256thUp"},
    Named{Smufl::Flag256thDown, "flag256thDown"},
    Named{Smufl::Flag512thUp, "flag512thUp"},
    Named{Smufl::Flag512thDown, "flag512thDown"},
    Named{Smufl::Flag1024thUp, "flag1024thUp"},
    Named{Smufl::Flag1024thDown, "flag1024thDown"},
    Named{Smufl::AccidentalFlat, "accidentalFlat"},
    Named{Smufl::AccidentalNatural, "accidentalNatural"},
    Named{Smufl::AccidentalSharp, "accidentalSharp"},
    Named{Smufl::AccidentalDoubleSharp, "accidentalDoubleSharp"},
    Named{Smufl::AccidentalDoubleFlat, "accidentalDoubleFlat"},
    Named{Smufl::AccidentalParensLeft, "accidentalParensLeft"},
    Named{Smufl::AccidentalParensRight, "accidentalParensRight"},
    Named{Smufl::ArticAccentAbove, "articAccentAbove"},
    Named{Smufl::ArticAccentBelow, "articAccentBelow"},
    Named{Smufl::ArticStaccatoAbove, "articStaccatoAbove"},
    Named{Smufl::ArticStaccatoBelow, "articStaccatoBelow"},
    Named{Smufl::ArticTenutoAbove, "articTenutoAbove"},
    Named{Smufl::ArticTenutoBelow, "articTenutoBelow"},
    Named{Smufl::RestWhole, "restWhole"},
    Named{Smufl::RestHalf, "restHalf"},
    Named{Smufl::RestQuarter, "restQuarter"},
    Named{Smufl::Rest8th, "rest8th"},
    Named{Smufl::Rest16th, "rest16th"},
    Named{Smufl::Rest32nd, "rest32nd"},
    Named{Smufl::Rest64th, "rest64th"},
    Named{Smufl::Rest128th, "rest128th"},
    Named{Smufl::Rest256th, "rest256th"},
    Named{Smufl::Rest512th, "rest512th"},
    Named{Smufl::Rest1024th, "rest1024th"},
    Named{Smufl::DynamicPiano, "dynamicPiano"},
    Named{Smufl::DynamicForte, "dynamicForte"},
    Named{Smufl::DynamicPPP, "dynamicPPP"},
    Named{Smufl::DynamicPP, "dynamicPP"},
    Named{Smufl::DynamicMP, "dynamicMP"},
    Named{Smufl::DynamicMF, "dynamicMF"},
    Named{Smufl::DynamicFF, "dynamicFF"},
    Named{Smufl::DynamicFFF, "dynamicFFF"},
    Named{Smufl::DynamicSforzato, "dynamicSforzato"},
    Named{Smufl::GraceNoteSlashStemUp, "graceNoteSlashStemUp"},
    Named{Smufl::OrnamentTrill, "ornamentTrill"},
    Named{Smufl::OrnamentTurn, "ornamentTurn"},
    Named{Smufl::OrnamentTurnInverted, "ornamentTurnInverted"},
    Named{Smufl::OrnamentShortTrill, "ornamentShortTrill"},
    Named{Smufl::OrnamentMordent, "ornamentMordent"},
    Named{Smufl::BrassScoop, "brassScoop"},
    Named{Smufl::BrassDoitShort, "brassDoitShort"},
    Named{Smufl::BrassFallLipShort, "brassFallLipShort"},
    Named{Smufl::BrassFallLipMedium, "brassFallLipMedium"},
    Named{Smufl::StringsDownBow, "stringsDownBow"},
    Named{Smufl::CsymDiminished, "csymDiminished"},
    Named{Smufl::CsymHalfDiminished, "csymHalfDiminished"},
    Named{Smufl::CsymMajorSeventh, "csymMajorSeventh"},
    Named{Smufl::WiggleTrill, "wiggleTrill"},
    Named{Smufl::WiggleVibrato, "wiggleVibrato"},
    Named{Smufl::MetNoteHalfUp, "metNoteHalfUp"},
    Named{Smufl::MetNoteQuarterUp, "metNoteQuarterUp"},
    Named{Smufl::MetNote8thUp, "metNote8thUp"},
    Named{Smufl::MetNote16thUp, "metNote16thUp"},
    Named{Smufl::MetNote32ndUp, "metNote32ndUp"},
    Named{Smufl::MetAugmentationDot, "metAugmentationDot"},
    Named{Smufl::CsymAccidentalFlat, "csymAccidentalFlat"},
    Named{Smufl::CsymAccidentalNatural, "csymAccidentalNatural"},
    Named{Smufl::CsymAccidentalSharp, "csymAccidentalSharp"},
    Named{Smufl::CsymAccidentalDoubleSharp, "csymAccidentalDoubleSharp"},
    Named{Smufl::CsymAccidentalDoubleFlat, "csymAccidentalDoubleFlat"},
};

constexpr std::array<std::string_view, 10> timeDigits{"timeSig0", "timeSig1", "timeSig2", "timeSig3",
                                                      "timeSig4", "timeSig5", "timeSig6", "timeSig7",
                                                      "timeSig8", "timeSig9"};
constexpr std::array<std::string_view, 10> tupletDigits{"tuplet0", "tuplet1", "tuplet2", "tuplet3",
                                                        "tuplet4", "tuplet5", "tuplet6", "tuplet7",
                                                        "tuplet8", "tuplet9"};

std::string_view digitName(Smufl glyph, Smufl zero, const std::array<std::string_view, 10>& digits) {
    const auto at = static_cast<char32_t>(glyph) - static_cast<char32_t>(zero);
    return at < digits.size() ? digits[at] : std::string_view();
}

constexpr auto glyphsAlone = [] {
    std::array<Smufl, names.size()> glyphs{};
    for (std::size_t i = 0; i < names.size(); ++i)
        glyphs[i] = names[i].first;
    return glyphs;
}();

} // namespace

std::span<const Smufl> smuflGlyphs() {
    return glyphsAlone;
}

std::string_view smuflName(Smufl glyph) {
    const auto found = std::find_if(names.begin(), names.end(),
                                    [glyph](const Named& named) { return named.first == glyph; });
    if (found != names.end()) return found->second;
    const std::string_view digit = digitName(glyph, Smufl::TimeSig0, timeDigits);
    return digit.empty() ? digitName(glyph, Smufl::Tuplet0, tupletDigits) : digit;
}

} // namespace earwright
