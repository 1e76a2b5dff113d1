// A recording the tests make themselves: plucked tones of known pitch at known times, as a WAV file.
#pragma once

#include <QString>

#include <filesystem>
#include <vector>

namespace earwright::ui {

struct GeneratedTone {
    double onset = 0;
    double length = 0.5;
    int midi = 69;
    /// By how much it is off.
    double cents = 0;
};

/// Writes mono 16-bit PCM at 22,050 Hz (RIFF/WAVE as IBM and Microsoft describe it, format tag 1). Each tone
/// has six partials of falling strength and fades out, as a plucked string does.
void writeRecording(const std::filesystem::path& path, double seconds,
                    const std::vector<GeneratedTone>& tones);

} // namespace earwright::ui
