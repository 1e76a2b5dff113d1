#include "ui/desk/ChordDesk.h"

#include "ui/sheet/ChordAnswerText.h"
#include "ui/sheet/ChorusSheetView.h"

#include <algorithm>

namespace earwright::ui {

namespace {

const auto told = QStringLiteral("chords told");

} // namespace

ChordDesk::ChordDesk(DeskSession& desk, RecordingListener& listener, ChorusSheetView& view, MessageBar& bar,
                     QObject* parent)
    : QObject(parent),
      session(desk),
      sheet(view),
      messages(bar),
      work(listener, bar, QStringLiteral("chords"), tr("Listening to the chords, %1 %")) {
    connect(&session, &DeskSession::studyChanged, this, [this](const Study& before) {
        // Listened for elsewhere, the bass may say something else.
        if (before.players.bass != session.study().players.bass) return forget();
        show(chordsThatStand(session.study(), answered));
    });
    connect(&session, &DeskSession::opened, this, [this] { forget(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { forget(); });
}

void ChordDesk::check(const Range<Seconds>& stretch) {
    if (!session.recording()) return;
    messages.close(told);
    const auto asked = session.shared();
    work.start<std::vector<CheckedChord>>(
        [asked, stretch](const RecordingEvidence& recording, const std::stop_token& stop,
                         const BackgroundJob::Report& report) {
            return checkChords(*asked, stretch, recording, stop, report);
        },
        [this, stretch](const std::vector<CheckedChord>& found) { take(stretch, found); });
}

void ChordDesk::take(const Range<Seconds>& stretch, const std::vector<CheckedChord>& found) {
    if (found.empty())
        return messages.say(told, MessageBar::Tone::Notice,
                            tr("No chord that can be read stands over a bar that begins here."));
    std::vector<CheckedChord> all;
    const MeterMap meters = session.study().meters();
    const BeatMap& map = session.study().beatMap;
    // Edits made meanwhile are not judged by what was found.
    for (CheckedChord& chord : chordsThatStand(session.study(), answered))
        if (!stretch.contains(map.seconds(meters.barStart(chord.bar)))) all.push_back(std::move(chord));
    const std::vector<CheckedChord> standing = chordsThatStand(session.study(), found);
    all.insert(all.end(), standing.begin(), standing.end());
    std::sort(all.begin(), all.end(),
              [](const CheckedChord& a, const CheckedChord& b) { return a.range.begin < b.range.begin; });
    show(std::move(all));
    messages.say(told, MessageBar::Tone::Notice,
                 chordCountText(standing) + QLatin1Char(' ') +
                     tr("Point at a symbol to read what speaks for it or against it."));
}

void ChordDesk::tell(Seconds place) {
    if (const CheckedChord* chord = answerAt(answered, place))
        messages.say(told, MessageBar::Tone::Notice, chordAnswerText(*chord));
}

bool ChordDesk::hasAnswerAt(Seconds place) const {
    return answerAt(answered, place) != nullptr;
}

void ChordDesk::show(std::vector<CheckedChord> answers) {
    if (answers == answered) return;
    answered = std::move(answers);
    sheet.setChordAnswers(answered);
    emit changed();
}

void ChordDesk::forget() {
    work.cancel();
    messages.close(told);
    show({});
}

} // namespace earwright::ui
