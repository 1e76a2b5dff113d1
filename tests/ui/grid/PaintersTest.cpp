#include "core/study/PhrasingEdits.h"
#include "tests/ui/grid/SampleStudy.h"
#include "ui/grid/GroundPainter.h"
#include "ui/grid/HelpPainter.h"
#include "ui/grid/NotePainter.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QApplication>
#include <QImage>

#include <gtest/gtest.h>

using namespace earwright;
using namespace earwright::ui;

namespace {

class GridPainters : public testing::Test {
protected:
    void SetUp() override {
        applyTheme(*qApp, Appearance::Light);
        Study study = emptySample();
        study.notes = {sampleNote(1, Beats(4), Beats(2), 70), sampleNote(2, Beats(7), Beats(1), 65)};
        use(std::move(study));
    }
    void use(Study study) {
        scene.show(shared(std::move(study)));
        scene.columns = GridColumns(*scene.study, {Beats(4), Beats(12)});
        scene.chords = ChordRows(*scene.study, scene.columns.range());
        scene.cursor = {Beats(11), 50};
        geometry = GridGeometry(scene.columns, QSizeF(600, 700), QPointF(0, 250));
    }
    QImage drawn() const {
        QImage image(600, 700, QImage::Format_RGB32);
        image.fill(color(Role::Panel));
        QPainter painter(&image);
        const QRectF all(image.rect());
        paintGround(painter, scene, geometry, all);
        paintEvidence(painter, scene, geometry);
        paintCursor(painter, scene, geometry);
        paintNotes(painter, scene, geometry, all);
        paintHints(painter, scene, geometry);
        paintPlayhead(painter, scene, geometry);
        return image;
    }
    QColor at(const QImage& image, QPointF place) const { return image.pixelColor(place.toPoint()); }
    /// Nearer to teal than to its ground; thin lines are never of the full colour.
    bool isWritten(const QImage& image, QPointF place) const {
        const int middle = (color(Role::Written).lightness() + color(Role::Shade).lightness()) / 2;
        return at(image, place).lightness() < middle;
    }
    int count(const QImage& image, const QRectF& within, Role role) const {
        int found = 0;
        for (int y = qRound(within.top()); y < qRound(within.bottom()); ++y)
            for (int x = qRound(within.left()); x < qRound(within.right()); ++x)
                found += image.rect().contains(x, y) && image.pixelColor(x, y) == color(role) ? 1 : 0;
        return found;
    }
    bool isBracketedAt(const Beats& place) const {
        const QRectF beat = geometry.beatOnRuler(place);
        // Left of the number, where only a bracket can be.
        const QRectF beside(beat.left() + 4, beat.top(), beat.width() / 2 - 16, beat.height());
        const QRect pixels = beside.toRect();
        return count(drawn(), beside, Role::Panel) < pixels.width() * pixels.height() - 3;
    }
    /// Pixels that are clearly another colour.
    static int differing(const QImage& one, const QImage& other) {
        int found = 0;
        for (int y = 0; y < one.height(); ++y)
            for (int x = 0; x < one.width(); ++x)
                found += std::abs(qGray(one.pixel(x, y)) - qGray(other.pixel(x, y))) > 40 ? 1 : 0;
        return found;
    }
    const Note& note(std::uint64_t id) const { return *scene.study->note(NoteId{id}); }

    GridScene scene;
    GridGeometry geometry;
};

PhraseCheck checkOf(const Study& study, Verdict verdict) {
    PhraseCheck check;
    for (const Note& note : study.notes) {
        CheckedNote checked;
        checked.note = note.id;
        checked.midi = note.pitch.midi;
        checked.verdict = verdict;
        check.notes.push_back(checked);
    }
    return check;
}

} // namespace

// E♭7 over bar 2, B♭7 over bar 3: G is the third of the one and no tone of the other.
TEST_F(GridPainters, LayChordTonesOnThePageAndOthersInTheShade) {
    const QImage image = drawn();
    const double inBar2 = geometry.x(Beats(4)) + 40;
    const double inBar3 = geometry.x(Beats(8)) + 40;
    EXPECT_EQ(at(image, {inBar2, geometry.y(67)}), color(Role::Page));
    EXPECT_EQ(at(image, {inBar3, geometry.y(67)}), color(Role::Shade));
    EXPECT_EQ(at(image, {inBar3, geometry.y(62)}), color(Role::Page));
}

TEST_F(GridPainters, DrawBarLinesInInk) {
    EXPECT_GT(count(drawn(), QRectF(geometry.x(Beats(8)) - 2, 300, 4, 20), Role::Ink), 15);
}

