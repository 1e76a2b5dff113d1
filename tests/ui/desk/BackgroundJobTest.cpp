#include "ui/desk/BackgroundJob.h"

#include "tests/ui/Soon.h"

#include <QSignalSpy>
#include <QTest>
#include <QThread>

#include <atomic>
#include <gtest/gtest.h>

namespace earwright::ui {
namespace {

using Report = BackgroundJob::Report;

TEST(BackgroundJob, WorksElsewhereAndReportsHere) {
    BackgroundJob job;
    QSignalSpy progress(&job, &BackgroundJob::progressed);
    QThread* here = QThread::currentThread();
    std::atomic<QThread*> worker{nullptr};
    int outcome = 0;
    job.start<int>(
        [&](const std::stop_token&, const Report& report) {
            worker = QThread::currentThread();
            report(0.5);
            return 7;
        },
        [&](int value) {
            outcome = value;
            EXPECT_EQ(QThread::currentThread(), here);
        });
    EXPECT_TRUE(job.isRunning());
    ASSERT_TRUE(soon([&] { return outcome == 7; }));
    EXPECT_FALSE(job.isRunning());
    EXPECT_NE(worker.load(), here);
    ASSERT_EQ(progress.size(), 1);
    EXPECT_DOUBLE_EQ(progress[0][0].toDouble(), 0.5);
}

TEST(BackgroundJob, NeverReportsWorkThatWasCalledOff) {
    BackgroundJob job;
    QSignalSpy ended(&job, &BackgroundJob::ended);
    std::atomic<bool> begun{false};
    std::atomic<bool> noticed{false};
    bool reported = false;
    job.start<int>(
        [&](const std::stop_token& stop, const Report&) {
            begun = true;
            while (!stop.stop_requested())
                QThread::msleep(1);
            noticed = true;
            return 1;
        },
        [&](int) { reported = true; });
    ASSERT_TRUE(soon([&] { return begun.load(); }));
    job.cancel();
    EXPECT_FALSE(job.isRunning());
    EXPECT_EQ(ended.size(), 1);
    ASSERT_TRUE(soon([&] { return noticed.load(); }));
    QTest::qWait(20);
    EXPECT_FALSE(reported);
}

TEST(BackgroundJob, DropsWorkThatWasOvertaken) {
    BackgroundJob job;
    std::vector<int> outcomes;
    const auto keep = [&](int value) { outcomes.push_back(value); };
    job.start<int>(
        [](const std::stop_token& stop, const Report&) {
            while (!stop.stop_requested())
                QThread::msleep(1);
            return 1;
        },
        keep);
    job.start<int>([](const std::stop_token&, const Report&) { return 2; }, keep);
    ASSERT_TRUE(soon([&] { return outcomes.size() == 1; })) << outcomes.size();
    QTest::qWait(20);
    EXPECT_EQ(outcomes, std::vector{2});
}

TEST(BackgroundJob, NeverBeginsWorkThatWasOvertakenWhileItWaited) {
    BackgroundJob job;
    std::atomic<bool> release{false};
    std::atomic<int> begun{0};
    std::vector<int> outcomes;
    // Work that does not notice it is called off keeps both threads busy.
    const auto start = [&](int value) {
        job.start<int>(
            [&, value](const std::stop_token&, const Report&) {
                ++begun;
                while (!release)
                    QThread::msleep(1);
                return value;
            },
            [&](int outcome) { outcomes.push_back(outcome); });
    };
    start(1);
    const bool firstBegan = soon([&] { return begun == 1; });
    start(2);
    const bool bothBegan = firstBegan && soon([&] { return begun == 2; });
    for (int value = 3; value <= 9; ++value)
        start(value);
    release = true;
    ASSERT_TRUE(bothBegan);
    ASSERT_TRUE(soon([&] { return !outcomes.empty(); }));
    EXPECT_EQ(outcomes, std::vector{9});
    EXPECT_EQ(begun, 3);
}

TEST(BackgroundJob, EndsItsWorkBeforeItGoes) {
    std::atomic<bool> begun{false};
    std::atomic<bool> stopped{false};
    {
        BackgroundJob job;
        job.start<int>(
            [&](const std::stop_token& stop, const Report&) {
                begun = true;
                while (!stop.stop_requested())
                    QThread::msleep(1);
                stopped = true;
                return 1;
            },
            [](int) {});
        ASSERT_TRUE(soon([&] { return begun.load(); }));
    }
    EXPECT_TRUE(stopped);
}

} // namespace
} // namespace earwright::ui
