// What the program says about itself.
#pragma once

#include <QString>

namespace earwright::ui {

QString aboutTitle();
/// Name, version, purpose and licence; and of the music font, where there is one, by `fontLicence`
/// (MusicFont::licence()) whose it is and under what.
QString aboutText(const QString& fontLicence);

} // namespace earwright::ui
