// Typing chords: the form once, and what single bars have instead.
#pragma once

#include "core/study/Study.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace earwright {

/// The form as typed, for every chorus; see parseBars. Overridden bars stay overridden.
Study setForm(const Study& study, std::string_view text);

/// What stands over a bar instead of the form, and over those after it where the text has several bars.
/// `%` at its start repeats what stands over the bar before; an empty text leaves the bar empty, so that the
/// chord before it goes on.
Study overrideBars(const Study& study, std::int64_t firstBar, std::string_view text);

/// What stands over a bar, as overrideBars() reads it back.
std::string chordText(const Study& study, std::int64_t bar);

/// The form holds again over this bar.
Study clearOverride(const Study& study, std::int64_t bar);

} // namespace earwright
