#include "ui/page/PageView.h"

#include "tests/ui/Picture.h"
#include "tests/ui/Soon.h"
#include "tests/ui/page/WrittenStudy.h"

#include <QPaintEvent>
#include <QPicture>
#include <QScrollBar>
#include <QTest>
#include <QVBoxLayout>

#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

class PageViewTest : public testing::Test {
protected:
    void SetUp() override {
        if (!view.trouble().isEmpty()) GTEST_SKIP() << view.trouble().toStdString();
        QObject::connect(&view, &PageView::noteChosen, &view, [this](NoteId note) { chosen = note; });
        view.resize(440, 200);
        show(writtenStudy());
        view.setBars(Range<Beats>{Beats(0), Beats(8)});
        view.show();
    }
    void show(Study study) { view.setStudy(std::make_shared<const Study>(std::move(study))); }

    PageView view;
    std::optional<NoteId> chosen;
};

TEST_F(PageViewTest, ShowsEveryNoteOfTheBarsAtAPlaceOfItsOwn) {
    keepPicture(view, QStringLiteral("page-view.png"));
    QRect before;
    for (std::uint64_t id = 1; id <= 4; ++id) {
        const QRect place = view.placeOf(NoteId{id});
        EXPECT_FALSE(place.isEmpty()) << id;
        EXPECT_GT(place.center().x(), before.center().x()) << id;
        before = place;
    }
}

TEST_F(PageViewTest, ChoosesTheNoteThatIsPressedAndNoneBesideThem) {
    QTest::mouseClick(view.canvas(), Qt::LeftButton, {}, view.placeOf(NoteId{3}).center());
    EXPECT_EQ(chosen, NoteId{3});
    chosen.reset();
    QTest::mouseClick(view.canvas(), Qt::LeftButton, {}, QPoint(1, 1));
    EXPECT_EQ(chosen, std::nullopt);
}

TEST_F(PageViewTest, BreaksLinesAfterAsManyBarsAsAreWanted) {
    view.resize(900, 400);
    const auto isOnOneLine = [&] { return view.placeOf(NoteId{8}).top() < view.placeOf(NoteId{1}).bottom(); };
    EXPECT_TRUE(isOnOneLine()) << "two bars, of which four may be";
    PageWish wish = view.wish();
    wish.barsPerLine = 1;
    view.setWish(wish);
    EXPECT_FALSE(isOnOneLine());
    wish.barsPerLine.reset();
    view.setWish(wish);
    EXPECT_TRUE(isOnOneLine());
    view.resize(200, 400);
    EXPECT_FALSE(isOnOneLine()) << "no more than fit";
}

TEST_F(PageViewTest, FollowsAnEdit) {
    const QRect before = view.placeOf(NoteId{2});
    Study higher = writtenStudy();
    higher.notes[1].pitch.midi = 82;
    show(higher);
    EXPECT_LT(view.placeOf(NoteId{2}).center().y() - view.placeOf(NoteId{1}).center().y(),
              before.center().y() - view.placeOf(NoteId{1}).center().y());
}

TEST_F(PageViewTest, MarksTheSelectedNotes) {
    QImage plain(view.canvas()->size(), QImage::Format_RGB32);
    view.canvas()->render(&plain);
    view.setSelected({NoteId{2}, NoteId{3}}, NoteId{2});
    QImage marked(view.canvas()->size(), QImage::Format_RGB32);
    view.canvas()->render(&marked);
    const QRect place = view.placeOf(NoteId{2});
    EXPECT_NE(plain.copy(place), marked.copy(place));
    const QRect also = view.placeOf(NoteId{3});
    EXPECT_NE(plain.copy(also), marked.copy(also));
    const QRect other = view.placeOf(NoteId{4});
    EXPECT_EQ(plain.copy(other), marked.copy(other));
}

/// What a widget was asked to paint.
class PaintLog : public QObject {
public:
    QRegion painted;

protected:
    bool eventFilter(QObject* widget, QEvent* event) override {
        if (event->type() == QEvent::Paint) painted += static_cast<QPaintEvent*>(event)->region();
        return QObject::eventFilter(widget, event);
    }
};

