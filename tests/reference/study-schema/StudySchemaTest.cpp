// The study format as resources/study.schema.json documents it, judged by python3-jsonschema (draft 2020-12),
// against what StudyFile writes, reads and refuses.
#include "core/study/StudyFile.h"
#include "tests/core/study/SampleStudy.h"
#include "tests/core/study/TemporaryFolder.h"

#include <array>
#include <cstdio>
#include <gtest/gtest.h>
#include <map>
#include <string>
#include <vector>

namespace earwright {
namespace {

namespace fs = std::filesystem;

/// What the validator says of each file, by name.
std::map<std::string, bool> validity(const std::vector<fs::path>& files) {
    std::string command = std::string(EARWRIGHT_PYTHON) + " " + EARWRIGHT_VALIDATE + " " + EARWRIGHT_SCHEMA;
    for (const fs::path& file : files)
        command += " '" + file.string() + "'";
    std::FILE* output = ::popen(command.c_str(), "r");
    std::map<std::string, bool> answers;
    std::array<char, 4096> line{};
    while (output && std::fgets(line.data(), line.size(), output)) {
        const std::string text(line.data());
        const std::size_t tab = text.find('\t');
        if (tab == std::string::npos) continue;
        const fs::path file(text.substr(tab + 1, text.find('\n') - tab - 1));
        answers[file.filename().string()] = text.substr(0, tab) == "valid";
    }
    EXPECT_TRUE(output && ::pclose(output) == 0) << "python3 with jsonschema is needed: " << command;
    return answers;
}

struct Change {
    std::string piece;
    std::string instead;
};

std::string changed(const Change& change) {
    std::string text = StudyFile::text(fullStudy());
    const std::size_t at = text.find(change.piece);
    EXPECT_NE(at, std::string::npos) << change.piece;
    return at == std::string::npos ? text : text.replace(at, change.piece.size(), change.instead);
}

/// Writes each changed study, and returns what the validator says of them, in order.
std::vector<bool> validityOf(const std::vector<Change>& changes) {
    const TemporaryFolder folder;
    std::vector<fs::path> files;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        files.push_back(folder / (std::to_string(i) + ".study"));
        fill(files.back(), changed(changes[i]));
    }
    const auto answers = validity(files);
    std::vector<bool> inOrder;
    for (const fs::path& file : files) {
        const auto answer = answers.find(file.filename().string());
        EXPECT_NE(answer, answers.end()) << file;
        inOrder.push_back(answer != answers.end() && answer->second);
    }
    return inOrder;
}

TEST(StudySchema, WhatIsWrittenIsValid) {
    const TemporaryFolder folder;
    ASSERT_TRUE(StudyFile::write(Study{}, folder / "empty.study").ok());
    ASSERT_TRUE(StudyFile::write(eightBarsAt120(), folder / "marked.study").ok());
    ASSERT_TRUE(StudyFile::write(fullStudy(), folder / "full.study").ok());
    const auto answers = validity({folder / "empty.study", folder / "marked.study", folder / "full.study"});
    EXPECT_EQ(answers, (std::map<std::string, bool>{
                           {"empty.study", true}, {"marked.study", true}, {"full.study", true}}));
}

TEST(StudySchema, TheDemoStudyIsValidAndReadable) {
    const fs::path demo(EARWRIGHT_DEMO_STUDY);
    EXPECT_TRUE(validity({demo})[demo.filename().string()]);
    const Result<Study> study = StudyFile::read(demo);
    ASSERT_TRUE(study.ok()) << describe(study.error());
    EXPECT_FALSE(study->notes.empty());
}

TEST(StudySchema, AStudyOfVersionOneIsValidWithoutTakes) {
    const TemporaryFolder folder;
    std::string text = StudyFile::text(eightBarsAt120());
    text.replace(text.find("\"version\": 3"), 12, "\"version\": 1");
    const std::size_t page = text.find("  \"page\": ");
    text.erase(page, text.find('\n', page) + 1 - page);
    fill(folder / "with.study", text);
    const std::string takes = "  \"takes\": [],\n";
    text.replace(text.find(takes), takes.size(), "");
    fill(folder / "without.study", text);
    EXPECT_EQ(validity({folder / "with.study", folder / "without.study"}),
              (std::map<std::string, bool>{{"with.study", false}, {"without.study", true}}));
    EXPECT_TRUE(StudyFile::read(folder / "without.study").ok());
    EXPECT_FALSE(StudyFile::read(folder / "with.study").ok());
}

TEST(StudySchema, WhatTheSchemaForbidsIsRefused) {
    const std::vector<Change> changes{
        {R"("format": "earwright-study")", R"("format": "something-else")"},
        {R"("version": 3)", R"("version": 4)"},
        {R"("version": 3)", R"("version": 1)"},
        {R"("version": 3)", R"("version": "2")"},
        {R"("takes": [)", R"("takings": [)"},
        {R"("file":"2031-05-04 18.22.07.wav")", R"("file":"a/b.wav")"},
        {R"("file":"2031-05-04 18.22.07.wav")", R"("file":"..")"},
        {R"("file":"2031-05-04 18.22.07.wav")", R"("file":"")"},
        {R"("begin":4410)", R"("begin":-1)"},
        {R"("speed":0.45)", R"("speed":5)"},
        {R"("semitones":-2.65)", R"("semitones":-14)"},
        {R"("recorded":"2031-05-04T18:22:07Z")", R"("recorded":"2031-05-04")"},
        {R"("chosen":true)", R"("chosen":"yes")"},
        {R"("title")", R"("heading")"},
        {R"("title": ")", R"("title": 7, "x": ")"},
        {R"("path":"line.flac")", R"("path":"line\u0000.flac")"},
        {R"("path":"line.flac",)", ""},
        {R"("contentHash":"0)", R"("contentHash":"G)"},
        {R"("rate":44100)", R"("rate":0)"},
        {R"("length":882000)", R"("length":-1)"},
        {R"("length":882000)", R"("length":1e17)"},
        {R"("beatsPerBar":4)", R"("beatsPerBar":33)"},
        {R"("beatsPerBar":4)", R"("beatsPerBar":3.5)"},
        {R"("beatUnit":4)", R"("beatUnit":6)"},
        {R"("position":8)", R"("position":8.5)"},
        {R"("position":8)", R"("position":"8")"},
        {R"("position":32)", R"("position":1000001)"},
        {R"("time":4.0)", R"("time":"4")"},
        {R"("time":16.0)", R"("time":1e7)"},
        {R"("at":3)", R"("at":"3/0")"},
        {R"("at":3)", R"("at":"+3")"},
        {R"("at":3)", R"("at":3.5)"},
        {R"("symbol":"Eb7")", R"("symbol":"")"},
        {R"("symbol":"Eb7")", R"("symbol":"%")"},
        {R"("symbol":"Eb7")", R"("symbol":"Eb7|")"},
        {R"("symbol":"Eb7")", R"("symbol":"Eb7\t")"},
        {R"("bar":6)", R"("bar":"6")"},
        {R"("kind":"phrase")", R"("kind":"verse")"},
        {R"("begin":-0.25)", R"("begin":null)"},
        {R"("onset":"7/2")", R"("onset":"7/2000")"},
        {R"("onset":"7/2")", R"("onset":"7 / 2")"},
        {R"("onset":"7/2")", R"("onset":7.5)"},
        {R"("length":5)", R"("length":0)"},
        {R"("length":5)", R"("length":"0/5")"},
        {R"("length":5)", R"("length":"-5/2")"},
        {R"("midi":60)", R"("midi":97)"},
        {R"("midi":60)", R"("midi":27)"},
        {R"("spelling":"Eb")", R"("spelling":"Ebbb")"},
        {R"("spelling":"Eb")", R"("spelling":"eb")"},
        {R"("loudness":0.6)", R"("loudness":-0.1)"},
        {R"("slideOut":"down")", R"("slideOut":"below")"},
        {R"("graceNotes":[62,61])", R"("graceNotes":[62,"61"])"},
        {R"("graceNotes":[62,61])", R"("graceNotes":62)"},
        {R"("trill":2)", R"("trill":0)"},
        {R"("slurred":true)", R"("slurred":"yes")"},
        {R"("ghosted":true)", R"("ghosted":true,"bent":true)"},
        {R"("version": 3)", R"("version": 2)"},
        {R"("parts":6)", R"("parts":13)"},
        {R"("slurBy":"pullOff",)", R"("slurBy":"picked",)"},
        {R"("slurred":true,"slidesToNext":true)", R"("slidesToNext":true)"},
        {R"("pickedInSlur":true)", R"("pickedInSlur":true,"slurred":true)"},
        {R"("quarterTones":3)", R"("quarterTones":9)"},
        {R"("shape":"prebentDown")", R"("shape":"down")"},
        {R"("fifths":3)", R"("fifths":8)"},
        {R"({"bar":3,"beatsPerBar":6)", R"({"bar":1,"beatsPerBar":6)"},
        {R"("ratio":1.25)", R"("ratio":0.5)"},
        {R"("noteValue":16)", R"("noteValue":12)"},
        {R"("quartersPerMinute":132.5)", R"("quartersPerMinute":0)"},
        {R"("level":"sfz")", R"("level":"loud")"},
        {R"("text":"cue")", R"("text":"")"},
        {R"("times":3)", R"("times":1)"},
        {R"("keys":[)", R"("clefs":[],"keys":[)"},
        {R"("done":true)", R"("done":1)"},
        {R"("help":"howFar")", R"("help":3)"},
        {R"("settled":true,)", ""},
        {R"("speed":0.55)", R"("speed":2.5)"},
        {R"("speed":0.55)", R"("speed":NaN)"},
        {R"("semitones":-3)", R"("semitones":-13)"},
        {R"("cents":35)", R"("cents":35.5)"},
        {R"("loop":{"begin":1.25,)", R"("loop":{)"},
        {R"("nextId": )", R"("nextId": -)"},
        {R"("id":1)", R"("id":0)"},
        {R"("notes": [)", R"("notes": [[],)"},
    };
    const std::vector<bool> valid = validityOf(changes);
    for (std::size_t i = 0; i < changes.size(); ++i) {
        EXPECT_FALSE(valid[i]) << "the schema allows " << changes[i].instead;
        EXPECT_FALSE(StudyFile::parse(changed(changes[i]), "").ok())
            << "StudyFile reads " << changes[i].instead;
    }
}

TEST(StudySchema, WhatTheSchemaAllowsInOtherWordsIsReadToo) {
    const std::vector<Change> changes{
        {R"("midi":60)", R"("midi":60.0)"},
        {R"("midi":60)", R"("midi":6e1)"},
        {R"("version": 3)", R"("version": 3.0)"},
        {R"("chosen":true)", R"("chosen":false)"},
        {R"("onset":"7/2")", R"("onset":"14/4")"},
        {R"("length":5)", R"("length":"0015/3")"},
        {R"("ghosted":true)", R"("ghosted":false)"},
        {R"("time":4.0)", R"("time":4)"},
        {R"("spelling":"Eb")", R"("spelling":"D#")"},
        {R"("loop":{"begin":1.25,"end":3.1},)", ""},
        {R"("contentHash":"0123456789abcdef0123456789abcdef")", R"("contentHash":"")"},
    };
    const std::vector<bool> valid = validityOf(changes);
    for (std::size_t i = 0; i < changes.size(); ++i) {
        EXPECT_TRUE(valid[i]) << "the schema forbids " << changes[i].instead;
        const Result<Study> study = StudyFile::parse(changed(changes[i]), "");
        EXPECT_TRUE(study.ok()) << changes[i].instead << ": " << (study ? "" : describe(study.error()));
    }
}

} // namespace
} // namespace earwright
