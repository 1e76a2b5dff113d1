#include "ui/page/ReadingChoices.h"

#include "ui/page/PageOrder.h"

#include <QCoreApplication>

namespace earwright::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("ReadingChoices", words);
}

} // namespace

std::vector<NamedChoice<Reading>> readingChoices() {
    return {{QStringLiteral("concert"), say("As they sound"), Reading::Concert},
            {QStringLiteral("b-flat"), say("For B♭ instruments"), Reading::BFlat},
            {QStringLiteral("e-flat"), say("For E♭ instruments"), Reading::EFlat},
            {QStringLiteral("tenor"), say("For tenor saxophone"), Reading::Tenor},
            {QStringLiteral("baritone"), say("For baritone saxophone"), Reading::Baritone},
            {QStringLiteral("guitar"), say("For guitar, an octave up"), Reading::GuitarOctave}};
}

std::vector<NamedChoice<std::optional<Clef>>> clefChoices() {
    return {{QStringLiteral("fitting"), say("The one that fits"), std::nullopt},
            {QStringLiteral("treble"), say("Treble"), Clef::Treble},
            {QStringLiteral("treble-8"), say("Treble, sounding an octave lower"), Clef::TrebleOctaveLower},
            {QStringLiteral("bass"), say("Bass"), Clef::Bass}};
}

std::vector<NamedChoice<std::optional<int>>> barsPerLineChoices() {
    std::vector<NamedChoice<std::optional<int>>> choices;
    for (int bars = 1; bars <= mostBarsOfPageLine; ++bars)
        choices.push_back({QString::number(bars), QString::number(bars), bars});
    choices.push_back({QStringLiteral("fitting"), say("As many as fit"), std::nullopt});
    return choices;
}

} // namespace earwright::ui
