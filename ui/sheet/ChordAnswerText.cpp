#include "ui/sheet/ChordAnswerText.h"

#include "core/theory/ChordDegree.h"
#include "ui/theme/PlaceText.h"
#include "ui/theme/VerdictWord.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace earwright::ui {

namespace {

constexpr int middleC = 60;

QString tr(const char* text) {
    return QCoreApplication::translate("ChordAnswer", text);
}

QString nameOn(const Chord& chord, int name) {
    return QString::fromStdString(toString(nameHeardOn(middleC + name, chord)));
}

QString namesOn(const Chord& chord, const std::vector<int>& names) {
    QStringList words;
    for (const int name : names)
        words += nameOn(chord, name);
    return words.join(QLatin1Char(' '));
}

/// Empty where no bass is heard, or it says nothing clearly.
QString bassText(const Chord& chord, const BassAnswer& bass) {
    if (!bass.played) return {};
    const QString played = nameOn(chord, *bass.played);
    if (*bass.played == bass.expected) return tr("the bass plays %1").arg(played);
    const QString expected = nameOn(chord, bass.expected);
    switch (bass.verdict) {
    case Verdict::Contradicted:
        return tr("the bass plays %1, not %2").arg(played, expected);
    case Verdict::Supported:
        return tr("the bass plays %1 and %2").arg(expected, played);
    case Verdict::Unclear:
        break;
    }
    return tr("the bass seems to play %1").arg(played);
}

/// What speaks for the chord and against it; empty where too little is heard.
QStringList reasons(const Chord& chord, const ChordAnswer& answer) {
    QStringList parts;
    if (!answer.heard.empty()) parts += tr("heard: %1").arg(namesOn(chord, answer.heard));
    if (!answer.heardAgainst.empty()) parts += tr("against it: %1").arg(namesOn(chord, answer.heardAgainst));
    if (!answer.missing.empty()) parts += tr("missing: %1").arg(namesOn(chord, answer.missing));
    if (const QString bass = bassText(chord, answer.bass); !bass.isEmpty()) parts += bass;
    return parts;
}

QString asSentence(const QString& words) {
    return words.left(1).toUpper() + words.mid(1) + QLatin1Char('.');
}

} // namespace

QString chordAnswerText(const CheckedChord& checked) {
    const bool isBassWrong = checked.answer.bass.verdict == Verdict::Contradicted;
    const QString head = (isBassWrong ? tr("%1, %2: %3, its bass contradicted") : tr("%1, %2: %3"))
                             .arg(barText(checked.bar), QString::fromStdString(toString(checked.symbol)),
                                  verdictWord(checked.answer.verdict));
    const QStringList parts =
        checked.symbol.chord ? reasons(*checked.symbol.chord, checked.answer) : QStringList();
    return asSentence(head) + QLatin1Char(' ') +
           asSentence(parts.isEmpty() ? tr("too little of comping and bass is heard here")
                                      : parts.join(QStringLiteral("; ")));
}

QString chordCountText(const std::vector<CheckedChord>& chords) {
    const auto count = [&](Verdict verdict) {
        return std::count_if(chords.begin(), chords.end(),
                             [&](const CheckedChord& chord) { return verdictOf(chord.answer) == verdict; });
    };
    const QString all = chords.size() == 1 ? tr("1 chord") : tr("%1 chords").arg(chords.size());
    return tr("%1: %2 supported, %3 unclear, %4 contradicted.")
        .arg(all)
        .arg(count(Verdict::Supported))
        .arg(count(Verdict::Unclear))
        .arg(count(Verdict::Contradicted));
}

} // namespace earwright::ui