// A wave over a long note, a slide to the next one and a bend reach far beyond the head.
TEST_F(PageViewTest, PaintsAllThatIsColouredWithASelectedNote) {
    Study study = writtenStudy();
    study.notes.resize(2);
    study.notes[0].length = Beats(4);
    study.notes[1].onset = Beats(4);
    study.notes[1].length = Beats(4);
    study.notes[0].phrasing.vibrato = true;
    study.notes[0].phrasing.slidesToNext = true;
    study.notes[0].phrasing.bend = Bend{4, BendShape::UpAndDown};
    show(study);
    view.resize(900, 300);
    QTest::qWait(0);
    QWidget& canvas = *view.canvas();
    const auto picture = [&] {
        QImage image(canvas.size(), QImage::Format_RGB32);
        canvas.render(&image);
        return image;
    };
    const QImage plain = picture();
    PaintLog log;
    canvas.installEventFilter(&log);
    view.setSelected({NoteId{1}}, NoteId{1});
    ASSERT_TRUE(soon([&] { return !log.painted.isEmpty(); }));
    canvas.removeEventFilter(&log);
    const QImage marked = picture();
    int missed = 0, changed = 0;
    for (int y = 0; y < plain.height(); ++y)
        for (int x = 0; x < plain.width(); ++x) {
            if (plain.pixel(x, y) == marked.pixel(x, y)) continue;
            ++changed;
            missed += log.painted.contains(QPoint(x, y)) ? 0 : 1;
        }
    EXPECT_GT(changed, 100);
    EXPECT_EQ(missed, 0);
}

TEST_F(PageViewTest, BringsTheLineOfTheSelectedNoteIntoSightAndBeginsNewBarsAtTheirTop) {
    Study longer = writtenStudy();
    for (int i = 8; i < 48; ++i)
        longer.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i + 1)}, Beats(i), Beats(1), Pitch{67 + i % 5, {}}, 0.6, {}});
    show(longer);
    view.setBars(Range<Beats>{Beats(0), Beats(48)});
    view.resize(440, 180);
    QTest::qWait(0);
    const NoteId last{48};
    const auto top = [&] { return view.verticalScrollBar()->value(); };
    ASSERT_GT(view.placeOf(last).bottom(), top() + view.viewport()->height());
    view.setSelected({last}, last);
    EXPECT_GE(view.placeOf(last).top(), top());
    EXPECT_LE(view.placeOf(last).bottom(), top() + view.viewport()->height());
    view.showPlace(Beats(0));
    EXPECT_LT(top(), view.placeOf(NoteId{1}).top());
    view.showPlace(Beats(95, 2));
    EXPECT_LE(view.placeOf(last).bottom(), top() + view.viewport()->height());
    view.setBars(Range<Beats>{Beats(4), Beats(48)});
    EXPECT_EQ(top(), 0);
}

TEST_F(PageViewTest, BringsTheLineOfANoteJustWrittenIntoSightOnceItIsLaidOut) {
    Study longer = writtenStudy();
    for (int i = 8; i < 44; ++i)
        longer.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i + 1)}, Beats(i), Beats(1), Pitch{67 + i % 5, {}}, 0.6, {}});
    show(longer);
    view.setBars(Range<Beats>{Beats(0), Beats(48)});
    view.resize(440, 180);
    QTest::qWait(0);
    std::function<void(PageView::Laid)> ready;
    std::optional<PageOrder> order;
    view.setLayer([&](PageOrder wanted, std::function<void(PageView::Laid)> done) {
        order = std::move(wanted);
        ready = std::move(done);
    });
    const NoteId written{60};
    longer.notes.push_back({written, Beats(46), Beats(1), Pitch{70, {}}, 0.6, {}});
    show(longer);
    view.setSelected({written}, written);
    ASSERT_TRUE(order);
    ASSERT_TRUE(view.placeOf(written).isEmpty());
    ready(laidOut(*order));
    const auto top = [&] { return view.verticalScrollBar()->value(); };
    EXPECT_TRUE(soon([&] { return top() > 0; }));
    EXPECT_GE(view.placeOf(written).top(), top());
    EXPECT_LE(view.placeOf(written).bottom(), top() + view.viewport()->height());
    // Who scrolls on by hand is left alone by what is laid out later.
    view.verticalScrollBar()->setValue(0);
    longer.notes.back().length = Beats(2);
    show(longer);
    ready(laidOut(*order));
    QTest::qWait(20);
    EXPECT_EQ(top(), 0);
}

