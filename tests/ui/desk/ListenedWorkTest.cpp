#include "ui/desk/ListenedWork.h"

#include "tests/ui/desk/TonesDesk.h"

#include <chrono>
#include <gtest/gtest.h>
#include <thread>

namespace earwright::ui {
namespace {

class ListenedWorkTest : public TonesDesk {
protected:
    void SetUp() override {
        TonesDesk::SetUp();
        const auto opened = Recording::open(recording());
        ASSERT_TRUE(opened);
        listener.setRecording(*opened);
        listener.listen();
        ASSERT_TRUE(soon([&] { return listener.evidence() != nullptr; }));
    }
    /// Goes on until it is called off.
    void startWithoutAReport() {
        work.start<bool>(
            [](const RecordingEvidence&, const std::stop_token& stop,
               const BackgroundJob::Report&) -> Result<bool> {
                while (!stop.stop_requested())
                    std::this_thread::sleep_for(std::chrono::milliseconds(1));
                return true;
            },
            [](bool) {});
    }
    QString told() { return messages.sentence("measuring"); }

    RecordingListener listener;
    MessageBar messages;
    ListenedWork work{listener, messages, "measuring", "Measuring, %1 %."};
};

TEST_F(ListenedWorkTest, SaysThatItIsUnderWayBeforeAShareOfItIsDone) {
    startWithoutAReport();
    EXPECT_TRUE(told().isEmpty()) << "what is soon done needs no word";
    ASSERT_TRUE(soon([&] { return !told().isEmpty(); }));
    EXPECT_EQ(told(), "Measuring, 0 %.");
    messages.choose("measuring", 0);
    EXPECT_FALSE(work.isBusy());
    EXPECT_TRUE(told().isEmpty());
}

} // namespace
} // namespace earwright::ui
