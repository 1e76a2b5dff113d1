#include "ui/commands/KeyNames.h"

#include <QCoreApplication>

#include <string_view>

namespace earwright::ui {

void KeyNames::use() {
    if (qApp->findChild<KeyNames*>()) return;
    QCoreApplication::installTranslator(new KeyNames(qApp));
}

QString KeyNames::translate(const char* context, const char* sourceText, const char*, int) const {
    // The context under which the library translates the names of keys.
    const bool isKey = context && std::string_view(context) == "QShortcut";
    if (isKey && sourceText && std::string_view(sourceText) == "Return") return tr("Enter");
    return {};
}

} // namespace earwright::ui
