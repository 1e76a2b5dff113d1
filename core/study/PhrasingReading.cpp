#include "core/study/PhrasingReading.h"

#include "core/study/StudyNumbers.h"
#include "core/study/StudyWords.h"

namespace earwright {

namespace {

Bend readBend(const StrictJson& json) {
    json.expectMembers({"quarterTones", "shape"});
    return {readInt(json["quarterTones"], 1, widestBend), json["shape"].oneOf(bendWords)};
}

/// What cannot be true together.
void refuseContradictions(const StrictJson& note, const Phrasing& phrasing) {
    if (phrasing.slurBy && !phrasing.slurred) note["slurBy"].refuse("needs a note that is slurred");
    if (phrasing.pickedInSlur && phrasing.slurred) note["pickedInSlur"].refuse("contradicts “slurred”");
}

} // namespace

void expectNoteMembers(const StrictJson& note, std::int64_t version) {
    std::vector<const char*> optional{"spelling", "slideIn", "slideOut", "graceNotes",
                                      "trill",    "slurred", "ghosted",  "accented"};
    if (version >= 3)
        optional.insert(optional.end(), {"slidesToNext", "turn", "mordent", "slurBy", "pickedInSlur", "bend",
                                         "vibrato", "fall", "scoop", "staccato", "tenuto", "letRing", "string"});
    note.expectMembers({"id", "onset", "length", "midi", "loudness"}, optional);
}

Phrasing readPhrasing(const StrictJson& note) {
    Phrasing phrasing;
    if (note.has("slideIn")) phrasing.slideIn = note["slideIn"].oneOf(slideInWords);
    if (note.has("slideOut")) phrasing.slideOut = note["slideOut"].oneOf(slideOutWords);
    if (note.has("graceNotes"))
        for (const StrictJson& grace : note["graceNotes"].items())
            phrasing.graceNotes.push_back(readInt(grace, lowestMidi, highestMidi));
    if (note.has("trill")) phrasing.trill = readInt(note["trill"], 1, 4);
    if (note.has("turn")) phrasing.turn = note["turn"].oneOf(turnWords);
    if (note.has("mordent")) phrasing.mordent = note["mordent"].oneOf(mordentWords);
    if (note.has("slurBy")) phrasing.slurBy = note["slurBy"].oneOf(slurByWords);
    if (note.has("bend")) phrasing.bend = readBend(note["bend"]);
    for (const auto& [member, mark] : phrasingMarks)
        phrasing.*mark = note.has(member) && note[member].boolean();
    refuseContradictions(note, phrasing);
    return phrasing;
}

} // namespace earwright
