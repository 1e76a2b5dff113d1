// The demo's files as its tests read them: the study, the line as it was played, the mistakes left to find.
#pragma once

#include "core/exchange/TabTable.h"
#include "core/study/PlayedTime.h"
#include "core/study/StudyFile.h"
#include "core/time/Beats.h"
#include "core/time/Seconds.h"

#include <filesystem>
#include <gtest/gtest.h>
#include <optional>
#include <string>
#include <vector>

namespace earwright::demo {

inline std::filesystem::path demoFile(const std::string& ending) {
    return std::filesystem::path(EARWRIGHT_SOURCE_DIR) / "demo" / ("borrowed-ladder" + ending);
}

/// The note at a place where it is played; the beat counts from bar 1 as in the study.
struct PlacedPitch {
    Beats onset;
    int midi = 0;
    friend auto operator<=>(const PlacedPitch&, const PlacedPitch&) = default;
};

inline void PrintTo(const PlacedPitch& pitch, std::ostream* out) {
    *out << "MIDI " << pitch.midi << " at beat " << toString(pitch.onset);
}

/// One note of the line as the tune's script played it.
struct PlayedNote {
    PlacedPitch pitch;
    Seconds time;
};

/// A planted mistake: what is written (nothing for a missing note) and what sounds (nothing for an extra
/// one).
struct PlantedMistake {
    std::string kind;
    std::optional<PlacedPitch> written;
    std::optional<PlacedPitch> heard;
};

inline Study demoStudy() {
    const auto study = StudyFile::read(demoFile(".study"));
    if (!study) ADD_FAILURE() << study.error().message;
    return study ? *study : Study{};
}

/// Where a written note is played: the tables of the tune count a swung upbeat as the third part of three.
inline Beats playedPlace(const Study& study, const Note& note) {
    return Beats::nearest(playedBeat(study, note.onset), 12);
}

/// "8/3" of bar 2, counted from 1 as musicians do, is beat 5 2/3 from the start of the music.
inline Beats placeOf(const std::string& bar, const std::string& beat) {
    const auto stroke = beat.find('/');
    const Beats counted = stroke == std::string::npos ? Beats(std::stoll(beat))
                                                      : Beats(std::stoll(beat.substr(0, stroke)),
                                                              std::stoll(beat.substr(stroke + 1)));
    return Beats(4 * (std::stoll(bar) - 1)) + counted - Beats(1);
}

inline std::vector<PlayedNote> playedLine() {
    const auto table = TabTable::read(demoFile(".truth.tsv"), {"onset_s", "midi", "bar", "beat"});
    if (!table) ADD_FAILURE() << table.error().message;
    std::vector<PlayedNote> line;
    for (std::size_t row = 0; table && row < table->rowCount(); ++row)
        line.push_back({{placeOf(table->text(row, "bar"), table->text(row, "beat")),
                         std::stoi(table->text(row, "midi"))},
                        Seconds{std::stod(table->text(row, "onset_s"))}});
    return line;
}

inline std::vector<PlantedMistake> plantedMistakes() {
    const auto table = TabTable::read(demoFile(".planted.tsv"), {"kind", "bar", "beat", "written_midi",
                                                                 "heard_bar", "heard_beat", "heard_midi"});
    if (!table) ADD_FAILURE() << table.error().message;
    const auto pitch = [&](std::size_t row, const char* bar, const char* beat,
                           const char* midi) -> std::optional<PlacedPitch> {
        if (table->text(row, midi).empty()) return std::nullopt;
        return PlacedPitch{placeOf(table->text(row, bar), table->text(row, beat)),
                           std::stoi(table->text(row, midi))};
    };
    std::vector<PlantedMistake> mistakes;
    for (std::size_t row = 0; table && row < table->rowCount(); ++row)
        mistakes.push_back({table->text(row, "kind"), pitch(row, "bar", "beat", "written_midi"),
                            pitch(row, "heard_bar", "heard_beat", "heard_midi")});
    return mistakes;
}

} // namespace earwright::demo
