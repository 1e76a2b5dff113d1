#include "core/playback/ExcerptSounds.h"

#include "tests/core/sound/WrittenFile.h"
#include "tests/core/study/SampleStudy.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace earwright {
namespace {

using tests::ScratchFolder;

constexpr int rate = 44100;

/// Eight bars at 120 over 20 seconds of a tone of 220 Hz, with an A4 (440 Hz) of half a second at 4 s.
class ExcerptSounds : public testing::Test {
protected:
    ExcerptSounds() {
        tests::writeSound(folder / "tone.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, 1,
                          tests::sine(220, rate, 1, 20));
        study = eightBarsAt120();
        study = addNote(study, {Pitch{69, {}}, Beats(8), Beats(1)}).study;
        recording = *Recording::open(folder / "tone.wav");
    }
    Study study;
    std::shared_ptr<Recording> recording;
    ScratchFolder folder;
};

std::vector<float> samplesOf(const std::filesystem::path& file) {
    const auto recording = Recording::open(file);
    EXPECT_TRUE(recording.ok()) << file;
    if (!recording) return {};
    std::vector<float> samples(
        static_cast<std::size_t>((*recording)->length().value * (*recording)->channels()));
    (*recording)->read(Frames(0), samples);
    return samples;
}

/// How much of the sound's power lies at a pitch: the Goertzel sum against the whole.
double shareAt(const std::vector<float>& samples, double hertz) {
    double real = 0;
    double imaginary = 0;
    double power = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double phase = 2 * std::numbers::pi * hertz * static_cast<double>(i) / rate;
        real += samples[i] * std::cos(phase);
        imaginary += samples[i] * std::sin(phase);
        power += 1.0 * samples[i] * samples[i];
    }
    return power > 0
               ? 2 * (real * real + imaginary * imaginary) / (power * static_cast<double>(samples.size()))
               : 0;
}

TEST_F(ExcerptSounds, AreTheRecordTheSlowRecordAndTheNotesNamedAfterTheSheet) {
    double told = 0;
    const auto files = writeExcerptSounds(study, recording, {{{Seconds(4), Seconds(5)}}, 0.5, 0},
                                          folder / "solo.pdf", [&](double share) {
                                              EXPECT_GE(share, told);
                                              told = share;
                                          });
    ASSERT_TRUE(files.ok()) << describe(files.error());
    EXPECT_EQ(*files, (std::vector<std::filesystem::path>{folder / "solo.wav", folder / "solo-50.wav",
                                                          folder / "solo-notes.wav"}));
    EXPECT_NEAR(told, 1, 1e-9);
    const auto record = samplesOf((*files)[0]);
    EXPECT_EQ(record.size(), 1u * rate);
    EXPECT_GT(shareAt(record, 220), 0.99) << "the very tone";
    const auto slow = samplesOf((*files)[1]);
    EXPECT_EQ(slow.size(), 2u * rate) << "twice as long";
    EXPECT_GT(shareAt(slow, 220), 0.9) << "and as high";
    const auto notes = samplesOf((*files)[2]);
    EXPECT_EQ(notes.size(), 2u * rate) << "a second to die away";
    // The written A4 and its partials; nothing of the record.
    EXPECT_GT(shareAt(notes, 440), 20 * shareAt(notes, 220));
}

TEST_F(ExcerptSounds, AreNumberedWhereThereAreSeveral) {
    const auto files =
        writeExcerptSounds(study, recording, {{{Seconds(-1), Seconds(1)}, {Seconds(19), Seconds(25)}}, 1, 0},
                           folder / "solo.pdf");
    ASSERT_TRUE(files.ok()) << describe(files.error());
    EXPECT_EQ(*files, (std::vector<std::filesystem::path>{
                          folder / "solo-example-1.wav", folder / "solo-example-1-notes.wav",
                          folder / "solo-example-2.wav", folder / "solo-example-2-notes.wav"}));
    EXPECT_EQ(samplesOf((*files)[0]).size(), 1u * rate) << "as far as there is a record";
    EXPECT_EQ(samplesOf((*files)[2]).size(), 1u * rate);
}

