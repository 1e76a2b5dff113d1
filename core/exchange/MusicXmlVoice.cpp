#include "core/exchange/MusicXmlVoice.h"

#include <map>

namespace earwright {

namespace {

bool isSounding(pugi::xml_node note) {
    return note.child("pitch") && !note.child("grace") && !note.child("cue");
}

} // namespace

MusicXmlVoice voiceOf(pugi::xml_node note) {
    MusicXmlVoice place;
    if (const std::string staff = note.child_value("staff"); !staff.empty()) place.staff = staff;
    if (const std::string voice = note.child_value("voice"); !voice.empty()) place.voice = voice;
    return place;
}

MusicXmlVoice fullestVoice(pugi::xml_node part) {
    std::map<MusicXmlVoice, std::size_t> notes;
    for (const pugi::xml_node measure : part.children("measure"))
        for (const pugi::xml_node note : measure.children("note"))
            if (isSounding(note)) ++notes[voiceOf(note)];
    if (notes.empty()) return {};
    auto fullest = notes.begin();
    for (auto voice = notes.begin(); voice != notes.end(); ++voice)
        if (voice->first.staff == fullest->first.staff && voice->second > fullest->second) fullest = voice;
    return fullest->first;
}

} // namespace earwright
