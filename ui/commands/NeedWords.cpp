#include "ui/commands/NeedWords.h"

#include <QCoreApplication>

#include <utility>

namespace earwright::ui {

namespace {

/// In the order in which a study comes about: what is missing further up explains what is missing below.
constexpr std::pair<Condition, const char*> needs[]{
    {Condition::StudyOpen, QT_TRANSLATE_NOOP("NeedWords", "Nothing is open yet.")},
    {Condition::RecordingOpen, QT_TRANSLATE_NOOP("NeedWords", "The recording is not there to be heard.")},
    {Condition::Stereo, QT_TRANSLATE_NOOP("NeedWords", "The recording has one channel only.")},
    {Condition::OffPitch,
     QT_TRANSLATE_NOOP("NeedWords", "The recording's own A is not known yet, or it is yours already.")},
    {Condition::Proposal, QT_TRANSLATE_NOOP("NeedWords", "No beats are proposed.")},
    {Condition::Tempo, QT_TRANSLATE_NOOP("NeedWords", "Two bar lines or beats have to be marked first.")},
    {Condition::Grid, QT_TRANSLATE_NOOP("NeedWords", "There are no bars to write in yet.")},
    {Condition::MarkHere, QT_TRANSLATE_NOOP("NeedWords", "No bar line or beat is marked here.")},
    {Condition::Loop, QT_TRANSLATE_NOOP("NeedWords", "There is no loop.")},
    {Condition::Stretch,
     QT_TRANSLATE_NOOP("NeedWords", "No stretch of the sheet is selected, and there is no loop.")},
    {Condition::Phrases, QT_TRANSLATE_NOOP("NeedWords", "No phrase is marked yet.")},
    {Condition::PhraseHere, QT_TRANSLATE_NOOP("NeedWords", "No phrase is marked here.")},
    {Condition::WrittenHere,
     QT_TRANSLATE_NOOP("NeedWords", "Nothing is written here, and no phrase is marked.")},
    {Condition::WrittenToCheck,
     QT_TRANSLATE_NOOP("NeedWords", "Nothing is written here or in the stretch, and no phrase is marked.")},
    {Condition::SpanHere, QT_TRANSLATE_NOOP("NeedWords", "No phrase, chorus or section is marked here.")},
    {Condition::NoteSelected, QT_TRANSLATE_NOOP("NeedWords", "No note of the grid is selected.")},
    {Condition::Places,
     QT_TRANSLATE_NOOP("NeedWords", "No finished check of the phrase here has left a place to look for.")},
    {Condition::ChordAnswer, QT_TRANSLATE_NOOP("NeedWords", "The chord here has not been checked.")},
    {Condition::LooseEnds, QT_TRANSLATE_NOOP("NeedWords", "There is no loose end to come back to.")},
    {Condition::NearLooseEnd, QT_TRANSLATE_NOOP("NeedWords", "No loose end is near.")},
    {Condition::CanUndo, QT_TRANSLATE_NOOP("NeedWords", "There is nothing to undo.")},
    {Condition::CanRedo, QT_TRANSLATE_NOOP("NeedWords", "There is nothing to redo.")},
};

} // namespace

QString needWords(Conditions missing) {
    for (const auto& [need, words] : needs)
        if (missing.testFlag(need)) return QCoreApplication::translate("NeedWords", words);
    return {};
}

} // namespace earwright::ui
