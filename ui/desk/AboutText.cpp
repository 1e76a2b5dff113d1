#include "ui/desk/AboutText.h"

#include <QCoreApplication>

namespace earwright::ui {

QString aboutTitle() {
    return QCoreApplication::translate("About", "About Earwright");
}

QString aboutText(const QString& fontLicence) {
    const QString program =
        QCoreApplication::translate(
            "About",
            "<b>Earwright %1</b><p>A player for musicians who learn and write down solos by ear. It helps "
            "you listen and tells you whether what you wrote holds up; it does not write the solo for "
            "you.</p><p>Free software under the GNU General Public License, version 3 or later, without "
            "any "
            "warranty.</p>")
            .arg(QCoreApplication::applicationVersion());
    if (fontLicence.isEmpty()) return program;
    const QString whose = fontLicence.section(QStringLiteral("\n\n"), 0, 0).simplified().toHtmlEscaped();
    return program + QCoreApplication::translate(
                         "About", "<p>Music is drawn with the font Bravura, under the SIL Open Font License, "
                                  "version 1.1. %1</p>")
                         .arg(whose);
}

} // namespace earwright::ui
