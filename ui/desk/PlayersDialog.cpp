#include "ui/desk/PlayersDialog.h"

#include "core/music/HeardRange.h"
#include "core/music/Pitch.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>

#include <algorithm>

namespace earwright::ui {

namespace {

/// Entries of the list of instruments that are none.
constexpr int anything = -1;
constexpr int twoNotes = -2;

QString nameOf(Instrument instrument) {
    switch (instrument) {
    case Instrument::Guitar:
        return PlayersDialog::tr("Guitar");
    case Instrument::Bass:
        return PlayersDialog::tr("Bass");
    case Instrument::Trumpet:
        return PlayersDialog::tr("Trumpet");
    case Instrument::Trombone:
        return PlayersDialog::tr("Trombone");
    case Instrument::Soprano:
        return PlayersDialog::tr("Soprano saxophone");
    case Instrument::Alto:
        return PlayersDialog::tr("Alto saxophone");
    case Instrument::Tenor:
        return PlayersDialog::tr("Tenor saxophone");
    case Instrument::Baritone:
        return PlayersDialog::tr("Baritone saxophone");
    case Instrument::Clarinet:
        return PlayersDialog::tr("Clarinet");
    case Instrument::Flute:
        return PlayersDialog::tr("Flute");
    case Instrument::Violin:
        return PlayersDialog::tr("Violin");
    case Instrument::Piano:
        return PlayersDialog::tr("Piano");
    case Instrument::Voice:
        return PlayersDialog::tr("Voice");
    case Instrument::AnyPlucked:
        return PlayersDialog::tr("Another plucked instrument");
    case Instrument::AnyWind:
        return PlayersDialog::tr("Another wind instrument");
    case Instrument::AnyBowed:
        return PlayersDialog::tr("Another bowed instrument");
    }
    return {};
}

QString noteName(int midi) {
    return QString::fromStdString(toString(Pitch{midi, {}}));
}

QLineEdit* noteField(const QString& name) {
    auto* field = new QLineEdit;
    field->setAccessibleName(name);
    field->setMaxLength(6);
    field->setMaximumWidth(70);
    return field;
}

} // namespace

PlayersDialog::PlayersDialog(const Players& players, std::function<void(const Players&)> wish,
                             QWidget* parent)
    : QDialog(parent),
      apply(std::move(wish)),
      instrument(new QComboBox),
      lowest(noteField(tr("Lowest note"))),
      highest(noteField(tr("Highest note"))),
      bass(new QComboBox),
      refusal(new QLabel) {
    setWindowTitle(tr("Who plays"));
    auto* notes = new QHBoxLayout;
    notes->addWidget(lowest);
    notes->addWidget(new QLabel(tr("to")));
    notes->addWidget(highest);
    notes->addStretch(1);
    auto* about =
        new QLabel(tr("The check and its help hear nothing outside these notes as the line, and tell by the "
                      "instrument what is slurred and what is picked or tongued. The chords are checked "
                      "against the bass where it stands in the stereo picture."));
    about->setWordWrap(true);
    refusal->setWordWrap(true);
    refusal->hide();
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Line"), instrument);
    form->addRow(tr("Sounds from"), notes);
    form->addRow(tr("&Bass"), bass);
    form->addRow(about);
    form->addRow(refusal);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &PlayersDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(instrument, &QComboBox::currentIndexChanged, this, &PlayersDialog::showRange);
    fill(players);
}

void PlayersDialog::fill(const Players& players) {
    instrument->setAccessibleName(tr("Instrument of the line"));
    instrument->addItem(tr("Any instrument"), anything);
    for (const NamedInstrument& named : namedInstruments())
        instrument->addItem(nameOf(named.instrument), static_cast<int>(named.instrument));
    instrument->addItem(tr("Between two notes"), twoNotes);
    bass->setAccessibleName(tr("Where the bass is"));
    const auto place = [&](const QString& text, StereoPlace where) {
        bass->addItem(text, static_cast<int>(where));
    };
    place(tr("Not known"), StereoPlace::Unknown);
    place(tr("Left"), StereoPlace::Left);
    place(tr("Centre"), StereoPlace::Centre);
    place(tr("Right"), StereoPlace::Right);
    bass->setCurrentIndex(bass->findData(static_cast<int>(players.bass)));
    int chosen = anything;
    if (players.line) {
        const auto* named = std::get_if<Instrument>(&*players.line);
        chosen = named ? static_cast<int>(*named) : twoNotes;
        const PitchRange range = rangeOf(*players.line);
        lowest->setText(noteName(range.lowestMidi));
        highest->setText(noteName(range.highestMidi));
    }
    instrument->setCurrentIndex(instrument->findData(chosen));
    showRange();
}

void PlayersDialog::showRange() {
    const int chosen = instrument->currentData().toInt();
    refusal->hide();
    lowest->setEnabled(chosen == twoNotes);
    highest->setEnabled(chosen == twoNotes);
    if (chosen == anything) {
        lowest->clear();
        highest->clear();
    } else if (chosen != twoNotes) {
        const PitchRange range = rangeOf(static_cast<Instrument>(chosen));
        lowest->setText(noteName(range.lowestMidi));
        highest->setText(noteName(range.highestMidi));
    }
}

std::optional<Players> PlayersDialog::players() const {
    Players said;
    said.bass = static_cast<StereoPlace>(bass->currentData().toInt());
    const int chosen = instrument->currentData().toInt();
    if (chosen == anything) return said;
    if (chosen != twoNotes) {
        said.line = static_cast<Instrument>(chosen);
        return said;
    }
    const auto typed = typedRange();
    if (!typed || withinHearing(*typed) != typed) return std::nullopt;
    said.line = *typed;
    return said;
}

std::optional<PitchRange> PlayersDialog::typedRange() const {
    const auto low = midiNamed(lowest->text().trimmed().toStdString());
    const auto high = midiNamed(highest->text().trimmed().toStdString());
    if (!low || !high || !isRange({*low, *high})) return std::nullopt;
    return PitchRange{*low, *high};
}

void PlayersDialog::refuse(const QString& why) {
    refusal->setText(why);
    refusal->show();
    // A sentence more needs more room; a layout does not ask for it once its window is shown.
    layout()->activate();
    resize(width(), std::max(height(), layout()->totalHeightForWidth(width())));
    lowest->setFocus();
}

void PlayersDialog::accept() {
    if (const auto said = players()) {
        apply(*said);
        QDialog::accept();
        return;
    }
    const QString ends = tr("%1 to %2").arg(noteName(lowestMidi), noteName(highestMidi));
    const auto typed = typedRange();
    if (!typed) {
        refuse(tr("Type the lowest and the highest note with their octaves, the lower one first: E2 and "
                  "E6, or B♭3 and F5. C4 is middle C."));
    } else if (const auto heard = withinHearing(*typed)) {
        lowest->setText(noteName(heard->lowestMidi));
        highest->setText(noteName(heard->highestMidi));
        refuse(
            tr("A line is heard from %1, so the range was drawn in to that. Press OK to take it.").arg(ends));
    } else {
        refuse(
            tr("A line can be heard from %1; these two notes lie outside of that. Type two notes within it.")
                .arg(ends));
    }
}

} // namespace earwright::ui
