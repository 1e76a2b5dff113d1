// Qt Test's own checks note their failure for a Qt Test program and return: within a GoogleTest they pass
// whatever happens. So no test may use them; `tests/ui/Soon.h` waits, GoogleTest's checks judge.
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <regex>
#include <string>

namespace earwright {
namespace {

namespace fs = std::filesystem;

const std::regex toothless(R"(\bQ(TRY_\w+|VERIFY\w*|COMPARE\w*|FAIL|SKIP|EXPECT_FAIL)\s*\()");

TEST(ChecksThatFail, KnowsTheOnesThatDoNot) {
    for (const char* line :
         {"    QTRY_VERIFY(done);", "QTRY_VERIFY_WITH_TIMEOUT(done, 20)", "QTRY_COMPARE (a, b);",
          "QVERIFY(a)", "QVERIFY2(a, text)", "QCOMPARE(a, b);", "QCOMPARE_EQ(a, b);", "QFAIL(text);"})
        EXPECT_TRUE(std::regex_search(line, toothless)) << line;
    for (const char* line : {"ASSERT_TRUE(soon([&] { return done; }));", "QTest::qWait(20);", "QSKIPPED(a)"})
        EXPECT_FALSE(std::regex_search(line, toothless)) << line;
}

TEST(ChecksThatFail, AreTheOnlyOnesInAnyTest) {
    int read = 0;
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(EARWRIGHT_SOURCE_DIR) / "tests")) {
        const fs::path& path = entry.path();
        if (path.extension() != ".h" && path.extension() != ".cpp") continue;
        if (path.filename() == fs::path(__FILE__).filename()) continue;
        ++read;
        std::ifstream file(path);
        int number = 0;
        for (std::string line; std::getline(file, line);)
            EXPECT_FALSE((++number, std::regex_search(line, toothless)))
                << path << ":" << number << ": " << line;
    }
    EXPECT_GT(read, 100) << "the tests were not found";
}

} // namespace
} // namespace earwright
