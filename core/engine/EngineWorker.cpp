#include "core/engine/EngineWorker.h"

#include "core/engine/ThreadUrgency.h"

#include <utility>

namespace earwright {

namespace {

using namespace std::chrono_literals;

constexpr auto busyPatience = 1500us;
constexpr auto idlePatience = 5000us;

} // namespace

EngineWorker::EngineWorker(std::shared_ptr<Mixer> toFeed)
    : mixer(std::move(toFeed)), work(mixer), thread([this](const std::stop_token& stop) { run(stop); }) {}

EngineWorker::~EngineWorker() {
    thread.request_stop();
    // An empty message wakes the thread.
    post({});
    thread.join();
}

void EngineWorker::run(const std::stop_token& stop) {
    // Where it is refused the thread goes on as it is: what is kept ahead then has to last.
    setThreadUrgency(Urgency::Ahead);
    bool isFilled = true;
    while (!stop.stop_requested()) {
        takeMessages(isFilled ? mixer->isSounding() ? busyPatience : idlePatience : 0us);
        isFilled = work.step();
    }
}

void EngineWorker::post(Message message) {
    {
        const std::lock_guard lock(guard);
        messages.push_back(std::move(message));
    }
    arrived.notify_one();
}

void EngineWorker::takeMessages(std::chrono::microseconds patience) {
    std::vector<Message> come;
    {
        std::unique_lock lock(guard);
        arrived.wait_for(lock, patience, [this] { return !messages.empty(); });
        come.swap(messages);
    }
    work.change([&come](Wanted& wanted) {
        for (const Message& message : come)
            if (message) message(wanted);
    });
}

} // namespace earwright
