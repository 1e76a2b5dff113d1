#include "core/engine/Lane.h"
#include "core/engine/Mixer.h"
#include "tests/core/engine/HeldRecording.h"

#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <numbers>
#include <random>

// What is asked of the levels, measured on what leaves the mixer.

namespace earwright {
namespace {

constexpr SampleRate rate{44100};
constexpr int seconds = 14;

/// A band of sorts: plucked notes that die away over a bass and noise, both channels different.
std::vector<float> music(double level) {
    std::vector<float> samples;
    std::minstd_rand random(3);
    std::uniform_real_distribution<double> noise(-1, 1);
    constexpr double notes[] = {220, 277.2, 329.6, 246.9, 440, 370, 311.1, 196};
    for (int i = 0; i < seconds * rate.hertz; ++i) {
        const double time = static_cast<double>(i) / rate.hertz;
        const double inNote = std::fmod(time, 0.25);
        const double hertz = notes[static_cast<int>(time / 0.25) % 8];
        double note = 0;
        for (int n = 1; n <= 6; ++n)
            note += std::sin(2 * std::numbers::pi * hertz * n * time) / n * std::exp(-8 * inNote);
        const double bass = 0.5 * std::sin(2 * std::numbers::pi * 82 * time);
        const double beat = noise(random) * 0.3 * std::exp(-40 * std::fmod(time, 0.5));
        samples.push_back(static_cast<float>(level * (note + bass + beat)));
        samples.push_back(static_cast<float>(level * (0.6 * note + bass - 0.5 * beat)));
    }
    return samples;
}

std::shared_ptr<Recording> record(double level) {
    static std::map<double, std::shared_ptr<Recording>> made;
    std::shared_ptr<Recording>& recording = made[level];
    if (!recording) recording = tests::held(music(level), rate.hertz, 2);
    return recording;
}

NoteList lineOfNotes(double loudness) {
    std::vector<TimedNote> notes;
    for (int i = 0; i < 4 * seconds - 1; ++i) {
        TimedNote note;
        note.onset = Frames(i * rate.hertz / 4);
        note.end = note.onset + Frames(rate.hertz / 5);
        note.midi = 57 + (i * 5) % 12;
        note.loudness = loudness;
        notes.push_back(note);
    }
    return noteListOf(notes);
}

/// Renders one hearing from the second second on.
class Sounding {
public:
    Sounding(double level, Hearing hearing, double speed = 1, double loudness = 0.6, double from = 2)
        : Sounding(record(level), hearing, speed, loudness, from) {}
    Sounding(std::shared_ptr<Recording> recording, Hearing hearing, double speed = 1, double loudness = 0.6,
             double from = 2, std::shared_ptr<const TakePlayback> take = nullptr) {
        Lane::Start start;
        start.record.recording = std::move(recording);
        start.take = std::move(take);
        start.record.from = rate.frames(Seconds(from));
        start.record.speed = speed;
        start.record.outputRate = rate;
        start.notes = lineOfNotes(loudness);
        start.isElsewhere = true;
        lane.start(start);
        lane.fill(4096, false);
        mixer.lanes().order(&lane, 0);
        mixer.setPlaying(true);
        mixer.setHearing(hearing);
    }
    std::vector<float> render(double length) {
        std::vector<float> all;
        std::vector<float> block(512);
        while (static_cast<double>(all.size()) < 2 * length * rate.hertz) {
            lane.fill(4096, false);
            mixer.render(block, rate, 0, false);
            all.insert(all.end(), block.begin(), block.end());
        }
        return all;
    }
    Mixer mixer;
    Lane lane;
};

/// Mean squares, both ears, of windows of 400 ms (EBU Tech 3341), one every 100 ms: plain and weighted.
struct Windows {
    std::vector<double> plain;
    std::vector<double> weighted;
};
Windows windowsOf(const std::vector<float>& stereo) {
    const auto frames = static_cast<std::size_t>(0.1 * rate.hertz);
    Windows steps;
    KWeighting left;
    KWeighting right;
    left.setRate(rate);
    right.setRate(rate);
    for (std::size_t at = 0; at + 2 * frames <= stereo.size(); at += 2 * frames) {
        double plain = 0;
        double weighted = 0;
        for (std::size_t i = at; i < at + 2 * frames; i += 2) {
            plain += std::pow(stereo[i], 2) + std::pow(stereo[i + 1], 2);
            weighted += std::pow(left.next(stereo[i]), 2) + std::pow(right.next(stereo[i + 1]), 2);
        }
        steps.plain.push_back(plain / static_cast<double>(frames));
        steps.weighted.push_back(weighted / static_cast<double>(frames));
    }
    Windows windows;
    for (std::size_t i = 3; i < steps.plain.size(); ++i) {
        windows.plain.push_back(
            (steps.plain[i] + steps.plain[i - 1] + steps.plain[i - 2] + steps.plain[i - 3]) / 4);
        windows.weighted.push_back(
            (steps.weighted[i] + steps.weighted[i - 1] + steps.weighted[i - 2] + steps.weighted[i - 3]) / 4);
    }
    return windows;
}

double most(const std::vector<double>& values) {
    return 10 * std::log10(*std::max_element(values.begin(), values.end()));
}
double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values)
        sum += value / static_cast<double>(values.size());
    return 10 * std::log10(sum);
}

