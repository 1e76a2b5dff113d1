// Find beats: listens to a stretch in the background and proposes its beats until they are accepted.
#pragma once

#include "core/study/BeatProposal.h"
#include "ui/desk/BackgroundJob.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/MessageBar.h"

#include <QObject>

#include <vector>

namespace earwright::ui {

class ChorusSheetView;

/// Marks in the stretch lead as taps, and none of them is ever moved. A proposal changes nothing in the
/// study; accepting it is one step to undo. Threads: interface only; the listening itself goes on elsewhere.
class BeatFinding : public QObject {
    Q_OBJECT
public:
    BeatFinding(DeskSession& session, ChorusSheetView& sheet, MessageBar& messages,
                QObject* parent = nullptr);

    /// Another proposal takes the place of the one before. Nothing happens without a recording.
    void find(const Range<Seconds>& stretch);
    void accept();
    /// Calls the listening off, or takes the proposal away; false if there was neither.
    bool dismiss();
    bool hasProposal() const { return !proposal.empty(); }
    const std::vector<ProposedBeat>& proposed() const { return proposal; }

signals:
    void changed();

private:
    void sayListening(double share);
    void show(std::vector<ProposedBeat> beats);
    void tellOfProposal();

    DeskSession& session;
    ChorusSheetView& sheet;
    MessageBar& messages;
    std::vector<ProposedBeat> proposal;
    BackgroundJob job;
};

} // namespace earwright::ui
