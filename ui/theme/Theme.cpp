#include "ui/theme/Theme.h"

#include "ui/theme/Type.h"

#include <QApplication>
#include <QPalette>
#include <QStyleFactory>

namespace earwright::ui {

namespace {

Appearance inUse = Appearance::Light; // interface thread only

QPalette qtPalette(const Palette& roles) {
    QPalette result;
    const auto set = [&](QPalette::ColorRole where, Role role) { result.setColor(where, roles.color(role)); };
    set(QPalette::Window, Role::Paper);
    set(QPalette::Base, Role::Page);
    set(QPalette::AlternateBase, Role::Shade);
    set(QPalette::Button, Role::Panel);
    set(QPalette::WindowText, Role::Ink);
    set(QPalette::Text, Role::Ink);
    set(QPalette::ButtonText, Role::Ink);
    set(QPalette::BrightText, Role::LooseEnd);
    set(QPalette::PlaceholderText, Role::Muted);
    set(QPalette::Highlight, Role::Ink);
    set(QPalette::HighlightedText, Role::OnMark);
    set(QPalette::ToolTipBase, Role::Page);
    set(QPalette::ToolTipText, Role::Ink);
    set(QPalette::Link, Role::Hint);
    set(QPalette::Mid, Role::Rule);
    for (const auto where : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        result.setColor(QPalette::Disabled, where, roles.color(Role::Muted));
    return result;
}

/// The sheet with each `@role` replaced by its colour.
QString withColours(QString sheet, const Palette& roles) {
    const std::pair<const char*, Role> names[] = {
        {"@paper", Role::Paper}, {"@page", Role::Page}, {"@panel", Role::Panel},   {"@shade", Role::Shade},
        {"@rule", Role::Rule},   {"@ink", Role::Ink},   {"@onmark", Role::OnMark}, {"@muted", Role::Muted},
    };
    for (const auto& [name, role] : names)
        sheet.replace(QLatin1String(name), roles.color(role).name());
    return sheet;
}

constexpr const char* plainWidgets = R"(
QMenuBar { background: @panel; color: @ink; border: none; padding: 2px 6px; }
QMenuBar::item { background: transparent; padding: 4px 10px; border-radius: 4px; }
QMenuBar::item:selected { background: @rule; }
QMenu { background: @page; color: @ink; border: 1px solid @rule; padding: 4px 0; }
QMenu::item { padding: 5px 24px 5px 20px; }
QMenu::item:selected { background: @ink; color: @onmark; }
QMenu::item:disabled { color: @muted; background: transparent; }
QMenu::separator { height: 1px; background: @rule; margin: 4px 12px; }
QToolTip { background: @page; color: @ink; border: 1px solid @rule; padding: 4px 6px; }
QPushButton { background: @page; color: @ink; border: 1px solid @rule; border-radius: 6px;
  padding: 4px 12px; }
QPushButton:hover, QPushButton:pressed { background: @shade; }
QPushButton:focus { border-color: @ink; }
QPushButton:disabled { color: @muted; background: transparent; }
QDialogButtonBox { dialogbuttonbox-buttons-have-icons: 0; }
QLineEdit, QPlainTextEdit { background: @page; color: @ink; border: 1px solid @rule; border-radius: 4px;
  padding: 3px 6px; selection-background-color: @ink; selection-color: @onmark; }
QLineEdit:focus, QPlainTextEdit:focus { border-color: @ink; }
QTreeView, QTableView { border: 1px solid @rule; }
QTreeView::item { padding: 3px 0; }
QHeaderView::section { background: @panel; color: @muted; border: none; border-bottom: 1px solid @rule;
  padding: 4px 6px; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: @rule; border-radius: 4px; margin: 1px; }
QScrollBar::handle:vertical { min-height: 24px; }
QScrollBar::handle:horizontal { min-width: 24px; }
QScrollBar::handle:disabled { background: transparent; }
QScrollBar::handle:hover { background: @muted; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QAbstractScrollArea::corner { background: transparent; border: none; }
QSlider::groove:horizontal { height: 4px; border-radius: 2px; background: @rule; }
QSlider::sub-page:horizontal { background: @ink; border-radius: 2px; }
QSlider::handle:horizontal { background: @page; border: 2px solid @ink; width: 10px; height: 10px;
  margin: -5px 0; border-radius: 7px; }
QSlider::handle:horizontal:focus { background: @ink; }
)";

} // namespace

void applyTheme(QApplication& application, Appearance appearance) {
    inUse = appearance;
    const Palette& roles = Palette::of(appearance);
    application.setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    application.setFont(font(TextStyle::Body));
    application.setPalette(qtPalette(roles));
    application.setStyleSheet(withColours(QString::fromLatin1(plainWidgets), roles));
}

Appearance currentAppearance() {
    return inUse;
}

QColor color(Role role) {
    return Palette::of(inUse).color(role);
}

QColor color(Role role, double opacity) {
    QColor result = color(role);
    result.setAlphaF(static_cast<float>(opacity));
    return result;
}

} // namespace earwright::ui
