#include "ui/desk/TakeKeeping.h"

#include "core/study/TakeEdits.h"
#include "core/study/TakeFolder.h"
#include "ui/desk/StudyPaths.h"

#include <utility>

namespace earwright::ui {

TakeKeeping::TakeKeeping(DeskSession& desk, MessageBar& bar, QObject* parent)
    : QObject(parent), session(desk), messages(bar) {
    // Takes of the study before are none of this one.
    connect(&session, &DeskSession::opened, this, &TakeKeeping::forget);
}

void TakeKeeping::keep(std::vector<Take> takes, const std::filesystem::path& folder) {
    waiting.push_back({std::move(takes), folder});
    if (waiting.size() == 1) bringNext();
}

void TakeKeeping::bringNext() {
    if (waiting.empty()) return;
    job.start<Result<Done>>(
        [named = addTakes(Study{}, waiting.front().takes), from = waiting.front().folder,
         to = session.takeFolder()](const std::stop_token&, const BackgroundJob::Report&) {
            return bringTakes(named, from, to);
        },
        [this](const Result<Done>& outcome) {
            const Recorded kept = std::move(waiting.front());
            waiting.pop_front();
            if (!outcome)
                messages.notice(QString::fromStdString(describe(outcome.error())));
            else if (session.isOpen())
                putOnList(kept.takes);
            bringNext();
        });
}

void TakeKeeping::putOnList(const std::vector<Take>& takes) {
    const auto count = static_cast<int>(takes.size());
    session.apply(tr("keep %n take(s)", nullptr, count), addTakes(session.study(), takes));
    messages.notice(count == 1
                        ? tr("The take is kept; V switches between the record and yours.")
                        : tr("%1 takes are kept, the last whole pass is heard; V switches between the record "
                             "and yours.")
                              .arg(count));
}

void TakeKeeping::forget() {
    job.cancel();
    if (waiting.empty()) return;
    messages.notice(
        tr("Another study was opened before your takes were on the list; what you played is kept in %1.")
            .arg(textOf(waiting.back().folder / waiting.back().takes.back().file)));
    waiting.clear();
}

} // namespace earwright::ui
