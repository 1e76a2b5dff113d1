#include "ui/desk/StudyPaths.h"

#include "ui/desk/DeskSession.h"

#include <QDir>
#include <QTemporaryDir>

#include <gtest/gtest.h>
#include <utility>
#include <vector>

namespace earwright::ui {
namespace {

/// A home of its own, for as long as it lives.
class Home {
public:
    Home() {
        for (const auto& [name, before] : variables)
            qputenv(name, folder.path().toUtf8());
    }
    ~Home() {
        for (const auto& [name, before] : variables)
            before.isNull() ? qunsetenv(name) : qputenv(name, before);
    }
    QString path() const { return folder.path(); }

private:
    QTemporaryDir folder;
    /// Names and what they were.
    std::vector<std::pair<const char*, QByteArray>> variables{
        {"HOME", qgetenv("HOME")}, {"XDG_CONFIG_HOME", qgetenv("XDG_CONFIG_HOME")}};
};

TEST(StudyPaths, BeginAmongTheMusicWhereThereIsAFolderOfIt) {
    const Home home;
    DeskSession::Options options;
    options.engine.openDevice = false;
    const DeskSession session(options);
    EXPECT_EQ(startFolder(session), home.path()) << "a file is looked for in a folder that is there";
    ASSERT_TRUE(QDir(home.path()).mkdir(QStringLiteral("Music")));
    EXPECT_EQ(startFolder(session), home.path() + QStringLiteral("/Music"));
}

} // namespace
} // namespace earwright::ui
