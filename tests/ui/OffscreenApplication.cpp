// Gives every test of the interface the one application object that widgets need.
#include <QApplication>

#include <gtest/gtest.h>
#include <memory>

namespace {

class OffscreenApplication : public testing::Environment {
public:
    void SetUp() override {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        application = std::make_unique<QApplication>(count, arguments);
    }
    void TearDown() override { application.reset(); }

private:
    char name[10] = "earwright";
    char* arguments[2] = {name, nullptr};
    int count = 1;
    std::unique_ptr<QApplication> application;
};

[[maybe_unused]] const auto* const registered =
    testing::AddGlobalTestEnvironment(new OffscreenApplication); // googletest owns it

} // namespace