TEST(LevelMatch, MakesYoursAboutAsLoudAsTheRecord) {
    for (const double level : {0.04, 0.15, 0.3}) {
        const Windows record = windowsOf(Sounding(level, Hearing::Record).render(8));
        const Windows yours = windowsOf(Sounding(level, Hearing::Yours).render(8));
        EXPECT_NEAR(mean(yours.weighted), mean(record.weighted) - 2, 1.5) << level;
        RecordProperty("yours_minus_record_LU_at_" + std::to_string(level),
                       std::to_string(mean(yours.weighted) - mean(record.weighted)));
    }
}

TEST(LevelMatch, MakesNoHearingMoreThanThreeDecibelsLouderThanTheRecordWas) {
    for (const double level : {0.04, 0.3}) {
        const Windows record = windowsOf(Sounding(level, Hearing::Record).render(8));
        for (const Hearing hearing : {Hearing::Yours, Hearing::Together, Hearing::Split})
            for (const float balance : {1.0f, 4.0f})
                for (const double loudness : {0.6, 1.0}) {
                    Sounding sounding(level, hearing, 1, loudness);
                    sounding.mixer.setYoursGain(balance);
                    const Windows heard = windowsOf(sounding.render(4));
                    EXPECT_LT(most(heard.plain), most(record.plain) + 3)
                        << static_cast<int>(hearing) << " at " << level << " balance " << balance;
                    EXPECT_LT(most(heard.weighted), most(record.weighted) + 3)
                        << static_cast<int>(hearing) << " at " << level << " balance " << balance;
                }
    }
}

TEST(LevelMatch, MakesNoSwitchOfHearingMoreThanThreeDecibelsLouder) {
    Sounding sounding(0.2, Hearing::Record);
    sounding.mixer.setYoursGain(4);
    const Windows before = windowsOf(sounding.render(2));
    for (const Hearing hearing : {Hearing::Yours, Hearing::Record, Hearing::Together, Hearing::Split}) {
        sounding.mixer.setHearing(hearing);
        const Windows heard = windowsOf(sounding.render(2));
        EXPECT_LT(most(heard.plain), most(before.plain) + 3) << static_cast<int>(hearing);
        EXPECT_LT(most(heard.weighted), most(before.weighted) + 3) << static_cast<int>(hearing);
    }
}

