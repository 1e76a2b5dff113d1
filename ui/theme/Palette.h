// The colours of the desk by what they stand for, on paper by day and by night.
#pragma once

#include <QColor>

#include <array>

namespace earwright::ui {

/// What a colour stands for. Every role of a mark also has a shape of its own, see Marks.h.
enum class Role {
    Paper,     ///< the window
    Page,      ///< where music lies: sheet, grid, lists
    Panel,     ///< side panel, transport
    Shade,     ///< quiet rows on a page, pressed and hovered places
    Rule,      ///< hairlines, borders, beat lines
    Ink,       ///< text, bar lines, the playhead
    Muted,     ///< secondary text
    Recording, ///< what the record is: its level, its onsets
    Written,   ///< what the user wrote
    Loop,      ///< the loop and what belongs to it
    LoopWash,  ///< the ground inside the loop
    Hint,      ///< the pitch hint and the hint ladder
    LooseEnd,  ///< places to come back to, and what went wrong
    Proposal,  ///< what is proposed and waits to be accepted
    OnMark,    ///< text on a ground filled with ink or with a mark's colour
};
inline constexpr std::size_t roleCount = 15;

enum class Appearance { Light, Dark };

/// One appearance's colours.
///
/// Invariants (tested): text roles (Ink, Muted and every mark) reach 4.5:1 on Paper, Page, Panel and Shade;
///   OnMark reaches 4.5:1 on Ink and on every mark; marks reach 3:1 on LoopWash too.
class Palette {
public:
    static const Palette& of(Appearance appearance);

    QColor color(Role role) const { return colours[static_cast<std::size_t>(role)]; }

private:
    explicit Palette(const std::array<QRgb, roleCount>& values);

    std::array<QColor, roleCount> colours;
};

} // namespace earwright::ui
