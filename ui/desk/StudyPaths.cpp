#include "ui/desk/StudyPaths.h"

#include "ui/desk/DeskSession.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>
#include <QStringList>

#include <algorithm>
#include <cstddef>

namespace earwright::ui {

namespace fs = std::filesystem;

fs::path pathOf(const QString& file) {
    return fs::path(file.toStdU16String());
}

QString textOf(const fs::path& path) {
    return QString::fromStdU16String(path.u16string());
}

QString nameOf(const fs::path& path) {
    return textOf(path.filename());
}

QString namesOf(const std::vector<fs::path>& files) {
    constexpr std::size_t mostNames = 5;
    QStringList names;
    for (std::size_t i = 0; i < std::min(files.size(), mostNames); ++i)
        names.append(nameOf(files[i]));
    const QString list = names.join(QStringLiteral(", "));
    if (files.size() <= mostNames) return list;
    return QCoreApplication::translate("StudyPaths", "%1 and %2 more")
        .arg(list)
        .arg(files.size() - mostNames);
}

QString titleOf(const DeskSession& session) {
    if (!session.isOpen()) return {};
    if (!session.study().title.empty()) return QString::fromStdString(session.study().title);
    if (!session.studyFile().empty()) return textOf(session.studyFile().stem());
    return QStringLiteral("–");
}

QString startFolder(const DeskSession& session) {
    if (!session.studyFile().empty()) return textOf(session.studyFile().parent_path());
    if (session.recording()) return textOf(session.recording()->path().parent_path());
    const QString music = QStandardPaths::writableLocation(QStandardPaths::MusicLocation);
    return QFileInfo(music).isDir() ? music : QDir::homePath();
}

QString suggestedFile(const DeskSession& session) {
    if (!session.studyFile().empty()) return nameOf(session.studyFile());
    const QString name = session.recording() ? textOf(session.recording()->path().stem()) : titleOf(session);
    return name + QStringLiteral(".study");
}

QString soundFilePatterns() {
    return QStringLiteral("*.wav *.flac *.ogg *.oga *.opus *.mp3 *.aiff *.aif *.au *.caf *.w64 *.rf64 "
                          "*.m4a *.mp4 *.m4v *.mov *.aac *.mkv *.mka *.webm");
}

} // namespace earwright::ui
