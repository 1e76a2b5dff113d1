// Repeats and endings as the bar lines of a MusicXML page.
#pragma once

#include "core/music/PageMarks.h"

#include <cstdint>
#include <pugixml.hpp>
#include <vector>

namespace earwright {

/// Appends the left bar line of a bar, where a repeat or an ending begins there: before anything else in it.
void addLeftBarline(pugi::xml_node measure, const std::vector<Repeat>& repeats, std::int64_t bar);
/// Appends the right one, where a repeat or an ending ends there: behind everything else. An ending that goes
/// on behind the last bar of the page ends with it.
void addRightBarline(pugi::xml_node measure, const std::vector<Repeat>& repeats, std::int64_t bar,
                     bool isLastBar);

/// The last bar that repeats need. The second ending is only drawn where there is a bar for it.
std::int64_t lastRepeatedBar(const std::vector<Repeat>& repeats);

} // namespace earwright
