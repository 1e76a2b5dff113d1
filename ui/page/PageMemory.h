// How the user wants to read the page, kept from one day to the next.
#pragma once

#include "ui/page/PageOrder.h"

class QSettings;

namespace earwright::ui {

/// What was kept wrongly counts as never chosen.
PageWish rememberedWish(const QSettings& settings);
void rememberWish(const PageWish& wish, QSettings& settings);

} // namespace earwright::ui