/// A page of twelve bars that is laid out when the test says so.
class OrderedPage : public PageViewTest {
protected:
    void SetUp() override {
        PageViewTest::SetUp();
        if (IsSkipped()) return;
        for (int i = 8; i < 96; ++i)
            line.notes.push_back({NoteId{static_cast<std::uint64_t>(i + 1)},
                                  Beats(i),
                                  Beats(1),
                                  Pitch{67 + i % 5, {}},
                                  0.6,
                                  {}});
        show(line);
        view.setBars(Range<Beats>{Beats(0), Beats(48)});
        view.resize(440, 180);
        QTest::qWait(0);
        view.setLayer([this](PageOrder wanted, std::function<void(PageView::Laid)> done) {
            order = std::move(wanted);
            ready = std::move(done);
        });
    }
    int top() const { return view.verticalScrollBar()->value(); }
    bool isInSight(NoteId note) const {
        const QRect place = view.placeOf(note);
        return !place.isEmpty() && place.top() >= top() &&
               place.bottom() <= top() + view.viewport()->height();
    }

    Study line = writtenStudy();
    std::function<void(PageView::Laid)> ready;
    std::optional<PageOrder> order;
};

TEST_F(OrderedPage, BringsAPlaceIntoSightThatIsOnTheNextPage) {
    view.setBars(Range<Beats>{Beats(48), Beats(96)});
    view.showPlace(Beats(95));
    ASSERT_TRUE(order);
    ready(laidOut(*order));
    EXPECT_TRUE(soon([&] { return isInSight(NoteId{96}); }));
    // And no more once that is done.
    view.verticalScrollBar()->setValue(0);
    line.notes.back().pitch.midi = 60;
    show(line);
    ready(laidOut(*order));
    QTest::qWait(20);
    EXPECT_EQ(top(), 0);
}

TEST_F(OrderedPage, BringsANoteIntoSightAgainWhereThePageThatComesHasItElsewhere) {
    const NoteId inTheMiddle{24};
    PageWish wish = view.wish();
    wish.barsPerLine = 1;
    view.setWish(wish);
    view.setSelected({inTheMiddle}, inTheMiddle);
    ASSERT_TRUE(isInSight(inTheMiddle)) << "on the page that is there";
    ASSERT_TRUE(order);
    ready(laidOut(*order));
    EXPECT_TRUE(soon([&] { return isInSight(inTheMiddle); }));
}

TEST_F(PageViewTest, DrawsThePlaceThatIsHeardOnItsLineAndNowhereElse) {
    const auto picture = [&] {
        QImage image(view.canvas()->size(), QImage::Format_RGB32);
        view.canvas()->render(&image);
        return image;
    };
    const QImage plain = picture();
    view.setPlayhead(Beats(2));
    const QImage playing = picture();
    EXPECT_NE(plain, playing);
    const QRect third = view.placeOf(NoteId{3});
    EXPECT_NE(plain.copy(third), playing.copy(third));
    const QRect last = view.placeOf(NoteId{8});
    EXPECT_EQ(plain.copy(last), playing.copy(last));
    const QRect above(0, 0, plain.width(), view.placeOf(NoteId{1}).top() / 4);
    ASSERT_GT(above.height(), 4);
    EXPECT_EQ(plain.copy(above), playing.copy(above)) << "chords and words are not struck through";
    view.setPlayhead(Beats(40));
    EXPECT_EQ(picture(), plain);
}

TEST_F(PageViewTest, IsLargerWhereItIsWantedSo) {
    const QRect before = view.placeOf(NoteId{2});
    PageWish wish;
    wish.zoom = 2;
    view.setWish(wish);
    EXPECT_NEAR(view.placeOf(NoteId{2}).height(), 2 * before.height(), 2);
}

TEST_F(PageViewTest, ShowsWhatIsLaidOutBesideItWhenThatIsReady) {
    std::function<void(PageView::Laid)> ready;
    std::optional<PageOrder> order;
    view.setLayer([&](PageOrder wanted, std::function<void(PageView::Laid)> done) {
        order = std::move(wanted);
        ready = std::move(done);
    });
    const QRect before = view.placeOf(NoteId{1});
    PageWish wish;
    wish.tablature = false;
    view.setWish(wish);
    ASSERT_TRUE(order);
    EXPECT_EQ(view.placeOf(NoteId{1}), before);
    ready(laidOut(*order));
    EXPECT_FALSE(view.placeOf(NoteId{1}).isEmpty());
}

