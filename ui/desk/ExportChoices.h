// What the user chose in the dialog that writes the line for other programs.
#pragma once

#include "core/exchange/MusicXml.h"
#include "core/exchange/StandardMidi.h"

#include <QString>

#include <filesystem>

class QSettings;

namespace earwright::ui {

struct ExportChoices {
    /// Its ending says what is written: .musicxml, .mxl or .mid. Empty while none was named.
    std::filesystem::path file;
    /// Of MusicXML.
    MusicXmlOptions page;
    /// Of MIDI.
    MidiOptions midi;
    /// Of MIDI: onsets, lengths and loudness as they are measured in the recording.
    bool asPlayed = false;
};

/// Quarters a minute that a MIDI file may have throughout.
inline constexpr int slowestExport = 10;
inline constexpr int fastestExport = 600;

/// As they were chosen the last time, without a file. What was kept wrongly counts as never chosen.
ExportChoices rememberedExport(const QSettings& settings);
/// The ending of the last file: "musicxml", "mxl" or "mid".
QString rememberedExportKind(const QSettings& settings);
void rememberExport(const ExportChoices& choices, QSettings& settings);

} // namespace earwright::ui
