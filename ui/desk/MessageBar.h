// Messages in a line, with what can be done about them; never in the way of the music.
#pragma once

#include <QPointer>
#include <QString>
#include <QWidget>

#include <functional>
#include <map>
#include <vector>

class QVBoxLayout;

namespace earwright::ui {

class MessageRow;

/// Notices go by themselves, and are shown where they cover nothing; questions and troubles stay until they
/// are answered or closed, at the foot of the sheet. Threads: interface only.
class MessageBar : public QWidget {
    Q_OBJECT
public:
    struct Answer {
        QString text;
        std::function<void()> deed;
    };
    enum class Tone { Notice, Question, Trouble };

    explicit MessageBar(QWidget* parent = nullptr);

    /// Where notices without answers are shown from now on, the newest uppermost, as long as they have room
    /// there; else at the foot.
    void setPassingPlace(QWidget* place);

    /// Shows a sentence; one of the same subject takes the place of the one before. An answer closes it
    /// before it acts.
    void say(const QString& subject, Tone tone, const QString& sentence, std::vector<Answer> answers = {});
    /// A notice without a subject of its own.
    void notice(const QString& sentence) { say(QStringLiteral("notice"), Tone::Notice, sentence); }
    void close(const QString& subject);

    /// The sentence of a subject; empty if nothing is said about it.
    QString sentence(const QString& subject) const;
    /// Chooses an answer as the hand would. Requires: it is offered.
    void choose(const QString& subject, std::size_t answer);

signals:
    /// So many pixels of what it lies over are under it now.
    void covers(int height);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void arrange();
    void put(MessageRow& row);

    std::map<QString, MessageRow*> rows;
    QVBoxLayout* column;
    QPointer<QWidget> passing;
};

} // namespace earwright::ui