TEST_F(PageViewTest, DropsWhatWasLaidOutForAPageThatIsNoLongerWanted) {
    std::vector<std::function<void(PageView::Laid)>> ready;
    std::vector<PageOrder> orders;
    view.setLayer([&](PageOrder wanted, std::function<void(PageView::Laid)> done) {
        orders.push_back(std::move(wanted));
        ready.push_back(std::move(done));
    });
    PageWish large;
    large.zoom = 2;
    view.setWish(large);
    const QRect small = view.placeOf(NoteId{1});
    PageWish plain;
    plain.tablature = false;
    view.setWish(plain);
    ASSERT_EQ(orders.size(), 2u);
    // The later one is there first; the other one comes too late.
    ready[1](laidOut(orders[1]));
    const QRect place = view.placeOf(NoteId{1});
    EXPECT_EQ(place.size(), small.size());
    ready[0](laidOut(orders[0]));
    EXPECT_EQ(view.placeOf(NoteId{1}), place);
    // Put away while it is being laid out: it stays away.
    view.setWish({});
    view.setWanted(false);
    ready.back()(laidOut(orders.back()));
    EXPECT_TRUE(view.isHidden());
}

TEST_F(PageViewTest, IsNotLaidOutBeforeItsPanelIsInSight) {
    QWidget panel;
    auto* inside = new PageView(&panel);
    int orders = 0;
    inside->setLayer([&](const PageOrder&, const auto&) { ++orders; });
    inside->setStudy(std::make_shared<const Study>(writtenStudy()));
    inside->setBars(Range<Beats>{Beats(0), Beats(8)});
    EXPECT_EQ(orders, 0);
    panel.show();
    EXPECT_GT(orders, 0);
    inside->setWanted(false);
    const int before = orders;
    inside->setBars(Range<Beats>{Beats(0), Beats(4)});
    EXPECT_EQ(orders, before);
}

TEST_F(PageViewTest, ShowsAsManyWholeLinesAsItsPanelHasRoomFor) {
    QWidget panel;
    auto* column = new QVBoxLayout(&panel);
    auto* grid = new QWidget;
    column->addWidget(grid, 1);
    auto* page = new PageView;
    column->addWidget(page);
    Study longer = writtenStudy();
    for (int i = 8; i < 40; ++i)
        longer.notes.push_back(
            {NoteId{static_cast<std::uint64_t>(i + 1)}, Beats(i), Beats(1), Pitch{67 + i % 5, {}}, 0.6, {}});
    page->setStudy(std::make_shared<const Study>(std::move(longer)));
    page->setBars(Range<Beats>{Beats(0), Beats(40)});
    panel.resize(440, 1600);
    panel.show();
    const auto showsAll = [&] { return page->height() == page->canvas()->height(); };
    const auto leavesRoom = [&] { return !showsAll() && grid->height() >= 180; };
    EXPECT_TRUE(soon(showsAll)) << "all of it";
    EXPECT_EQ(page->verticalScrollBar()->maximum(), 0);
    // What else comes into the panel needs room as well.
    auto* words = new QWidget;
    words->setMinimumHeight(1200);
    column->addWidget(words);
    EXPECT_TRUE(soon(leavesRoom));
    delete words;
    EXPECT_TRUE(soon(showsAll));
    panel.resize(440, 500);
    EXPECT_TRUE(soon(leavesRoom));
    // The last note that is in sight at all is so with its whole line: nothing is cut.
    int cut = 0;
    for (std::uint64_t id = 1; id <= 40; ++id) {
        const QRect place = page->placeOf(NoteId{id});
        cut += place.top() < page->height() && place.bottom() > page->height();
    }
    EXPECT_EQ(cut, 0);
}

TEST_F(PageViewTest, PaintsOnlyWhatIsExposedAndThatAsEver) {
    QImage whole(view.canvas()->size(), QImage::Format_RGB32);
    view.canvas()->render(&whole);
    const QRect part(view.placeOf(NoteId{3}).left() - 5, 0, 14, view.canvas()->height());
    QImage image(part.size(), QImage::Format_RGB32);
    view.canvas()->render(&image, {}, part);
    EXPECT_EQ(image, whole.copy(part));
    // What the painter is told grows with what is exposed.
    const auto told = [&](const QRegion& exposed) {
        QPicture strokes;
        view.canvas()->render(&strokes, {}, exposed);
        return strokes.size();
    };
    EXPECT_LT(told(part), told(view.canvas()->rect()) / 3);
}

TEST_F(PageViewTest, TakesNoRoomWhereNothingIsWrittenOrItIsNotWanted) {
    EXPECT_FALSE(view.isHidden());
    view.setBars(Range<Beats>{Beats(8), Beats(12)});
    EXPECT_TRUE(view.isHidden());
    view.setBars(Range<Beats>{Beats(0), Beats(8)});
    EXPECT_FALSE(view.isHidden());
    view.setWanted(false);
    EXPECT_TRUE(view.isHidden());
}

} // namespace
} // namespace earwright::ui
