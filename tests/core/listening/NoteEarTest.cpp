// One note after the other, as tones put together from sines and as our own string plays them.
#include "core/listening/NoteEar.h"

#include "core/engine/PluckedString.h"
#include "tests/core/listening/OneTone.h"

#include <algorithm>
#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <random>
#include <string>

namespace earwright {
namespace {

using testing::ElementsAre;
using tests::timbres;
using tests::toneOf;

constexpr SampleRate rate{44100};
constexpr int lowE = 40;
constexpr int highC = 96;

std::vector<float> silence(double seconds) {
    return std::vector<float>(static_cast<std::size_t>(seconds * rate.hertz), 0.0f);
}

void append(std::vector<float>& sound, const std::vector<float>& more) {
    sound.insert(sound.end(), more.begin(), more.end());
}

/// After half a second of a quiet room, in blocks of a device; as whole semitones.
std::vector<long> heard(const std::vector<float>& sound, SampleRate at = rate) {
    NoteEar ear(at);
    std::vector<float> all(static_cast<std::size_t>(at.hertz / 2), 0.0f);
    append(all, sound);
    std::vector<long> semitones;
    constexpr std::size_t block = 256;
    for (std::size_t i = 0; i < all.size(); i += block)
        for (const double note : ear.give(std::span(all).subspan(i, std::min(block, all.size() - i))))
            semitones.push_back(std::lround(note));
    return semitones;
}

std::vector<float> plucked(double midi, double loudness, double seconds) {
    PluckedString string;
    string.setRate(rate);
    StringGesture gesture;
    gesture.pitch = midi;
    gesture.loudness = loudness;
    gesture.seconds = seconds;
    string.pluck(gesture);
    std::vector<float> sound = silence(seconds + 0.15);
    string.render(sound);
    return sound;
}

/// Of the notes that were put in: heard once and right, an octave off, otherwise wrong, not or twice.
struct Count {
    int right = 0;
    int octaves = 0;
    int wrong = 0;
    /// Which, and as what.
    std::string off;
    void take(const std::vector<long>& notes, int midi) {
        if (notes == std::vector<long>{midi})
            ++right;
        else if (!notes.empty() && notes.front() != midi && (notes.front() - midi) % 12 == 0)
            ++octaves;
        else
            ++wrong;
        if (notes == std::vector<long>{midi}) return;
        off += "\n" + toString(Pitch{midi, {}}) + " as";
        for (const long note : notes)
            off += " " + toString(Pitch{static_cast<int>(note), {}});
    }
};

// Every semitone from E2 to C7 (57 of them) in seven timbres.
TEST(NoteEar, HearsEveryToneOnceAndNoneInTheWrongOctave) {
    Count count;
    for (const auto& timbre : timbres())
        for (int midi = lowE; midi <= highC; ++midi)
            count.take(heard(toneOf(timbre, midi, 0.4, rate)), midi);
    EXPECT_EQ(count.octaves, 0) << count.off;
    EXPECT_EQ(count.wrong, 0) << count.off;
    EXPECT_EQ(count.right, 7 * 57);
}

// Soft, ordinary and hard, half a second each; the string's attack is noise.
TEST(NoteEar, HearsEveryNoteOfAPluckedStringOnceAndNoneInTheWrongOctave) {
    Count count;
    for (const double loudness : {0.3, 0.6, 0.9})
        for (int midi = lowE; midi <= highC; ++midi)
            count.take(heard(plucked(midi, loudness, 0.5)), midi);
    EXPECT_EQ(count.octaves, 0) << count.off;
    EXPECT_EQ(count.wrong, 0) << count.off;
    EXPECT_EQ(count.right, 3 * 57);
}

TEST(NoteEar, HearsALineOfPluckedNotesWithTheSameNoteAgain) {
    std::vector<float> line;
    for (const int midi : {52, 55, 55, 59, 64, 63, 55})
        append(line, plucked(midi, 0.6, 0.3));
    EXPECT_THAT(heard(line), ElementsAre(52, 55, 55, 59, 64, 63, 55));
}

TEST(NoteEar, HearsSlurredNotesBySemitoneAndOctave) {
    std::vector<float> line;
    for (const int midi : {60, 61, 60, 72, 60})
        append(line, toneOf(timbres()[1], midi, 0.3, rate));
    EXPECT_THAT(heard(line), ElementsAre(60, 61, 60, 72, 60));
}

// Half a semitone either way, 5.5 a second: a singer's vibrato (common practice).
TEST(NoteEar, HearsANoteWithVibratoOnce) {
    for (const int midi : {48, 57, 69, 81})
        EXPECT_THAT(heard(toneOf(timbres()[1], midi, 1.5, rate, 0.5)), ElementsAre(midi));
}

TEST(NoteEar, PassesOverWhatIsTooShort) {
    std::vector<float> sound = toneOf(timbres()[1], 64, 0.09, rate);
    append(sound, silence(0.3));
    append(sound, toneOf(timbres()[1], 62, 0.3, rate));
    EXPECT_THAT(heard(sound), ElementsAre(62));
}

TEST(NoteEar, HearsNothingInNoiseKnocksOrAHummingRoom) {
    std::mt19937 random(5);
    std::normal_distribution<float> noise(0, 0.05f);
    std::vector<float> hiss = silence(1);
    for (float& sample : hiss)
        sample = noise(random);
    EXPECT_TRUE(heard(hiss).empty());
    std::vector<float> knocks = silence(1);
    for (std::size_t i = 0; i < knocks.size(); i += 11025)
        for (std::size_t k = 0; k < 400 && i + k < knocks.size(); ++k)
            knocks[i + k] = noise(random) * std::exp(-static_cast<float>(k) / 80);
    EXPECT_TRUE(heard(knocks).empty());
    // Mains hum of 50 Hz at −46 dBFS from the start, and a note over it.
    NoteEar ear(rate);
    std::vector<float> room = toneOf({"hum", {1, 0.3}}, 31.35, 3, rate);
    const auto note = toneOf(timbres()[1], 64, 0.5, rate);
    for (std::size_t i = 0; i < room.size(); ++i)
        room[i] = 0.03f * room[i] + (i > 66150 && i - 66150 < note.size() ? note[i - 66150] : 0.0f);
    std::vector<long> semitones;
    for (const double pitch : ear.give(room))
        semitones.push_back(std::lround(pitch));
    EXPECT_THAT(semitones, ElementsAre(64));
}

TEST(NoteEar, TakesAnyRateAndBadNumbers) {
    for (const int hertz : {8000, 16000, 48000, 96000, 192000})
        EXPECT_THAT(heard(toneOf(timbres()[1], 57, 0.4, SampleRate{hertz}), SampleRate{hertz}),
                    ElementsAre(57))
            << hertz;
    std::vector<float> bad = silence(0.5);
    bad[100] = std::nanf("");
    append(bad, toneOf(timbres()[1], 57, 0.4, rate));
    EXPECT_THAT(heard(bad), ElementsAre(57));
}

TEST(NoteEar, TellsWhatSoundsNow) {
    NoteEar ear(rate);
    EXPECT_FALSE(ear.sounding());
    ear.give(silence(0.5));
    ear.give(toneOf(timbres()[1], 64.2, 0.2, rate));
    ASSERT_TRUE(ear.sounding());
    EXPECT_NEAR(ear.sounding()->midi, 64.2, 0.1);
    ear.give(silence(0.2));
    EXPECT_FALSE(ear.sounding());
}

// An instrument tuned to a record whose A is 45 cents flat, or sharp, as old records are: at 440 Hz its notes
// lie nearly between two names.
TEST(NoteEar, NamesNotesByTheAItIsGiven) {
    for (const double cents : {-45.0, 45.0, -101.3})
        for (const int midi : {45, 52, 60, 67, 76}) {
            NoteEar ear(rate, cents);
            std::vector<float> sound = silence(0.5);
            append(sound, toneOf(timbres()[1], midi + cents / 100, 0.4, rate));
            const auto notes = ear.give(sound);
            ASSERT_EQ(notes.size(), 1u) << midi << " at " << cents;
            EXPECT_NEAR(notes[0], midi, 0.1) << "at " << cents;
        }
}

} // namespace
} // namespace earwright
