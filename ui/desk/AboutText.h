// What the program says about itself.
#pragma once

#include <QString>

namespace earwright::ui {

QString aboutTitle();
/// Name, version, purpose and licence.
QString aboutText();

} // namespace earwright::ui
