#include "ui/takes/KeyboardChoice.h"

#include "ui/theme/QuietButton.h"

#include <QHBoxLayout>
#include <QMenu>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int longestName = 220;

} // namespace

KeyboardChoice::KeyboardChoice(QWidget* parent)
    : QWidget(parent), choose(new QuietButton(tr("no MIDI keyboard"), this)) {
    choose->setAccessibleName(tr("MIDI keyboard"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(choose);
    connect(choose, &QAbstractButton::clicked, this, &KeyboardChoice::offer);
    setReport({}, {});
}

void KeyboardChoice::setReport(const KeyboardReport& report, const KeyboardWish& wanted) {
    shown = report;
    wish = wanted;
    choose->setText(QFontMetrics(ui::font(TextStyle::Body)).elidedText(text(), Qt::ElideMiddle, longestName));
    // An "&" in a name would make a key of Alt and a letter, and those are commands of the desk.
    choose->setShortcut({});
    choose->setToolTip(!shown.trouble.empty() ? QString::fromStdString(shown.trouble)
                       : shown.name.empty() ? tr("A keyboard that is plugged in later is noticed by itself.")
                                            : text());
}

QString KeyboardChoice::text() const {
    if (!wish.wanted) return tr("MIDI keyboard not used");
    if (!shown.name.empty()) return tr("keyboard %1").arg(QString::fromStdString(shown.name));
    if (!shown.lost.empty()) return tr("%1 is gone").arg(QString::fromStdString(shown.lost));
    return tr("no MIDI keyboard");
}

void KeyboardChoice::add(QMenu& menu, const QString& words, const KeyboardWish& meant) {
    QAction* action = menu.addAction(QString(words).replace(u'&', QStringLiteral("&&")));
    action->setCheckable(true);
    action->setChecked(meant == wish);
    connect(action, &QAction::triggered, this, [this, meant] { emit wished(meant); });
}

void KeyboardChoice::offer() {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    if (shown.choices.empty())
        menu->addAction(shown.trouble.empty() ? tr("no MIDI keyboard is plugged in")
                                              : QString::fromStdString(shown.trouble))
            ->setEnabled(false);
    const auto& names = shown.choices;
    const bool isAway = !wish.name.empty() && std::find(names.begin(), names.end(), wish.name) == names.end();
    for (const std::string& name : names)
        add(*menu, QString::fromStdString(name), {true, name});
    if (isAway) add(*menu, tr("%1, not plugged in").arg(QString::fromStdString(wish.name)), wish);
    menu->addSeparator();
    add(*menu, tr("whichever is there"), {true, {}});
    add(*menu, tr("none"), {false, {}});
    menu->popup(choose->mapToGlobal(QPoint(0, -menu->sizeHint().height())));
}

} // namespace earwright::ui
