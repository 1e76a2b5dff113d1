#include "core/engraving/FretReach.h"

#include "core/engraving/TabBend.h"
#include "core/engraving/TabNumber.h"
#include "core/engraving/TextWidth.h"

#include <algorithm>

namespace earwright {

std::vector<int> graceFrets(const LaidPiece& laid, const StaffHead& head,
                            const std::map<NoteId, TabPlace>& places) {
    std::vector<int> frets;
    const auto place = places.find(head.note);
    if (place == places.end()) return frets;
    for (const StaffHead& grace : laid.piece.graces)
        if (grace.note == head.note && place->second.fret + grace.midi - head.midi >= 0)
            frets.push_back(place->second.fret + grace.midi - head.midi);
    return frets;
}

double graceWidth(const std::vector<int>& frets) {
    double width = 0;
    for (const int fret : frets)
        width += textWidth(std::to_string(fret)) * graceFretSize + 2 * besideNumber;
    return width;
}

std::string trillFretText(const StaffHead& head, const std::map<NoteId, TabPlace>& places) {
    const auto place = places.find(head.note);
    if (place == places.end() || !head.phrasing.trill) return {};
    return "(" + std::to_string(place->second.fret + *head.phrasing.trill) + ")";
}

FretReach reachOnString(const LaidPiece& laid, const StaffHead& head,
                        const std::map<NoteId, TabPlace>& places) {
    const double half = halfOfNumber(laid, head, places);
    if (half == 0) return {};
    FretReach reach{half + besideNumber, half + besideNumber};
    if (head.phrasing.slideIn) reach.left += tabSlideLength + besideNumber;
    if (head.phrasing.trill)
        reach.right += textWidth(trillFretText(head, places)) * graceFretSize + besideNumber;
    if (head.phrasing.bend) reach.right += bendWidth(*head.phrasing.bend) + besideNumber;
    if (head.phrasing.slideOut) reach.right += tabSlideLength + besideNumber;
    return reach;
}

FretReach reachOfNumbers(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places) {
    FretReach all;
    for (const StaffHead& head : laid.piece.heads) {
        const FretReach own = reachOnString(laid, head, places);
        all = {std::max(all.left, own.left), std::max(all.right, own.right)};
    }
    return all;
}

double scoopRoom(const LaidPiece& laid, const FontMetrics& font) {
    const auto& heads = laid.piece.heads;
    const bool isThere =
        std::any_of(heads.begin(), heads.end(), [](const StaffHead& head) { return head.phrasing.scoop; });
    return isThere ? font.width(Smufl::BrassScoop) + besideNumber : 0;
}

FretReach fretReach(const LaidPiece& laid, const std::map<NoteId, TabPlace>& places,
                    const FontMetrics& font) {
    FretReach reach;
    if (laid.piece.page.tiedFromBefore) return reach;
    const double middle = laid.shape.headWidth / 2;
    const FretReach all = reachOfNumbers(laid, places);
    const double scoops = scoopRoom(laid, font);
    for (const StaffHead& head : laid.piece.heads) {
        const FretReach own = reachOnString(laid, head, places);
        if (own.right == 0) continue;
        const double left =
            (scoops > 0 ? all.left + scoops : own.left) + graceWidth(graceFrets(laid, head, places));
        double right = all.right;
        if (head.phrasing.fall) right += font.width(Smufl::BrassFallLipShort) + besideNumber;
        if (laid.piece.slidesToNext()) right += tabSlideLength + besideNumber;
        reach.left = std::max(reach.left, left - middle);
        reach.right = std::max(reach.right, right + middle);
    }
    return reach;
}

} // namespace earwright
