// Pages to be looked at, left in the folder EARWRIGHT_SHOTS.
#include "MusicFont.h"
#include "PageAsSvg.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

namespace earwright {
namespace {

void leavePicture(const Study& study, const EngravingOptions& options, const std::string& name) {
    const auto pages = engravePages(study, options, musicFont());
    ASSERT_TRUE(pages) << pages.error().message;
    EXPECT_FALSE(pages->front().shapes.glyphs.empty());
    if (const char* folder = std::getenv("EARWRIGHT_SHOTS"))
        std::ofstream(std::filesystem::path(folder) / (name + ".svg")) << pageAsSvg(pages->front());
}

TEST(EngravedPictures, ShowABluesChorus) {
    NEEDS_MUSIC_FONT;
    leavePicture(bluesChorus(), {}, "blues");
}

TEST(EngravedPictures, ShowPhrasingAndDegrees) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    options.degrees = true;
    leavePicture(phrasedChorus(), options, "phrased");
}

TEST(EngravedPictures, ShowALineForASaxophone) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    options.reading = Reading::EFlat;
    leavePicture(phrasedChorus(), options, "e-flat");
}

TEST(EngravedPictures, ShowChangesOfKeyAndMeter) {
    NEEDS_MUSIC_FONT;
    Study study = bluesChorus();
    study.page.keys = {{1, {-2, Mode::Major}}, {7, {2, Mode::Major}}};
    study.page.meters = {{6, {3, 4}}, {7, {6, 8}}, {9, {4, 4}}};
    leavePicture(study, {}, "changes");
}

TEST(EngravedPictures, ShowTablature) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    options.strings = 6;
    const Study study = phrasedChorus();
    options.places = anyPlaces(study);
    leavePicture(study, options, "tablature");
}

TEST(EngravedPictures, ShowTablatureAlone) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    options.staff = false;
    options.strings = 6;
    const Study study = phrasedChorus();
    options.places = anyPlaces(study);
    leavePicture(study, options, "tablature-alone");
}

TEST(EngravedPictures, ShowMarksOfTheNotesOnStaffAndStrings) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    const Study study = markedChorus();
    leavePicture(study, options, "marked");
    options.strings = 6;
    options.places = anyPlaces(study);
    leavePicture(study, options, "marked-tablature");
}

TEST(EngravedPictures, ShowChance) {
    NEEDS_MUSIC_FONT;
    EngravingOptions options;
    options.barsPerLine = 3;
    for (const unsigned seed : {1u, 2u})
        leavePicture(chanceStudy(seed, 12), options, "chance-" + std::to_string(seed));
}

} // namespace
} // namespace earwright
