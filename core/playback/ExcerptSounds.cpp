#include "core/playback/ExcerptSounds.h"

#include "core/engine/Excerpt.h"
#include "core/engine/Limiter.h"
#include "core/engine/WrittenPart.h"
#include "core/playback/TimedNotes.h"
#include "core/sound/SoundFileWriter.h"
#include "core/study/PlayedTime.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace earwright {

namespace {

namespace fs = std::filesystem;

constexpr std::int64_t blockFrames = 1024;
/// The last note dies away.
constexpr Seconds ringing{1.0};

/// What the names of an example's files begin with.
fs::path baseOf(const fs::path& sheet, std::size_t index, std::size_t count) {
    fs::path base = sheet;
    base.replace_extension();
    if (count > 1) base += "-example-" + std::to_string(index + 1);
    return base;
}

fs::path recordFile(fs::path base, double speed) {
    if (speed != 1) base += "-" + std::to_string(std::lround(speed * 100));
    return base += ".wav";
}

fs::path notesFile(fs::path base) {
    return base += "-notes.wav";
}

class Sounds {
public:
    Sounds(const Study& written, std::shared_ptr<Recording> record, const ExcerptWish& wanted,
           const std::function<void(double)>& toTell, const std::stop_token& toObey)
        : study(written), recording(std::move(record)), wish(wanted), report(toTell), stop(toObey) {
        // A pickup may begin before the recording does, and a phrase be drawn past its end.
        for (const Range<Seconds>& span : wish.spans)
            spans.push_back({std::max(span.begin, Seconds(0)), std::min(span.end, recording->duration())});
        for (const Range<Seconds>& span : spans)
            all += framesOf(span, 1) + (isSlower() ? framesOf(span, wish.speed) : 0) +
                   framesOf(ringingOn(span), 1);
    }

    Result<std::vector<fs::path>> write(const fs::path& sheet) {
        for (std::size_t i = 0; i < spans.size(); ++i)
            if (const auto failure = refusal(spans[i], baseOf(sheet, i, spans.size()))) return *failure;
        for (std::size_t i = 0; i < spans.size(); ++i)
            if (const auto failure = writeSpan(spans[i], baseOf(sheet, i, spans.size()))) return *failure;
        return std::move(files);
    }

private:
    /// Why nothing may be written for a span. Asked of all of them before anything is written.
    std::optional<Error> refusal(const Range<Seconds>& span, const fs::path& base) const {
        if (span.end <= span.begin)
            return Error{ErrorKind::OutOfRange,
                         "An example lies outside of " + recording->path().string() +
                             "; mark its phrase anew, within the recording.",
                         ""};
        for (const fs::path& file : {recordFile(base, 1), recordFile(base, wish.speed), notesFile(base)}) {
            // Where either does not exist they are not the same.
            std::error_code missing;
            if (fs::equivalent(file, recording->path(), missing))
                return Error{
                    ErrorKind::NotWritable,
                    file.string() +
                        " is the recording itself, which is never changed; name the sheet otherwise.",
                    ""};
        }
        return std::nullopt;
    }

    bool isSlower() const { return wish.speed != 1; }
    static Range<Seconds> ringingOn(const Range<Seconds>& span) { return {span.begin, span.end + ringing}; }
    std::int64_t framesOf(const Range<Seconds>& span, double speed) const {
        return std::llround((span.end - span.begin).value / speed * recording->rate().hertz);
    }

    std::optional<Error> writeSpan(const Range<Seconds>& span, const fs::path& base) {
        if (const auto failure = writeRecord(span, base, 1)) return failure;
        if (isSlower())
            if (const auto failure = writeRecord(span, base, wish.speed)) return failure;
        return writeNotes(ringingOn(span), base);
    }

    std::optional<Error> writeRecord(const Range<Seconds>& span, const fs::path& base, double speed) {
        const std::int64_t frames = framesOf(span, speed);
        return writeFile(
            recordFile(base, speed), recording->channels(), frames, [&](const ExcerptSink& sink) {
                Playing playing;
                playing.speed = speed;
                return renderExcerpt(recording, recording->rate().frames(span.begin), frames, playing, sink);
            });
    }

