// The round button that starts and stops what is heard.
#pragma once

#include <QAbstractButton>

namespace earwright::ui {

/// Shows what a press will do: a triangle while silent, two bars while playing.
class PlayButton : public QAbstractButton {
    Q_OBJECT
public:
    explicit PlayButton(QWidget* parent = nullptr);

    void setPlaying(bool playing);
    bool isPlaying() const { return playing; }

    QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    bool playing = false;
};

} // namespace earwright::ui