// An arrow tells of C8 in the last of the beats of bar 2, where its number is.
TEST_F(GridPainters, WriteBarNumbersUnderTheArrowsThatTellOfNotesAbove) {
    const auto ground = [&] {
        QImage image(600, 700, QImage::Format_RGB32);
        QPainter painter(&image);
        paintGround(painter, scene, geometry, QRectF(image.rect()));
        return image;
    };
    const auto highestOfNumber = [&] {
        const QImage with = ground();
        const int right = qRound(geometry.x(Beats(8))) - 3;
        for (int y = qRound(geometry.cells().top()); y < with.height(); ++y)
            for (int x = right - 14; x < right; ++x)
                if (qGray(with.pixel(x, y)) < qGray(color(Role::Shade).rgb()) - 60) return y;
        return -1;
    };
    const double top = geometry.cells().top();
    ASSERT_GT(highestOfNumber(), top);
    EXPECT_LT(highestOfNumber(), top + GridGeometry::arrowReach + spacing::hair) << "an arrow would touch it";
    Study study = *scene.study;
    study.notes.push_back(sampleNote(3, Beats(31, 4), Beats(1, 4), 108));
    use(std::move(study));
    ASSERT_TRUE(geometry.isAbove(note(3)));
    EXPECT_GT(highestOfNumber(), top + GridGeometry::arrowReach + spacing::hair);
}

TEST_F(GridPainters, BracketTupletsOnTheRulerAndNothingElse) {
    for (const auto& [division, isBracketed] :
         {std::pair{BeatDivision::Five, true}, {BeatDivision::Eight, false}, {BeatDivision::Twelve, true}}) {
        Study study = *scene.study;
        study.divisions[Beats(9)] = division;
        use(std::move(study));
        EXPECT_EQ(isBracketedAt(Beats(9)), isBracketed) << static_cast<int>(division);
    }
}

// Three units counted as one: on the page three and six parts are plain values, two and four are dotted ones,
// five and nine are tuplets.
TEST_F(GridPainters, BracketNoPlainOrDottedValuesOfADottedBeat) {
    for (const auto& [division, isBracketed] : {std::pair{BeatDivision::Three, false},
                                                {BeatDivision::Six, false},
                                                {BeatDivision::Twelve, false},
                                                {BeatDivision::Two, false},
                                                {BeatDivision::Four, false},
                                                {BeatDivision::Five, true},
                                                {BeatDivision::Seven, true},
                                                {BeatDivision::Nine, true}}) {
        Study study = *scene.study;
        study.meter = {6, 8};
        study.notes.clear();
        study.divisions[Beats(9)] = division;
        use(std::move(study));
        EXPECT_EQ(isBracketedAt(Beats(9)), isBracketed) << static_cast<int>(division);
    }
}

// The playhead repaints strips: what reaches over a strip from notes far away has to be painted again in it.
TEST_F(GridPainters, DrawASlurAgainWhereItsNotesAreFarFromWhatIsRepainted) {
    Study study = emptySample();
    study.notes = {sampleNote(1, Beats(4), Beats(1), 70), sampleNote(2, Beats(11), Beats(1), 70)};
    study.notes[1].phrasing.slurred = true;
    use(study);
    const QImage whole = drawn();
    QImage strip = whole.copy();
    const QRectF part(geometry.x(Beats(8)) - 6, 0, 12, 700);
    QPainter painter(&strip);
    painter.setClipRect(part);
    painter.fillRect(part, color(Role::Panel));
    paintGround(painter, scene, geometry, part);
    paintNotes(painter, scene, geometry, part);
    painter.end();
    EXPECT_EQ(differing(whole, strip), 0);
    study.notes[1].phrasing.slurred = false;
    use(std::move(study));
    EXPECT_GT(differing(whole.copy(part.toRect()), drawn().copy(part.toRect())), 0) << "it crosses the strip";
}

TEST_F(GridPainters, DrawAHeadAndATailInTeal) {
    scene.check = checkOf(*scene.study, Verdict::Supported);
    const QImage image = drawn();
    EXPECT_EQ(at(image, geometry.head(note(1))), color(Role::Written));
    const double middle = (geometry.x(Beats(5)) + geometry.x(Beats(6))) / 2;
    int onTail = 0;
    for (int dy = -2; dy <= 2; ++dy)
        onTail += isWritten(image, {middle, geometry.y(70) + dy}) ? 1 : 0;
    EXPECT_GE(onTail, 1);
    EXPECT_LE(onTail, 2) << "a tail is thin";
}

TEST_F(GridPainters, GrowTheHeadWithLoudness) {
    Note quiet = note(1);
    quiet.loudness = 0.2;
    Note loud = note(1);
    loud.loudness = 1;
    EXPECT_LT(headRadius(quiet) * 1.3, headRadius(loud));
    EXPECT_LT(tailWidth(quiet) * 1.3, tailWidth(loud));
}

