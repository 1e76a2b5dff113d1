// Lines with one marked note, engraved, and what is found of it on the page.
#pragma once

#include "MusicFont.h"
#include "SampleLines.h"
#include "core/engraving/Engraving.h"

#include <cstddef>
#include <cstdint>
#include <gtest/gtest.h>
#include <string>
#include <vector>

namespace earwright {

/// Four quarters E4 G4 B4 D5 in one bar, the second of which is marked, with a tablature or without.
class MarkedNote : public testing::Test {
protected:
    void SetUp() override { NEEDS_MUSIC_FONT; }

    EngravedSystem laid(const Phrasing& phrasing, int strings = 0) {
        Study study = studyInFour();
        for (const int midi : {64, 67, 71, 74})
            study.notes.push_back(
                noteAt(study, Beats(static_cast<std::int64_t>(study.notes.size())), Beats(1), midi));
        study.notes[1].phrasing = phrasing;
        marked = study.notes[1].id;
        next = study.notes[2].id;
        EngravingOptions options;
        options.strings = strings;
        options.places = {{study.notes[0].id, {1, 5}},
                          {study.notes[1].id, {1, 8}},
                          {study.notes[2].id, {0, 7}},
                          {study.notes[3].id, {0, 10}}};
        auto systems = engraveSystems(study, wholeStudy(study), options, musicFont());
        EXPECT_TRUE(systems);
        return systems->front();
    }

    static std::vector<PlacedGlyph> all(const EngravedSystem& system, char32_t codePoint) {
        std::vector<PlacedGlyph> found;
        for (const PlacedGlyph& glyph : system.shapes.glyphs)
            if (static_cast<char32_t>(glyph.glyph) == codePoint) found.push_back(glyph);
        return found;
    }

    static std::vector<PlacedText> all(const EngravedSystem& system, const std::string& text) {
        std::vector<PlacedText> found;
        for (const PlacedText& one : system.shapes.texts)
            if (one.text == text) found.push_back(one);
        return found;
    }

    static PageBox boxOn(const EngravedSystem& system, NoteId note, std::size_t which = 0) {
        std::vector<PageBox> boxes;
        for (const NoteBox& box : system.notes)
            if (box.note == note) boxes.push_back(box.box);
        EXPECT_GT(boxes.size(), which);
        return boxes.at(which);
    }

    /// The one glyph, which must belong to the marked note.
    PlacedGlyph only(const EngravedSystem& system, char32_t codePoint) {
        const auto found = all(system, codePoint);
        EXPECT_EQ(found.size(), 1u);
        if (found.size() != 1) return {};
        EXPECT_EQ(found.front().note, marked);
        return found.front();
    }

    /// Over, under or at the marked head: its middle within the head's width.
    void expectCentred(const EngravedSystem& system, const PlacedGlyph& glyph) {
        const PageBox head = boxOn(system, marked);
        const PageBox box = musicFont().box(glyph.glyph);
        EXPECT_NEAR(glyph.at.x + (box.left + box.right) / 2, (head.left + head.right) / 2, 0.01);
    }

    NoteId marked;
    NoteId next;
};

} // namespace earwright
