// What stands on the page besides notes and chords: set at a place, or taken away there.
#pragma once

#include "core/study/Recounting.h"
#include "core/study/Study.h"

#include <optional>
#include <string>

namespace earwright {

// Each sets what stands at a bar or place; nothing takes it away. Values out of range, and bars further away
// than a study can name, change nothing.

Study setKey(const Study& study, std::int64_t bar, std::optional<KeySignature> key);
Study setSwing(const Study& study, const Beats& at, std::optional<Swing> swing);
/// Words and number; both empty take the mark away.
Study setTempoMark(const Study& study, const TempoMark& mark);
Study setDynamic(const Study& study, const Beats& at, std::optional<Dynamic> level);
/// A hairpin takes the place of those it overlaps.
Study setHairpin(const Study& study, const Range<Beats>& range, std::optional<HairpinKind> kind);
/// Empty text takes away what stands there on that side.
Study setText(const Study& study, const TextMark& mark);
/// Takes the place of repeats it overlaps.
Study setRepeat(const Study& study, const Repeat& repeat);
/// Takes away the repeat a bar lies in.
Study removeRepeat(const Study& study, std::int64_t bar);

/// How long the pickup is on the page; nothing for as long as its notes need. A length that no pickup under
/// the first meter can have (isUsablePickup) changes nothing.
Study setPickup(const Study& study, std::optional<Beats> length);

/// All page marks at their new bars and places, under the new meters. A pickup goes on beginning where it
/// sounds, and is as long as its notes need where that is no bar before bar 1 any more.
PageMarks recountedPage(PageMarks page, const Recounting& recounting);

} // namespace earwright
