#include "core/exchange/StandardMidiReading.h"

#include "core/exchange/StandardMidi.h"
#include "core/study/StudyFile.h"
#include "tests/core/exchange/WithinBounds.h"

#include <gtest/gtest.h>
#include <random>

namespace earwright {
namespace {

template <std::size_t size>
std::string bytesOf(const char (&text)[size]) {
    return std::string(text, size - 1);
}

std::string track(const std::string& events) {
    std::string length(4, '\0');
    length[1] = static_cast<char>(events.size() >> 16);
    length[2] = static_cast<char>(events.size() >> 8);
    length[3] = static_cast<char>(events.size());
    return "MTrk" + length + events;
}

const std::string end = bytesOf("\x00\xFF\x2F\x00");

/// One track at 96 ticks a quarter.
std::string fileOf(const std::string& events) {
    return bytesOf("MThd\0\0\0\6\0\0\0\1\0\x60") + track(events);
}

Error refusalOf(const std::string& bytes) {
    const auto imported = readStandardMidi(bytes, "line.mid");
    EXPECT_FALSE(imported.ok());
    return imported ? Error{ErrorKind::Device, "", ""} : imported.error();
}

/// "0 Bb7, 1 C7": where each symbol stands in its bar.
std::string chordsOf(const Study& study, std::int64_t bar) {
    std::string text;
    for (const PlacedChord& chord : study.barChords(bar).chords)
        text += (text.empty() ? "" : ", ") + toString(chord.withinBar) + " " + toString(chord.symbol);
    return text;
}

// The example file of Standard MIDI Files 1.0, "Example MIDI file contents", as format 0: 4/4 at 120, channel
// 1 E4 for the last quarter of a bar's half, channel 2 G3, channel 3 C2 and C3 together; with running status.
const std::string example =
    bytesOf("MThd\0\0\0\6\0\0\0\1\0\x60") + track(bytesOf("\0\xFF\x58\4\4\2\x18\x08"
                                                          "\0\xFF\x51\3\x07\xA1\x20"
                                                          "\0\xC0\x05\0\xC1\x2E\0\xC2\x46"
                                                          "\0\x92\x30\x60\0\x3C\x60"
                                                          "\x60\x91\x43\x40"
                                                          "\x60\x90\x4C\x20"
                                                          "\x81\x40\x82\x30\x40\0\x3C\x40"
                                                          "\0\x81\x43\x40"
                                                          "\0\x80\x4C\x40") +
                                                  end);

TEST(StandardMidiReading, ReadsTheStandardsExample) {
    const auto imported = readStandardMidi(example, "example.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    const Study& study = imported->study;
    EXPECT_EQ(study.meter, (Meter{4, 4}));
    ASSERT_EQ(study.notes.size(), 2u) << "the part that sounds first, a double stop";
    EXPECT_EQ(study.notes[0].pitch.midi, 0x30);
    EXPECT_EQ(study.notes[1].pitch.midi, 0x3C);
    EXPECT_EQ(study.notes[1].onset, Beats(0));
    EXPECT_EQ(study.notes[1].length, Beats(4)) << "running status ends both";
    EXPECT_EQ(study.beatMap.seconds(Beats(4)), Seconds(2)) << "120 quarters a minute";
    ASSERT_EQ(imported->leftOut.size(), 1u);
    EXPECT_TRUE(imported->leftOut.front().starts_with(
        "The part channel 3 was taken; 2 other parts were left out: channel 2, channel 1"));
}

TEST(StandardMidiReading, ReadsBackWhatIsWritten) {
    Study study;
    study.title = "Line";
    study.meter = {3, 4};
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(3), Seconds(1)}, {Beats(6), Seconds(2.5)}});
    const std::vector<Beats> lengths{Beats(1, 3), Beats(2, 3), Beats(1, 5),
                                     Beats(4, 5), Beats(7, 4), Beats(5, 4)};
    Beats at(0);
    for (const Beats& length : lengths) {
        study.notes.push_back(
            {NoteId{study.nextId++}, at, length, Pitch{60 + static_cast<int>(study.nextId), {}}, 0.6, {}});
        at += length;
    }
    const auto bytes = standardMidi(study);
    ASSERT_TRUE(bytes.ok());
    const auto back = readStandardMidi(*bytes, "line.mid");
    ASSERT_TRUE(back.ok()) << describe(back.error());
    EXPECT_TRUE(back->leftOut.empty());
    EXPECT_EQ(back->study.title, "Line");
    EXPECT_EQ(back->study.meter, study.meter);
    ASSERT_EQ(back->study.notes.size(), study.notes.size());
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        EXPECT_EQ(back->study.notes[i].range(), study.notes[i].range());
        EXPECT_EQ(back->study.notes[i].pitch.midi, study.notes[i].pitch.midi);
        EXPECT_NEAR(back->study.notes[i].loudness, 0.6, 0.5 / 127);
    }
    // Tempo is written in whole microseconds a quarter.
    EXPECT_NEAR(back->study.beatMap.seconds(Beats(6)).value, 2.5, 1e-5);
    EXPECT_TRUE(StudyFile::parse(StudyFile::text(back->study), "line.study").ok());
}

