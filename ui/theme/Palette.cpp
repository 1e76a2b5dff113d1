#include "ui/theme/Palette.h"

#include <algorithm>

namespace earwright::ui {

Palette::Palette(const std::array<QRgb, roleCount>& values) {
    std::transform(values.begin(), values.end(), colours.begin(), [](QRgb rgb) { return QColor(rgb); });
}

const Palette& Palette::of(Appearance appearance) {
    // In the order of Role.
    static const Palette light({
        0xfff7f3ea,
        0xfffffdf8,
        0xfff0e8d9,
        0xfff3ecdf,
        0xffd8cdb8,
        0xff20242e,
        0xff655f50, //
        0xffa4551f,
        0xff0f6b66,
        0xff7a3b7d,
        0xffefe3ee,
        0xff3b5fa8,
        0xffa63d2f,
        0xfffffdf8,
    });
    static const Palette dark({
        0xff191b21,
        0xff21242c,
        0xff262a33,
        0xff2b2f39,
        0xff434955,
        0xffece6d9,
        0xffaaa496, //
        0xffdf9660,
        0xff57c2b7,
        0xffcb97d3,
        0xff39303f,
        0xff8fb1f2,
        0xfff0907f,
        0xff191b21,
    });
    return appearance == Appearance::Dark ? dark : light;
}

} // namespace earwright::ui
