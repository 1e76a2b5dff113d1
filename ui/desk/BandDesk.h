// The band of the record that is listened to, or left out.
#pragma once

#include "ui/desk/DeskSession.h"
#include "ui/transport/BandRow.h"

#include <QObject>

#include <optional>

namespace earwright::ui {

/// Every recording starts without a band; its edges stay as they were.
/// Threads: interface only.
class BandDesk : public QObject {
    Q_OBJECT
public:
    explicit BandDesk(DeskSession& session, QObject* parent = nullptr);

    BandUse use() const { return how; }
    const BandEdges& edges() const { return between; }
    /// What is heard of the spectrum; none for all of it.
    std::optional<Band> heard() const;
    void choose(BandUse use);
    /// Off, only, without, and off again.
    void next();
    void setEdges(const BandEdges& edges);
    /// Steps an edge by semitones. A step of an edge that is not in use listens to the band at once.
    void stepLow(int semitones);
    void stepHigh(int semitones);
    /// Listens to where the notes of a phrase lie. Nothing happens where none are written.
    void chooseAround(SpanId phrase);

signals:
    void changed();

private:
    void tellEngine();
    void step(const BandEdges& wanted);

    DeskSession& session;
    BandUse how = BandUse::Off;
    BandEdges between;
};

/// The band in which notes sound: from just under the lowest to two octaves over the highest, so that their
/// first four partials, by which an instrument is told, are in it. Nothing without notes.
std::optional<BandEdges> bandAround(const std::vector<Note>& notes);
/// The same edges for the player, a quarter tone outside the notes they are named by. Requires: use is not
/// Off.
Band bandOf(BandUse use, const BandEdges& edges);

} // namespace earwright::ui