TEST(LevelMatch, MakesNoSpeedMoreThanThreeDecibelsLouder) {
    const Windows record = windowsOf(Sounding(0.2, Hearing::Record).render(8));
    for (const double speed : {0.1, 0.5, 2.0})
        for (const Hearing hearing : {Hearing::Record, Hearing::Together}) {
            const Windows heard = windowsOf(Sounding(0.2, hearing, speed).render(2.5));
            EXPECT_LT(most(heard.plain), most(record.plain) + 3) << speed << ' ' << static_cast<int>(hearing);
            EXPECT_LT(most(heard.weighted), most(record.weighted) + 3)
                << speed << ' ' << static_cast<int>(hearing);
            RecordProperty("speed_" + std::to_string(speed) + "_" + std::to_string(static_cast<int>(hearing)),
                           std::to_string(most(heard.weighted) - most(record.weighted)));
        }
}

/// As on the first stereo records: all of it on the left, or the two channels against each other.
std::shared_ptr<Recording> lopsided(float right) {
    auto samples = music(0.3);
    for (std::size_t i = 0; i < samples.size(); i += 2)
        samples[i + 1] = right * samples[i];
    return tests::held(std::move(samples), rate.hertz, 2);
}

TEST(LevelMatch, MakesNoFocusAndNoBandMoreThanThreeDecibelsLouder) {
    for (const auto& recording : {record(0.3), lopsided(0), lopsided(-1), lopsided(1)}) {
        const Windows usual = windowsOf(Sounding(recording, Hearing::Record).render(6));
        const auto expectNotLouder = [&](Sounding& sounding, const char* what) {
            const Windows heard = windowsOf(sounding.render(4));
            EXPECT_LT(most(heard.plain), most(usual.plain) + 3) << what;
            EXPECT_LT(most(heard.weighted), most(usual.weighted) + 3) << what;
        };
        for (const Focus focus : {Focus::Left, Focus::Right, Focus::Centre, Focus::Sides}) {
            Sounding sounding(recording, Hearing::Record);
            sounding.render(1);
            sounding.mixer.setFocus(focus);
            expectNotLouder(sounding, "a focus");
        }
        for (const bool remove : {false, true}) {
            Sounding sounding(recording, Hearing::Record);
            sounding.render(1);
            sounding.mixer.setBand(Band{200, 2000, remove});
            expectNotLouder(sounding, "a band");
        }
    }
}

std::shared_ptr<const TakePlayback> takeOf(std::vector<float> stereo) {
    const Range<Frames> all{Frames(0), Frames(static_cast<std::int64_t>(stereo.size() / 2))};
    return std::make_shared<const TakePlayback>(
        TakePlayback{tests::held(std::move(stereo), rate.hertz, 2), all, Frames(0), 1, 0});
}

std::shared_ptr<const TakePlayback> takeOfMusic(double gain) {
    return takeOf(music(0.3 * gain));
}

/// With so much of the left channel on the right one.
std::shared_ptr<const TakePlayback> lopsidedTake(double gain, float right) {
    auto samples = music(0.3 * gain);
    for (std::size_t i = 1; i < samples.size(); i += 2)
        samples[i] = right * samples[i - 1];
    return takeOf(std::move(samples));
}

TEST(LevelMatch, MakesATakeNoMoreThanThreeDecibelsLouderHoweverLoudItWasPlayed) {
    const Windows usual = windowsOf(Sounding(0.1, Hearing::Record).render(8));
    for (const double gain : {0.03, 1.0, 3.0})
        for (const Hearing hearing : {Hearing::Yours, Hearing::Together, Hearing::Split}) {
            Sounding sounding(record(0.1), hearing, 1, 0.6, 2, takeOfMusic(gain));
            const Windows heard = windowsOf(sounding.render(6));
            EXPECT_LT(most(heard.plain), most(usual.plain) + 3) << static_cast<int>(hearing) << ' ' << gain;
            EXPECT_LT(most(heard.weighted), most(usual.weighted) + 3)
                << static_cast<int>(hearing) << ' ' << gain;
        }
}

