#include "ui/transport/HearingRow.h"

namespace earwright::ui {

HearingRow::HearingRow(QWidget* parent)
    : WordRow(tr("What is heard"),
              {{tr("record"), tr("The recording alone")},
               {tr("yours"), tr("The written notes alone")},
               {tr("together"), tr("Both at once")},
               {tr("split"), tr("The recording on the left, the written notes on the right")},
               {tr("trade"), tr("The phrase from the recording, then from the written notes")}},
              parent) {
    connect(this, &WordRow::wordChosen, this, [this](int id) { emit chosen(static_cast<Hearing>(id)); });
}

} // namespace earwright::ui
