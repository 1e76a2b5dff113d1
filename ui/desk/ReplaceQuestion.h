// Asks before what is written takes the place of files that are there already.
#pragma once

#include <QMessageBox>

#include <filesystem>
#include <functional>
#include <vector>

namespace earwright::ui {

/// Names the files and says what can be done. Cancel is what Enter and Esc choose. Changes nothing itself:
/// calls `replace` where the user wants that, and nothing else. Threads: interface only.
class ReplaceQuestion : public QMessageBox {
    Q_OBJECT
public:
    /// Requires: there is at least one file.
    ReplaceQuestion(const std::vector<std::filesystem::path>& there, std::function<void()> replace,
                    QWidget* parent = nullptr);
};

} // namespace earwright::ui
