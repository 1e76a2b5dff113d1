// The feel of a phrase when it is asked for.
#pragma once

#include "core/check/Feel.h"
#include "core/listening/HeardPart.h"
#include "core/music/Span.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/ListenedWork.h"

#include <QObject>

#include <map>
#include <optional>

namespace earwright::ui {

class FeelLine;

/// Measured for one phrase at a time and shown with it until something is written or marked otherwise.
/// Threads: interface only; the listening goes on elsewhere.
class FeelDesk : public QObject {
    Q_OBJECT
public:
    FeelDesk(DeskSession& session, RecordingListener& listener, FeelLine& line, MessageBar& messages,
             QObject* parent = nullptr);

    /// The phrase in sight; none for bars without a phrase.
    void setPhrase(std::optional<SpanId> phrase);
    /// Where the next phrase is listened to: where the user does, or where its line is clearest while that is
    /// everything.
    void listenTo(const HeardPart& part) { heardPart = part; }
    /// Measures a phrase, or says that nothing is written in it yet. Nothing happens without the recording.
    void tell(SpanId phrase);

private:
    void follow(const Study& before);
    void forget();
    void refresh();

    struct Told {
        Feel feel;
        HeardPart listened;
    };

    DeskSession& session;
    FeelLine& line;
    MessageBar& messages;
    HeardPart heardPart;
    std::map<SpanId, Told> told;
    std::optional<SpanId> shown;
    ListenedWork work;
};

} // namespace earwright::ui
