// A choice that is only a word: underlined while it is the one in use.
#pragma once

#include "ui/theme/Type.h"

#include <QAbstractButton>

namespace earwright::ui {

/// Text without a frame. Checkable ones are underlined and bold while checked; others get a thin line while
/// hovered. Takes focus by Tab, not by click, so that the keys of the desk stay where they were.
class QuietButton : public QAbstractButton {
    Q_OBJECT
public:
    explicit QuietButton(const QString& text, QWidget* parent = nullptr);
    void setTextStyle(TextStyle style);
    /// Space left and right of the word.
    void setSidePadding(int pixels);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
    void enterEvent(QEnterEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    QFont wordFont(bool strong) const;

    TextStyle style = TextStyle::Body;
    int sidePadding;
};

} // namespace earwright::ui
