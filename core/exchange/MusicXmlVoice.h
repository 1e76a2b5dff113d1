// Which staff and voice of a part become the line.
#pragma once

#include <pugixml.hpp>
#include <string>

namespace earwright {

/// A staff and a voice as the notes of a part name them.
struct MusicXmlVoice {
    std::string staff = "1";
    std::string voice = "1";
    friend auto operator<=>(const MusicXmlVoice&, const MusicXmlVoice&) = default;
};

/// Those of a note; where it names none, the first.
MusicXmlVoice voiceOf(pugi::xml_node note);
/// Of the first staff with notes the voice that has most, the first one of several.
MusicXmlVoice fullestVoice(pugi::xml_node part);

} // namespace earwright
