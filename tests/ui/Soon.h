// Waiting for what happens in its own time. Qt Test's own macros for this return from a GoogleTest without
// failing it, so a test asserts on what this one answers.
#pragma once

#include <QTest>

#include <functional>

namespace earwright::ui {

/// Lets events come in until it holds. False after 20 s: a busy machine takes its time, and nothing is judged
/// by that.
inline bool soon(const std::function<bool()>& happens) {
    return QTest::qWaitFor(happens, 20000);
}

} // namespace earwright::ui
