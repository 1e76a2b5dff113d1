// Renders the whole panel in its states. With EARWRIGHT_SHOTS set to a folder the pictures are kept there.
#include "core/study/PhrasingEdits.h"
#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/LadderPanel.h"
#include "ui/grid/LooseEndList.h"
#include "ui/grid/NoteGrid.h"
#include "ui/grid/NoteGridPanel.h"
#include "ui/grid/PhrasingBar.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QDir>
#include <QPixmap>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class GridLooks : public testing::TestWithParam<Appearance> {
protected:
    void SetUp() override {
        applyTheme(*qApp, GetParam());
        panel = std::make_unique<NoteGridPanel>();
        panel->resize(500, 780);
    }
    void TearDown() override {
        panel.reset();
        applyTheme(*qApp, Appearance::Light);
    }

    QImage grab(const QString& name) {
        panel->show();
        qApp->processEvents();
        // Drawn at twice the size, as on a dense display.
        QImage image(panel->size() * 2, QImage::Format_RGB32);
        image.setDevicePixelRatio(2);
        image.fill(color(Role::Paper));
        panel->render(&image);
        const QString folder = qEnvironmentVariable("EARWRIGHT_SHOTS");
        const QString suffix =
            GetParam() == Appearance::Dark ? QStringLiteral("-dark.png") : QStringLiteral(".png");
        if (!folder.isEmpty()) image.save(QDir(folder).filePath(name + suffix));
        return image;
    }

    std::unique_ptr<NoteGridPanel> panel;
};

int pixelsOf(const QImage& image, const QColor& colour) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            count += image.pixelColor(x, y) == colour ? 1 : 0;
    return count;
}

PhraseCheck sampleCheck(const Study& study) {
    PhraseCheck check;
    check.phrase = SpanId{1};
    for (const Note& note : study.notes) {
        CheckedNote checked;
        checked.note = note.id;
        checked.midi = note.pitch.midi;
        checked.range = study.beatMap.seconds(note.range());
        checked.verdict = note.id.value == 104   ? Verdict::Unclear
                          : note.id.value == 108 ? Verdict::Contradicted
                                                 : Verdict::Supported;
        check.notes.push_back(checked);
    }
    check.unwritten.push_back({{Seconds(6.75), Seconds(7)}, 70, 0.9});
    return check;
}

} // namespace

TEST_P(GridLooks, WithoutBarsItSaysHowToGetThem) {
    Study study = emptySample();
    study.beatMap = {};
    panel->setStudy(shared(study));
    panel->showPhrase(SpanId{1});
    const QImage image = grab("grid-no-bars");
    EXPECT_EQ(panel->heading(), QString());
    EXPECT_EQ(pixelsOf(image, color(Role::Written)), 0);
}

TEST_P(GridLooks, AWrittenPhraseIsTeal) {
    panel->setStudy(shared(writtenSample()));
    panel->showPhrase(SpanId{1});
    panel->ladder()->showUnchecked();
    panel->grid()->setPlayhead(Seconds(4.1));
    EXPECT_GT(pixelsOf(grab("grid-written"), color(Role::Written)), 500);
    EXPECT_EQ(panel->heading().toStdString(), "phrase a, bars 2–3");
}

TEST_P(GridLooks, ASelectedNoteIsOfferedItsPhrasing) {
    panel->setStudy(shared(writtenSample()));
    panel->showPhrase(SpanId{1});
    panel->grid()->setFocus();
    panel->grid()->goToNote(NoteId{105});
    grab("grid-selected");
    EXPECT_TRUE(panel->grid()->findChild<PhrasingBar*>()->isVisible());
}

/// Pixels that are clearly another colour.
int differing(const QImage& one, const QImage& other) {
    int found = 0;
    for (int y = 0; y < one.height(); ++y)
        for (int x = 0; x < one.width(); ++x)
            found += std::abs(qGray(one.pixel(x, y)) - qGray(other.pixel(x, y))) > 40 ? 1 : 0;
    return found;
}

TEST_P(GridLooks, EveryMarkIsDrawn) {
    Study plain = emptySample();
    for (int i = 0; i < 3; ++i)
        plain.notes.push_back(sampleNote(static_cast<std::uint64_t>(i + 1), Beats(5 + i), Beats(1), 68 + i));
    const auto drawn = [this](const Study& study) {
        panel->setStudy(shared(study));
        panel->showPhrase(SpanId{1});
        panel->show();
        qApp->processEvents();
        return panel->grid()->viewport()->grab().toImage();
    };
    const QImage before = drawn(plain);
    EXPECT_EQ(differing(before, drawn(plain)), 0);
    // A dot of a staccato has some ten pixels.
    constexpr int least = 6;
    for (const PhrasingKind kind : allPhrasingKinds) {
        // Under a slur it makes a difference that a note is picked.
        Study ground = plain;
        if (kind == PhrasingKind::PickedInSlur) ground = stepMark(plain, {NoteId{2}}, PhrasingKind::Slur);
        const Study marked = stepMark(ground, {NoteId{2}}, kind);
        ASSERT_NE(marked, ground) << static_cast<int>(kind);
        EXPECT_GE(differing(drawn(ground), drawn(marked)), least) << static_cast<int>(kind);
    }
    std::vector<Study> withMarks(4, plain);
    withMarks[0].page.dynamics = {{Beats(5), Dynamic::ff}};
    withMarks[1].page.hairpins = {{{Beats(5), Beats(7)}, HairpinKind::Louder}};
    withMarks[2].page.texts = {{Beats(5), "laid back", false}};
    withMarks[3].page.texts = {{Beats(5), "laid back", true}};
    for (std::size_t i = 0; i < withMarks.size(); ++i)
        EXPECT_GE(differing(before, drawn(withMarks[i])), least) << "mark " << i;
}

