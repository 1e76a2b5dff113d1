// MusicXML from elsewhere as a study.
#pragma once

#include "core/exchange/Imported.h"
#include "core/result/Result.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace earwright {

/// A text with more bytes than this is refused.
inline constexpr std::size_t largestMusicXmlBytes = 16u << 20;

/// Uncompressed MusicXML of any version up to 4.0, by part or by time, in any encoding of utf8Xml(): the part
/// that chosenPart() takes for `wish`, of it the first staff that has notes and there the voice that has
/// most, at concert pitch. Title, keys, meters, tempo, swing, chord symbols, dynamics, hairpins, words,
/// repeats and the phrasing that Phrasing knows come along; parts, voices, staves, lyrics and signs beyond
/// that are left out and named. What stands at the first note of a chord
/// holds for all of it (ChordMarks.h), and rounded lengths are as printed (MusicXmlLength.h). A first bar
/// that is not full, or is numbered 0 or below, is a pickup; another one that is longer or shorter than its
/// meter gets one of its own.
///
/// Errors: Malformed with the place for what is no such text, for text that whyNotToParse() and for more than
/// largestMusicXmlBytes; those of chosenPart(). Threads: any.
Result<Imported> readMusicXml(std::string_view bytes, const std::string& name, const std::string& wish = "");

} // namespace earwright
