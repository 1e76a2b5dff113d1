#include "ui/desk/ImportDesk.h"

#include "core/exchange/OpenForeign.h"
#include "core/study/MeterEdits.h"
#include "core/study/OwnTime.h"
#include "core/study/RecordingLocator.h"
#include "ui/desk/StudyPaths.h"

#include <QInputDialog>

#include <algorithm>
#include <utility>

namespace earwright::ui {

namespace {

namespace fs = std::filesystem;
using Tone = MessageBar::Tone;

const auto subject = QStringLiteral("import");

std::size_t partsWithNotes(const Imported& imported) {
    return static_cast<std::size_t>(std::count_if(imported.parts.begin(), imported.parts.end(),
                                                  [](const ForeignPart& part) { return part.notes > 0; }));
}

QString rhythmSentence(const ReadRhythm& rhythm) {
    if (rhythm.taken == MidiRhythm::Ticks) return QObject::tr("Its notes stand where the file's ticks are.");
    return rhythm.isSwung ? QObject::tr("Its notes swing: they are written even, with the swing over them.")
                          : QObject::tr("Its notes are written where one would count what a hand played.");
}

/// The marks of the open study under the page's meters: bars stay where they were tapped, and what lies
/// between them is counted as the page does.
BeatMap marksUnder(const Study& page, const Study& open) {
    Study counted;
    counted.meter = open.meter;
    counted.beatMap = open.beatMap;
    counted.page.meters = open.page.meters;
    for (auto change = open.page.meters.rbegin(); change != open.page.meters.rend(); ++change)
        counted = removeMeterChange(counted, change->bar);
    counted = setMeter(counted, page.meter);
    for (const MeterChange& change : page.page.meters)
        if (auto next = changeMeter(counted, change.bar, change.meter)) counted = *std::move(next);
    return counted.beatMap;
}

/// The recording that is open, and where its bars are marked, hold for the new line too.
void attach(Study& study, const DeskSession& session) {
    const Study& open = session.study();
    study.recording = open.recording;
    study.recording.path = referenceTo(session.recording()->path(), {});
    if (open.beatMap.hasTempo()) study.beatMap = marksUnder(study, open);
}

} // namespace

ImportDesk::ImportDesk(DeskSession& desk, KeepingDesk& keeping, MessageBar& bar, QWidget& over)
    : QObject(&over), session(desk), keeper(keeping), messages(bar), window(over) {
    connect(&keeper, &KeepingDesk::foreignChosen, this, &ImportDesk::open);
}

void ImportDesk::open(const fs::path& path) {
    read({.path = path, .asksForPart = true});
}

void ImportDesk::openPart(const fs::path& path, const std::string& part, MidiRhythm rhythm) {
    read({.path = path, .part = part, .rhythm = rhythm});
}

void ImportDesk::read(const Wish& wish) {
    reading.start<Result<Imported>>(
        [wish](const std::stop_token&, const BackgroundJob::Report&) {
            return openForeign(wish.path, wish.part, wish.rhythm);
        },
        [this, wish](Result<Imported> outcome) {
            if (!outcome)
                return messages.say(subject, Tone::Trouble,
                                    QString::fromStdString(describe(outcome.error())));
            if (wish.asksForPart && partsWithNotes(*outcome) > 1) return askForPart(wish.path, *outcome);
            take(wish, *std::move(outcome));
        });
}

void ImportDesk::askForPart(const fs::path& path, const Imported& imported) {
    QStringList choices;
    int chosen = 0;
    for (std::size_t i = 0; i < imported.parts.size(); ++i) {
        const ForeignPart& part = imported.parts[i];
        if (part.notes == 0) continue;
        if (i == imported.part) chosen = static_cast<int>(choices.size());
        const QString notes = part.notes == 1 ? tr("1 note") : tr("%1 notes").arg(part.notes);
        choices.append(QStringLiteral("%1  %2 (%3)")
                           .arg(QString::number(i + 1), QString::fromStdString(part.name), notes));
    }
    auto* dialog = new QInputDialog(&window);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(tr("Which part?"));
    dialog->setLabelText(tr("%1 has several parts. A study holds one line; open").arg(nameOf(path)));
    dialog->setComboBoxItems(choices);
    dialog->setTextValue(choices[chosen]);
    connect(dialog, &QInputDialog::textValueSelected, this, [this, path](const QString& choice) {
        openPart(path, choice.section(QLatin1Char(' '), 0, 0).toStdString());
    });
    dialog->open();
}

void ImportDesk::take(const Wish& wish, Imported imported) {
    keeper.whenNothingIsLost(tr("“%1” has changes that are not saved.").arg(titleOf(session)),
                             [this, wish, imported] {
                                 Opened fresh;
                                 fresh.study = imported.study;
                                 fresh.isImported = true;
                                 if (fresh.study.title.empty()) fresh.study.title = wish.path.stem().string();
                                 fresh.recording = session.recording();
                                 if (fresh.recording)
                                     attach(fresh.study, session);
                                 else
                                     fresh.study = withOwnTime(fresh.study);
                                 session.begin(std::move(fresh));
                                 tell(wish, imported);
                             });
}

void ImportDesk::tell(const Wish& wish, const Imported& imported) {
    QString sentence =
        session.recording()
            ? tr("The line of %1 is a new study with %2.")
                  .arg(nameOf(wish.path), nameOf(session.recording()->path()))
            : tr("The line of %1 is a new study, without a recording so far.").arg(nameOf(wish.path));
    if (!session.recording() && !imported.study.beatMap.hasTempo() && !imported.study.notes.empty())
        sentence += QLatin1Char('\n') + tr("No tempo is given, so its bars are counted evenly.");
    for (const std::string& left : imported.leftOut)
        sentence += QLatin1Char('\n') + QString::fromStdString(left);
    // What was left out, and what can be chosen, is there until it was read.
    bool isPassing = imported.leftOut.empty();
    std::vector<MessageBar::Answer> answers;
    if (const auto other = otherRhythm(wish, imported)) {
        sentence += QLatin1Char('\n') + rhythmSentence(*imported.rhythm);
        answers.push_back(*other);
        isPassing = false;
    }
    if (!session.recording()) answers.push_back({tr("Find one…"), [this] { keeper.askForRecording(); }});
    messages.say(subject, isPassing ? Tone::Notice : Tone::Question, sentence, std::move(answers));
}

std::optional<MessageBar::Answer> ImportDesk::otherRhythm(const Wish& wish, const Imported& imported) {
    // So few notes off the lines of the beat are a turn or a trill.
    constexpr double asGoodAsAll = 0.9;
    if (!imported.rhythm) return std::nullopt;
    const bool isByHand = imported.rhythm->taken == MidiRhythm::ByHand;
    const auto answer = [&](const QString& name, MidiRhythm next) {
        return MessageBar::Answer{name, [this, path = wish.path, part = std::to_string(imported.part + 1),
                                         next] { openPart(path, part, next); }};
    };
    if (isByHand) return answer(tr("By the file's ticks"), MidiRhythm::Ticks);
    const bool fitsTicks = fittingRhythm(imported.rhythm->onLines) == MidiRhythm::Ticks;
    if (wish.rhythm == MidiRhythm::Ticks && fitsTicks)
        return answer(tr("As one would write it"), MidiRhythm::Fitting);
    if (imported.rhythm->onLines >= asGoodAsAll) return std::nullopt;
    return answer(tr("As played by hand"), MidiRhythm::ByHand);
}

} // namespace earwright::ui
