#include "core/exchange/MusicXmlReading.h"

#include "core/exchange/MusicXmlPart.h"
#include "core/exchange/XmlGuard.h"

#include <pugixml.hpp>

namespace earwright {

namespace {

bool hasNotes(pugi::xml_node part) {
    for (const pugi::xml_node measure : part.children("measure"))
        for (const pugi::xml_node note : measure.children("note"))
            if (note.child("pitch")) return true;
    return false;
}

std::string titleOf(pugi::xml_node score) {
    const std::string work = score.child("work").child_value("work-title");
    return work.empty() ? score.child_value("movement-title") : work;
}

} // namespace

Result<Imported> readMusicXml(std::string_view text, const std::string& name) {
    const auto malformed = [&](const std::string& reason, const std::string& where = "") {
        return Error{ErrorKind::Malformed, name + " cannot be opened: " + reason + ".", where};
    };
    if (text.size() > largestMusicXmlBytes) return malformed("it is far too large to be a line of notes");
    if (const auto reason = whyNotToParse(text)) return malformed(*reason);
    pugi::xml_document document;
    const pugi::xml_parse_result parsed = document.load_buffer(text.data(), text.size());
    if (!parsed) return malformed("it is no well-formed XML", "byte " + std::to_string(parsed.offset));
    if (document.child("score-timewise"))
        return Error{ErrorKind::Unsupported,
                     name + " is ordered by time, not by part; save it as partwise MusicXML.", ""};
    const pugi::xml_node score = document.child("score-partwise");
    if (!score) return malformed("it is no MusicXML");
    Imported imported;
    imported.study.title = titleOf(score);
    pugi::xml_node chosen;
    int others = 0;
    for (const pugi::xml_node part : score.children("part")) {
        if (!hasNotes(part)) continue;
        if (chosen)
            ++others;
        else
            chosen = part;
    }
    if (!chosen) return malformed("it has no notes");
    if (others > 0)
        leaveOut(imported,
                 std::to_string(others) + " other parts were left out; the first with notes was taken.");
    if (const auto error = MusicXmlPart(imported).read(chosen)) return malformed(*error);
    return imported;
}

} // namespace earwright
