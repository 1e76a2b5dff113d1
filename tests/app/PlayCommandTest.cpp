// `earwright-batch play` as a script uses it: the log it writes against the sound that came out.
#include "tests/app/BatchRun.h"
#include "tests/core/engine/PrivateSound.h"
#include "tests/core/sound/WrittenFile.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <optional>
#include <sndfile.h>
#include <sstream>
#include <string>

namespace earwright {
namespace {

constexpr int rate = 44100;

struct Tag {
    long output;
    long recording;
};

std::vector<Tag> tagsIn(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::string header;
    std::getline(file, header);
    EXPECT_EQ(header, "output_frame\trecording_frame");
    std::vector<Tag> tags;
    for (Tag tag{}; file >> tag.output >> tag.recording;)
        tags.push_back(tag);
    return tags;
}

int exitCode(const std::vector<std::string>& words) {
    return tests::BatchRun(words).exitCode;
}

/// By the last two tags before an output frame.
double placeAt(const std::vector<Tag>& tags, long output) {
    auto after = std::find_if(tags.begin(), tags.end(), [&](const Tag& tag) { return tag.output > output; });
    if (after == tags.end() || after == tags.begin()) return -1;
    const Tag& a = *(after - 1);
    const double share =
        static_cast<double>(output - a.output) / static_cast<double>(after->output - a.output);
    return static_cast<double>(a.recording) + share * static_cast<double>(after->recording - a.recording);
}

class PlayCommand : public testing::Test {
protected:
    void SetUp() override {
        std::vector<float> samples(40 * rate, 0.0f);
        for (std::size_t i = rate / 2; i < samples.size(); i += rate / 2)
            samples[i] = 0.7f;
        tests::writeSound(audio, SF_FORMAT_FLAC | SF_FORMAT_PCM_16, rate, 1, samples);
    }
    std::vector<std::string> playWords() const { return {"play", audio, "--script", script, "--log", log}; }
    const tests::ScratchFolder folder;
    const std::filesystem::path audio = folder / "clicks.flac";
    const std::filesystem::path script = folder / "steps.tsv";
    const std::filesystem::path log = folder / "tags.tsv";
};

using BounceCommand = PlayCommand;

TEST_F(PlayCommand, LogsWhereEveryClickIsHeard) {
    if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
    tests::PrivateSound sound;
    tests::writeBytes(script, "at_s\tcommand\tvalue\n"
                              "0.2\tplay\t\n"
                              "1.9\tspeed\t0.5\n"
                              "4.5\tloop\t10.3 10.9\n"
                              "7.5\tquit\t\n");
    sound.record();
    ASSERT_EQ(exitCode(playWords()), 0);
    const auto stereo = sound.recorded();
    const auto tags = tagsIn(log);
    ASSERT_GT(tags.size(), 300u);
    for (std::size_t i = 1; i < tags.size(); ++i) {
        ASSERT_GT(tags[i].output, tags[i - 1].output);
        ASSERT_LE(tags[i].output - tags[i - 1].output, rate / 50) << "at least every 20 ms";
    }
    std::vector<long> clicks;
    for (std::size_t i = 0; 2 * i < stereo.size(); ++i)
        if (std::abs(stereo[2 * i]) > 0.35f &&
            (clicks.empty() || static_cast<long>(i) - clicks.back() > rate / 100))
            clicks.push_back(static_cast<long>(i));
    ASSERT_GE(clicks.size(), 6u);
    // Which output frame the recorder began with is not known: the first click says it, the others are
    // checked.
    const auto first =
        std::find_if(tags.begin(), tags.end(), [](const Tag& tag) { return tag.recording > rate / 2; });
    const long offset = (first - 1)->output + (rate / 2 - (first - 1)->recording) - clicks.front();
    for (const long click : clicks) {
        const double half = placeAt(tags, click + offset) / (rate / 2);
        EXPECT_LT(std::abs(half - std::round(half)) * 500, 3.0) << "ms, at " << half / 2 << " s";
    }
}

TEST_F(PlayCommand, SaysThatThereIsNoDeviceAndDoesNotHang) {
    const tests::NoSound silence;
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\tplay\t\n0.3\tquit\t\n");
    const tests::BatchRun played(playWords());
    EXPECT_EQ(played.exitCode, 1);
    EXPECT_NE(played.errors.find("no sound device"), std::string::npos) << played.errors;
    EXPECT_EQ(std::count(played.errors.begin(), played.errors.end(), '\n'), 1) << "one sentence";
    EXPECT_GT(tagsIn(log).size(), 10u) << "the silent clock goes on";
}

struct Event {
    double at = 0;
    std::string name;
    std::string value;
    long frame = -1;
};

std::vector<Event> eventsIn(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::string line;
    std::getline(file, line);
    EXPECT_EQ(line, "at_s\tevent\tvalue\toutput_frame");
    std::vector<Event> events;
    while (std::getline(file, line)) {
        std::vector<std::string> cells{""};
        for (const char letter : line) {
            if (letter == '\t')
                cells.emplace_back();
            else
                cells.back() += letter;
        }
        EXPECT_EQ(cells.size(), 4u) << line;
        if (cells.size() != 4) continue;
        events.push_back(
            {std::stod(cells[0]), cells[1], cells[2], cells[3].empty() ? -1 : std::stol(cells[3])});
    }
    return events;
}

std::optional<Event> first(const std::vector<Event>& events, const std::string& name,
                           const std::string& value, long from = -1) {
    for (const Event& event : events)
        if (event.name == name && event.value == value && event.frame >= from) return event;
    return std::nullopt;
}

TEST_F(PlayCommand, TellsPassesStagesAndSpeedsToTheFrame) {
    const tests::NoSound silence;
    tests::writeBytes(script, "at_s\tcommand\tvalue\n"
                              "0\tspeed\t0.5\n"
                              "0\tgap\t1\n"
                              "0\tclimb\t50 1 100\n"
                              "0\tloop\t1 1.25\n"
                              "0.2\tseek\t1\n"
                              "0.4\tplay\t\n"
                              "3.5\tquit\t\n");
    auto words = playWords();
    const std::filesystem::path eventFile = folder / "events.tsv";
    words.insert(words.end(), {"--events", eventFile});
    ASSERT_EQ(exitCode(words), 1) << "there is no device";
    const auto events = eventsIn(eventFile);
    const auto plays = first(events, "playing", "on");
    const auto pass = first(events, "pass", "1");
    const auto gap = first(events, "stage", "gap");
    ASSERT_TRUE(plays && pass && gap);
    const auto faster = first(events, "speed", "1", plays->frame);
    const auto sounds = first(events, "stage", "sounding", gap->frame);
    ASSERT_TRUE(faster && sounds);
    EXPECT_TRUE(std::any_of(events.begin(), events.end(), [](const Event& event) {
        return event.name == "device" && event.value.starts_with("missing: ");
    }));
    // The silent clock counts 48,000 frames a second. A quarter of a second at half speed is 24,000; a beat
    // of a recording without a map half a second, and so 48,000.
    EXPECT_EQ(pass->frame - plays->frame, 24000);
    EXPECT_EQ(gap->frame, pass->frame);
    EXPECT_EQ(faster->frame, pass->frame) << "the next pass is the faster one";
    EXPECT_EQ(sounds->frame - gap->frame, 48000);
    EXPECT_NEAR(sounds->at - gap->at, 1.0, 0.05);
}

/// Frames of a channel where a click begins.
std::vector<long> clicksIn(const std::vector<float>& interleaved, std::size_t channels, float threshold) {
    std::vector<long> clicks;
    for (std::size_t i = 0; channels * i < interleaved.size(); ++i)
        if (std::abs(interleaved[channels * i]) > threshold &&
            (clicks.empty() || static_cast<long>(i) - clicks.back() > rate / 100))
            clicks.push_back(static_cast<long>(i));
    return clicks;
}

/// Amplitude of a tone in half a second of one channel.
double amplitudeOf(const std::vector<float>& stereo, std::size_t channel, double hertz, std::size_t from) {
    double sine = 0;
    double cosine = 0;
    constexpr std::size_t count = rate / 2;
    for (std::size_t i = 0; i < count && 2 * (from + i) < stereo.size(); ++i) {
        const double turn = 2 * M_PI * hertz * static_cast<double>(i) / rate;
        sine += static_cast<double>(stereo[2 * (from + i) + channel]) * std::sin(turn);
        cosine += static_cast<double>(stereo[2 * (from + i) + channel]) * std::cos(turn);
    }
    return 2 * std::hypot(sine, cosine) / static_cast<double>(count);
}

// One second each; what is in the monitor by the middle of it is what the step asked for.
TEST_F(PlayCommand, LetsEachPartOfARecordBeHeardThroughTheDevice) {
    if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
    tests::PrivateSound sound;
    std::vector<float> samples;
    for (int i = 0; i < 20 * rate; ++i)
        for (const double hertz : {220.0, 900.0})
            samples.push_back(static_cast<float>(0.3 * std::sin(2 * M_PI * hertz * i / rate)));
    tests::writeSound(folder / "two.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, 2, samples);
    struct Part {
        std::string steps;
        /// Heard where above nought: the lower tone left and right, the upper tone left and right.
        double low;
        double lowRight;
        double high;
        double highRight;
        double octaves = 0;
    };
    const std::vector<Part> parts{{"play", 0.3, 0, 0, 0.3},          {"focus\tleft", 0.3, 0.3, 0, 0},
                                  {"focus\tright", 0, 0, 0.3, 0.3},  {"focus\tall", 0.3, 0, 0, 0.3},
                                  {"band\t450 2000", 0, 0, 0, 0.3},  {"band\t450 2000 remove", 0.3, 0, 0, 0},
                                  {"band\toff", 0.3, 0, 0, 0.3},     {"semitones\t12", 0.3, 0, 0, 0.3, 1},
                                  {"semitones\t0", 0.3, 0, 0, 0.3},  {"speed\t0.5", 0.3, 0, 0, 0.3},
                                  {"hold\t3", 0.3, 0, 0, 0.3},       {"hold\toff", 0.3, 0, 0, 0.3},
                                  {"hear\tsplit", 0.15, 0, 0.15, 0}, {"hear\tyours", 0, 0, 0, 0}};
    std::string text = "at_s\tcommand\tvalue\n";
    for (std::size_t i = 0; i < parts.size(); ++i)
        text += std::to_string(0.3 + static_cast<double>(i)) + '\t' + parts[i].steps + '\n';
    tests::writeBytes(script, text + std::to_string(0.5 + static_cast<double>(parts.size())) + "\tquit\n");
    sound.record();
    ASSERT_EQ(exitCode({"play", folder / "two.wav", "--script", script, "--log", log}), 0);
    const auto heard = sound.recorded();
    const auto sounds = std::ranges::find_if(heard, [](float sample) { return std::abs(sample) > 0.02f; });
    ASSERT_NE(sounds, heard.end());
    const auto begin = static_cast<std::size_t>(sounds - heard.begin()) / 2;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::size_t middle = begin + i * rate + 2 * rate / 5;
        const double up = std::exp2(parts[i].octaves);
        EXPECT_NEAR(amplitudeOf(heard, 0, 220 * up, middle), parts[i].low, 0.06) << parts[i].steps;
        EXPECT_NEAR(amplitudeOf(heard, 1, 220 * up, middle), parts[i].lowRight, 0.06) << parts[i].steps;
        EXPECT_NEAR(amplitudeOf(heard, 0, 900 * up, middle), parts[i].high, 0.06) << parts[i].steps;
        EXPECT_NEAR(amplitudeOf(heard, 1, 900 * up, middle), parts[i].highRight, 0.06) << parts[i].steps;
    }
}

TEST_F(PlayCommand, PlaysATakeAsYoursUntilItIsTakenAway) {
    if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
    tests::PrivateSound sound;
    std::vector<float> samples(5 * rate, 0.0f);
    for (std::size_t i = rate / 4; i < samples.size(); i += rate / 4)
        samples[i] = 0.7f;
    tests::writeSound(folder / "my take.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, 1, samples);
    tests::writeBytes(script, "at_s\tcommand\tvalue\n"
                              "0\thear\tyours\n"
                              "0\ttake\t" +
                                  (folder / "my take.wav").string() +
                                  " 10 1\n"
                                  "0\tseek\t10\n"
                                  "0.3\tplay\n"
                                  "2\ttake\toff\n"
                                  "4\tquit\n");
    sound.record();
    ASSERT_EQ(exitCode(playWords()), 0);
    const auto heard = sound.recorded();
    const float loudest = heard.empty() ? 0 : *std::max_element(heard.begin(), heard.end());
    ASSERT_GT(loudest, 0.01f);
    const auto clicks = clicksIn(heard, 2, loudest / 3);
    // The take clicks four times a second, the record twice; nothing is written, so that without the take
    // nothing sounds.
    ASSERT_GE(clicks.size(), 4u);
    EXPECT_LE(clicks.size(), 12u) << "four seconds would be fifteen";
    for (std::size_t i = 1; i < clicks.size(); ++i)
        EXPECT_NEAR(static_cast<double>(clicks[i] - clicks[0]), static_cast<double>(i) * rate / 4,
                    0.003 * rate);
}

TEST_F(PlayCommand, RecordsATakeAndTellsWhereItBelongs) {
    if (!tests::PrivateSound::isAvailable()) GTEST_SKIP() << "pulseaudio is not installed";
    tests::PrivateSound sound;
    const std::filesystem::path take = folder / "first try.wav";
    const std::filesystem::path eventFile = folder / "events.tsv";
    tests::writeBytes(script, "at_s\tcommand\tvalue\n"
                              "0\trecord\t" +
                                  take.string() +
                                  "\n"
                                  "0.5\tplay\n"
                                  "3.5\tpause\n"
                                  "4\trecord\toff\n"
                                  "4.2\tquit\n");
    auto words = playWords();
    words.insert(words.end(), {"--events", eventFile});
    const tests::BatchRun played(words);
    ASSERT_EQ(played.exitCode, 0) << played.errors;
    const auto events = eventsIn(eventFile);
    const auto row =
        std::find_if(events.begin(), events.end(), [](const Event& event) { return event.name == "take"; });
    ASSERT_NE(row, events.end());
    std::istringstream cells(row->value);
    long begin = 0;
    long end = 0;
    long place = 0;
    double speed = 0;
    ASSERT_TRUE(cells >> begin >> end >> place >> speed) << row->value;
    EXPECT_EQ(speed, 1);
    EXPECT_GT(end - begin, rate) << row->value;
    // The server's monitor is the input: what was played comes back, where it belongs but for what the
    // devices do not report of their delay.
    SF_INFO info{};
    SNDFILE* file = sf_open(take.c_str(), SFM_READ, &info);
    ASSERT_NE(file, nullptr);
    std::vector<float> samples(static_cast<std::size_t>(info.frames * info.channels));
    EXPECT_EQ(sf_readf_float(file, samples.data(), info.frames), info.frames);
    sf_close(file);
    const auto clicks = clicksIn(samples, static_cast<std::size_t>(info.channels), 0.35f);
    ASSERT_GE(clicks.size(), 2u);
    for (const long click : clicks) {
        const double half =
            (static_cast<double>(place) / rate + static_cast<double>(click - begin) / info.samplerate) / 0.5;
        EXPECT_LT(std::abs(half - std::round(half)) * 500, 100) << "ms, at " << half / 2 << " s";
    }
}

TEST_F(PlayCommand, StopsWhereATakeCannotBePlayedOrRecorded) {
    const tests::NoSound silence;
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\ttake\tnothing.wav 0 1\n9\tquit\n");
    const tests::BatchRun missing(playWords());
    EXPECT_EQ(missing.exitCode, 1);
    EXPECT_NE(missing.errors.find("nothing.wav"), std::string::npos) << missing.errors;
    const auto size = std::filesystem::file_size(audio);
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\trecord\t" + audio.string() + "\n9\tquit\n");
    const tests::BatchRun there(playWords());
    EXPECT_EQ(there.exitCode, 1);
    EXPECT_NE(there.errors.find("is there already"), std::string::npos) << there.errors;
    EXPECT_EQ(std::filesystem::file_size(audio), size);
}

TEST_F(PlayCommand, TellsInputFaultsFromUsage) {
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\thover\t\n");
    EXPECT_EQ(exitCode(playWords()), 1);
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\tfocus\tmiddle\n");
    EXPECT_EQ(exitCode(playWords()), 1);
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\tquit\t\n");
    EXPECT_EQ(exitCode({"play", audio, "--script", script}), 2);
    EXPECT_EQ(exitCode({"play", audio, "--script", script, "--log", log, "--loud", "3"}), 2);
    EXPECT_EQ(exitCode({"play", audio, "--script", script, "--log", log, "--events", log}), 2);
    EXPECT_EQ(exitCode({"play", audio, "--script", script, "--log", log, "--events", audio}), 2);
    EXPECT_EQ(exitCode({"play", "nothing.wav", "--script", script, "--log", log}), 1);
    EXPECT_EQ(exitCode({"play", audio, "--script", "nothing.tsv", "--log", log}), 1);
    EXPECT_EQ(exitCode({"play", audio, "--script", script, "--log", folder / "no" / "log.tsv"}), 1);
}

TEST_F(BounceCommand, TellsInputFaultsFromUsage) {
    const std::string out = folder / "out.wav";
    EXPECT_EQ(exitCode({"bounce", audio, out, "--speed", "0.05"}), 2);
    EXPECT_EQ(exitCode({"bounce", audio, out, "--from", "50"}), 2);
    EXPECT_EQ(exitCode({"bounce", audio, out, "--from", "5", "--to", "4"}), 2);
    EXPECT_EQ(exitCode({"bounce", audio, folder / "out.mp3"}), 2);
    EXPECT_EQ(exitCode({"bounce", audio, folder / "no" / "out.wav"}), 1);
    EXPECT_EQ(exitCode({"bounce", "nothing.wav", out}), 1);
    EXPECT_FALSE(std::filesystem::exists(out));
}

TEST_F(BounceCommand, LikePlayNeverWritesOverTheRecording) {
    const auto size = std::filesystem::file_size(audio);
    std::filesystem::create_symlink(audio, folder / "link.flac");
    EXPECT_EQ(exitCode({"bounce", audio, audio, "--speed", "0.5"}), 2);
    EXPECT_EQ(exitCode({"bounce", folder / "link.flac", audio, "--speed", "0.5"}), 2);
    EXPECT_EQ(exitCode({"bounce", audio, folder / "link.flac", "--speed", "0.5"}), 2);
    tests::writeBytes(script, "at_s\tcommand\tvalue\n0\tquit\t\n");
    EXPECT_EQ(exitCode({"play", audio, "--script", script, "--log", audio}), 2);
    EXPECT_EQ(std::filesystem::file_size(audio), size);
}

TEST_F(BounceCommand, LeavesAloneWhatWasThereWhereItFails) {
    tests::writeBytes(folder / "old.wav", "what was there before");
    EXPECT_EQ(exitCode({"bounce", "nothing.wav", folder / "old.wav"}), 1);
    EXPECT_EQ(std::filesystem::file_size(folder / "old.wav"), 21u);
}

} // namespace
} // namespace earwright