TEST_F(ExcerptSounds, LeaveNothingHalfWrittenWhereTheyAreCalledOffOrLieOutside) {
    std::stop_source called;
    called.request_stop();
    const auto stopped = writeExcerptSounds(study, recording, {{{Seconds(4), Seconds(5)}}, 0.5, 0},
                                            folder / "solo.pdf", {}, called.get_token());
    ASSERT_FALSE(stopped.ok());
    EXPECT_EQ(stopped.error().kind, ErrorKind::Cancelled);
    EXPECT_FALSE(std::filesystem::exists(folder / "solo.wav"));
    const auto outside =
        writeExcerptSounds(study, recording, {{{Seconds(30), Seconds(31)}}, 0.5, 0}, folder / "solo.pdf");
    ASSERT_FALSE(outside.ok());
    EXPECT_EQ(outside.error().kind, ErrorKind::OutOfRange);
}

TEST_F(ExcerptSounds, NeverReplaceTheRecording) {
    const ExcerptWish one{{{Seconds(4), Seconds(5)}}, 0.5, 0};
    const ExcerptWish two{{{Seconds(4), Seconds(5)}, {Seconds(6), Seconds(7)}}, 0.5, 0};
    std::filesystem::create_directory_symlink(folder / ".", folder / "same");
    const auto size = std::filesystem::file_size(folder / "tone.wav");
    for (const char* sheet : {"tone.pdf", "same/tone.svg"}) {
        const auto refused = writeExcerptSounds(study, recording, one, folder / sheet);
        ASSERT_FALSE(refused.ok()) << sheet;
        EXPECT_EQ(refused.error().kind, ErrorKind::NotWritable);
        EXPECT_NE(describe(refused.error()).find("is the recording itself"), std::string::npos);
    }
    EXPECT_EQ(std::filesystem::file_size(folder / "tone.wav"), size);
    EXPECT_FALSE(std::filesystem::exists(folder / "tone-50.wav")) << "nothing half done";
    // The second example's notes would take the name: refused before the first one is written.
    std::filesystem::copy_file(folder / "tone.wav", folder / "solo-example-2-notes.wav");
    recording = *Recording::open(folder / "solo-example-2-notes.wav");
    EXPECT_FALSE(writeExcerptSounds(study, recording, two, folder / "solo.pdf").ok());
    EXPECT_FALSE(std::filesystem::exists(folder / "solo-example-1.wav"));
    EXPECT_EQ(std::filesystem::file_size(folder / "solo-example-2-notes.wav"), size);
}

TEST_F(ExcerptSounds, AreOfThePhrasesOrOfTheWholeLine) {
    EXPECT_EQ(excerptSpans(study, {}), (std::vector<Range<Seconds>>{{Seconds(4), Seconds(4.5)}}));
    const auto added = addSpan(study, SpanKind::Phrase, "a", {Seconds(3), Seconds(6)});
    study = addSpan(added.study, SpanKind::Phrase, "b", {Seconds(7), Seconds(8)}).study;
    EXPECT_EQ(excerptSpans(study, {study.spansOf(SpanKind::Phrase).front().id}),
              (std::vector<Range<Seconds>>{{Seconds(3), Seconds(6)}}));
    EXPECT_TRUE(excerptSpans(Study{}, {}).empty());
}

TEST_F(ExcerptSounds, AreToldBeforeTheyAreWritten) {
    const ExcerptWish one{{{Seconds(4), Seconds(4.2)}}, 0.7, 0};
    EXPECT_EQ(excerptSoundFiles(one, folder / "solo.pdf"),
              *writeExcerptSounds(study, recording, one, folder / "solo.pdf"));
    const ExcerptWish two{{{Seconds(4), Seconds(4.2)}, {Seconds(5), Seconds(5.2)}}, 1, 0};
    EXPECT_EQ(excerptSoundFiles(two, folder / "solo.pdf"),
              *writeExcerptSounds(study, recording, two, folder / "solo.pdf"));
}

} // namespace
} // namespace earwright