    std::optional<Error> writeNotes(const Range<Seconds>& span, const fs::path& base) {
        const std::int64_t frames = framesOf(span, 1);
        return writeFile(notesFile(base), 1, frames,
                         [&](const ExcerptSink& sink) { return renderNotes(span, frames, sink); });
    }

    Result<Done> renderNotes(const Range<Seconds>& span, std::int64_t frames, const ExcerptSink& sink) const {
        std::vector<TimedNote> notes = timedNotes(study);
        // Only what begins here; a note held over from before would be heard without its beginning.
        const Range<Frames> places{recording->rate().frames(span.begin),
                                   recording->rate().frames(span.end - ringing)};
        std::erase_if(notes, [&](const TimedNote& note) { return !places.contains(note.onset); });
        WrittenPart part;
        WrittenPart::Start start;
        start.tags = TimeTags(static_cast<double>(places.begin.value), 1, std::nullopt, 0);
        start.semitones = wish.tuningCents / 100;
        start.recordingRate = start.outputRate = recording->rate();
        part.start(start, noteListOf(std::move(notes)));
        Limiter limiter;
        limiter.setRate(recording->rate());
        std::vector<float> block(static_cast<std::size_t>(blockFrames));
        for (std::int64_t done = 0; done < frames; done += blockFrames) {
            const auto samples =
                std::span(block).first(static_cast<std::size_t>(std::min(blockFrames, frames - done)));
            std::fill(samples.begin(), samples.end(), 0.0f);
            part.produce(samples);
            for (float& sample : samples) {
                float other = sample;
                limiter.apply(sample, other);
            }
            if (const auto written = sink(samples); !written) return written;
        }
        return Done{};
    }

    template <class Render>
    std::optional<Error> writeFile(const fs::path& file, int channels, std::int64_t frames,
                                   const Render& render) {
        auto writer = SoundFileWriter::create(file, recording->rate(), channels, frames);
        if (!writer) return writer.error();
        const auto rendered = render([&](std::span<const float> block) -> Result<Done> {
            if (stop.stop_requested())
                return Error{ErrorKind::Cancelled, "Writing the sound of the examples was called off.", ""};
            made += static_cast<std::int64_t>(block.size()) / channels;
            if (report) report(std::min(1.0, static_cast<double>(made) / static_cast<double>(all)));
            return (*writer)->write(block);
        });
        if (!rendered) return rendered.error();
        const auto finished = (*writer)->finish();
        if (!finished) return finished.error();
        files.push_back(file);
        return std::nullopt;
    }

    const Study& study;
    std::shared_ptr<Recording> recording;
    const ExcerptWish& wish;
    const std::function<void(double)>& report;
    const std::stop_token& stop;
    std::vector<Range<Seconds>> spans;
    std::int64_t all = 0;
    std::int64_t made = 0;
    std::vector<fs::path> files;
};

} // namespace

std::vector<fs::path> excerptSoundFiles(const ExcerptWish& wish, const fs::path& sheet) {
    std::vector<fs::path> files;
    for (std::size_t i = 0; i < wish.spans.size(); ++i) {
        const fs::path base = baseOf(sheet, i, wish.spans.size());
        files.push_back(recordFile(base, 1));
        if (wish.speed != 1) files.push_back(recordFile(base, wish.speed));
        files.push_back(notesFile(base));
    }
    return files;
}

std::vector<Range<Seconds>> excerptSpans(const Study& study, const std::vector<SpanId>& phrases) {
    std::vector<Range<Seconds>> spans;
    for (const Span& phrase : study.spansOf(SpanKind::Phrase))
        if (std::find(phrases.begin(), phrases.end(), phrase.id) != phrases.end())
            spans.push_back(phrase.range);
    if (spans.empty() && !study.notes.empty() && study.beatMap.hasTempo()) {
        Beats end = study.notes.front().end();
        for (const Note& note : study.notes)
            end = std::max(end, note.end());
        spans.push_back(playedTime(study, Range<Beats>{study.notes.front().onset, end}));
    }
    return spans;
}

Result<std::vector<fs::path>> writeExcerptSounds(const Study& study,
                                                 const std::shared_ptr<Recording>& recording,
                                                 const ExcerptWish& wish, const fs::path& sheet,
                                                 const std::function<void(double)>& report,
                                                 const std::stop_token& stop) {
    return Sounds(study, recording, wish, report, stop).write(sheet);
}

} // namespace earwright
