// Dialogs about one study.
#pragma once

class QDialog;

namespace earwright::ui {

class DeskSession;

/// Opens a dialog over its window that is closed, unanswered, once another study is opened: what it shows is
/// not of that one. It is deleted when closed. Threads: interface only.
void openForThisStudy(QDialog& dialog, const DeskSession& session);

} // namespace earwright::ui
