#include "core/exchange/MusicXmlReading.h"

#include "core/exchange/MusicXmlPart.h"
#include "core/exchange/MusicXmlParts.h"
#include "core/exchange/XmlGuard.h"
#include "core/exchange/XmlText.h"

#include <iterator>
#include <pugixml.hpp>

namespace earwright {

namespace {

std::string titleOf(pugi::xml_node score) {
    const std::string work = score.child("work").child_value("work-title");
    return work.empty() ? score.child_value("movement-title") : work;
}

} // namespace

Result<Imported> readMusicXml(std::string_view bytes, const std::string& name, const std::string& wish) {
    const auto malformed = [&](const std::string& reason, const std::string& where = "") {
        return Error{ErrorKind::Malformed, name + " cannot be opened: " + reason + ".", where};
    };
    if (bytes.size() > largestMusicXmlBytes) return malformed("it is far too large to be a line of notes");
    const auto text = utf8Xml(bytes);
    if (!text) return malformed("it is written in letters that are not known here; save it as UTF-8");
    if (const auto reason = whyNotToParse(*text)) return malformed(*reason);
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(text->data(), text->size(), pugi::parse_default, pugi::encoding_utf8);
    if (!parsed) return malformed("it is no well-formed XML", "byte " + std::to_string(parsed.offset));
    const pugi::xml_node score = partwiseScore(document);
    if (!score) return malformed("it is no MusicXML");
    Imported imported;
    imported.study.title = titleOf(score);
    imported.parts = musicXmlParts(score);
    const auto part = chosenPart(imported.parts, wish, name);
    if (!part) return part.error();
    imported.part = *part;
    nameOtherParts(imported);
    const auto parts = score.children("part");
    const pugi::xml_node chosen = *std::next(parts.begin(), static_cast<std::ptrdiff_t>(*part));
    if (const auto error = MusicXmlPart(imported).read(chosen)) return malformed(*error);
    return imported;
}

} // namespace earwright
