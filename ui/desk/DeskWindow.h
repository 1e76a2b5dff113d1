// The desk: strip, sheet, grid and transport around one study and one player.
#pragma once

#include "ui/commands/CommandSet.h"
#include "ui/commands/KeyBindings.h"
#include "ui/commands/KeyWords.h"
#include "ui/desk/AsPlayedDesk.h"
#include "ui/desk/BandDesk.h"
#include "ui/desk/BeatDesk.h"
#include "ui/desk/BeatFinding.h"
#include "ui/desk/CheckDesk.h"
#include "ui/desk/ChordDesk.h"
#include "ui/desk/DeskCursor.h"
#include "ui/desk/DeskSession.h"
#include "ui/desk/EntryDesk.h"
#include "ui/desk/FeelDesk.h"
#include "ui/desk/KeepingDesk.h"
#include "ui/desk/KeyboardDesk.h"
#include "ui/desk/ListeningDesk.h"
#include "ui/desk/LoopMannerDesk.h"
#include "ui/desk/MarkingDesk.h"
#include "ui/desk/MessageBar.h"
#include "ui/desk/PlayingDesk.h"
#include "ui/desk/RecordTuning.h"
#include "ui/desk/RecordingListener.h"
#include "ui/desk/SoundDesk.h"
#include "ui/desk/TakeDesk.h"
#include "ui/desk/TapDesk.h"
#include "ui/desk/TuningDesk.h"

#include <QElapsedTimer>
#include <QMainWindow>
#include <QTimer>

class QLabel;
class QSettings;
class QSplitter;

namespace earwright::ui {

class ChorusSheetView;
class ExportDesk;
class FormStripView;
class NoteGridPanel;
class PageDesk;
class PageView;
class SheetDesk;
class StringsDesk;
class TakePanel;
class TransportBar;

/// Joins the views: what one asks for goes to the session, and what changes there goes to all.
/// Threads: interface only.
class DeskWindow : public QMainWindow {
    Q_OBJECT
public:
    /// `midi`: where keyboards are plugged in; null for nowhere. Requires: settings outlives this.
    DeskWindow(const DeskSession::Options& options, QSettings& settings,
               std::unique_ptr<MidiPorts> midi = nullptr);
    ~DeskWindow() override;

    /// Shows it; where nobody gave it a size yet and the screen has no room for it and its frame, over all of
    /// the screen.
    void showWithin(const QSize& screenRoom);

    /// Opens a recording or a study, as if chosen by hand.
    void open(const std::filesystem::path& path);

    DeskSession& session() { return desk; }
    ListeningDesk& listening() { return ears; }
    LoopMannerDesk& loopManner() { return manner; }
    BeatDesk& beatDesk() { return beat; }
    BandDesk& bandDesk() { return band; }
    TuningDesk& tuningDesk() { return tuning; }
    MarkingDesk& marking() { return *marks; }
    BeatFinding& beatFinding() { return *beatFinder; }
    CheckDesk& checking() { return *checks; }
    AsPlayedDesk& asPlayed() { return *playedAs; }
    ChordDesk& chordDesk() { return *chords; }
    FeelDesk& feel() { return *feels; }
    PlayingDesk& playing() { return *playingDesk; }
    KeepingDesk& keeping() { return *keeper; }
    SoundDesk& sound() { return *sounding; }
    TakeDesk& taking() { return *takeDesk; }
    KeyboardDesk& keyboard() { return *keyboardDesk; }
    TapDesk& tapping() { return *tapDesk; }
    EntryDesk& entry() { return *entryDesk; }
    MessageBar& messages() { return *messageBar; }
    ChorusSheetView& sheet() { return *chorusSheet; }
    FormStripView& strip() { return *formStrip; }
    NoteGridPanel& panel() { return *gridPanel; }
    TransportBar& transport() { return *transportBar; }
    TakePanel& takes() { return *takePanel; }
    PageView& page() { return *pageView; }
    PageDesk& pages() { return *pageDesk; }
    StringsDesk& strings() { return *stringsDesk; }
    SheetDesk& sheets() { return *sheetDesk; }
    ExportDesk& exports() { return *exportDesk; }
    CommandSet& commands() { return *commandSet; }
    KeyBindings& keys() { return bindings; }

