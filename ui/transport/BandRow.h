// Which band of the record is heard: all of it, only what lies between two edges, or all but that.
#pragma once

#include <QWidget>

namespace earwright::ui {

class Stepper;
class WordRow;
class QuietButton;

enum class BandUse { Off, Only, Without };

/// The edges of a band as notes, which musicians hear; MIDI numbers. At its outer limit an edge is open.
struct BandEdges {
    static constexpr int lowest = 20;
    static constexpr int highest = 109; ///< a semitone over the top of the piano

    int low = 52;
    int high = 96;
    friend bool operator==(const BandEdges&, const BandEdges&) = default;

    /// Within the limits, and the high edge not under the low one.
    BandEdges playable() const;
};

/// Shows what it is told and asks by signal.
/// Threads: interface only.
class BandRow : public QWidget {
    Q_OBJECT
public:
    explicit BandRow(QWidget* parent = nullptr);

    void show(BandUse use, const BandEdges& edges);
    QuietButton* button(BandUse use) const;
    Stepper* low() const { return lowEdge; }
    Stepper* high() const { return highEdge; }

    /// "B♭2"; "open" at the limits, where nothing is cut.
    static QString edgeText(int midi);

signals:
    void useChosen(earwright::ui::BandUse use);
    void edgesChosen(const earwright::ui::BandEdges& edges);

private:
    WordRow* words;
    Stepper* lowEdge;
    Stepper* highEdge;
    BandEdges edges;
};

} // namespace earwright::ui
