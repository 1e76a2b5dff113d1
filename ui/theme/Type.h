// The lettering of the desk: a humanist sans for words, a bold serif for chord symbols, as on lead sheets.
#pragma once

#include <QFont>
#include <QStringList>

namespace earwright::ui {

enum class TextStyle {
    Place,      ///< "bar 30, beat 2½" in the transport
    Title,      ///< the name of a chorus, of a panel
    Body,       ///< what is read and chosen
    Strong,     ///< the chosen one, the sentence that matters
    Small,      ///< secondary lines
    Label,      ///< degrees over heads, divisions, row names
    Chord,      ///< chord symbols over the chorus sheet
    ChordSmall, ///< chord symbols over the note grid
};

/// The font of a style, in device-independent pixels, so that it scales with the display and with nothing
/// else. Threads: interface only.
QFont font(TextStyle style);

/// The families that are tried, best first; the first installed one is used, else the system's own.
QStringList wordFamilies();
QStringList chordFamilies();

} // namespace earwright::ui