TEST_F(GridPainters, ShowVerdictsByShapeAndOnlyAfterACheck) {
    // F is no tone of E♭7, so it lies in the shade, and a hollow head shows that ground.
    const QImage unchecked = drawn();
    EXPECT_EQ(at(unchecked, geometry.head(note(2))), color(Role::Shade));
    scene.check = checkOf(*scene.study, Verdict::Unclear);
    EXPECT_EQ(at(drawn(), geometry.head(note(2))), color(Role::Shade));
    EXPECT_NE(drawn(), unchecked) << "dotted, where it is not checked the ring is whole";
    scene.check = checkOf(*scene.study, Verdict::Contradicted);
    const QImage struck = drawn();
    EXPECT_TRUE(isWritten(struck, geometry.head(note(2))));
    EXPECT_FALSE(isWritten(struck, geometry.head(note(2)) + QPointF(1.7, 1.7)));
    scene.check = checkOf(*scene.study, Verdict::Supported);
    EXPECT_EQ(at(drawn(), geometry.head(note(2))), color(Role::Written));
}

TEST_F(GridPainters, ForgetTheVerdictOfANoteThatChangedSince) {
    scene.check = checkOf(*scene.study, Verdict::Contradicted);
    scene.check->notes[1].midi = 64;
    const QImage open = drawn();
    EXPECT_FALSE(isWritten(open, geometry.head(note(2)))) << "no stroke through it";
    EXPECT_NE(at(open, geometry.head(note(2))), color(Role::Written))
        << "and not full, as supported ones are";
    // The same for one written since, and for notes of phrases that nobody had checked.
    scene.check = PhraseCheck{};
    scene.unjudged = {note(2).id};
    EXPECT_NE(at(drawn(), geometry.head(note(2))), color(Role::Written));
    scene.unjudged.clear();
    EXPECT_NE(at(drawn(), geometry.head(note(2))), color(Role::Written));
}

TEST_F(GridPainters, MarkAnOpenedPlaceOverItsColumnWithoutAPitch) {
    Hint hint;
    hint.step = HelpStep::SomethingOff;
    hint.range = scene.study->beatMap.seconds(Range{Beats(10), Beats(21, 2)});
    const QRectF lane = geometry.helpLane();
    EXPECT_EQ(count(drawn(), lane, Role::Hint), 0);
    scene.hints = {hint};
    const QImage image = drawn();
    const QRectF overColumn(geometry.x(Beats(10)), lane.top(), geometry.beatWidth() / 2, lane.height());
    EXPECT_GT(count(image, overColumn, Role::Hint), 0);
    EXPECT_EQ(count(image, geometry.cells(), Role::Hint), 0);
}

TEST_F(GridPainters, MarkOfTwoPlacesInAColumnTheOneThatIsOpenedFarthest) {
    Hint hint;
    hint.step = HelpStep::SomethingOff;
    hint.range = scene.study->beatMap.seconds(Range{Beats(10), Beats(21, 2)});
    Hint farther = hint;
    farther.step = HelpStep::HowFar;
    farther.direction = 1;
    farther.semitones = 4;
    scene.hints = {farther};
    const QImage alone = drawn();
    scene.hints = {hint, farther};
    EXPECT_EQ(drawn(), alone);
    scene.hints = {farther, hint};
    EXPECT_EQ(drawn(), alone);
    scene.hints = {hint};
    EXPECT_NE(drawn(), alone);
}

TEST_F(GridPainters, SayNoMoreThanTheStep) {
    Hint hint;
    EXPECT_EQ(hintMark(hint).toStdString(), "");
    hint.step = HelpStep::SomethingOff;
    EXPECT_EQ(hintMark(hint).toStdString(), "?");
    hint.step = HelpStep::WhichWay;
    hint.direction = -1;
    EXPECT_EQ(hintMark(hint).toStdString(), "↓");
    hint.step = HelpStep::HowFar;
    hint.semitones = -2;
    EXPECT_EQ(hintMark(hint).toStdString(), "↓ 2");
    hint.isUnsure = true;
    EXPECT_EQ(hintMark(hint).toStdString(), "↓ 2?");
    Hint moved;
    moved.step = HelpStep::HowFar;
    moved.moved = 1;
    EXPECT_EQ(hintMark(moved).toStdString(), "→");
}