TEST_P(GridLooks, MarksOfAllKindsStandTogether) {
    Study study = emptySample();
    for (std::int64_t beat = 8; beat < 12; ++beat)
        study.divisions[Beats(beat)] = BeatDivision::Five;
    for (int i = 0; i < 18; ++i) {
        const bool isLong = i < 4;
        const Beats onset = isLong ? Beats(4 + i) : Beats(8) + Beats(i - 4, 5);
        study.notes.push_back(sampleNote(static_cast<std::uint64_t>(i + 1), onset,
                                         isLong ? Beats(1) : Beats(1, 5), 68 + (i % 3 == 0 ? 3 : -i % 4)));
    }
    for (std::size_t i = 0; i < allPhrasingKinds.size(); ++i)
        study = stepMark(study, {study.notes[i].id}, allPhrasingKinds[(i + 4) % allPhrasingKinds.size()]);
    study = stepMark(study, {study.notes[0].id, study.notes[2].id}, PhrasingKind::Vibrato);
    study = stepMark(study, {study.notes[3].id}, PhrasingKind::Staccato);
    study.divisions[Beats(7)] = BeatDivision::Seven;
    study.page.dynamics = {{Beats(4), Dynamic::mp}, {Beats(8), Dynamic::ff}};
    study.page.hairpins = {{{Beats(4), Beats(8)}, HairpinKind::Louder},
                           {{Beats(9), Beats(11)}, HairpinKind::Softer}};
    study.page.texts = {{Beats(4), "laid back", false}, {Beats(9), "cue", true}};
    panel->setStudy(shared(study));
    panel->showPhrase(SpanId{1});
    panel->grid()->setFocus();
    panel->grid()->goToNote(study.notes[2].id);
    panel->grid()->extendSelection(1);
    EXPECT_GT(pixelsOf(grab("grid-marks"), color(Role::Written)), 500);
}

TEST_P(GridLooks, HelpIsBlueAndAppearsOnlyWhenAskedFor) {
    Study study = writtenSample();
    study.looseEnds.push_back({LooseEndId{5}, Seconds(4.5), "grace note?", false});
    study.looseEnds.push_back({LooseEndId{6}, Seconds(6.25), "which finger", true});
    study.looseEnds.push_back(
        {LooseEndId{7}, Seconds(8), "a bend or a slide, and how far does it go up before", false});
    panel->setStudy(shared(study));
    panel->showPhrase(SpanId{1});
    const PhraseCheck check = sampleCheck(study);
    panel->grid()->setCheck(&check);
    panel->ladder()->showCheck(check, 5);
    panel->grid()->goToNote(NoteId{108});
    const int before = pixelsOf(grab("grid-checked"), color(Role::Hint));

    Hint hint;
    hint.step = HelpStep::HowFar;
    hint.range = check.notes[7].range;
    hint.kind = PlaceKind::WrongPitch;
    hint.direction = -1;
    hint.semitones = -2;
    Hint other;
    other.step = HelpStep::SomethingOff;
    other.range = check.unwritten[0].range;
    panel->grid()->setHints({hint, other});
    panel->ladder()->showHint(hint, "Bar 3, beat 2¼: the record is 2 semitones lower");
    panel->grid()->setEvidence(ColumnEvidence{{Beats(37, 4), Beats(19, 2)},
                                              {{54, 0.3}, {66, 0.9}, {68, 0.1}, {73, 0.25}, {61, 0.15}}});
    EXPECT_GT(pixelsOf(grab("grid-help"), color(Role::Hint)), before);
}

TEST_P(GridLooks, ALongPhraseInANarrowPanelScrolls) {
    Study study = writtenSample();
    study.divisions[Beats(2)] = BeatDivision::Six;
    study.chart.form = parseBars("Bb7 | | Eb7 what | Fm7 Bb7", study.meter);
    panel->setStudy(shared(study));
    panel->showRange({Beats(0), Beats(16)});
    panel->resize(400, 640);
    panel->show();
    qApp->processEvents();
    panel->grid()->setFocus();
    panel->grid()->goTo(Beats(8, 3));
    panel->grid()->setPlayhead(Seconds(2.1));
    grab("grid-narrow");
    EXPECT_EQ(panel->heading().toStdString(), "bars 1–4");
    EXPECT_GT(panel->grid()->geometryOfCells().scrollRange().width(), 0);
}

INSTANTIATE_TEST_SUITE_P(Appearances, GridLooks, testing::Values(Appearance::Light, Appearance::Dark),
                         [](const auto& the) { return the.param == Appearance::Light ? "Light" : "Dark"; });
