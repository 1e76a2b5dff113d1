#include "core/exchange/MusicXmlLeftOut.h"

#include <map>
#include <string_view>

namespace earwright {

namespace {

constexpr const char* jumps = "Jumps (segno, coda, da capo) were left out; the bars stand once, as printed.";
constexpr const char* otherOrnaments = "Ornaments that have no sign here were left out.";
constexpr const char* otherArticulations = "Articulations that have no sign here were left out.";
constexpr const char* fingerings = "Fingerings were left out.";
constexpr const char* pauses = "Fermatas, breaths and pauses were left out.";
constexpr const char* instruments = "Harmonics, mutes and other signs for one instrument were left out.";

/// By element.
const std::map<std::string_view, const char*>& sentences() {
    static const std::map<std::string_view, const char*> all{
        {"lyric", "Words that are sung were left out."},
        {"unpitched", "Notes without a pitch were left out."},
        {"cue", "Cue notes were left out."},
        {"tremolo", "Tremolos were left out; their notes stand as they are printed."},
        {"octave-shift", "Octave signs were left out; the notes stand where they sound."},
        {"measure-repeat", "Signs that repeat a bar were left out; such bars stay as empty as they are."},
        {"slash", "Slashes for free playing were left out."},
        {"figured-bass", "Figured bass was left out."},
        {"frame", "Chord diagrams were left out."},
        {"arpeggiate", "Arpeggio signs were left out."},
        {"non-arpeggiate", "Arpeggio signs were left out."},
        {"pedal", "Pedal signs were left out."},
        {"image", "Pictures were left out."},
        {"segno", jumps},
        {"coda", jumps},
        {"fermata", pauses},
        {"breath-mark", pauses},
        {"caesura", pauses},
        {"delayed-turn", otherOrnaments},
        {"delayed-inverted-turn", otherOrnaments},
        {"vertical-turn", otherOrnaments},
        {"inverted-vertical-turn", otherOrnaments},
        {"shake", otherOrnaments},
        {"schleifer", otherOrnaments},
        {"haydn", otherOrnaments},
        {"other-ornament", otherOrnaments},
        {"spiccato", otherArticulations},
        {"stress", otherArticulations},
        {"unstress", otherArticulations},
        {"soft-accent", otherArticulations},
        {"other-articulation", otherArticulations},
        {"fingering", fingerings},
        {"pluck", fingerings},
        {"harmonic", instruments},
        {"tap", instruments},
        {"golpe", instruments},
        {"stopped", instruments},
        {"open", instruments},
        {"half-muted", instruments},
        {"snap-pizzicato", instruments},
        {"with-bar", instruments},
        {"brass-bend", instruments},
        {"flip", instruments},
        {"smear", instruments},
        {"double-tongue", instruments},
        {"triple-tongue", instruments}};
    return all;
}

class Looker final : public pugi::xml_tree_walker {
public:
    explicit Looker(Imported& toFill) : imported(toFill) {}

    bool for_each(pugi::xml_node& node) override {
        if (const auto found = sentences().find(node.name()); found != sentences().end())
            leaveOut(imported, found->second);
        const std::string_view name = node.name();
        const bool isJump = name == "sound" && (node.attribute("dacapo") || node.attribute("dalsegno") ||
                                                node.attribute("tocoda") || node.attribute("fine"));
        if (isJump) leaveOut(imported, jumps);
        if (name == "alter" && node.text().as_double() != node.text().as_int())
            leaveOut(imported, "Quarter tones were written as the nearest semitone.");
        return true;
    }

private:
    Imported& imported;
};

} // namespace

void nameLeftOutSigns(Imported& imported, pugi::xml_node part) {
    Looker looker(imported);
    part.traverse(looker);
}

} // namespace earwright
