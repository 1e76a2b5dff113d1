#include "ui/transport/FocusRow.h"

#include "ui/theme/QuietButton.h"

namespace earwright::ui {

FocusRow::FocusRow(QWidget* parent) : WordRow(tr("Focus"), words(), parent) {
    connect(this, &WordRow::wordChosen, this, [this](int id) { emit chosen(static_cast<Focus>(id)); });
    setIsStereo(false);
}

std::vector<WordRow::Word> FocusRow::words() {
    return {{tr("all"), tr("The whole stereo recording")},
            {tr("left"), tr("Its left channel on both ears")},
            {tr("right"), tr("Its right channel on both ears")},
            {tr("centre"), tr("What both channels share")},
            {tr("sides"), tr("What differs between the channels: the middle is silent")}};
}

void FocusRow::setIsStereo(bool isStereo) {
    setEnabled(isStereo);
    const auto all = words();
    for (std::size_t i = 0; i < all.size(); ++i)
        wordButton(static_cast<int>(i))
            ->setToolTip(isStereo ? all[i].toolTip
                                  : tr("Parts of the stereo picture: for stereo recordings only"));
}

} // namespace earwright::ui