TEST_F(GridPainters, LetEvidenceGrowInItsColumnAndJoinOctaves) {
    const auto blue = [&](double strength) {
        scene.evidence = ColumnEvidence{{Beats(10), Beats(21, 2)}, {{67, strength}}};
        const QImage image = drawn();
        const double centre = (geometry.x(Beats(10)) + geometry.x(Beats(21, 2))) / 2;
        int width = 0;
        for (int dx = -7; dx <= 7; ++dx) {
            const QColor here = at(image, {centre + dx, geometry.y(67)});
            width += here.blue() > here.red() + 20 ? 1 : 0;
        }
        return width;
    };
    EXPECT_LT(blue(0.15), blue(0.5));
    EXPECT_LT(blue(0.5), blue(1.0));
    // Beside the dots of two octaves that are open stand their shares, beside others nothing. Few pixels of
    // thin lettering have the full colour.
    const auto besideDot = [&](int midi) {
        const double centre = (geometry.x(Beats(10)) + geometry.x(Beats(21, 2))) / 2;
        const double half = GridGeometry::rowHeight / 2.0;
        return count(drawn(), QRectF(centre - 45, geometry.y(midi) - half, 34, 2 * half), Role::Hint);
    };
    scene.evidence = ColumnEvidence{{Beats(10), Beats(21, 2)}, {{58, 0.6}, {70, 0.7}, {67, 0.2}}};
    EXPECT_GT(besideDot(58), 0);
    EXPECT_GT(besideDot(70), 0);
    EXPECT_EQ(besideDot(67), 0);
    scene.evidence = ColumnEvidence{{Beats(10), Beats(21, 2)}, {{58, 0.1}, {70, 0.9}}};
    EXPECT_EQ(besideDot(70), 0);
}

TEST_F(GridPainters, WriteTheShareOfAnOctaveWhereNoNoteStands) {
    const double centre = (geometry.x(Beats(10)) + geometry.x(Beats(21, 2))) / 2;
    const auto share = [&](double left) {
        const double half = GridGeometry::rowHeight / 2.0;
        return count(drawn(), QRectF(centre + left, geometry.y(70) - half, 30, 2 * half), Role::Hint);
    };
    scene.evidence = ColumnEvidence{{Beats(10), Beats(21, 2)}, {{58, 0.6}, {70, 0.7}}};
    const int before = share(-41);
    const int behind = share(20);
    EXPECT_GT(before, 0);
    // The degree over this head stands in the row above it.
    Study study = *scene.study;
    study.notes.push_back(sampleNote(3, Beats(19, 2), Beats(1, 2), 69));
    use(std::move(study));
    EXPECT_EQ(share(-41), 0);
    EXPECT_GT(share(20), behind);
}

TEST_F(GridPainters, WriteTheShareOfAnOctaveBehindItsDotInTheFirstColumn) {
    use(emptySample());
    const Range<Beats> first{Beats(4), Beats(9, 2)};
    scene.evidence = ColumnEvidence{first, {{58, 0.6}, {70, 0.7}}};
    const double centre = (geometry.x(first.begin) + geometry.x(first.end)) / 2;
    const double half = GridGeometry::rowHeight / 2.0;
    const auto behind = [&] {
        return count(drawn(), QRectF(centre + 20, geometry.y(70) - half, 30, 2 * half), Role::Hint);
    };
    const int shown = behind();
    scene.evidence->rivals.clear();
    EXPECT_GT(shown, behind());
}

TEST_F(GridPainters, DrawThePlayheadWhereTheEarIs) {
    scene.playhead = 10.5;
    const QImage image = drawn();
    EXPECT_GT(count(image, QRectF(geometry.x(10.5) - 2, 400, 4, 50), Role::Ink), 40);
}

// Any two pictures of a plain note with one mark differ by more than the softened edges of a stroke.
TEST_F(GridPainters, GiveEveryMarkASignOfItsOwn) {
    for (const Appearance appearance : {Appearance::Light, Appearance::Dark}) {
        applyTheme(*qApp, appearance);
        for (const Beats& length : {Beats(1), Beats(1, 4)}) {
            std::vector<QImage> pictures;
            for (std::size_t i = 0; i <= allPhrasingKinds.size(); ++i) {
                Study study = emptySample();
                study.divisions[Beats(7)] = BeatDivision::Six;
                study.notes = {sampleNote(1, Beats(5), Beats(1), 72), sampleNote(2, Beats(7), length, 67),
                               sampleNote(3, Beats(9), Beats(1), 64)};
                if (i > 0) study = stepMark(study, {NoteId{2}}, allPhrasingKinds[i - 1]);
                use(std::move(study));
                pictures.push_back(
                    drawn().copy(geometry.outline(note(2)).adjusted(-80, -60, 120, 60).toRect()));
            }
            for (std::size_t i = 0; i < pictures.size(); ++i)
                for (std::size_t k = 0; k < i; ++k)
                    EXPECT_GT(differing(pictures[i], pictures[k]), 7)
                        << "kinds " << i << " and " << k << ", " << length.toDouble() << " beats";
        }
    }
    applyTheme(*qApp, Appearance::Light);
}