    /// The user chose a place: ear, sheet and grid go there.
    void goTo(Seconds place);
    /// Drops what is half done, then what is selected, then lets the grid follow the ear again.
    void letGo();
    /// The keyboard goes to the grid, whose page stays from now on.
    void workInGrid();
    void loopPhrase();
    /// In the selected stretch, else the loop, the phrase under the cursor, or what is in sight.
    void findBeats();
    void chooseHearing(Hearing hearing);
    void toNextPart();
    void switchAppearance();
    void showTakes(bool shown);
    /// Staff and tablature under the grid.
    void showPage(bool shown);
    /// The phrase that C and H mean.
    std::optional<SpanId> phraseUnderCursor();
    /// The same; or, where none is marked, one made now of the notes written around.
    std::optional<SpanId> phraseToCheck();
    /// All phrases with notes in the selected stretch or the loop around the cursor, those made now of notes
    /// in none among them; without such a stretch the one above.
    std::vector<SpanId> phrasesToCheck();
    /// What may be asked for now.
    Conditions conditions();

protected:
    void closeEvent(QCloseEvent* event) override;
    /// A key that nobody took: says why, where it is a command's that is not offered now.
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void build();
    void connectSession();
    void connectStrip();
    void showBarsOnPage();
    /// The selected stretch, or the loop where the cursor is in it.
    std::optional<Range<Seconds>> stretchToCheck();
    /// Of the grid's cursor, while its page stays.
    std::optional<Beats> placeInGrid() const;
    void connectPanel();
    void connectTransport();
    void connectListening();
    void connectBeatAndBand();
    /// Check, help and what is measured of the playing keep to the user's focus and band.
    void listenWhereTheUserDoes();
    void restoreLayout();
    void keepLayout();

    void showStudy();
    void showRecording();
    void showTitle();
    void showLoopMaking();
    void showLoopManner();
    void showTrade();
    void showHeard();
    void showTuning();
    void adviseOnMarking();
    KeyOf keyOf() const;
    /// To every view that names keys.
    void tellKeys();
    static QString adviceSubject() { return QStringLiteral("advice"); }
    void tick();
    void turnPage();
    void offerCommands();

    QSettings& settings;
    /// Whether the window came back as the user left it.
    bool hasOwnSize = false;
    DeskSession desk;
    RecordingListener listener;
    ListeningDesk ears{desk};
    LoopMannerDesk manner{desk, ears};
    BeatDesk beat{desk};
    BandDesk band{desk};
    TuningDesk tuning{desk, settings};
    RecordTuning recordTuning{desk, listener, tuning};
    DeskCursor cursor;
    KeyBindings bindings;
    CommandSet* commandSet;

    FormStripView* formStrip;
    MessageBar* messageBar;
    ChorusSheetView* chorusSheet;
    NoteGridPanel* gridPanel;
    PageView* pageView;
    PageDesk* pageDesk = nullptr;
    StringsDesk* stringsDesk = nullptr;
    SheetDesk* sheetDesk = nullptr;
    ExportDesk* exportDesk = nullptr;
    TakePanel* takePanel;
    TransportBar* transportBar;
    QSplitter* splitter;
    QLabel* title;
    MarkingDesk* marks = nullptr;
    BeatFinding* beatFinder = nullptr;
    SoundDesk* sounding = nullptr;
    CheckDesk* checks = nullptr;
    AsPlayedDesk* playedAs = nullptr;
    ChordDesk* chords = nullptr;
    FeelDesk* feels = nullptr;
    PlayingDesk* playingDesk = nullptr;
    KeepingDesk* keeper = nullptr;
    TakeDesk* takeDesk = nullptr;
    KeyboardDesk* keyboardDesk = nullptr;
    TapDesk* tapDesk = nullptr;
    EntryDesk* entryDesk = nullptr;

    QTimer frames;
    int frameCount = 0;
    QElapsedTimer sinceHeldBack;
};

} // namespace earwright::ui