TEST(LevelMatch, BringsATakeToTheRecordsLoudnessFromItsFirstSecondOn) {
    const double usual = mean(windowsOf(Sounding(0.1, Hearing::Record).render(2)).weighted);
    for (const double gain : {0.05, 1.0, 3.0}) {
        Sounding sounding(record(0.1), Hearing::Yours, 1, 0.6, 2, takeOfMusic(gain));
        EXPECT_NEAR(mean(windowsOf(sounding.render(1)).weighted), usual - 2, 2) << gain;
    }
    // What is heard is the mean of its channels: of one alone, and of one that is half turned over on the
    // other.
    for (const float right : {0.0f, -0.5f}) {
        Sounding sounding(record(0.1), Hearing::Yours, 1, 0.6, 2, lopsidedTake(1, right));
        EXPECT_NEAR(mean(windowsOf(sounding.render(1)).weighted), usual - 2, 2) << right;
    }
}

TEST(LevelMatch, LeavesNotesThatAreTriedBesideATakeAsLoudAsBefore) {
    const auto recording = record(0.1);
    LevelMatch match;
    match.start(recording, rate, true);
    std::vector<SoundFrame> silence(441);
    double gain = 1;
    match.apply(silence, TimeTags(0, 1, std::nullopt, 0), 0, gain);
    const double before = match.notesGain();
    match.take(takeOfMusic(0.05), Frames(0));
    match.apply(silence, TimeTags(0, 1, std::nullopt, 0), 441, gain);
    EXPECT_GT(match.gain(), 2 * before) << "the take is brought up";
    EXPECT_NEAR(20 * std::log10(match.notesGain() / before), 0, 0.1);
}

TEST(LevelMatch, LeavesTheRecordAloneUntouched) {
    const auto samples = music(0.3);
    Sounding sounding(0.3, Hearing::Record);
    const auto heard = sounding.render(8);
    for (std::size_t i = 2 * 441; i < heard.size(); ++i)
        ASSERT_EQ(heard[i], samples[i + 4 * 44100]) << i;
    EXPECT_FALSE(sounding.mixer.takeLimited());
}

TEST(LevelMatch, KeepsTheBalanceAskedForWithinTheLimit) {
    Sounding plain(0.2, Hearing::Yours);
    Sounding softer(0.2, Hearing::Yours);
    softer.mixer.setYoursGain(0.5f);
    EXPECT_NEAR(mean(windowsOf(softer.render(4)).plain), mean(windowsOf(plain.render(4)).plain) - 6.02, 0.3);
    Sounding louder(0.2, Hearing::Yours);
    louder.mixer.setYoursGain(8);
    louder.render(2);
    EXPECT_TRUE(louder.mixer.takeLimited()) << "a visible mark: it is held back";
}

TEST(LevelMatch, DoesNotPump) {
    // The same notes at an even loudness: what the matching adds moves by 3 dB a second at most.
    Sounding sounding(0.2, Hearing::Yours);
    const auto heard = sounding.render(8);
    const Windows windows = windowsOf(heard);
    for (std::size_t i = 10; i < windows.plain.size(); ++i) {
        const double step = 10 * std::log10(windows.plain[i] / windows.plain[i - 10]);
        EXPECT_LT(std::abs(step), 5) << "a second apart, at the same place of another note";
    }
}

TEST(LevelMatch, BendsPeaksRatherThanCuttingThem) {
    // The record alone peaks at 0.7; what is added is too loud for full scale.
    Sounding sounding(0.25, Hearing::Together, 1, 1);
    sounding.mixer.setYoursGain(4);
    // In the first 10 ms the hearing changes.
    for (const float sample : sounding.render(0.02))
        ASSERT_LT(std::abs(sample), 1.0f);
    const auto heard = sounding.render(4);
    int atTheTop = 0;
    for (const float sample : heard) {
        ASSERT_LT(std::abs(sample), 1.0f);
        if (std::abs(sample) >= 0.99989f) ++atTheTop;
    }
    EXPECT_EQ(atTheTop, 0);
    EXPECT_TRUE(sounding.mixer.takeLimited());
}

} // namespace
} // namespace earwright
