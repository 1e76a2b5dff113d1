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

/// Uncompressed score-partwise MusicXML of any version up to 4.0: the first part that has notes, of it the
/// first staff and the voice that comes first, at concert pitch. Title, keys, meters, tempo, swing, chord
/// symbols, dynamics, hairpins, words, repeats and the phrasing that Phrasing knows come along; parts,
/// voices, staves, lyrics and signs beyond that are left out and named. A first bar that is not full is a
/// pickup.
///
/// Errors: Malformed with the place for what is no such text, for text that whyNotToParse() and for more than
/// largestMusicXmlBytes; Unsupported for score-timewise. Threads: any.
Result<Imported> readMusicXml(std::string_view text, const std::string& name);

} // namespace earwright
