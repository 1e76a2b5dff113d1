#include "ui/theme/Palette.h"

#include <algorithm>

namespace earwright::ui {

Palette::Palette(const std::array<QRgb, roleCount>& values) {
    std::transform(values.begin(), values.end(), colours.begin(), [](QRgb rgb) { return QColor(rgb); });
}

const Palette& Palette::of(Appearance appearance) {
    static const Palette light({
        0xfff7f3ea, // Paper
        0xfffffdf8, // Page
        0xfff2eadc, // Panel
        0xfff3ecdf, // Shade
        0xffd8cdb8, // Rule
        0xff20242e, // Ink
        0xff655f50, // Muted
        0xffa4551f, // Recording
        0xff0f6b66, // Written
        0xff7a3b7d, // Loop
        0xffefe3ee, // LoopWash
        0xff3b5fa8, // Hint
        0xffa63d2f, // LooseEnd
        0xff5c6112, // Proposal
        0xfffffdf8, // OnMark
    });
    static const Palette dark({
        0xff17191f, // Paper
        0xff2b2f3a, // Page
        0xff1f222a, // Panel
        0xff23262f, // Shade
        0xff474d5b, // Rule
        0xffece6d9, // Ink
        0xffaaa496, // Muted
        0xffdf9660, // Recording
        0xff57c2b7, // Written
        0xffcb97d3, // Loop
        0xff39303f, // LoopWash
        0xff8fb1f2, // Hint
        0xfff0907f, // LooseEnd
        0xffc6c66a, // Proposal
        0xff17191f, // OnMark
    });
    return appearance == Appearance::Dark ? dark : light;
}

} // namespace earwright::ui