TEST(StandardMidiReading, SaysHowManyNotesBecameGraceNotesOfAHand) {
    // Of 120 quarters a minute, 10 of 96 ticks are 52 ms.
    const std::string events = bytesOf("\0\x90\x3E\x60\x0A\x80\x3E\x40\0\x90\x40\x60\x56\x80\x40\x40"
                                       "\0\x90\x41\x60\x60\x80\x41\x40") +
                               end;
    const auto imported = readStandardMidi(fileOf(events), "line.mid", "", MidiRhythm::ByHand);
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    EXPECT_EQ(imported->study.notes.size(), 2u);
    EXPECT_EQ(imported->leftOut,
              std::vector<std::string>{"A note was read as part of a trill or as a grace note."});
}

TEST(StandardMidiReading, ReadsMetersKeysAndWords) {
    const auto imported =
        readStandardMidi(fileOf(bytesOf("\0\xFF\x58\4\3\2\x18\x08\0\xFF\x59\2\xFE\0"
                                        "\0\xFF\x01\3Bb7\0\xFF\x01\x09laid back"
                                        "\0\x90\x40\x40\x82\x20\x40\0" // 288 ticks: one bar of 3/4
                                        "\0\xFF\x58\4\6\3\x18\x08\0\x90\x41\x40\x60\x41\0") +
                                end),
                         "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    const Study& study = imported->study;
    EXPECT_EQ(study.page.keyAt(1), (KeySignature{-2, Mode::Major}));
    ASSERT_EQ(study.page.meters.size(), 1u);
    EXPECT_EQ(study.page.meters.front(), (MeterChange{2, {6, 8}}));
    ASSERT_EQ(study.notes.size(), 2u);
    EXPECT_EQ(study.notes[1].onset, Beats(3));
    EXPECT_EQ(study.notes[1].length, Beats(1));
    EXPECT_EQ(chordsOf(study, 1), "0 B♭7");
    EXPECT_EQ(study.page.texts, (std::vector<TextMark>{{Beats(0), "laid back", false}}));
}

TEST(StandardMidiReading, PutsChordsIntoTheirBarsBehindChangesOfMeter) {
    const auto changing =
        readStandardMidi(fileOf(bytesOf("\0\xFF\x58\4\4\2\x18\x08\0\x90\x40\x40\0\xFF\x01\2F7"
                                        "\x83\0\xFF\x58\4\3\2\x18\x08" // at 384, bar 2: 3/4
                                        "\x82\x20\xFF\x01\3Bb7"        // at 672, bar 3
                                        "\x60\xFF\x01\2C7"             // a beat on
                                        "\x82\x20\x80\x40\0") +
                                end),
                         "line.mid");
    ASSERT_TRUE(changing.ok()) << describe(changing.error());
    EXPECT_EQ(chordsOf(changing->study, 1), "0 F7");
    EXPECT_EQ(chordsOf(changing->study, 3), "0 B♭7, 1 C7");
    EXPECT_TRUE(changing->study.page.texts.empty());
}

TEST(StandardMidiReading, ChordsOfSeveralTracksStandInOrderAndSoThatAStudyFileHoldsThem) {
    // At 924 ticks a quarter: a seventh of it and a half in the first track, an eleventh and a fourth in the
    // second. A bar holds 154 parts of a beat, and not 308.
    const std::string bytes = bytesOf("MThd\0\0\0\6\0\1\0\2\x03\x9C") +
                              track(bytesOf("\0\x90\x40\x40\x81\x04\xFF\x01\2F7"
                                            "\x82\x4A\xFF\x01\3Bb7\x60\x80\x40\0") +
                                    end) +
                              track(bytesOf("\x54\xFF\x01\2G7\x81\x13\xFF\x01\2C7") + end);
    const auto imported = readStandardMidi(bytes, "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    EXPECT_EQ(chordsOf(imported->study, 1), "1/11 G7, 1/7 F7, 1/2 B♭7");
    EXPECT_EQ(imported->study.page.texts, (std::vector<TextMark>{{Beats(1, 4), "C7", false}}));
    const auto kept = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    EXPECT_TRUE(kept.ok()) << describe(kept.error());
}

TEST(StandardMidiReading, PutsWordsWhereAStudyFileCanHoldThem) {
    // 32767 ticks a quarter, the most there are: a word a tick behind beat 1 lies on 1/32767 of it.
    const std::string bytes = bytesOf("MThd\0\0\0\6\0\0\0\1\x7F\xFF") +
                              track(bytesOf("\0\x90\x40\x40\1\xFF\x01\4easy\x81\xFF\x7E\x80\x40\0") + end);
    const auto imported = readStandardMidi(bytes, "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    EXPECT_EQ(imported->study.page.texts, (std::vector<TextMark>{{Beats(0), "easy", false}}));
    const auto kept = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    ASSERT_TRUE(kept.ok()) << describe(kept.error());
    EXPECT_EQ(*kept, imported->study);
}

TEST(StandardMidiReading, GivesNotesLengthsThatAStudyFileCanHold) {
    // 1920 ticks a quarter; from tick 3 to 1922, which is 1/640 to 961/960 of a beat.
    const std::string events = bytesOf("\x03\x90\x3C\x40\x8E\x7F\x80\x3C\x40");
    const auto imported =
        readStandardMidi(bytesOf("MThd\0\0\0\6\0\0\0\1\x07\x80") + track(events + end), "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    ASSERT_EQ(imported->study.notes.size(), 1u);
    EXPECT_EQ(imported->study.notes.front().onset, Beats(1, 640));
    EXPECT_EQ(imported->study.notes.front().length, Beats(1));
    const auto read = StudyFile::parse(StudyFile::text(imported->study), "line.study");
    ASSERT_TRUE(read.ok()) << describe(read.error());
    EXPECT_EQ(read->notes, imported->study.notes);
}

TEST(StandardMidiReading, TenThousandsOfPartsTakeNoTime) {
    std::string notes;
    for (char channel = 0; channel < 16; ++channel)
        notes += std::string{'\0', static_cast<char>(0x90 | channel), '\x40', '\x40'};
    const std::string one = track(notes + end);
    std::string bytes = bytesOf("MThd\0\0\0\6\0\1\0\2\0\x60");
    while (bytes.size() + one.size() < largestMidiBytes)
        bytes += one;
    const WithinBounds bounds;
    const auto imported = readStandardMidi(bytes, "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    EXPECT_GT(imported->parts.size(), 100'000u);
    EXPECT_EQ(imported->parts[17].name, "channel 2");
}

TEST(StandardMidiReading, RefusesAPartOfMoreNotesThanAPageHolds) {
    std::string notes;
    for (int i = 0; i <= 20'000; ++i)
        notes += bytesOf("\0\x90\x40\x40\1\x80\x40\x40");
    const WithinBounds bounds;
    const auto imported =
        readStandardMidi(bytesOf("MThd\0\0\0\6\0\0\0\1\0\x60") + track(notes + end), "line.mid");
    ASSERT_FALSE(imported.ok());
    EXPECT_EQ(imported.error().message,
              "line.mid cannot be opened: its part channel 1 has more than 20 000 notes.");
}

TEST(StandardMidiReading, RefusesWhatBreaksTheStandard) {
    const std::string note = bytesOf("\0\x90\x40\x40\x60\x40\0");
    ASSERT_TRUE(readStandardMidi(fileOf(note + end), "").ok());
    EXPECT_EQ(refusalOf("").kind, ErrorKind::Malformed);
    EXPECT_EQ(refusalOf("RIFF").where, "byte 0");
    EXPECT_EQ(refusalOf(fileOf(note)).kind, ErrorKind::Malformed) << "no end of track";
    EXPECT_EQ(refusalOf(fileOf(bytesOf("\0\x40\x40") + end)).kind, ErrorKind::Malformed)
        << "no status to run on";
    EXPECT_EQ(refusalOf(fileOf(bytesOf("\xFF\xFF\xFF\xFF\x7F\x90\x40\x40") + end)).kind, ErrorKind::Malformed)
        << "a quantity of five bytes";
    EXPECT_EQ(refusalOf(fileOf(bytesOf("\0\xFF\x01\x83\xFF\x7F") + end)).kind, ErrorKind::Malformed)
        << "text longer than its track";
    EXPECT_EQ(refusalOf(fileOf(end)).message, "line.mid has no notes.");
    std::string wrongLength = fileOf(note + end);
    wrongLength[18] = '\x7F';
    EXPECT_EQ(refusalOf(wrongLength).kind, ErrorKind::Malformed);
    std::string noFormat = fileOf(note + end);
    noFormat[9] = 3;
    EXPECT_EQ(refusalOf(noFormat).where, "byte 8");
    std::string noDivision = fileOf(note + end);
    noDivision[13] = 0;
    EXPECT_EQ(refusalOf(noDivision).where, "byte 12");
    noDivision[12] = '\x90'; // 112 frames a second
    EXPECT_EQ(refusalOf(noDivision).where, "byte 12");
    EXPECT_EQ(refusalOf(std::string(largestMidiBytes + 1, 'M')).kind, ErrorKind::Malformed);
}

TEST(StandardMidiReading, NoDamageMakesReadingFailBadly) {
    std::mt19937 random(9);
    int read = 0;
    for (int round = 0; round < 5'000; ++round) {
        std::string bytes = example;
        for (auto changes = 1 + random() % 3; changes > 0; --changes)
            bytes[random() % bytes.size()] = static_cast<char>(random() % 256);
        if (round % 3 == 0) bytes.resize(random() % bytes.size());
        const auto imported = readStandardMidi(bytes, "line.mid");
        if (!imported) {
            EXPECT_FALSE(imported.error().message.empty());
            continue;
        }
        ++read;
        const auto back = StudyFile::parse(StudyFile::text(imported->study), "line.study");
        EXPECT_TRUE(back.ok()) << describe(back.error());
    }
    EXPECT_GT(read, 100);
}

/// The note's times at 120 a minute, where a beat is half a second.
Range<Seconds> timeOf(const std::string& bytes) {
    const auto imported = readStandardMidi(bytes, "line.mid");
    EXPECT_TRUE(imported.ok()) << describe(imported.error());
    if (!imported || imported->study.notes.empty()) return {};
    return imported->study.beatMap.seconds(imported->study.notes.front().range());
}

TEST(StandardMidiReading, ReadsTimeInFramesOfFilm) {
    // 100 ticks in: 25 frames of 40 ticks are a thousand ticks a second, so from 0.1 s to 0.35 s.
    const std::string events = bytesOf("\x64\x90\x40\x40\x81\x7A\x40\0") + end;
    std::string milliseconds = bytesOf("MThd\0\0\0\6\0\0\0\1\xE7\x28") + track(events);
    EXPECT_NEAR(timeOf(milliseconds).begin.value, 0.1, 1e-9);
    EXPECT_NEAR(timeOf(milliseconds).end.value, 0.35, 1e-9);
    // A tempo means nothing there.
    const std::string fast = bytesOf("\0\xFF\x51\3\1\0\0") + events;
    EXPECT_NEAR(timeOf(bytesOf("MThd\0\0\0\6\0\0\0\1\xE7\x28") + track(fast)).begin.value, 0.1, 1e-9);
    // 30 frames of 80 ticks in 1.001 s (29 stands for it): 100 ticks are 100 / 2400 of that, to the nearest
    // 480th of a beat.
    EXPECT_NEAR(timeOf(bytesOf("MThd\0\0\0\6\0\0\0\1\xE3\x50") + track(events)).begin.value,
                1.001 * 100 / 2400, 0.5 / 480);
}

TEST(StandardMidiReading, TakesOneOfSeveralPieces) {
    const auto piece = [](const char* name, char midi) {
        return track(bytesOf("\0\xFF\x03\x01") + name +
                     std::string{'\0', '\x90', midi, '\x40', '\x60', midi, '\0'} + end);
    };
    const std::string both = bytesOf("MThd\0\0\0\6\0\2\0\2\0\x60") + piece("a", 0x40) + piece("b", 0x45);
    const auto first = readStandardMidi(both, "line.mid");
    ASSERT_TRUE(first.ok());
    EXPECT_EQ(first->study.title, "a");
    EXPECT_EQ(first->study.notes.at(0).pitch.midi, 0x40);
    const auto second = readStandardMidi(both, "line.mid", "b");
    ASSERT_TRUE(second.ok());
    EXPECT_EQ(second->study.title, "b");
    ASSERT_EQ(second->study.notes.size(), 1u);
    EXPECT_EQ(second->study.notes[0].pitch.midi, 0x45);
    EXPECT_EQ(second->study.notes[0].onset, Beats(0)) << "each begins at the start";
}

TEST(StandardMidiReading, PassesOverWhatIsNoMusicAndEndsWhatOverlaps) {
    // System exclusive, also in two packets; an unknown meta event; a chunk of another kind before the track.
    const std::string events = bytesOf("\0\xF0\3\x7E\x09\xF7\0\xF0\2\x43\x12\x05\xF7\1\xF7\0\xFF\x7F\3\1\2\3"
                                       "\0\x90\x40\x40"      // E4, never let go
                                       "\x30\x41\x40"        // F4 over it
                                       "\x10\x41\x40"        // struck again while it sounds
                                       "\0\x43\x40\0\x43\0") // G4 with it, of no length
                               + end;
    const std::string other = bytesOf("XFIH\0\0\0\2ab");
    const auto imported =
        readStandardMidi(bytesOf("MThd\0\0\0\6\0\0\0\1\0\x60") + other + track(events), "line.mid");
    ASSERT_TRUE(imported.ok()) << describe(imported.error());
    const std::vector<Note>& notes = imported->study.notes;
    ASSERT_EQ(notes.size(), 4u);
    // 5 ticks of the second packet's delta time come first; 96 are a beat.
    EXPECT_EQ(notes[0].length, Beats(1, 2)) << "ended by the next";
    EXPECT_EQ(notes[1].length, Beats(1, 6));
    EXPECT_EQ(notes[3].pitch.midi, 0x43);
    EXPECT_GT(notes[3].length, Beats(0));
    EXPECT_FALSE(imported->leftOut.empty());
}

TEST(StandardMidiReading, UnderstandsWhatProgramsWriteBesideTheStandard) {
    // Running status goes on behind a meta event and an exclusive message.
    const std::string events =
        bytesOf("\0\x90\x40\x40\0\xFF\x06\1A\x60\x40\0\0\xF0\2\x43\xF7\0\x43\x40\x60\x43\0") + end;
    const std::string plain = fileOf(events);
    // A RIFF form around the file, and bytes behind its last track that are no chunk.
    const std::string wrapped = bytesOf("RIFF\x40\0\0\0RMIDdata\x34\0\0\0") + plain;
    for (const std::string& bytes : {plain, wrapped, plain + bytesOf("\0\0\0"), plain + "made with care"}) {
        const auto imported = readStandardMidi(bytes, "line.mid");
        ASSERT_TRUE(imported.ok()) << describe(imported.error());
        ASSERT_EQ(imported->study.notes.size(), 2u);
        EXPECT_EQ(imported->study.notes[1].pitch.midi, 0x43);
        EXPECT_EQ(imported->study.notes[1].onset, Beats(1));
    }
}

TEST(StandardMidiReading, ReadsWordsInWhateverLettersTheyAre) {
    const std::string note = bytesOf("\0\x90\x40\x40\x60\x40\0");
    const auto titleOf = [&](const std::string& title) {
        const auto imported = readStandardMidi(
            fileOf(bytesOf("\0\xFF\x03") + static_cast<char>(title.size()) + title + note + end), "line.mid");
        EXPECT_TRUE(imported.ok());
        return imported ? imported->study.title : std::string();
    };
    EXPECT_EQ(titleOf("Sp\xE5r 1"), "Spår 1") << "ISO 8859-1";
    EXPECT_EQ(titleOf("Spår 1"), "Spår 1") << "UTF-8";
    EXPECT_EQ(titleOf("\xED\xA0\x80"), "í\xC2\xA0\xC2\x80") << "a surrogate is no UTF-8 (RFC 3629)";
    EXPECT_EQ(titleOf("\xC3"), "Ã") << "a character that ends too soon";
}

TEST(StandardMidiReading, APickupComesBackBeforeBarOne) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(0)}, {Beats(4), Seconds(2)}, {Beats(8), Seconds(5)}});
    study.notes = {{NoteId{1}, Beats(-1, 2), Beats(1, 2), Pitch{60, {}}, 0.6, {}},
                   {NoteId{2}, Beats(0), Beats(6), Pitch{62, {}}, 0.6, {}}};
    const auto back = readStandardMidi(*standardMidi(study), "line.mid");
    ASSERT_TRUE(back.ok());
    EXPECT_EQ(back->study.meter, (Meter{4, 4}));
    ASSERT_EQ(back->study.notes.size(), 2u);
    EXPECT_EQ(back->study.page.pickup, Beats(1)) << "the beat of its first note";
    EXPECT_EQ(back->study.notes[0].onset, Beats(-1, 2));
    EXPECT_EQ(back->study.notes[1].range(), (Range{Beats(0), Beats(6)}));
    for (const Beats& at : {Beats(-1), Beats(0), Beats(4), Beats(6)})
        EXPECT_NEAR(back->study.beatMap.seconds(at).value, study.beatMap.seconds(at).value, 1e-5);
}

// Marks are on beats; where the file begins or changes its tempo between two, those around it have them.
TEST(StandardMidiReading, KeepsTheTempoOfAPickupOfHalfABeatAndOfChangesWithinOne) {
    Study study;
    study.beatMap = BeatMap({{Beats(0), Seconds(1)}, {Beats(12), Seconds(7)}});
    study.page.pickup = Beats(3, 2);
    study.notes = {{NoteId{1}, Beats(-1, 2), Beats(1, 2), Pitch{60, {}}, 0.6, {}},
                   {NoteId{2}, Beats(0), Beats(12), Pitch{62, {}}, 0.6, {}}};
    const auto back = readStandardMidi(*standardMidi(study), "line.mid");
    ASSERT_TRUE(back.ok());
    ASSERT_TRUE(back->study.beatMap.hasTempo());
    EXPECT_NEAR(back->study.beatMap.seconds(Beats(0)).value, 0, 1e-4);
    EXPECT_NEAR(back->study.beatMap.seconds(Beats(12)).value, 6, 1e-4);
    // 120 quarters a minute up to the middle of the third beat, then 60.
    const std::string halfway =
        bytesOf("MThd\0\0\0\6\0\0\0\1\0\2") +
        track(bytesOf("\0\xFF\x51\3\x07\xA1\x20\0\x90\x3C\x40\5\xFF\x51\3\x0F\x42\x40\5\x80\x3C\0"
                      "\0\xFF\x2F\0"));
    const auto changed = readStandardMidi(halfway, "halfway.mid");
    ASSERT_TRUE(changed.ok()) << changed.error().message;
    const BeatMap& map = changed->study.beatMap;
    EXPECT_NEAR(map.seconds(Beats(2)).value, 1, 1e-4);
    EXPECT_NEAR(map.seconds(Beats(3)).value, 1.75, 1e-4);
    EXPECT_NEAR(map.seconds(Beats(5)).value, 3.75, 1e-4);
}

TEST(StandardMidiReading, APickupComesBackAsLongAsItWasMade) {
    Study study;
    study.notes = {{NoteId{1}, Beats(-1, 2), Beats(1, 2), Pitch{60, {}}, 0.6, {}},
                   {NoteId{2}, Beats(0), Beats(6), Pitch{62, {}}, 0.6, {}}};
    for (const Beats& length : {Beats(1, 2), Beats(5, 8), Beats(1), Beats(7, 2)}) {
        study.page.pickup = length;
        const auto back = readStandardMidi(*standardMidi(study), "line.mid");
        ASSERT_TRUE(back.ok());
        EXPECT_EQ(back->study.meter, (Meter{4, 4})) << toString(length);
        EXPECT_EQ(back->study.page.pickup, length);
        EXPECT_EQ(back->study.notes.front().onset, Beats(-1, 2)) << toString(length);
    }
}

} // namespace
} // namespace earwright
