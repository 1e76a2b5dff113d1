#include "ui/commands/KeySpelling.h"

#include <QKeyEvent>

#include <algorithm>
#include <iterator>

namespace earwright::ui {

namespace {

struct Shifted {
    int sign;
    Qt::Key below;
};

// As on the keyboards of the United States and many others.
constexpr Shifted pairs[]{{Qt::Key_Less, Qt::Key_Comma},
                          {Qt::Key_Greater, Qt::Key_Period},
                          {Qt::Key_Underscore, Qt::Key_Minus},
                          {Qt::Key_Plus, Qt::Key_Equal},
                          {Qt::Key_BraceLeft, Qt::Key_BracketLeft},
                          {Qt::Key_BraceRight, Qt::Key_BracketRight}};

} // namespace

std::vector<QKeySequence> spellingsOf(const QKeyEvent& press) {
    const auto with = [&](int key) {
        return QKeySequence(QKeyCombination(press.modifiers(), static_cast<Qt::Key>(key)));
    };
    if (press.key() == Qt::Key_Backtab) return {with(Qt::Key_Tab)};
    std::vector<QKeySequence> spellings{with(press.key())};
    const auto pair = std::find_if(std::begin(pairs), std::end(pairs),
                                   [&](const Shifted& each) { return each.sign == press.key(); });
    if (pair != std::end(pairs) && press.modifiers() & Qt::ShiftModifier)
        spellings.push_back(with(pair->below));
    return spellings;
}

} // namespace earwright::ui
