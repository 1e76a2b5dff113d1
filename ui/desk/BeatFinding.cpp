#include "ui/desk/BeatFinding.h"

#include "core/listening/BeatFinder.h"
#include "core/listening/Median.h"
#include "ui/sheet/ChorusSheetView.h"
#include "ui/sheet/ProposalPainter.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace earwright::ui {

namespace {

const auto subject = QStringLiteral("beats");
/// Shares of the work that are done when the sound is read, and when its onsets are heard.
constexpr double soundRead = 0.3;
constexpr double onsetsHeard = 0.7;

Result<std::vector<ProposedBeat>> listenForBeats(Recording& recording, const Range<Seconds>& stretch,
                                                 const BeatWish& wish, const std::stop_token& stop,
                                                 const BackgroundJob::Report& report) {
    const auto sound = AnalysisSound::readStretch(recording, stretch, stop);
    if (!sound) return sound.error();
    report(soundRead);
    const auto heard = BeatActivation::listen(*sound, stretch, stop);
    if (!heard) return heard.error();
    report(onsetsHeard);
    std::vector<ProposedBeat> beats;
    const auto found = findBeats(*heard, wish, stop);
    if (!found) return found.error();
    for (const FoundBeat& beat : *found)
        beats.push_back({beat.time, beat.barPosition, beat.confidence});
    return beats;
}

/// The marks in a stretch as taps; where they count bars of one length, the bars go on from them.
BeatWish wishFor(const Study& study, const Range<Seconds>& stretch) {
    BeatWish wish{tapsOf(study, stretch)};
    if (wish.taps.empty()) return wish;
    const MeterMap meters = study.meters();
    const auto barAt = [&](Seconds time) {
        return meters.barOf(meters.nearestCount(study.beatMap.beatsAt(time)));
    };
    const std::int64_t bar = barAt(wish.taps.front());
    const std::int64_t last = barAt(stretch.end);
    const bool changes =
        std::any_of(study.page.meters.begin(), study.page.meters.end(),
                    [&](const MeterChange& change) { return change.bar > bar && change.bar <= last; });
    if (changes || meters.at(bar) != meters.at(barAt(stretch.begin))) return wish;
    const Meter& meter = meters.at(bar);
    const Beats first = meters.withinBar(meters.nearestCount(study.beatMap.beatsAt(wish.taps.front())));
    wish.beatsPerBar = meter.beatsPerBar / meter.unitsPerCount();
    wish.firstTapInBar =
        static_cast<int>(std::lround(first.toDouble() / meters.countLength(bar).toDouble())) + 1;
    return wish;
}

/// Beats a minute, from the middle one of the beats' lengths. Requires: two beats or more.
long tempoOf(const std::vector<ProposedBeat>& beats) {
    std::vector<double> lengths;
    for (std::size_t i = 1; i < beats.size(); ++i)
        lengths.push_back((beats[i].time - beats[i - 1].time).value);
    return std::lround(60 / medianOf(std::move(lengths)));
}

} // namespace

BeatFinding::BeatFinding(DeskSession& desk, ChorusSheetView& view, MessageBar& bar, QObject* parent)
    : QObject(parent), session(desk), sheet(view), messages(bar) {
    connect(&session, &DeskSession::opened, this, [this] { dismiss(); });
    connect(&session, &DeskSession::recordingChanged, this, [this] { dismiss(); });
    connect(&job, &BackgroundJob::progressed, this, &BeatFinding::sayListening);
}

void BeatFinding::find(const Range<Seconds>& wanted) {
    const Range<Seconds> stretch{std::max(wanted.begin, Seconds(0)),
                                 std::min(wanted.end, session.duration())};
    if (!session.recording() || stretch.end <= stretch.begin) return;
    dismiss();
    sayListening(0);
    job.start<Result<std::vector<ProposedBeat>>>(
        [recording = session.recording(), stretch, beatWish = wishFor(session.study(), stretch)](
            const std::stop_token& stop, const BackgroundJob::Report& report) {
            return listenForBeats(*recording, stretch, beatWish, stop, report);
        },
        [this](Result<std::vector<ProposedBeat>> found) {
            messages.close(subject);
            if (found) return show(*std::move(found));
            messages.say(subject, MessageBar::Tone::Trouble, QString::fromStdString(describe(found.error())));
        });
}

void BeatFinding::sayListening(double share) {
    messages.say(subject, MessageBar::Tone::Question,
                 tr("Listening for beats, %1 %").arg(std::lround(share * 100)),
                 {{tr("Cancel"), [this] { dismiss(); }}});
}

void BeatFinding::show(std::vector<ProposedBeat> beats) {
    if (beats.size() < 2)
        return messages.say(
            subject, MessageBar::Tone::Notice,
            tr("No beats are heard here. Mark two of them with Shift+Enter, then ask again."));
    proposal = std::move(beats);
    sheet.setProposal(proposal);
    sheet.reveal(proposal.front().time);
    tellOfProposal();
    emit changed();
}

void BeatFinding::tellOfProposal() {
    const auto unsure = std::count_if(proposal.begin(), proposal.end(), [](const ProposedBeat& beat) {
        return surenessOf(beat) == Sureness::Unsure;
    });
    const QString found =
        tr("%1 beats are proposed, about %2 a minute.").arg(proposal.size()).arg(tempoOf(proposal));
    const QString doubt =
        unsure > 0 ? tr(" %1 of them are guesses, drawn as short dotted lines.").arg(unsure) : QString();
    messages.say(subject, MessageBar::Tone::Question, found + doubt,
                 {{tr("Accept"), [this] { accept(); }}, {tr("Dismiss"), [this] { dismiss(); }}});
}

void BeatFinding::accept() {
    if (!hasProposal()) return;
    const std::vector<ProposedBeat> beats = proposal;
    dismiss();
    session.apply(tr("accept beats"), acceptBeats(session.study(), beats));
}

bool BeatFinding::dismiss() {
    const bool wasBusy = job.isRunning() || hasProposal();
    job.cancel();
    messages.close(subject);
    if (!hasProposal()) return wasBusy;
    proposal.clear();
    sheet.setProposal({});
    emit changed();
    return wasBusy;
}

} // namespace earwright::ui
