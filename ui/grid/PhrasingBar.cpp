#include "ui/grid/PhrasingBar.h"

#include "ui/commands/CommandTable.h"
#include "ui/grid/MarkWords.h"
#include "ui/grid/PhrasingMenu.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/theme/Theme.h"

#include <QLabel>
#include <QMenu>
#include <QPainter>

#include <algorithm>
#include <utility>
#include <vector>

namespace earwright::ui {

namespace {

/// The marks that come most often, in the order of their buttons.
constexpr std::array<PhrasingKind, 6> commonKinds{PhrasingKind::Slide, PhrasingKind::Grace,
                                                  PhrasingKind::Trill, PhrasingKind::Slur,
                                                  PhrasingKind::Ghost, PhrasingKind::Accent};

/// Pixels; until the grid tells how much room there is.
constexpr int widestUntold = 600;

QuietButton* smallButton(const QString& text, QWidget* parent) {
    auto* button = new QuietButton(text, parent);
    button->setTextStyle(TextStyle::Small);
    button->setSidePadding(6);
    return button;
}

} // namespace

PhrasingBar::PhrasingBar(QWidget* parent)
    : QWidget(parent),
      more(smallButton(tr("more…"), this)),
      lower(smallButton(QStringLiteral("▾"), this)),
      value(new QLabel(this)),
      higher(smallButton(QStringLiteral("▴"), this)),
      keyOf(tableKey) {
    setAccessibleName(tr("Phrasing of the selected note"));
    const QString words[] = {tr("slide"), tr("grace"), tr("trill"), tr("slur"), tr("ghost"), tr("accent")};
    for (std::size_t i = 0; i < buttons.size(); ++i) {
        QuietButton* button = buttons[i] = smallButton(words[i], this);
        button->setCheckable(true);
        // The grid says what the note has; a click only asks.
        connect(button, &QAbstractButton::clicked, this, [this, button, i] {
            button->setChecked(!button->isChecked());
            emit chosen(commonKinds[i]);
        });
    }
    value->setFont(ui::font(TextStyle::Small));
    value->setWordWrap(true);
    more->setAccessibleName(tr("More marks"));
    lower->setAccessibleName(tr("Mark lower"));
    higher->setAccessibleName(tr("Mark higher"));
    connect(more, &QAbstractButton::clicked, this, &PhrasingBar::openMenu);
    connect(lower, &QAbstractButton::clicked, this, [this] { emit valueStepped(-1); });
    connect(higher, &QAbstractButton::clicked, this, [this] { emit valueStepped(1); });
    showTips();
    arrange(widestUntold);
}

void PhrasingBar::setKeys(KeyOf given) {
    keyOf = std::move(given);
    showTips();
}

void PhrasingBar::showTips() {
    const auto tell = [&](QuietButton* button, CommandId id) {
        const QString key = keyOf(id).toString(QKeySequence::NativeText);
        const QString about = command(id).translatedAbout();
        button->setToolTip(key.isEmpty() ? about : tr("%1 (%2)").arg(about, key));
    };
    for (std::size_t i = 0; i < buttons.size(); ++i)
        tell(buttons[i], commandFor(commonKinds[i]));
    tell(more, CommandId::MarksMenu);
    tell(lower, CommandId::MarkLower);
    tell(higher, CommandId::MarkHigher);
}

QuietButton* PhrasingBar::button(PhrasingKind kind) const {
    const auto found = std::find(commonKinds.begin(), commonKinds.end(), kind);
    return found == commonKinds.end() ? nullptr
                                      : buttons[static_cast<std::size_t>(found - commonKinds.begin())];
}

QString PhrasingBar::valueText() const {
    return value->isHidden() ? QString() : value->text();
}

void PhrasingBar::prepare(const Note& note, std::optional<PhrasingKind> inHand, int widest) {
    phrasing = note.phrasing;
    showTips();
    for (std::size_t i = 0; i < buttons.size(); ++i)
        buttons[i]->setChecked(carries(phrasing, commonKinds[i]));
    const QString text = inHand ? markText(note, *inHand) : QString();
    value->setText(text);
    value->setToolTip({});
    value->setWordWrap(true);
    for (QuietButton* button : buttons)
        button->show();
    for (QWidget* each :
         {static_cast<QWidget*>(lower), static_cast<QWidget*>(value), static_cast<QWidget*>(higher)})
        each->setVisible(!text.isEmpty());
    arrange(widest);
}

void PhrasingBar::arrange(int widest) {
    std::vector<QWidget*> words(buttons.begin(), buttons.end());
    words.push_back(more);
    const int row = more->sizeHint().height();
    int x = spacing::small;
    int y = 0;
    int right = 0;
    for (QWidget* word : words) {
        const int width = word->sizeHint().width();
        if (x > spacing::small && x + width + spacing::small > widest) {
            x = spacing::small;
            y += row;
        }
        word->setGeometry(x, y, width, row);
        x += width;
        right = std::max(right, x);
    }
    y += row;
    if (!value->text().isEmpty()) {
        const QSize said = arrangeValue(y, widest);
        right = std::max(right, said.width());
        y += said.height();
    }
    arranged = {right + spacing::small, y};
    resize(arranged);
}

/// Between its arrows, in as many lines as it needs. Gives where its row ends, and how high it is.
QSize PhrasingBar::arrangeValue(int top, int widest) {
    const int row = lower->sizeHint().height();
    const int arrow = lower->sizeHint().width();
    const int room = std::max(arrow, widest - 2 * (arrow + spacing::small));
    const int width = std::min(room, value->fontMetrics().horizontalAdvance(value->text()) + spacing::tight);
    const int height = std::max(row, value->heightForWidth(width));
    lower->setGeometry(spacing::small, top, arrow, row);
    value->setGeometry(spacing::small + arrow, top, width, height);
    higher->setGeometry(spacing::small + arrow + width, top, arrow, row);
    return {spacing::small + width + 2 * arrow, height};
}

int PhrasingBar::placeInRow(QWidget* widget, int x, int width) {
    widget->setGeometry(x, 0, width, more->sizeHint().height());
    return x + width;
}

void PhrasingBar::arrangeInOneRow(int widest) {
    const int arrow = lower->sizeHint().width();
    int room = widest - 2 * spacing::small - more->sizeHint().width();
    const bool hasValue = !value->text().isEmpty();
    const int whole = value->fontMetrics().horizontalAdvance(value->text()) + spacing::tight;
    const int said = hasValue ? std::min(whole, room - 2 * arrow) : 0;
    if (hasValue) room -= said + 2 * arrow;
    for (QuietButton* button : buttons)
        button->hide();
    for (const bool carried : {true, false})
        for (QuietButton* button : buttons) {
            if (button->isChecked() != carried || button->sizeHint().width() > room) continue;
            room -= button->sizeHint().width();
            button->show();
        }
    int x = spacing::small;
    for (QuietButton* button : buttons)
        if (!button->isHidden()) x = placeInRow(button, x, button->sizeHint().width());
    if (hasValue) {
        x = placeInRow(lower, x, arrow);
        x = placeInRow(value, x, said);
        x = placeInRow(higher, x, arrow);
        value->setWordWrap(false);
        if (said < whole) {
            value->setToolTip(value->text());
            value->setText(value->fontMetrics().elidedText(value->text(), Qt::ElideRight, said));
        }
    }
    x = placeInRow(more, x, more->sizeHint().width());
    arranged = {x + spacing::small, more->sizeHint().height()};
    resize(arranged);
}

void PhrasingBar::openMenu() {
    PhrasingChoices choices;
    choices.mark = [this](PhrasingKind kind) { emit chosen(kind); };
    choices.moreGrace = [this] { emit moreGraceChosen(); };
    choices.keyOf = keyOf;
    makePhrasingMenu(phrasing, choices, this)->popup(mapToGlobal(rect().bottomLeft()));
}

void PhrasingBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(color(Role::Rule), 1));
    painter.setBrush(color(Role::Page));
    const double corner = more->height() / 2.0;
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), corner, corner);
}

} // namespace earwright::ui
