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
constexpr const char* lines = "Brackets and dashed lines were left out.";
constexpr const char* others = "Signs that only the program that wrote them knows were left out.";
constexpr const char* repeatedBars =
    "Signs that repeat a bar were left out; such bars stay as empty as they are.";
constexpr const char* instruments = "Harmonics, mutes and other signs for one instrument were left out.";

/// By element.
const std::map<std::string_view, const char*>& sentences() {
    static const std::map<std::string_view, const char*> all{
        {"lyric", "Words that are sung were left out."},
        {"unpitched", "Notes without a pitch were left out."},
        {"cue", "Cue notes were left out."},
        {"tremolo", "Tremolos were left out; their notes stand as they are printed."},
        {"octave-shift", "Octave signs were left out; the notes stand where they sound."},
        {"measure-repeat", repeatedBars},
        {"beat-repeat", repeatedBars},
        {"slash", "Slashes for free playing were left out."},
        {"figured-bass", "Figured bass was left out."},
        {"frame", "Chord diagrams were left out."},
        {"arpeggiate", "Arpeggio signs were left out."},
        {"non-arpeggiate", "Arpeggio signs were left out."},
        {"pedal", "Pedal signs were left out."},
        {"image", "Pictures were left out."},
        {"bracket", lines},
        {"dashes", lines},
        {"other-direction", others},
        {"other-notation", others},
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
        {"triple-tongue", instruments},
        {"thumb-position", instruments},
        {"open-string", instruments},
        {"fingernails", instruments},
        {"heel", instruments},
        {"toe", instruments},
        {"hole", instruments},
        {"arrow", instruments},
        {"handbell", instruments},
        {"accordion-registration", instruments},
        {"harp-pedals", instruments},
        {"scordatura", instruments},
        {"string-mute", instruments},
        {"damp", instruments},
        {"damp-all", instruments},
        {"eyeglasses", instruments},
        {"percussion", instruments}};
    return all;
}

bool isUsualHead(std::string_view head) {
    return head.empty() || head == "normal" || head == "none";
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
        if (name == "notehead" && !isUsualHead(node.child_value()))
            leaveOut(imported, "Noteheads of other shapes were written as usual ones.");
        if (name == "degree-type" && std::string_view(node.child_value()) == "subtract")
            leaveOut(imported, "That a chord lacks one of its tones was left out of its symbol.");
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
