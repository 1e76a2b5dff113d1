#include "ui/transport/BandRow.h"

#include "core/music/Pitch.h"
#include "ui/theme/QuietButton.h"
#include "ui/theme/Spacing.h"
#include "ui/transport/Stepper.h"
#include "ui/transport/WordRow.h"

#include <QHBoxLayout>
#include <QLabel>

#include <algorithm>
#include <cmath>

namespace earwright::ui {

namespace {

Stepper* edgeStepper(const QString& name, int rest, QWidget* parent) {
    auto* edge =
        new Stepper(name, {BandEdges::lowest, BandEdges::highest, rest, &BandRow::edgeText, {}}, parent);
    edge->setAccessibleName(name);
    return edge;
}

} // namespace

BandEdges BandEdges::playable() const {
    const int from = std::clamp(low, lowest, highest);
    return {from, std::clamp(high, from, highest)};
}

BandRow::BandRow(QWidget* parent)
    : QWidget(parent),
      words(new WordRow(tr("Band"),
                        {{tr("off"), tr("The record with all its highs and lows")},
                         {tr("only"), tr("Only what sounds between the two edges")},
                         {tr("without"), tr("All but what sounds between the two edges")}},
                        this)),
      lowEdge(edgeStepper(tr("Low edge of the band"), BandEdges().low, this)),
      highEdge(edgeStepper(tr("High edge of the band"), BandEdges().high, this)) {
    setAccessibleName(tr("Band"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(words);
    row->addSpacing(spacing::small);
    row->addWidget(lowEdge);
    row->addSpacing(spacing::tight);
    row->addWidget(new QLabel(tr("to"), this));
    row->addSpacing(spacing::tight);
    row->addWidget(highEdge);
    row->addStretch(1);
    connect(words, &WordRow::wordChosen, this,
            [this](int index) { emit useChosen(static_cast<BandUse>(index)); });
    connect(lowEdge, &Stepper::chosen, this, [this](int midi) {
        emit edgesChosen({midi, std::max(midi, edges.high)});
    });
    connect(highEdge, &Stepper::chosen, this, [this](int midi) {
        emit edgesChosen({std::min(midi, edges.low), midi});
    });
    show(BandUse::Off, edges);
}

void BandRow::show(BandUse use, const BandEdges& shown) {
    edges = shown;
    words->choose(static_cast<int>(use));
    for (Stepper* edge : {lowEdge, highEdge})
        edge->setEnabled(use != BandUse::Off);
    lowEdge->setValue(edges.low);
    highEdge->setValue(edges.high);
    lowEdge->setToolTip(edges.low > BandEdges::lowest
                            ? tr("The low edge lies at %1 Hz").arg(std::lround(hertzOf(edges.low)))
                            : tr("Nothing is cut from below"));
    highEdge->setToolTip(edges.high < BandEdges::highest
                             ? tr("The high edge lies at %1 Hz").arg(std::lround(hertzOf(edges.high)))
                             : tr("Nothing is cut from above"));
}

QuietButton* BandRow::button(BandUse use) const {
    return words->wordButton(static_cast<int>(use));
}

QString BandRow::edgeText(int midi) {
    if (midi <= BandEdges::lowest || midi >= BandEdges::highest) return tr("open");
    return QString::fromStdString(toString(Pitch{midi, std::nullopt}));
}

} // namespace earwright::ui
