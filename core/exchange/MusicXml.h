// The written notes as a page that other notation programs open: MusicXML 4.0 (W3C), score-partwise.
#pragma once

#include "core/result/Result.h"
#include "core/study/Study.h"

#include <string>

namespace earwright {

/// The study as uncompressed MusicXML: one part at concert pitch, the line of pageLine() cut by pageBars(),
/// from the pickup to the last note or chorus. With it go meter, tempo (in the sound of each bar, from the
/// beat marks), chord symbols (what cannot be read as a chord stands as words) and phrasing: a slide in from
/// below or above is a scoop or plop, a slide out a doit or falloff; trill, slur, grace notes, accent and
/// parenthesised notehead are what they are called, and so are the other marks of addPhrasing(). Keys and
/// swing go along; of the other page marks nothing does yet. A note is spelled as the user chose, else from
/// its chord.
///
/// Error: OutOfRange of pageBars(). Threads: any.
Result<std::string> musicXml(const Study& study);

} // namespace earwright
