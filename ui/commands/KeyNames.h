// What keys are called: as they are printed on most keyboards and in our own words.
#pragma once

#include <QTranslator>

namespace earwright::ui {

/// The window system calls the large key "Return"; menus, messages and documents here all say Enter.
/// Threads: interface only.
class KeyNames : public QTranslator {
    Q_OBJECT
public:
    /// From now on the whole program says so; a second call changes nothing. Requires: the application is
    /// there.
    static void use();

    bool isEmpty() const override { return false; }
    QString translate(const char* context, const char* sourceText, const char* disambiguation,
                      int n) const override;

private:
    using QTranslator::QTranslator;
};

} // namespace earwright::ui
