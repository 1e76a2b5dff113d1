// The desk and a file of another program for it to open.
#pragma once

#include "tests/core/study/TemporaryFolder.h"
#include "tests/ui/desk/TonesDesk.h"

#include <filesystem>
#include <string>

namespace earwright::ui {

/// A desk beside which a line of other programs lies, and what it says of opening it.
class ForeignLineDesk : public TonesDesk {
protected:
    QString told() { return window->messages().sentence(QStringLiteral("import")); }
    std::filesystem::path score(bool hasTwoParts) {
        const auto part = [](const std::string& id, const char* step) {
            return "<part id=\"" + id + "\"><measure><note><pitch><step>" + step +
                   "</step><octave>4</octave></pitch><duration>4</duration><lyric><text>oh</text></lyric>"
                   "</note></measure></part>";
        };
        const std::string text =
            "<score-partwise><part-list><score-part id=\"a\"><part-name>Horn</part-name></score-part>"
            "<score-part id=\"b\"><part-name>Bass</part-name></score-part></part-list>" +
            part("a", "C") + (hasTwoParts ? part("b", "G") : "") + "</score-partwise>";
        fill(in("line.musicxml"), text);
        return in("line.musicxml");
    }
    int firstPitch() {
        const auto& notes = window->session().study().notes;
        return notes.empty() ? 0 : notes.front().pitch.midi;
    }
};

} // namespace earwright::ui
