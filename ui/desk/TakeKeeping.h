// Takes just recorded become part of the study, one recording after the other.
#pragma once

#include "core/study/Study.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <deque>
#include <filesystem>
#include <vector>

namespace earwright::ui {

/// Brings their sound beside the study first, for that may have been saved under another name meanwhile, and
/// then puts them on the list in one step to undo. A recording that ends while another is being kept waits
/// for it.
///
/// Threads: interface only.
class TakeKeeping : public QObject {
    Q_OBJECT
public:
    /// Requires: both outlive this.
    TakeKeeping(DeskSession& session, MessageBar& messages, QObject* parent = nullptr);

    /// Takes whose sound lies in this folder. Requires: a study is open; there is at least one take.
    void keep(std::vector<Take> takes, const std::filesystem::path& folder);

private:
    struct Recorded {
        std::vector<Take> takes;
        std::filesystem::path folder;
    };

    void bringNext();
    void putOnList(const std::vector<Take>& takes);
    void forget();

    DeskSession& session;
    MessageBar& messages;
    /// The first of them is being brought.
    std::deque<Recorded> waiting;
    BackgroundJob job;
};

} // namespace earwright::ui
