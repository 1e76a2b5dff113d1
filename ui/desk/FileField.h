// Where a file is to be written: its name, typed or chosen.
#pragma once

#include <QStringList>
#include <QWidget>

#include <filesystem>

class QLineEdit;

namespace earwright::ui {

/// Whether a file of that name is there is not asked here, but when it is written. Threads: interface only.
class FileField : public QWidget {
    Q_OBJECT
public:
    /// `name` is what a screen reader says; `title` that of the dialog to choose in, which offers `kinds`,
    /// such as "Pages (*.pdf)", of one ending each. Requires: at least one kind.
    FileField(const std::filesystem::path& start, const QString& name, const QString& title,
              const QStringList& kinds, QWidget* parent = nullptr);

    /// Without blanks about it; empty where nothing is typed.
    std::filesystem::path path() const;
    void setPath(const std::filesystem::path& path);

signals:
    void changed();

private:
    void choose();
    /// The kind whose ending the name has; where it has that of none, the one it had last.
    void followEnding();

    QString title;
    QStringList kinds;
    QString kind;
    QLineEdit* edit;
};

} // namespace earwright::ui
