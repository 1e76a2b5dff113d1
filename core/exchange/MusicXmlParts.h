// The parts of a MusicXML score, whichever way the score is ordered.
#pragma once

#include "core/exchange/ForeignPart.h"

#include <pugixml.hpp>
#include <vector>

namespace earwright {

/// The score ordered by part; a score-timewise becomes one in the same document, as the W3C's stylesheet
/// timepart.xsl has it: each part gets its piece of every measure. Null where the document is no score.
pugi::xml_node partwiseScore(pugi::xml_document& document);

/// In the order of the score, named by its part-list.
std::vector<ForeignPart> musicXmlParts(pugi::xml_node score);

} // namespace earwright
