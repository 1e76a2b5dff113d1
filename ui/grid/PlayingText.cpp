#include "ui/grid/PlayingText.h"

#include "ui/theme/SemitonesText.h"
#include "ui/theme/VerdictWord.h"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("PlayingText", text);
}

long milliseconds(Seconds time) {
    return std::lround(1000 * std::abs(time.value));
}

QString placeText(const NotePlaying& playing, const std::optional<Seconds>& behindSwing) {
    if (!playing.begins) return tr("no beginning of its own is heard");
    const Seconds behind = behindSwing.value_or(playing.behind);
    const long away = milliseconds(behind);
    const QString text = away == 0             ? tr("on its place")
                         : behind < Seconds(0) ? tr("%1 ms ahead").arg(away)
                                               : tr("%1 ms behind").arg(away);
    return behindSwing ? tr("%1 as the line swings").arg(text) : text;
}

QString loudnessText(double decibels) {
    constexpr double noticed = 1.5;
    if (std::abs(decibels) < noticed) return tr("as loud as the notes around it");
    return (decibels < 0 ? tr("%1 dB softer than the notes around it")
                         : tr("%1 dB louder than the notes around it"))
        .arg(std::lround(std::abs(decibels)));
}

QString lengthText(Seconds heard, const std::optional<Seconds>& written) {
    constexpr double plainly = 1.5;
    constexpr Seconds noticed{0.12};
    const QString text = tr("lasts %1 ms").arg(milliseconds(heard));
    if (!written) return text;
    if (heard > *written * plainly && heard - *written > noticed)
        return tr("%1, longer than it is written (%2 ms)").arg(text).arg(milliseconds(*written));
    if (*written > heard * plainly && *written - heard > noticed)
        return tr("%1, shorter than it is written (%2 ms)").arg(text).arg(milliseconds(*written));
    return text;
}

QString slideText(const HeardSlide& slide, bool isIn) {
    const bool isBelow = slide.cents < 0;
    const QString text =
        isIn ? (isBelow ? tr("slides in over %1 cents from below") : tr("slides in over %1 cents from above"))
             : (isBelow ? tr("slides out over %1 cents downwards") : tr("slides out over %1 cents upwards"));
    return text.arg(std::lround(std::abs(slide.cents)));
}

QString number(double value) {
    return QLocale().toString(value, 'f', 1);
}

/// What its pitch does.
QStringList pitchTexts(const NotePlaying& playing) {
    constexpr double offPitch = 20;
    const TraceFeatures& pitch = playing.pitch;
    QStringList texts;
    const bool isHeld = !pitch.bendCents && !pitch.trill;
    if (isHeld && isPitchClear(playing) && std::abs(pitch.centreCents) >= offPitch)
        texts += (pitch.centreCents > 0 ? tr("%1 cents sharp") : tr("%1 cents flat"))
                     .arg(std::lround(std::abs(pitch.centreCents)));
    if (pitch.slideIn) texts += slideText(*pitch.slideIn, true);
    if (pitch.slideOut) texts += slideText(*pitch.slideOut, false);
    if (pitch.bendCents) texts += tr("bent by %1 cents").arg(std::lround(*pitch.bendCents));
    if (pitch.vibrato)
        texts += tr("vibrato %1 times a second, %2 cents either way")
                     .arg(number(pitch.vibrato->hertz))
                     .arg(std::lround(pitch.vibrato->cents));
    if (pitch.trill)
        texts += tr("trill over %1, %2 times a second")
                     .arg(semitonesText(static_cast<int>(std::lround(pitch.trill->semitones))))
                     .arg(number(pitch.trill->hertz));
    return texts;
}

/// Only where nothing else tells of a slur: a written one gets its answer, one that is surely heard is
/// listed.
QString attackText(const Phrasing& written, const PhrasingAnswer& answer, const NotePlaying& playing) {
    const auto& listed = answer.unwritten;
    if (written.slurred || std::find(listed.begin(), listed.end(), PhrasingMark::Slur) != listed.end())
        return {};
    switch (slurVerdict(playing)) {
    case Verdict::Supported:
        return tr("perhaps slurred from the note before");
    case Verdict::Contradicted:
        return tr("begins with an attack of its own");
    case Verdict::Unclear:
        break;
    }
    return {};
}

} // namespace

QString spacingText(ThreeInABeat heard) {
    switch (heard) {
    case ThreeInABeat::Triplet:
        return tr("the three notes of this beat sound like a triplet");
    case ThreeInABeat::LongFirst:
        return tr("the three notes of this beat sound like an eighth and two sixteenths");
    case ThreeInABeat::LongMiddle:
        return tr("the three notes of this beat sound like a sixteenth, an eighth and a sixteenth");
    case ThreeInABeat::LongLast:
        return tr("the three notes of this beat sound like two sixteenths and an eighth");
    }
    return {};
}

QString markWord(PhrasingMark mark) {
    switch (mark) {
    case PhrasingMark::SlideIn:
        return tr("slide");
    case PhrasingMark::SlideOut:
        return tr("slide out");
    case PhrasingMark::Grace:
        return tr("grace note");
    case PhrasingMark::Trill:
        return tr("trill");
    case PhrasingMark::Slur:
        return tr("slur");
    case PhrasingMark::Ghost:
        return tr("ghost");
    case PhrasingMark::Accent:
        return tr("accent");
    case PhrasingMark::Bend:
        return tr("bend");
    case PhrasingMark::Vibrato:
        return tr("vibrato");
    case PhrasingMark::SlideToNext:
        return tr("slide to the next note");
    case PhrasingMark::Fall:
        return tr("fall");
    case PhrasingMark::Scoop:
        return tr("scoop");
    case PhrasingMark::Turn:
        return tr("turn");
    case PhrasingMark::Mordent:
        return tr("mordent");
    }
    return {};
}

QString playingText(const Phrasing& written, const NotePlaying& playing,
                    const std::optional<Seconds>& behindSwing, const std::optional<Seconds>& length) {
    if (!isAtItsPitch(written, playing)) return tr("not heard as it is written, in pitch or in length");
    const PhrasingAnswer answer = judgePhrasing(written, playing);
    QStringList texts{placeText(playing, behindSwing)};
    if (playing.begins) {
        if (playing.loudnessDb) texts += loudnessText(*playing.loudnessDb);
        texts += lengthText(playing.heard.length(), length);
        texts += pitchTexts(playing);
        texts += attackText(written, answer, playing);
    }
    for (const MarkAnswer& mark : answer.written)
        texts += tr("%1: %2").arg(markWord(mark.mark), verdictWord(mark.verdict));
    QStringList unwritten;
    for (const PhrasingMark mark : answer.unwritten)
        unwritten += markWord(mark);
    if (!unwritten.isEmpty())
        texts += tr("heard and not written: %1").arg(unwritten.join(QStringLiteral(", ")));
    texts.removeAll(QString());
    return texts.join(QStringLiteral(" · "));
}

} // namespace earwright::ui
